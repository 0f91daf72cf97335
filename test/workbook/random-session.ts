import { noLook } from '../../src/workbook/book-look.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { compiledSheets, namedSheetOf } from '../../src/workbook/declared.ts';
import { RefusedChange } from '../../src/workbook/refused-change.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookDifferences } from '../book-differences.ts';
import { contentBy, everythingBook } from './everything-book.ts';

/** A session of changes by chance, all of them taken back. */

const steps = 25;

function change(book: Workbook, chance: () => number, number: number): void {
  const below = (end: number): number => Math.floor(chance() * end);
  const sheets = book.state.sheets;
  const sheet = sheets[below(sheets.length)] ?? sheets[0];
  if (sheet === undefined) throw new Error('the book has no sheets');
  const { name, rows, userColumns } = sheet;
  const width = book.columns(name).length;
  // What a sheet of the program's own does not let anybody do, the page does not offer.
  const named = namedSheetOf(name) !== undefined;
  const what = named ? 0.5 * chance() : chance();
  if (what < 0.55) {
    if (rows.length === 0) return;
    const edits = Array.from({ length: 1 + below(3) }, () => ({
      sheet: name,
      record: below(rows.length),
      column: below(width),
      content: contentBy(chance),
    }));
    book.edit(edits);
  } else if (what < 0.65) book.addRecords(name, below(rows.length + 1), [[contentBy(chance)], []]);
  else if (what < 0.73) {
    if (rows.length > 0) book.removeRecords(name, below(rows.length), 1);
  } else if (what < 0.79) book.addColumn(name, `Own ${below(9)}`, chance() < 0.5 ? 'length' : 'text');
  else if (what < 0.83) {
    if (userColumns.length > 0) book.removeColumn(name, width - 1);
  } else if (what < 0.88) book.addSheet(`Sheet ${number} ${sheets.length}`, 3, 3);
  else if (what < 0.92) {
    if (!compiledSheets.has(name)) book.removeSheet(name);
  } else if (what < 0.96) book.convert(book.units === 'metric' ? 'us' : 'metric');
  else book.replace(everythingBook(number + 1_000_000), 'import');
}

const valuesOf = (book: Workbook): unknown =>
  book.state.sheets.map(({ name, rows }) =>
    rows.map((_, record) =>
      book.columns(name).map((__, column) => String(book.shown({ sheet: name, record, column }))),
    ),
  );

interface Session {
  readonly done: number;
  readonly wrong: readonly string[];
}

/** Of how a book is looked at only what is written beside headers is taken back. */
const undoable = ({ look = noLook, ...state }: BookState): unknown => ({
  ...state,
  comments: Object.fromEntries(
    Object.entries(look.layouts).flatMap(([sheet, { comments }]) =>
      comments === undefined ? [] : [[sheet, comments]],
    ),
  ),
});

/** Changes a book by chance, takes all back, brings all again; each end must be the very book, with its values. */
export function randomSession(number: number): Session {
  const chance = randomNumbers(number);
  const first: BookState = everythingBook(number);
  const book = new Workbook(first);
  const before = valuesOf(book);
  let done = 0;
  const wrong: string[] = [];
  for (let step = 0; step < steps; step += 1) {
    const state = book.state;
    try {
      change(book, chance, number);
      if (book.state !== state) done += 1;
    } catch (error) {
      if (!(error instanceof RefusedChange)) throw error;
      if (book.state !== state) wrong.push('a refused change changed the book');
    }
  }
  const last = book.state;
  const after = valuesOf(book);
  wrong.push(...bookDifferences(valuesOf(new Workbook(last)), after).map((text) => `values built anew, ${text}`));
  for (let step = 0; book.undoable !== undefined && step <= steps; step += 1) book.undo();
  wrong.push(...bookDifferences(undoable(first), undoable(book.state)).map((text) => `all undone, ${text}`));
  wrong.push(...bookDifferences(before, valuesOf(book)).map((text) => `values with all undone, ${text}`));
  for (let step = 0; book.redoable !== undefined && step <= steps; step += 1) book.redo();
  wrong.push(...bookDifferences(undoable(last), undoable(book.state)).map((text) => `all done again, ${text}`));
  wrong.push(...bookDifferences(after, valuesOf(book)).map((text) => `values with all done again, ${text}`));
  book.destroy();
  return { done, wrong };
}
