import { counted } from '../units/phrases.ts';
import type { BookState } from '../workbook/state.ts';
import { Workbook } from '../workbook/workbook.ts';
import { placedOrderLines } from './order-key.ts';
import { placedBook } from './placed-edits.ts';
import { changeText, quotedBook } from './quote-edits.ts';
import { type FilledSheet, requestAnswers } from './request-answers.ts';

/** Files of ours that come back: answered requests for quotation, and orders that were sent. */

interface ReturnedFile {
  readonly name: string;
  readonly sheets: readonly FilledSheet[];
}

interface TakenOver {
  readonly state: BookState;
  /** What was taken over and what was not, a sentence each. */
  readonly said: readonly string[];
  /** Whether the book is another now. */
  readonly changed: boolean;
}

/** The book with what one file says: prices in Offers, or lines in Orders; each file is known by what it holds. */
function withFile(book: Workbook, { name, sheets }: ReturnedFile): TakenOver {
  const answers = requestAnswers(sheets);
  if (answers !== undefined) {
    const { state, changes, notOffered, problems } = quotedBook(book, [answers]);
    return {
      state,
      changed: changes.length > 0,
      said: [
        `${name}: ${counted(changes.length, 'cell')} of Offers changed.`,
        ...changes.map((change) => `Changed: ${changeText(change)}.`),
        ...problems.map((problem) => `Not taken over: ${problem}.`),
        ...notOffered.map((line) => `Not offered: ${line}.`),
      ],
    };
  }
  const lines = placedOrderLines(sheets);
  if (lines.length > 0) {
    const { state, added, problems } = placedBook(book, lines);
    return {
      state,
      changed: added.length > 0,
      said: [
        `${name}: ${counted(added.length, 'order line')} entered in the sheet Orders.`,
        ...problems.map((problem) => `Left out: ${problem}.`),
      ],
    };
  }
  return {
    state: book.state,
    changed: false,
    said: [
      `${name} could not be used: it is no request for quotation and no order of ours. Choose the .xlsx file that ` +
        'was sent out.',
    ],
  };
}

/** The book with all files taken over, one after the other. */
export function withReturnedFiles(state: BookState, files: readonly ReturnedFile[]): TakenOver {
  return files.reduce<TakenOver>(
    (before, file) => {
      const book = new Workbook(before.state);
      const taken = withFile(book, file);
      book.destroy();
      return { state: taken.state, changed: before.changed || taken.changed, said: [...before.said, ...taken.said] };
    },
    { state, changed: false, said: [] },
  );
}
