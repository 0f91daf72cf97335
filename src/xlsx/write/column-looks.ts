import type { UnitSystem } from '../../units/quantities.ts';
import { type BookColumn, compiledSheets, namedSheetOf } from '../../workbook/declared.ts';
import { type CellRole, numberFormat, textFormat } from './cell-styles.ts';

/** How a sheet's column looks where its cells hold nothing unusual: what is empty in a file looks like its column. */
export interface ColumnLook {
  readonly role: CellRole;
  readonly format: string;
}

/** The column that names a sheet's records; -1 in a sheet of the user's. */
export function keyColumn(sheet: string, columns: readonly BookColumn[]): number {
  const plan = compiledSheets.get(sheet);
  return plan === undefined ? -1 : columns.findIndex(({ header }) => header === plan.declaration.key);
}

export function columnLooks(sheet: string, columns: readonly BookColumn[], units: UnitSystem): readonly ColumnLook[] {
  const key = keyColumn(sheet, columns);
  const isFixed = namedSheetOf(sheet)?.editable === false;
  return columns.map(({ kind, look, computed }, index) => {
    const format = numberFormat(kind, units, look);
    return {
      role: computed || isFixed ? 'computed' : index === key ? 'key' : 'input',
      // A formula in a cell of texts would be shown in place of its answer.
      format: computed && format === textFormat ? 'General' : format,
    };
  });
}
