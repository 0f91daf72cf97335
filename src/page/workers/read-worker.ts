import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { acceptImport } from '../../xlsx/import/acceptance.ts';
import {
  type ImportChoices,
  type ImportProposal,
  type ImportResult,
  UnusableList,
} from '../../xlsx/import/import-model.ts';
import { proposeImport } from '../../xlsx/import/proposal.ts';
import type { RawBook } from '../../xlsx/read/raw-book.ts';
import { readBook, UnreadableFile } from '../../xlsx/read/read.ts';
import { mostRecords } from '../book-size.ts';
import { handedRows, rowless } from '../handing-over.ts';
import { formulaCells } from '../opening.ts';

/**
 * Reads a file beside the page, which can end this worker whenever the user has enough of waiting.
 *
 * The file is read once; each further order only says what it should be taken for.
 */
export type ReadOrder =
  | { readonly do: 'open'; readonly bytes: Uint8Array }
  | { readonly do: 'propose'; readonly choices: ImportChoices }
  | { readonly do: 'try'; readonly proposal: ImportProposal; readonly base: BookState; readonly title: string };

export type ReadAnswer =
  | { readonly done: 'open'; readonly sheets: readonly string[] }
  | { readonly done: 'propose'; readonly proposal: ImportProposal }
  /** The rows of the book went ahead of it. */
  | { readonly done: 'try'; readonly result: ImportResult }
  /** Said to the user as it is; the file's name goes before it. */
  | { readonly done: 'unreadable'; readonly why: string; readonly expected: boolean };

let book: RawBook | undefined;

function answer(order: ReadOrder): ReadAnswer {
  if (order.do === 'open') {
    book = readBook(order.bytes);
    return { done: 'open', sheets: book.sheets.map(({ name }) => name) };
  }
  if (book === undefined) throw new Error('no file was read before');
  if (order.do === 'propose') return { done: 'propose', proposal: proposeImport(book, order.choices) };
  const { proposal, base, title } = order;
  const result = acceptImport(book, proposal, base, { title, mostRecords });
  // What users' formulas of the file come to is tried here, where it can be stopped, before the page works them out.
  if (formulaCells(result.state).length > 0) new Workbook(result.state).destroy();
  return { done: 'try', result };
}

self.addEventListener('message', (event: MessageEvent<ReadOrder>) => {
  try {
    const made = answer(event.data);
    if (made.done !== 'try') {
      self.postMessage(made);
      return;
    }
    const { result } = made;
    for (const run of handedRows(result.state)) self.postMessage(run);
    self.postMessage({ done: 'try', result: { ...result, state: rowless(result.state) } } satisfies ReadAnswer);
  } catch (error) {
    const expected = error instanceof UnreadableFile || error instanceof UnusableList;
    self.postMessage({
      done: 'unreadable',
      why: error instanceof Error ? error.message : String(error),
      expected,
    } satisfies ReadAnswer);
  }
});
