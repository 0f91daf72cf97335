import type { DBSchema, IDBPTransaction } from 'idb';
import { presentColumns, type StoredColumns, storedFormat } from '../workbook/adapted-book.ts';
import type { BookLook } from '../workbook/book-look.ts';
import { differingRecords } from '../workbook/row-lists.ts';
import type { BookRow, BookState, SheetState } from '../workbook/state.ts';
import { rowsFault } from '../workbook/stored-shape.ts';
import type { FirstLook } from './first-look.ts';

/** What a browser's store of a book holds: what is said of the whole, and the rows of its sheets in runs. */

export interface Head {
  /** The form that the book is stored in. */
  readonly version: number;
  readonly title: string;
  readonly units: BookState['units'];
  readonly invented: boolean;
  readonly sheets: readonly (Omit<SheetState, 'rows'> & { readonly rows: number })[];
  readonly look?: BookLook;
  /** What its first rows look like. */
  readonly seen?: FirstLook;
  /** It was worked out before it was stored: it need not be tried before it is opened. */
  readonly worked?: boolean;
  /** The declared headers of each sheet, by which another version of the program finds its way. */
  readonly columns: StoredColumns;
  readonly at: Date;
  /** The page that saved last; another page's runs are not ours to build on. */
  readonly writer: string;
}

/** What is said of a whole book, but for when it was stored and by whom. */
export function headOf({ sheets, title, units, invented, look }: BookState): Omit<Head, 'at' | 'writer'> {
  return {
    version: storedFormat,
    columns: presentColumns(),
    title,
    units,
    invented,
    sheets: sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length })),
    ...(look === undefined ? {} : { look }),
  };
}

export interface Store extends DBSchema {
  head: { key: 'book'; value: Head };
  runs: { key: [sheet: number, run: number]; value: readonly BookRow[] };
}

type Reading = IDBPTransaction<Store, ('head' | 'runs')[]>;
export type Writing = IDBPTransaction<Store, ('head' | 'runs')[], 'readwrite'>;

const runLength = 100;

/** Runs that are read at once: the page has its turn between. */
const readAtOnce = 8;

export const runsOf = (rows: readonly BookRow[]): number => Math.ceil(rows.length / runLength);
export const runAt = (rows: readonly BookRow[], run: number): readonly BookRow[] =>
  rows.slice(run * runLength, (run + 1) * runLength);

/** The runs of a sheet that hold other rows than before. */
export function changedRuns(now: readonly BookRow[], before: readonly BookRow[] = []): number[] {
  const runs = new Set(differingRecords(before, now).map((record) => Math.floor(record / runLength)));
  // What is beyond the last row is no run any more; one that has grown shorter differs in what it has lost.
  return [...runs].filter((run) => run < runsOf(now));
}

export function refuse(fault: string | undefined): void {
  if (fault !== undefined) throw new Error(fault);
}

/** The rows of a sheet, run after run, and whether each run has the place that it would be stored at now. */
export async function readRows(
  reading: Reading,
  sheet: number,
  name: string,
  read: (rows: number) => void,
): Promise<{ readonly rows: readonly BookRow[]; readonly inRuns: boolean }> {
  const rows: BookRow[] = [];
  let inRuns = true;
  let next = 0;
  for (;;) {
    const range = IDBKeyRange.bound([sheet, next], [sheet, Infinity]);
    const [keys, runs] = await Promise.all([
      reading.objectStore('runs').getAllKeys(range, readAtOnce),
      reading.objectStore('runs').getAll(range, readAtOnce),
    ]);
    for (const [at, run] of runs.entries()) {
      refuse(rowsFault(name, run, rows.length));
      inRuns &&= (keys[at]?.[1] ?? 0) * runLength === rows.length && run.length <= runLength;
      rows.push(...run);
    }
    const last = keys.at(-1);
    if (last === undefined) return { rows, inRuns };
    next = last[1] + 1;
    read(rows.length);
  }
}
