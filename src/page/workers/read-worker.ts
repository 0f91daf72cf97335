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
  const result = acceptImport(book, order.proposal, order.base, { title: order.title });
  // What users' formulas of the file come to is tried here, where it can be stopped, before the page works them out.
  if (formulaCells(result.state).length > 0) new Workbook(result.state).destroy();
  return { done: 'try', result };
}

self.addEventListener('message', (event: MessageEvent<ReadOrder>) => {
  try {
    self.postMessage(answer(event.data));
  } catch (error) {
    const expected = error instanceof UnreadableFile || error instanceof UnusableList;
    self.postMessage({
      done: 'unreadable',
      why: error instanceof Error ? error.message : String(error),
      expected,
    } satisfies ReadAnswer);
  }
});
