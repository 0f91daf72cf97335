import type { Finding } from '../records/finding.ts';
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

/** Findings that go ahead of the task that they are of. */
interface HandedFindings {
  readonly done: 'findings';
  readonly findings: readonly Finding[];
}

export type Handed = HandedRows | HandedFindings;

interface BookTask {
  readonly state: BookState;
  readonly findings?: readonly Finding[];
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

function* handedFindings(findings: readonly Finding[]): Generator<HandedFindings, void> {
  for (let from = 0; from < findings.length; from += runLength)
    yield { done: 'findings', findings: findings.slice(from, from + runLength) };
}

export const isHanded = (message: object): message is Handed =>
  isHandedRows(message) || ('done' in message && message.done === 'findings');

export const isHandedRows = (message: object): message is HandedRows => 'done' in message && message.done === 'rows';

/** What came ahead of a book. */
export class RowsAhead {
  #runs: HandedRows[] = [];
  #findings: HandedFindings[] = [];

  take(run: Handed): void {
    if (isHandedRows(run)) this.#runs.push(run);
    else this.#findings.push(run);
  }

  /** The book that rows came ahead of. */
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

  /** A task as it was given. */
  whole<Task extends object>(task: Task): Task {
    const found = this.#findings;
    this.#findings = [];
    return {
      ...task,
      ...(isOfBook(task) ? { state: this.joined(task.state) } : {}),
      ...(found.length === 0 ? {} : { findings: found.flatMap(({ findings }) => findings) }),
    };
  }
}

const isOfBook = (task: object): task is BookTask => 'state' in task;

const isLarge = ({ sheets }: BookState): boolean => sheets.reduce((sum, { rows }) => sum + rows.length, 0) > runLength;

/** Gives a task to a worker, the rows of a large book ahead of it; `isWanted` says whether anybody still waits. */
export function handOver(worker: Pick<Worker, 'postMessage'>, task: object, isWanted: () => boolean): void {
  if (isOfBook(task) && isLarge(task.state)) void handInRuns(worker, task, isWanted);
  else worker.postMessage(task);
}

async function handInRuns(
  worker: Pick<Worker, 'postMessage'>,
  { findings = [], ...task }: BookTask,
  isWanted: () => boolean,
): Promise<void> {
  for (const runs of [handedRows(task.state), handedFindings(findings)])
    for (const run of runs) {
      worker.postMessage(run);
      await turnOfPage();
      if (!isWanted()) return;
    }
  worker.postMessage({ ...task, state: rowless(task.state) });
}
