import type { Content } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { bookDifferences } from '../book-differences.ts';
import { stamp } from './write/exported-book.ts';
import { writtenBook } from './write/written-book.ts';

/** A book written to a file and read back, and in what it is another one. */

export function readBack(bytes: Uint8Array): BookState {
  const raw = readBook(bytes);
  return acceptImport(raw, proposeImport(raw), emptyBook('metric')).state;
}

export const withContents = (state: BookState, change: (content: Content) => Content): BookState => ({
  ...state,
  sheets: state.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => ({ ...row, cells: row.cells.map(change) })),
  })),
});

/** A book with empty cells for empty texts, which files do not tell apart. */
export const told = (state: BookState): BookState =>
  withContents(state, (content) => (content === '' ? null : content));

/** In what a book is another one after a file. */
export async function roundTripDifferences(state: BookState): Promise<string[]> {
  const book = new Workbook(state);
  const bytes = await writtenBook(book, [], { stamp });
  book.destroy();
  return bookDifferences(told(state), readBack(bytes));
}
