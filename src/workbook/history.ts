import type { CellPlace } from './place.ts';
import { withRowsAt } from './row-lists.ts';
import { type BookRow, type BookState, sheetOf } from './state.ts';

/** A change that was done. */
interface Change {
  readonly label: string;
  readonly before: BookState;
  readonly after: BookState;
  /** The cells in which the two differ; undefined when the shape of the book does. */
  readonly cells?: readonly CellPlace[] | undefined;
}

export interface Step extends Pick<Change, 'label' | 'cells'> {
  /** The state before it, from the state that it led to; and the other way round. */
  readonly before: (after: BookState) => BookState;
  readonly after: (before: BookState) => BookState;
}

interface ChangedRow {
  readonly sheet: string;
  readonly record: number;
  readonly before: BookRow;
  readonly after: BookRow;
}

/** The rows in which cells differ. */
function changedRows({ before, after }: Change, cells: readonly CellPlace[]): ChangedRow[] {
  const found = new Map<BookRow, ChangedRow>();
  for (const { sheet, record } of cells) {
    const [one, other] = [sheetOf(before, sheet).rows[record], sheetOf(after, sheet).rows[record]];
    if (one !== undefined && other !== undefined && one !== other)
      found.set(other, { sheet, record, before: one, after: other });
  }
  return [...found.values()];
}

function withRows(state: BookState, changed: readonly ChangedRow[], side: 'before' | 'after'): BookState {
  const names = new Set(changed.map(({ sheet }) => sheet));
  return {
    ...state,
    sheets: state.sheets.map((sheet) => {
      if (!names.has(sheet.name)) return sheet;
      const own = changed.flatMap(({ sheet: name, record, [side]: row }): [number, BookRow][] =>
        name === sheet.name ? [[record, row]] : [],
      );
      return { ...sheet, rows: withRowsAt(sheet.rows, own) };
    }),
  };
}

/**
 * A change as it is kept: of one of cells the rows alone, since both lists of a hundred thousand rows, kept for each
 * number that was typed, would come to more than the book.
 */
function stepOf(change: Change): Step {
  const { label, before, after, cells } = change;
  if (cells === undefined) return { label, before: () => before, after: () => after };
  const changed = changedRows(change, cells);
  return {
    label,
    cells,
    before: (state) => withRows(state, changed, 'before'),
    after: (state) => withRows(state, changed, 'after'),
  };
}

/** More steps than anyone takes back; older ones are dropped. */
const mostSteps = 200;

/** Rows that only the steps hold; the last step is kept whatever it holds. */
const mostRows = 20_000;

/** The rows that a change keeps and the state after it has not: one for each cell where only cells differ. */
function rowsHeld({ before, after, cells }: Change): number {
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

interface HeldStep {
  readonly step: Step;
  readonly rows: number;
}

/** The steps that led to a book's state and those that were taken back. */
export class History {
  #done: HeldStep[] = [];
  #undone: HeldStep[] = [];

  /** Puts a step behind those done; what was taken back before is gone by it. */
  did(change: Change): void {
    this.#undone = [];
    this.#push({ step: stepOf(change), rows: rowsHeld(change) });
  }

  #push(step: HeldStep): void {
    this.#done.push(step);
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
    return this.#undone.at(-1)?.step;
  }

  undid(): void {
    const done = this.#done.pop();
    if (done !== undefined) this.#undone.push(done);
  }

  redid(): void {
    const step = this.#undone.pop();
    if (step !== undefined) this.#push(step);
  }
}
