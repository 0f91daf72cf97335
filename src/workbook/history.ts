import type { CellPlace } from './place.ts';
import type { BookState } from './state.ts';

export interface Step {
  readonly label: string;
  readonly before: BookState;
  readonly after: BookState;
  /** The cells in which the two differ; undefined when the shape of the book does. */
  readonly cells?: readonly CellPlace[] | undefined;
}

/** More steps than anyone takes back; older ones are dropped. */
const mostSteps = 200;

/** Rows that only the steps hold; the last step is kept whatever it holds. */
const mostRows = 20_000;

/** The rows that a step keeps and the state after it has not: one for each cell where only cells differ. */
function rowsHeld({ before, after, cells }: Step): number {
  if (cells !== undefined) return cells.length;
  let held = 0;
  for (const { name, rows } of before.sheets) {
    const now = after.sheets.find((sheet) => sheet.name === name)?.rows;
    if (now === rows) continue;
    const kept = new Set(now);
    for (const row of rows) if (!kept.has(row)) held += 1;
  }
  return held;
}

/** The steps that led to a book's state and those that were taken back, each with the states on both its sides. */
export class History {
  #done: { readonly step: Step; readonly rows: number }[] = [];
  #undone: Step[] = [];

  /** Puts a step behind those done; what was taken back before is gone by it. */
  did(step: Step): void {
    this.#undone = [];
    this.#push(step);
  }

  #push(step: Step): void {
    this.#done.push({ step, rows: rowsHeld(step) });
    // Added up at each step, 200 numbers: a sum kept beside them could drift from what they hold.
    let rows = this.#done.reduce((sum, item) => sum + item.rows, 0);
    while (this.#done.length > 1 && (this.#done.length > mostSteps || rows > mostRows))
      rows -= this.#done.shift()?.rows ?? 0;
  }

  /** The step that undo would take back. */
  get last(): Step | undefined {
    return this.#done.at(-1)?.step;
  }

  /** The step that redo would take again. */
  get next(): Step | undefined {
    return this.#undone.at(-1);
  }

  undid(): void {
    const done = this.#done.pop();
    if (done !== undefined) this.#undone.push(done.step);
  }

  redid(): void {
    const step = this.#undone.pop();
    if (step !== undefined) this.#push(step);
  }
}
