import { isFault } from '../../formula/values.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { dateText } from '../cell-text.ts';
import { growing } from '../editing.ts';

/** What the grid holds of a sheet for its sorting and filters. */

export type Plain = number | string | boolean | null;

export function plainValue(book: Workbook, place: CellPlace): Plain {
  const value = book.shown(place);
  if (isFault(value)) return value.code;
  return typeof value === 'number' && book.kind(place) === 'date' ? dateText(value) : value;
}

/** One row more than the sheet has where rows may be added: typing there adds a record. */
export function plainRows(book: Workbook, sheet: string, width: number): Plain[][] {
  const row = (plain: (column: number) => Plain): Plain[] =>
    Array.from({ length: width }, (_, column) => plain(column));
  const rows = book.sheet(sheet).rows.map((_, record) => row((column) => plainValue(book, { sheet, record, column })));
  return growing(sheet) && compiledSheets.has(sheet) ? [...rows, row(() => null)] : rows;
}
