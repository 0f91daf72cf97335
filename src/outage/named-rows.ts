import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import { issueAt } from '../records/cell-issue.ts';
import { type CellRemark, type SheetRow, sheetRows } from '../records/sheet-rows.ts';
import { type Moment, momentOf } from './moments.ts';
import type { SheetDeclaration } from '../sheet/declaration.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Records of the outage's sheets. */

export interface NamedRow<Sheet extends SheetName> {
  readonly row: SheetRow<Sheet>;
  readonly name: string;
  /**
   * No cell of it holds what it should not. Leaving out one cell of a row would lift a limit that somebody set: so
   * nothing is planned by such a row.
   */
  readonly usable: boolean;
}

/** The records that have a name of their own; cells that cannot be used are listed. */
export function namedRows<Sheet extends SheetName>(
  book: Workbook,
  { name: sheet, key, columns }: SheetDeclaration<Sheet, HeaderOf<Sheet>>,
  remarks: CellRemark[],
): NamedRow<Sheet>[] {
  return sheetRows(book, sheet, remarks).flatMap((row) => {
    for (const { header } of columns) row.text(header);
    const usable = columns.every((_, column) => issueAt(book, { sheet, record: row.record, column }) === undefined);
    const name = row.text(key);
    if (name === '' && usable) row.tell(key, `${key} is empty, so the row is left out: enter a name`);
    return name === '' ? [] : [{ row, name, usable }];
  });
}

/** A date's cell as a moment. */
export function momentIn<Sheet extends SheetName>(row: SheetRow<Sheet>, header: HeaderOf<Sheet>): Moment | undefined {
  const serial = row.number(header);
  return serial === undefined ? undefined : momentOf(serial);
}
