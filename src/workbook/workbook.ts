import type { Content, Matrix, Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import type { HeaderOf, SheetName, ValueName } from '../../sheets/index.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { Calculation } from './calculation.ts';
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
  withColumnAdded,
  withColumnRemoved,
  withColumnRenamed,
  withContents,
  withFreeSheet,
  withSheet,
} from './state-changes.ts';
import { type BookRow, type BookState, contentAt, sheetOf, type SheetState } from './state.ts';
import { type SupposedInputs, type SupposedNames, supposition } from './supposition.ts';

interface Step {
  readonly label: string;
  readonly before: BookState;
  readonly after: BookState;
  /** The cells in which the two differ; undefined when the shape of the book does. */
  readonly cells?: readonly CellPlace[];
}

/** More steps than anyone takes back; older ones are dropped. */
const mostSteps = 200;

/**
 * A book being worked on: its state, its values and the one stack of steps to undo.
 *
 * Views listen for changes and ask for values; they keep none of their own.
 */
export class Workbook {
  #state: BookState;
  #calculation: Calculation;
  #done: Step[] = [];
  #undone: Step[] = [];
  readonly #listeners = new Set<(change: BookChange) => void>();

  constructor(state: BookState) {
    this.#state = state;
    this.#calculation = new Calculation(state);
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
   * formulas and other sheets keep their values. With `wanted`, only that column is sure to be worked out.
   */
  whatIf<Sheet extends SheetName>(
    sheet: Sheet,
    record: number,
    inputs: SupposedInputs<Sheet>,
    others: { readonly named?: SupposedNames; readonly wanted?: HeaderOf<Sheet> } = {},
  ): Value[] {
    return this.#calculation.whatIf(sheet, record, supposition(sheet, inputs, others));
  }

  listen(listener: (change: BookChange) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Sets contents. A remark on a cell goes when its content does. */
  edit(edits: readonly CellEdit[], label = 'edit'): void {
    const real = edits.filter((edit) => this.content(edit) !== edit.content);
    if (real.length === 0) return;
    const after = withContents(this.#state, real);
    // A name that changes is a change of every formula that may call it.
    if (real.some(({ sheet, column }) => column === 0 && namedSheetOf(sheet) !== undefined)) this.#change(label, after);
    else
      this.#do({
        label,
        before: this.#state,
        after,
        cells: real.map(({ sheet, record, column }) => ({ sheet, record, column })),
      });
  }

  /** Puts empty records, or records with the contents given, before the record at `at`. */
  addRecords(sheet: string, at: number, rows: readonly (readonly Content[])[] = [[]], label = 'add rows'): void {
    const width = this.columns(sheet).length;
    const added = rows.map((cells): BookRow => ({
      cells: Array.from({ length: width }, (_, column) => cells[column] ?? null),
    }));
    this.#moveRows(sheet, at, added, 0, label);
  }

  removeRecords(sheet: string, at: number, count: number, label = 'remove rows'): void {
    this.#moveRows(sheet, at, [], count, label);
  }

  #moveRows(sheet: string, at: number, added: readonly BookRow[], removed: number, label: string): void {
    const texts = this.#calculation.moveRows(sheet, at, added.length, removed);
    const moved = withSheet(this.#state, sheet, (item) => ({
      ...item,
      rows: item.rows.toSpliced(at, removed, ...added),
    }));
    const after = withContents(
      moved,
      [...texts].map(([place, content]) => ({ ...place, content })),
    );
    this.#do({ label, before: this.#state, after });
  }

  addColumn(sheet: string, header: string, kind: QuantityKind = 'text'): void {
    this.#change('add column', withColumnAdded(this.#state, sheet, { header, kind }));
  }

  /** Removes one of the user's own columns, the last ones first when formulas refer to what stands behind it. */
  removeColumn(sheet: string, column: number): void {
    const own = this.#ownPosition(sheet, column);
    if (own < 0) throw new Error('only your own columns can be removed');
    this.#change('remove column', withColumnRemoved(this.#state, sheet, own, column));
  }

  renameColumn(sheet: string, column: number, header: string): void {
    this.#change('rename column', withColumnRenamed(this.#state, sheet, this.#ownPosition(sheet, column), header));
  }

  /** A column's position among the user's own; below 0 for a declared one. */
  #ownPosition(sheet: string, column: number): number {
    return column - (compiledSheets.get(sheet)?.columns.length ?? 0);
  }

  /** Adds a free sheet with lettered columns. */
  addSheet(name: string, columns = 12, rows = 40): void {
    this.#change('add sheet', withFreeSheet(this.#state, name, columns, rows));
  }

  removeSheet(name: string): void {
    if (compiledSheets.has(name)) throw new Error(`the sheet ${name} belongs to the book`);
    this.#change('remove sheet', { ...this.#state, sheets: this.#state.sheets.filter((sheet) => sheet.name !== name) });
  }

  /** Puts a whole other state in place, as an import does; one step to undo. */
  replace(state: BookState, label: string): void {
    this.#change(label, state);
  }

  /** Turns the book to the other unit system; formulas stay, and those with numbers of their own are listed. */
  convert(units: UnitSystem): UnitReview[] {
    const { state, review } = convertedBook(this.#state, units);
    if (state !== this.#state) this.#change(`convert to ${units === 'us' ? 'US customary' : 'metric'} units`, state);
    return review;
  }

  #change(label: string, after: BookState): void {
    this.#do({ label, before: this.#state, after });
  }

  #do(step: Step): void {
    this.#go(step.after, step.cells);
    this.#done.push(step);
    if (this.#done.length > mostSteps) this.#done.shift();
    this.#undone = [];
  }

  #go(state: BookState, cells: readonly CellPlace[] | undefined): void {
    this.#state = state;
    if (cells === undefined) {
      this.#calculation.destroy();
      this.#calculation = new Calculation(state);
    }
    const change: BookChange = cells === undefined ? { cells: 'all' } : this.#calculation.edit(state, cells);
    for (const listener of this.#listeners) listener(change);
  }

  /** Gives the engine's memory back; the book is not used any more. */
  destroy(): void {
    this.#calculation.destroy();
  }

  /** What undo would take back, if anything. */
  get undoable(): string | undefined {
    return this.#done.at(-1)?.label;
  }

  get redoable(): string | undefined {
    return this.#undone.at(-1)?.label;
  }

  /** Takes the last step back; returns the cells it touched, for the view to go to. */
  undo(): readonly CellPlace[] {
    const step = this.#done.pop();
    if (step === undefined) return [];
    this.#undone.push(step);
    this.#go(step.before, step.cells);
    return step.cells ?? [];
  }

  redo(): readonly CellPlace[] {
    const step = this.#undone.pop();
    if (step === undefined) return [];
    this.#done.push(step);
    this.#go(step.after, step.cells);
    return step.cells ?? [];
  }
}
