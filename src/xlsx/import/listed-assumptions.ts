import { namedSheets } from '../../../sheets/index.ts';
import type { Column, SheetDeclaration } from '../../sheet/declaration.ts';
import { valueColumn } from '../../sheet/named-values.ts';
import type { SheetState } from '../../workbook/state.ts';
import { positionName } from '../read/cell-address.ts';
import type { RawBook } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';
import { assumptionRows } from './assumption-rows.ts';
import { columnReader } from './cell-reading.ts';
import { systemName } from './column-units.ts';
import type { ImportProposal, TableProposal } from './import-model.ts';
import type { ImportNotes } from './sheet-import.ts';

/** The assumptions with the values that a sheet of the file gives by name. */
export function withAssumptions(
  book: RawBook,
  table: TableProposal,
  sheet: SheetState | undefined,
  { units }: ImportProposal,
  { assumed, notUnderstood }: ImportNotes,
): SheetState | undefined {
  const raw = book.sheets.find(({ name }) => name === table.sheet);
  const given = raw === undefined ? undefined : assumptionRows(raw);
  if (sheet === undefined || given === undefined) return undefined;
  const declaration = namedSheets.find((item) => item.declaration.name === sheet.name)?.declaration;
  const rows = sheet.rows.map((row) => {
    const entry = given.find(({ named }) => named.name === row.cells[0]);
    if (entry === undefined || declaration === undefined) return row;
    const { named, value, unit } = entry;
    const column: Column = {
      header: named.name,
      kind: named.kind,
      doc: named.doc,
      ...(named.choices === undefined ? {} : { choices: named.choices }),
    };
    const read = columnReader(column, declaration as SheetDeclaration, {
      system: units,
      listSystem: table.units,
      unit: unit === '' ? undefined : unit,
    }).read(value);
    if (read.issue !== undefined || read.content === null) {
      notUnderstood.push({
        sheet: table.sheet,
        cell: positionName(value),
        column: named.name,
        given: cellText(value),
        why: read.issue?.why ?? 'the cell has no value',
        allowed: read.issue?.allowed ?? 'a value',
      });
      return row;
    }
    return { ...row, cells: row.cells.with(valueColumn, read.content) };
  });
  const names = given.map(({ named }) => named.name).join(', ');
  const kept = `which is also kept as it is; values without a unit are read as ${systemName(table.units)}`;
  assumed.push(`Assumptions: ${names} read from the sheet ${table.sheet}, ${kept}`);
  return { ...sheet, rows };
}
