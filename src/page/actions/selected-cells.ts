import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';

/** What is selected, without the empty row below the last record. */

export const records = ({ book, sheet, selection }: Desk): number[] =>
  selection.records.filter((record) => record < book.sheet(sheet).rows.length);

/** All selected cells of records that there are. */
export const selectedCells = (desk: Desk): CellPlace[] =>
  records(desk).flatMap((record) => desk.selection.columns.map((column) => ({ sheet: desk.sheet, record, column })));
