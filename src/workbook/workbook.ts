import type { Content } from '../formula/values.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { BookValues } from './book-values.ts';
import type { BookLook } from './book-look.ts';
import { Calculation } from './calculation.ts';
import { convertedBook, type UnitReview } from './conversion.ts';
import { compiledSheets, namedSheetOf } from './declared.ts';
import { withFreeSheet } from './free-sheets.ts';
import { History, type Step } from './history.ts';
import { Listeners } from './listeners.ts';
import { withOwnColumn } from './own-columns.ts';
import { wholly } from './parts.ts';
import { type BookChange, type CellPlace } from './place.ts';
import {
  type CellEdit,
  declaredWidth,
  emptyOrGiven,
  withColumnAdded,
  withColumnRemoved,
  withContents,
  withRecordsMoved,
} from './state-changes.ts';
import { RefusedChange } from './refused-change.ts';
import { type BookState, seenAs, type UserColumn, withLook } from './state.ts';

/** A change as it is asked for: of some cells, or of everything. */
interface AskedChange {
  readonly label: string;
  readonly next: () => BookState;
  readonly cells: readonly CellPlace[] | undefined;
  readonly inParts: boolean;
}

/** What a step that is taken back or again changes: cells, or all of the book; undefined where there is no step. */
type StepTaken = readonly CellPlace[] | BookState | undefined;

/**
 * Cells that are changed one by one: from more of them whatever follows is worked out anew with all else, since a list
 * of all cells that move would be longer than the book.
 */
const mostSingly = 5_000;

const busy = 'another change is being worked out: wait until it is done, or stop it';

/**
 * A book being worked on: its state, its values and the one stack of steps to undo. All three move together or not at
 * all: a change that can't be worked out leaves them as they were and throws a RefusedChange. Views listen for changes
 * and ask for values; they keep none of their own.
 */
export class Workbook extends BookValues {
  #history = new History();
  readonly #listeners = new Listeners<BookChange>();
  /** Whether a change is under way, part by part. */
  #busy = false;
  /** Changes that are to be done part by part; undefined where they are done at once. */
  #asked: Generator<void, void>[] | undefined;
  /** Why the book may not be changed; undefined while it may. */
  closed: string | undefined;

  listen(listener: (change: BookChange) => void): () => void {
    return this.#listeners.listen(listener);
  }

  /** Sets contents. A remark on a cell goes when its content does. */
  edit(edits: readonly CellEdit[], label = 'edit'): void {
    const real = edits.filter((edit) => edit.format !== undefined || this.content(edit) !== edit.content);
    if (real.length === 0) return;
    // A name that changes is a change of every formula that may call it.
    const everything = real.some(({ sheet, column }) => column === 0 && namedSheetOf(sheet) !== undefined);
    const cells = everything ? undefined : real.map(({ sheet, record, column }) => ({ sheet, record, column }));
    this.#do(label, () => withContents(this.now, real), cells);
  }

  /** Puts empty records, or records with the contents given, before the record at `at`. */
  addRecords(sheet: string, at: number, rows: readonly (readonly Content[])[] = [[]], label = 'add rows'): void {
    this.#do(label, () => withRecordsMoved(this.now, sheet, at, 0, emptyOrGiven(this.sheet(sheet), rows)));
  }

  removeRecords(sheet: string, at: number, count: number, label = 'remove rows'): void {
    this.#do(label, () => withRecordsMoved(this.now, sheet, at, count, []));
  }

  /** Adds a column of the user's own: after the last one, or before another of theirs. */
  addColumn(sheet: string, header: string, kind: QuantityKind = 'text', at = this.columns(sheet).length): void {
    if (at < declaredWidth(sheet)) throw new Error('a column of your own comes after those of the sheet');
    this.#do('add column', () => withColumnAdded(this.now, sheet, { header, kind }, at));
  }

  /** Removes one of the user's own columns; what refers to it becomes #REF!. */
  removeColumn(sheet: string, column: number): void {
    if (column < declaredWidth(sheet)) throw new Error('only your own columns can be removed');
    this.#do('remove column', () => withColumnRemoved(this.now, sheet, column));
  }

  /** Makes one of the user's own columns another: its name, what it holds, how it shows it, its formula. */
  changeColumn(sheet: string, column: number, change: UserColumn): void {
    this.replace(withOwnColumn(this.now, sheet, column, change), 'change column');
  }

  /** No step to undo: nothing is worked out anew. */
  lookAs(look: BookLook): void {
    this.now = { ...this.now, look };
    this.#listeners.tell({ cells: [] });
  }

  /** Adds a free sheet with lettered columns. */
  addSheet(name: string, columns = 12, rows = 40): void {
    this.#do('add sheet', () => withFreeSheet(this.now, name, columns, rows));
  }

  removeSheet(name: string): void {
    if (compiledSheets.has(name)) throw new Error(`the sheet ${name} belongs to the book`);
    this.#do('remove sheet', () => ({ ...this.now, sheets: this.now.sheets.filter((one) => one.name !== name) }));
  }

  /** Puts a whole other state in place, as an import does; one step to undo. */
  replace(state: BookState, label: string): void {
    this.#do(label, () => withLook(state, state.look ?? this.now.look));
  }

  /** Turns the book to the other unit system; formulas stay, and those with numbers of their own are listed. */
  convert(units: UnitSystem): UnitReview[] {
    const { state, review } = convertedBook(this.now, units);
    if (state !== this.now) this.#do(`convert to ${units === 'us' ? 'US customary' : 'metric'} units`, () => state);
    return review;
  }

  /**
   * The changes that `ask` makes of the book, part by part: until the last part the book is what it was, and without
   * it stays so.
   */
  *inParts(ask: () => void): Generator<void, void> {
    const asked: Generator<void, void>[] = [];
    this.#asked = asked;
    try {
      ask();
    } finally {
      this.#asked = undefined;
    }
    if (this.#busy) throw new RefusedChange('change', undefined, busy);
    this.#busy = true;
    try {
      for (const parts of asked) yield* parts;
    } finally {
      this.#busy = false;
    }
  }

  /** Does a change, or leaves it to whoever does the book's changes part by part. */
  #take(doing: (inParts: boolean) => Generator<void, void>): void {
    if (this.#asked === undefined) wholly(doing(false));
    else this.#asked.push(doing(true));
  }

  #do(label: string, next: () => BookState, cells?: readonly CellPlace[]): void {
    this.#take((inParts) => this.#doing({ label, next, cells, inParts }));
  }

  *#doing(asked: AskedChange): Generator<void, void> {
    const before = this.now;
    const change = yield* this.#going(asked);
    this.#history.did({ label: asked.label, before, after: this.now, cells: asked.cells });
    this.#listeners.tell(change);
  }

  /** Moves to the state that `next` makes; where anything throws, values and engine are those of the old one. */
  *#going({ label, next, cells, inParts }: AskedChange): Generator<void, BookChange> {
    const closed = this.#busy && !inParts ? busy : this.closed;
    if (closed !== undefined) throw new RefusedChange(label, cells, closed);
    const { look } = this.now;
    try {
      const state = next();
      let change: BookChange = { cells: 'all' };
      const isSame = state.sheets === this.now.sheets && state.units === this.now.units;
      // Of another title no value follows.
      if (isSame) change = this.calculation.edit(state, []);
      else if (inParts) {
        const calculation = yield* Calculation.inParts(state);
        this.calculation.destroy();
        this.calculation = calculation;
      } else if (cells === undefined || cells.length > mostSingly) this.#calculateAnew(state);
      else change = this.calculation.edit(state, cells);
      // Columns may have been brought into another order meanwhile.
      this.now = this.now.look === look ? state : withLook(state, this.now.look);
      return change;
    } catch (error) {
      if (!inParts) this.#calculateAnew(this.now);
      throw new RefusedChange(label, cells, error);
    }
  }

  /** The old engine goes first: two of a large book are more than a browser's memory holds. */
  #calculateAnew(state: BookState): void {
    this.calculation.destroy();
    this.calculation = Calculation.of(state);
  }

  /** Gives the engine's memory back; the book is not used any more. */
  destroy(): void {
    this.calculation.destroy();
  }

  /** What undo would take back, if anything. */
  get undoable(): string | undefined {
    return this.#history.last?.label;
  }

  get redoable(): string | undefined {
    return this.#history.next?.label;
  }

  /** What undo would change: the cells, or a whole book to go back to. */
  get toUndo(): StepTaken {
    const step = this.#history.last;
    return step?.cells ?? step?.before(this.now);
  }

  get toRedo(): StepTaken {
    const step = this.#history.next;
    return step?.cells ?? step?.after(this.now);
  }

  /** Takes the last step back; returns the cells it touched, for the view to go to. */
  undo(): readonly CellPlace[] {
    const step = this.#history.last;
    return this.#step('undo', step, step?.before(this.now), () => this.#history.undid());
  }

  redo(): readonly CellPlace[] {
    const step = this.#history.next;
    return this.#step('redo', step, step?.after(this.now), () => this.#history.redid());
  }

  /** Leaves nothing to take back: for a book that goes on from what somebody else has made of it. */
  forgetSteps(): void {
    this.#history = new History();
  }

  #step(way: string, step: Step | undefined, to: BookState | undefined, done: () => void): readonly CellPlace[] {
    if (step === undefined || to === undefined) return [];
    const { label, cells } = step;
    this.#take((inParts) =>
      this.#stepping({ label: `${way} ${label}`, next: () => seenAs(to, this.now.look), cells, inParts }, done),
    );
    return cells ?? [];
  }

  *#stepping(asked: AskedChange, done: () => void): Generator<void, void> {
    const change = yield* this.#going(asked);
    done();
    this.#listeners.tell(change);
  }
}
