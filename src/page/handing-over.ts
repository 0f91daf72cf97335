import type { BookRow, BookState } from '../workbook/state.ts';
import { turnOfPage } from './idle.ts';

/**
 * Books on their way between the page and what works beside it. They are copied, and a large one copied in one piece
 * stops the page for seconds: its rows go ahead of it, some at a time.
 */

/** Rows that are handed over together, which takes some milliseconds. Ours. */
const runLength = 500;

/** Rows of a book that is on its way. */
export interface HandedRows {
  readonly done: 'rows';
  readonly sheet: number;
  readonly rows: readonly BookRow[];
}

/** All rows of a book in runs; the book itself follows without them (`rowless`). */
export function* handedRows({ sheets }: BookState): Generator<HandedRows, void> {
  for (const [sheet, { rows }] of sheets.entries())
    for (let from = 0; from < rows.length; from += runLength)
      yield { done: 'rows', sheet, rows: rows.slice(from, from + runLength) };
}

export const rowless = (state: BookState): BookState => ({
  ...state,
  sheets: state.sheets.map((sheet) => ({ ...sheet, rows: [] })),
});

export const isHandedRows = (message: object): message is HandedRows => 'done' in message && message.done === 'rows';

/** The rows that came ahead of a book. */
export class RowsAhead {
  #runs: HandedRows[] = [];

  take(run: HandedRows): void {
    this.#runs.push(run);
  }

  /** The book that they came ahead of. */
  joined(state: BookState): BookState {
    const runs = this.#runs;
    this.#runs = [];
    if (runs.length === 0) return state;
    return {
      ...state,
      sheets: state.sheets.map((sheet, at) => ({
        ...sheet,
        rows: runs.flatMap((run) => (run.sheet === at ? run.rows : [])),
      })),
    };
  }
}

const isOfBook = (task: object): task is { readonly state: BookState } => 'state' in task;

const isLarge = ({ sheets }: BookState): boolean => sheets.reduce((sum, { rows }) => sum + rows.length, 0) > runLength;

/** Gives a task to a worker, the rows of a large book ahead of it; `isWanted` says whether anybody still waits. */
export function handOver(worker: Pick<Worker, 'postMessage'>, task: object, isWanted: () => boolean): void {
  if (isOfBook(task) && isLarge(task.state)) void handInRuns(worker, task, isWanted);
  else worker.postMessage(task);
}

async function handInRuns(
  worker: Pick<Worker, 'postMessage'>,
  task: { readonly state: BookState },
  isWanted: () => boolean,
): Promise<void> {
  for (const run of handedRows(task.state)) {
    worker.postMessage(run);
    await turnOfPage();
    if (!isWanted()) return;
  }
  worker.postMessage({ ...task, state: rowless(task.state) });
}

/** A task as it was given, with the rows that came ahead of it. */
export const withRowsAhead = <Task extends object>(task: Task, ahead: RowsAhead): Task =>
  isOfBook(task) ? { ...task, state: ahead.joined(task.state) } : task;
