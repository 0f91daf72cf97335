import { habitsOf } from '../records/typed-entry.ts';
import { showMark } from '../units/shown-mark.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Numbers are shown with the decimal mark that the book says: on the page, and by what works beside it. */

export const showMarkOf = (book: Workbook): void => showMark(habitsOf(book).decimal ?? 'point');

/** Keeps to what the book says, before anything else is written anew. */
export function followMark(book: Workbook): void {
  showMarkOf(book);
  book.listen(() => showMarkOf(book));
}
