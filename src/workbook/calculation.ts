import { type BookChange, type CellPlace, placeKey } from './place.ts';
import { formulaExcess } from '../formula/formula-limits.ts';
import { Fault, isFormula, type Matrix, type Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import { CirclePaths } from './circle-paths.ts';
import { circularCells } from './circles.ts';
import { computedBlocks, fewestInBlock } from './computed-blocks.ts';
import { columnDependents, nameDependents } from './dependence.ts';
import { type Dirty, type DueStep, dueSteps, everything, mark, merge } from './dirty.ts';
import { EngineMirror } from './engine-mirror.ts';
import { bookColumns, computingRuns, computingSteps, compiledSheets } from './declared.ts';
import { BookNames } from './names.ts';
import { isSameValue } from './record-blocks.ts';
import { wholly } from './parts.ts';
import { Records } from './records.ts';
import { cellFormula } from './compiled-sheet.ts';
import { contentToday, isDayFormula } from './present-day.ts';
import { sheetRow } from '../formula/address.ts';
import { type BookState, contentAt, type SheetState } from './state.ts';
import { type ManySupposed, supposedColumns } from './supposed-blocks.ts';
import { type CasesAsked, SupposedCases } from './supposed-cases.ts';
import { kinRecords, supposedRow, type Supposition } from './supposition.ts';

/** Rounds of engine and row formulas after which formulas that still move are left as they are. */
const mostRounds = 50;

/** Formulas on circles whose ways are told: who has more begins with these. */
const mostTold = 20;

const computed = (sheet: string, column: number): boolean =>
  compiledSheets.get(sheet)?.columns[column]?.formula !== undefined;

/**
 * The values of a book's state.
 *
 * Sheets' own formulas run as compiled rows; what users typed (formulas in inputs, overrides, own columns, free sheets)
 * is evaluated by the engine, which holds the computed columns that such formulas refer to. After a change the two
 * take turns until nothing moves.
 */
export class Calculation {
  #state: BookState;
  readonly #names: BookNames;
  readonly #records = new Records(compiledSheets);
  readonly #formulaCells = new Map<string, CellPlace>();
  readonly #engine: EngineMirror;
  /** Formulas that depend on their own results, by place: by which way. */
  #circular = new Map<string, string>();
  /** Records whose computed cells hold something of the user's, by sheet and column. */
  readonly #filled = new Map<string, Map<number, Set<number>>>();
  /** Formulas that are too large to be computed, by place: why. */
  readonly #excess = new Map<string, Fault>();

  private constructor(state: BookState) {
    this.#state = state;
    this.#names = new BookNames(state);
    this.#engine = new EngineMirror(state, this.#names, this.#records);
  }

  /** Works a state out in one go. */
  static of(state: BookState): Calculation {
    return wholly(Calculation.inParts(state));
  }

  /** The same part by part, a few milliseconds each; users' formulas, which wait for each other, are one. */
  static *inParts(state: BookState): Generator<void, Calculation> {
    const made = new Calculation(state);
    for (const sheet of state.sheets) yield* made.#load(sheet);
    for (const place of made.#names.places) made.#records.name(place.name, made.value(place));
    yield* made.#computedRows(everything(computingSteps));
    if (made.#formulaCells.size > 0) made.#settle(made.#formulasMoved([]), []);
    return made;
  }

  *#load(sheet: SheetState): Generator<void, void> {
    const { name, rows } = sheet;
    const columns = bookColumns(sheet).map((_, column) => (computed(name, column) ? column : undefined));
    const filled = new Map<number, Set<number>>();
    this.#filled.set(name, filled);
    yield* this.#records.sheet(name).loading(rows.length, columns.length, (record, column) => {
      const content = rows[record]?.cells[column] ?? null;
      if (content === null) return null;
      if (columns[column] !== undefined) this.#fill({ sheet: name, record, column }, true);
      if (!isFormula(content)) return content;
      const place = { sheet: name, record, column };
      if (!isDayFormula(content)) this.#formulaCells.set(placeKey(place), place);
      const now = contentToday(content);
      return isFormula(now) ? null : now;
    });
  }

  /** Notes whether a computed cell holds something of the user's. */
  #fill({ sheet, record, column }: CellPlace, holds: boolean): void {
    const columns = this.#filled.get(sheet);
    if (columns === undefined || !computed(sheet, column)) return;
    const records = columns.get(column);
    if (!holds) records?.delete(record);
    else if (records === undefined) columns.set(column, new Set([record]));
    else records.add(record);
  }

  /** The cells that moved in the engine by others that did; none while there is no formula that could ask for them. */
  #putIntoEngine(cells: readonly CellPlace[]): CellPlace[] {
    if (!this.#engine.isBuilt && this.#formulaCells.size === 0) return [];
    return this.#engine.put(cells).map(({ sheet, row, column }) => ({ sheet, record: row - 1, column }));
  }

  /**
   * Works out the computed cells that are dirty; adds those that moved. Many records of a sheet are taken block by
   * block, a few one by one.
   */
  *#computedRows(dirty: Dirty, moved?: CellPlace[]): Generator<void, void> {
    for (const { sheet, steps } of computingRuns) {
      const columns = dirty.get(sheet);
      const due = columns === undefined ? [] : dueSteps(steps, columns);
      if (due.length === 0) continue;
      const { count } = this.#records.sheet(sheet);
      if (due.some(({ records }) => (records === 'all' ? count : records.size) >= fewestInBlock))
        yield* computedBlocks(this.#records, sheet, due, this.#filled.get(sheet), moved);
      else this.#computeRecords(sheet, due, moved);
      for (const step of due) if (step.moved) this.#records.forget(sheet, step.column);
    }
  }

  /** Works out what is due in a few records of a sheet. */
  #computeRecords(sheet: string, due: readonly DueStep[], moved: CellPlace[] | undefined): void {
    const values = this.#records.sheet(sheet);
    const filled = this.#filled.get(sheet);
    for (const step of due) {
      const { column, formula, records } = step;
      const taken = filled?.get(column);
      for (const record of records === 'all' ? this.#records.records(sheet) : records) {
        if (taken?.has(record) === true || record >= values.count) continue;
        const row = values.row(record);
        const value = formula(row, this.#records, sheetRow(record)) ?? 0;
        if (isSameValue(row[column] ?? null, value)) continue;
        values.store(record, column, value);
        step.moved = true;
        moved?.push({ sheet, record, column });
      }
    }
  }

  /** Marks what follows from a cell whose value moved. */
  #markFollowers(dirty: Dirty, { sheet, record, column }: CellPlace): void {
    const name = this.#names.at({ sheet, record, column });
    if (name !== undefined) this.#records.name(name, this.#records.value(sheet, record, column));
    for (const next of name === undefined ? columnDependents(sheet, column) : nameDependents(name)) {
      if (next.reach === 'kin')
        for (const kin of kinRecords(this.#records, next.sheet, { sheet, record }))
          mark(dirty, next.sheet, next.column, kin);
      else mark(dirty, next.sheet, next.column, next.reach === 'record' ? record : 'all');
    }
    if (computed(sheet, column)) mark(dirty, sheet, column, record);
  }

  /** Takes formulas' values over from the engine; adds what moved, returns what follows from it. */
  #readFormulas(places: readonly CellPlace[], moved: CellPlace[]): Dirty {
    const dirty: Dirty = new Map();
    for (const place of places) {
      const { sheet, record, column } = place;
      if (computed(sheet, column) && !this.#formulaCells.has(placeKey(place))) continue;
      const value = this.#circular.has(placeKey(place))
        ? new Fault('#CYCLE!', `the formula depends on its own result${this.#circular.get(placeKey(place)) ?? ''}`)
        : (this.#excess.get(placeKey(place)) ?? this.#engine.value(place));
      if (isSameValue(this.#records.value(sheet, record, column), value)) continue;
      this.#records.store(sheet, record, column, value);
      moved.push(place);
      this.#markFollowers(dirty, place);
    }
    return dirty;
  }

  /** After formulas came, went or changed: the engine holds what they refer to, circles are found, all are read. */
  #formulasMoved(moved: CellPlace[]): Dirty {
    const places = [...this.#formulaCells.values()];
    this.#excess.clear();
    const computable = places.filter((place) => {
      const excess = formulaExcess(String(contentAt(this.#state, place)));
      if (excess !== undefined) this.#excess.set(placeKey(place), new Fault('#ERROR!', excess));
      return excess === undefined;
    });
    for (const place of computable) this.#engine.holdUsed(String(contentAt(this.#state, place)), place.sheet);
    const circular = circularCells(computable, this.#state, this.#names);
    this.#circular = new Map([...circular].map((key) => [key, '']));
    if (circular.size > 0) {
      const paths = new CirclePaths(this.#state, this.#names, computable, (sheet, place) =>
        kinRecords(this.#records, sheet, place),
      );
      const told = computable.filter((place) => circular.has(placeKey(place))).slice(0, mostTold);
      for (const place of told) this.#circular.set(placeKey(place), paths.words(place));
    }
    return this.#readFormulas(places, moved);
  }

  #settle(first: Dirty, moved: CellPlace[]): void {
    let dirty = first;
    for (let round = 0; round < mostRounds && dirty.size > 0; round += 1) {
      const before = moved.length;
      wholly(this.#computedRows(dirty, moved));
      const followed = this.#putIntoEngine(moved.slice(before).filter((place) => this.#engine.holds(place)));
      dirty = this.#readFormulas(this.#formulasAmong(followed), moved);
    }
  }

  #formulasAmong(places: readonly CellPlace[]): CellPlace[] {
    return places.filter((place) => this.#formulaCells.has(placeKey(place)));
  }

  /** Moves to a state of the same shape (sheets, columns, numbers of rows), of which only `cells` differ. */
  edit(state: BookState, cells: readonly CellPlace[]): BookChange {
    this.#state = state;
    this.#engine.follow(state);
    const moved: CellPlace[] = [...cells];
    const dirty: Dirty = new Map();
    let formulas = false;
    for (const place of cells) {
      const content = contentToday(contentAt(this.#state, place));
      formulas ||= isFormula(content) || this.#formulaCells.has(placeKey(place));
      this.#fill(place, contentAt(this.#state, place) !== null);
      if (isFormula(content)) this.#formulaCells.set(placeKey(place), place);
      else {
        this.#formulaCells.delete(placeKey(place));
        this.#records.store(place.sheet, place.record, place.column, content);
      }
      this.#markFollowers(dirty, place);
    }
    const followed = this.#putIntoEngine(cells);
    merge(dirty, formulas ? this.#formulasMoved(moved) : this.#readFormulas(this.#formulasAmong(followed), moved));
    this.#settle(dirty, moved);
    return { cells: moved };
  }

  value({ sheet, record, column }: CellPlace): Value {
    return this.#records.value(sheet, record, column);
  }

  /** A named value's present value. */
  named(name: string): Value {
    return this.#records.named(name);
  }

  /** A record's values under a supposition, computed by the same rows; changes nothing. */
  whatIf(sheet: string, record: number, supposition: Supposition): Value[] {
    return supposedRow(
      this.#records,
      { sheet, record },
      supposition,
      (place) => contentAt(this.#state, place) === null,
    );
  }

  /** The values of some columns, by column, of many records each under a supposition of its own. */
  whatIfs(asked: ManySupposed): Value[][] {
    const { sheet } = asked;
    return supposedColumns(this.#records, asked, this.#filled.get(sheet), ({ record, kind, values }) => {
      const { columns, names } = kind;
      return this.whatIf(sheet, record, {
        inputs: new Map(columns.map((column, index) => [column, values[index] ?? null])),
        named: new Map(names.map((name, index) => [name, values[columns.length + index] ?? null])),
      });
    });
  }

  /** A sheet made ready for suppositions of many cases at once; right until the book changes. */
  cases(asked: CasesAsked): SupposedCases {
    return new SupposedCases(this.#records, asked, (place) => contentAt(this.#state, place) === null);
  }

  /** The value of a part of a sheet's formula in one record. */
  partValue({ sheet, record }: CellPlace, formula: RowFormula): Value {
    return formula(this.#records.sheet(sheet).row(record), this.#records, sheetRow(record));
  }

  /** The value of a formula that stands in no cell. */
  evaluate(formula: string): Value | Matrix {
    return this.#engine.evaluate(formula);
  }

  /** What the engine shows in a cell: in a free sheet also what a neighbour's result fills. */
  engineValue(place: CellPlace): Value {
    return this.#engine.isBuilt ? this.#engine.value(place) : this.value(place);
  }

  /** The formula behind a cell: what the user typed, or the sheet's own; undefined for a plain content. */
  formula(place: CellPlace): string | undefined {
    const content = contentAt(this.#state, place);
    if (content !== null) return isFormula(content) ? content : undefined;
    const plan = compiledSheets.get(place.sheet);
    return plan === undefined ? undefined : cellFormula(place.column, place.record, plan, compiledSheets);
  }

  destroy(): void {
    this.#engine.destroy();
  }
}
