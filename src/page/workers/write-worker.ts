import { buyingFindings } from '../../order/buying-findings.ts';
import type { Finding } from '../../records/finding.ts';
import { findingsInTurn } from '../../checks/findings.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import type { Told } from '../background.ts';
import { answering } from './answering.ts';
import type { TableBook } from '../../sheet/table.ts';
import { blankList, roundSheet } from '../../xlsx/write/forms.ts';
import { listFormFile } from '../../xlsx/write/list-form.ts';
import { tableBook } from '../../xlsx/write/table-book.ts';
import type { WrittenFile } from '../../xlsx/write/book-file.ts';
import { bookFile, type WrittenOtherwise } from '../../xlsx/write/write.ts';
import { bookType } from '../downloading.ts';
import { digestOf } from '../library/packed-book.ts';

/** Writes a book's file beside the page, so that typing goes on meanwhile. */
export interface WriteOrder {
  readonly state: BookState;
  /** Absent while the page is still looking at the records: then they are looked at here. */
  readonly findings?: readonly Finding[];
  /** By which the file is known again when it comes back. */
  readonly mark?: string;
  /** A table made from the book, to be written in the book's place. */
  readonly table?: TableBook;
  /** A sheet to be filled in by people without this program, in the book's place. */
  readonly form?: 'blank' | 'round';
}

export interface WrittenAnswer {
  readonly done: 'file';
  /** A large one is handed over without being copied. */
  readonly file: Blob;
  /** By which it is known again. */
  readonly digest: string;
  readonly otherwise: readonly WrittenOtherwise[];
}

/** Which share of the file is written. */
interface ShareAnswer {
  readonly done: 'share';
  readonly share: number;
}

export type WriteAnswer = WrittenAnswer | ShareAnswer;

/** Bytes of a sheet's rows that may wait for the end of the file; more are packed as they come. */
const mostWaiting = 16_000_000;

type Written = Pick<WrittenFile, 'pieces' | 'otherwise'>;

/** Which share of the work is done once the book is calculated, and once its belts are looked at. Measured. */
const shares = { calculated: 0.1, looked: 0.5 };

/** The findings of a book; tells how far it is, belt by belt. */
function allFindings(book: Workbook, told: (share: number) => void): Finding[] {
  const found: Finding[][] = [];
  const belts = Math.max(1, book.sheet('Belts').rows.length);
  let last = 0;
  for (const some of findingsInTurn(book)) {
    found.push(some);
    for (const { sheet, record } of some.slice(-1)) if (sheet === 'Belts') last = Math.max(last, record);
    told(shares.calculated + (shares.looked - shares.calculated) * Math.min(1, last / belts));
  }
  return [...found.flat(), ...buyingFindings(book)];
}

async function written(
  { state, findings: found, table, form, mark }: WriteOrder,
  told: (share: number) => void,
): Promise<Written> {
  if (form === 'blank') return { pieces: [await listFormFile(blankList(state.units))], otherwise: [] };
  const book = new Workbook(state);
  told(shares.calculated);
  if (form === 'round') return { pieces: [await listFormFile(roundSheet(book))], otherwise: [] };
  return table === undefined
    ? await bookFile(book, found ?? allFindings(book, told), {
        mark,
        streamsFrom: mostWaiting,
        told: (share) => told(shares.looked + (1 - shares.looked) * share),
      })
    : { pieces: [await tableBook(book, table)], otherwise: [] };
}

answering(async (order: WriteOrder, tell: (answer: WriteAnswer | Told) => void) => {
  let last = -1;
  const told = (share: number): void => {
    if (Math.floor(100 * share) === last) return;
    last = Math.floor(100 * share);
    tell({ done: 'share', share });
  };
  const { pieces, otherwise } = await written(order, told);
  const file = new Blob([...pieces], { type: bookType });
  const digest = await digestOf(new Uint8Array(await file.arrayBuffer()));
  tell({ done: 'file', file, digest, otherwise });
});
