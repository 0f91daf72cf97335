import type { Content, Matrix, Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import type { HeaderOf, SheetName, ValueName } from '../../sheets/index.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { Calculation } from './calculation.ts';
import { type BookLook, noLook } from './book-look.ts';
import { withOwnColumn } from './own-columns.ts';
import { withFreeSheet } from './free-sheets.ts';
import { History, type Step } from './history.ts';
import { Listeners } from './listeners.ts';
import { type BookChange, type CellPlace } from './place.ts';
import { convertedBook, type UnitReview } from './conversion.ts';
import {
  bookColumn,
  type BookColumn,
  bookColumns,
  cellKind,
  columnNamed,
  compiledSheets,
  declaredValue,
  headerPosition,
  namedSheetOf,
} from './declared.ts';
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
import { type BookState, contentAt, seenAs, sheetOf, type SheetState, type UserColumn, withLook } from './state.ts';
import { type SupposedInputs, supposition } from './supposition.ts';

/**
 * A book being worked on: its state, its values and the one stack of steps to undo. All three move together or not at
 * all: a change that can't be worked out leaves them as they were and throws a RefusedChange. Views listen for changes
 * and ask for values; they keep none of their own.
 */
export class Workbook {
  #state: BookState;
  #calculation: Calculation;
  #history = new History();
  readonly #listeners = new Listeners<BookChange>();
  /** Why the book may not be changed; undefined while it may. */
  closed: string | undefined;

  /** `calculation` is one of this very state, where it was made part by part. */
  constructor(state: BookState, calculation = Calculation.of(state)) {
    this.#state = state;
    this.#calculation = calculation;
  }

  get state(): BookState {
    return this.#state;
  }

  get units(): UnitSystem {
    return this.#state.units;
  }

  sheet(name: string): SheetState {
    return sheetOf(this.#state, name);
  }

  columns(sheet: string): BookColumn[] {
    return bookColumns(this.sheet(sheet));
  }

  /** The column that a cell stands in; undefined beside the last one. */
  columnAt({ sheet, column }: Pick<CellPlace, 'sheet' | 'column'>): BookColumn | undefined {
    return bookColumn(this.sheet(sheet), column);
  }

  /** The position of a declared column. */
  column<Sheet extends SheetName>(sheet: Sheet, header: HeaderOf<Sheet>): number {
    return headerPosition(sheet, header);
  }

  /**
   * The position of a column whose sheet or header comes from data, as of a user's own; undefined when there is none.
   */
  findColumn(sheet: string, header: string): number | undefined {
    const state = this.#state.sheets.find(({ name }) => name === sheet);
    return state === undefined ? undefined : columnNamed(state, header);
  }

  value(place: CellPlace): Value {
    return this.#calculation.value(place);
  }

  /** What a cell shows: in own columns and free sheets also what a neighbour's result fills. */
  shown(place: CellPlace): Value {
    const declared = compiledSheets.get(place.sheet)?.columns.length ?? 0;
    return place.column < declared ? this.#calculation.value(place) : this.#calculation.engineValue(place);
  }

  /** A record's value in a declared column. */
  read<Sheet extends SheetName>(sheet: Sheet, record: number, header: HeaderOf<Sheet>): Value {
    return this.value({ sheet, record, column: this.column(sheet, header) });
  }

  content(place: CellPlace): Content {
    return contentAt(this.#state, place);
  }

  /** The formula behind a cell: the user's, or the sheet's own; undefined for a plain content. */
  formula(place: CellPlace): string | undefined {
    return this.#calculation.formula(place);
  }

  /** Whether a computed cell holds the user's content instead of the sheet's formula. */
  overridden(place: CellPlace): boolean {
    return (
      compiledSheets.get(place.sheet)?.columns[place.column]?.formula !== undefined && this.content(place) !== null
    );
  }

  kind({ sheet, record, column }: CellPlace): QuantityKind {
    return cellKind(this.sheet(sheet), record, column);
  }

  note({ sheet, record, column }: CellPlace): string | undefined {
    return this.sheet(sheet).rows[record]?.notes?.[column];
  }

  /** A declared named value; an error value where the user has taken its row away. */
  named(name: ValueName): Value {
    return this.#calculation.named(declaredValue(name).name);
  }

  /** The value of a part of a sheet's formula in the record of a place. */
  partValue(place: CellPlace, formula: RowFormula): Value {
    return this.#calculation.partValue(place, formula);
  }

  evaluate(formula: string): Value | Matrix {
    return this.#calculation.evaluate(formula);
  }

  /**
   * A record's values, by column position, if some of its inputs or named values were others. Changes nothing; users'
   * formulas, and records that do not belong to it, keep their values. With `wanted`, only that column is worked out.
   */
  whatIf<Sheet extends SheetName>(
    sheet: Sheet,
    record: number,
    inputs: SupposedInputs<Sheet>,
    others: Parameters<typeof supposition<Sheet>>[2] = {},
  ): Value[] {
    return this.#calculation.whatIf(sheet, record, supposition(sheet, inputs, others));
  }

  /** The same of many records at once, by wanted column and supposition. */
  readonly whatIfs: Calculation['whatIfs'] = (asked) => this.#calculation.whatIfs(asked);

  /** A sheet made ready for suppositions of many cases at once, until the book changes. */
  readonly cases: Calculation['cases'] = (asked) => this.#calculation.cases(asked);

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
    this.#do(label, () => withContents(this.#state, real), cells);
  }

  /** Puts empty records, or records with the contents given, before the record at `at`. */
  addRecords(sheet: string, at: number, rows: readonly (readonly Content[])[] = [[]], label = 'add rows'): void {
    this.#do(label, () => withRecordsMoved(this.#state, sheet, at, 0, emptyOrGiven(this.sheet(sheet), rows)));
  }

  removeRecords(sheet: string, at: number, count: number, label = 'remove rows'): void {
    this.#do(label, () => withRecordsMoved(this.#state, sheet, at, count, []));
  }

  /** Adds a column of the user's own: after the last one, or before another of theirs. */
  addColumn(sheet: string, header: string, kind: QuantityKind = 'text', at = this.columns(sheet).length): void {
    if (at < declaredWidth(sheet)) throw new Error('a column of your own comes after those of the sheet');
    this.#do('add column', () => withColumnAdded(this.#state, sheet, { header, kind }, at));
  }

  /** Removes one of the user's own columns; what refers to it becomes #REF!. */
  removeColumn(sheet: string, column: number): void {
    if (column < declaredWidth(sheet)) throw new Error('only your own columns can be removed');
    this.#do('remove column', () => withColumnRemoved(this.#state, sheet, column));
  }

  /** Makes one of the user's own columns another: its name, what it holds, how it shows it, its formula. */
  changeColumn(sheet: string, column: number, change: UserColumn): void {
    this.replace(withOwnColumn(this.#state, sheet, column, change), 'change column');
  }

  get look(): BookLook {
    return this.#state.look ?? noLook;
  }

  /** No step to undo: nothing is worked out anew. */
  lookAs(look: BookLook): void {
    this.#state = { ...this.#state, look };
    this.#listeners.tell({ cells: [] });
  }

  /** Adds a free sheet with lettered columns. */
  addSheet(name: string, columns = 12, rows = 40): void {
    this.#do('add sheet', () => withFreeSheet(this.#state, name, columns, rows));
  }

  removeSheet(name: string): void {
    if (compiledSheets.has(name)) throw new Error(`the sheet ${name} belongs to the book`);
    this.#do('remove sheet', () => ({ ...this.#state, sheets: this.#state.sheets.filter((one) => one.name !== name) }));
  }

  /** Puts a whole other state in place, as an import does; one step to undo. */
  replace(state: BookState, label: string): void {
    this.#do(label, () => withLook(state, state.look ?? this.#state.look));
  }

  /** Turns the book to the other unit system; formulas stay, and those with numbers of their own are listed. */
  convert(units: UnitSystem): UnitReview[] {
    const { state, review } = convertedBook(this.#state, units);
    if (state !== this.#state) this.#do(`convert to ${units === 'us' ? 'US customary' : 'metric'} units`, () => state);
    return review;
  }

  #do(label: string, next: () => BookState, cells?: readonly CellPlace[]): void {
    const before = this.#state;
    const change = this.#go(label, next, cells);
    this.#history.did({ label, before, after: this.#state, cells });
    this.#listeners.tell(change);
  }

  /** Moves to the state that `next` makes; where anything throws, values and engine are made anew for the old one. */
  #go(label: string, next: () => BookState, cells: readonly CellPlace[] | undefined): BookChange {
    if (this.closed !== undefined) throw new RefusedChange(label, cells, this.closed);
    try {
      const state = next();
      if (cells === undefined) this.#calculateAnew(state);
      const change: BookChange = cells === undefined ? { cells: 'all' } : this.#calculation.edit(state, cells);
      this.#state = state;
      return change;
    } catch (error) {
      this.#calculateAnew(this.#state);
      throw new RefusedChange(label, cells, error);
    }
  }

  /** The old engine goes first: two of a large book are more than a browser's memory holds. */
  #calculateAnew(state: BookState): void {
    this.#calculation.destroy();
    this.#calculation = Calculation.of(state);
  }

  /** Gives the engine's memory back; the book is not used any more. */
  destroy(): void {
    this.#calculation.destroy();
  }

  /** What undo would take back, if anything. */
  get undoable(): string | undefined {
    return this.#history.last?.label;
  }

  get redoable(): string | undefined {
    return this.#history.next?.label;
  }

  /** Takes the last step back; returns the cells it touched, for the view to go to. */
  undo(): readonly CellPlace[] {
    const step = this.#history.last;
    return this.#step('undo', step, step?.before(this.#state), () => this.#history.undid());
  }

  redo(): readonly CellPlace[] {
    const step = this.#history.next;
    return this.#step('redo', step, step?.after(this.#state), () => this.#history.redid());
  }

  /** Leaves nothing to take back: for a book that goes on from what somebody else has made of it. */
  forgetSteps(): void {
    this.#history = new History();
  }

  #step(way: string, step: Step | undefined, to: BookState | undefined, done: () => void): readonly CellPlace[] {
    if (step === undefined || to === undefined) return [];
    const change = this.#go(`${way} ${step.label}`, () => seenAs(to, this.#state.look), step.cells);
    done();
    this.#listeners.tell(change);
    return step.cells ?? [];
  }
}
