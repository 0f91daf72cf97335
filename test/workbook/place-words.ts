import type { Workbook } from '../../src/workbook/workbook.ts';

/** A record of a sheet as its user knows it: by its name, or by its row while it has none. */
export function recordWords(book: Workbook, sheet: string, record: number): string {
  const name = book.value({ sheet, record, column: 0 });
  return typeof name === 'string' && name.trim() !== '' ? name : `row ${record + 2}`;
}

/** A cell by sheet, record and column, as "Belts, Q3, Bolt length". */
export const placeWords = (book: Workbook, sheet: string, record: number, header: string): string =>
  `${sheet}, ${recordWords(book, sheet, record)}, ${header}`;
