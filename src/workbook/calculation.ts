import { type BookChange, type CellPlace, placeKey } from './place.ts';
import { formulaExcess } from '../formula/formula-limits.ts';
import { Fault, isFault, isFormula, type Matrix, type Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import { CirclePaths } from './circle-paths.ts';
import { circularCells } from './circles.ts';
import { columnDependents, nameDependents } from './dependence.ts';
import { type Dirty, type DueStep, dueSteps, mark, merge } from './dirty.ts';
import { EngineMirror } from './engine-mirror.ts';
import { bookColumns, computingRuns, computingSteps, compiledSheets } from './declared.ts';
import { BookNames } from './names.ts';
import { Records } from './records.ts';
import { cellFormula } from './compiled-sheet.ts';
import { contentToday, isDayFormula } from './present-day.ts';
import { sheetRow } from '../formula/address.ts';
import { type BookState, contentAt, sheetOf, type SheetState } from './state.ts';
import { type CasesAsked, SupposedCases } from './supposed-cases.ts';
import { kinRecords, supposedRow, type Supposition } from './supposition.ts';

/** Every computed cell there is. */
function everything(): Dirty {
  const dirty: Dirty = new Map();
  for (const { plan, column } of computingSteps) mark(dirty, plan.declaration.name, column, 'all');
  return dirty;
}

/** Rounds of engine and row formulas after which formulas that still move are left as they are. */
const mostRounds = 50;

/** Formulas on circles whose ways are told: who has more begins with these. */
const mostTold = 20;

const same = (left: Value, right: Value): boolean =>
  left === right || (isFault(left) && isFault(right) && left.code === right.code && left.message === right.message);

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
  /** Formulas that are too large to be computed, by place: why. */
  readonly #excess = new Map<string, Fault>();

  constructor(state: BookState) {
    this.#state = state;
    this.#names = new BookNames(state);
    this.#engine = new EngineMirror(state, this.#names, this.#records);
    for (const sheet of state.sheets) this.#load(sheet);
    for (const place of this.#names.places) this.#records.name(place.name, this.value(place));
    this.#computeRows(everything());
    if (this.#formulaCells.size > 0) this.#settle(this.#formulasMoved([]), []);
  }

  #load(sheet: SheetState): void {
    const width = bookColumns(sheet).length;
    const values = this.#records.sheet(sheet.name);
    sheet.rows.forEach((row, record) => {
      const own: Value[] = [];
      for (let column = 0; column < width; column += 1) {
        const content = row.cells[column] ?? null;
        if (isFormula(content) && !isDayFormula(content))
          this.#formulaCells.set(placeKey({ sheet: sheet.name, record, column }), {
            sheet: sheet.name,
            record,
            column,
          });
        const now = contentToday(content);
        own.push(isFormula(now) ? null : now);
      }
      values.push(own);
    });
  }

  /** The cells that moved in the engine by others that did; none while there is no formula that could ask for them. */
  #putIntoEngine(cells: readonly CellPlace[]): CellPlace[] {
    if (!this.#engine.isBuilt && this.#formulaCells.size === 0) return [];
    return this.#engine.put(cells).map(({ sheet, row, column }) => ({ sheet, record: row - 1, column }));
  }

  /**
   * Runs the compiled rows that are dirty; adds the cells that moved.
   *
   * All records are taken one by one within a run of steps: a record's values then lie in the processor's cache while
   * they are worked on. A few records are taken step by step, without looking for them among all.
   */
  #computeRows(dirty: Dirty, moved?: CellPlace[]): void {
    for (const { sheet, steps } of computingRuns) {
      const columns = dirty.get(sheet);
      const due = columns === undefined ? [] : dueSteps(steps, columns);
      if (due.length === 0) continue;
      const { rows } = sheetOf(this.#state, sheet);
      const values = this.#records.sheet(sheet);
      const compute = (step: DueStep, record: number): void => {
        const { column, formula } = step;
        const [row, cells] = [values[record], rows[record]?.cells];
        if (row === undefined || cells === undefined || (cells[column] ?? null) !== null) return;
        const value = formula(row, this.#records, sheetRow(record)) ?? 0;
        if (same(row[column] ?? null, value)) return;
        row[column] = value;
        step.moved = true;
        moved?.push({ sheet, record, column });
      };
      if (due.some(({ records }) => records === 'all')) {
        for (const record of rows.keys()) {
          for (const step of due) {
            if (step.records === 'all' || step.records.has(record)) compute(step, record);
          }
        }
      } else {
        for (const step of due) {
          for (const record of step.records === 'all' ? [] : step.records) compute(step, record);
        }
      }
      for (const step of due) if (step.moved) this.#records.forget(sheet, step.column);
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
      if (same(this.#records.value(sheet, record, column), value)) continue;
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
      this.#computeRows(dirty, moved);
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

  /** A sheet made ready for suppositions of many cases at once; right until the book changes. */
  cases(asked: CasesAsked): SupposedCases {
    return new SupposedCases(this.#records, asked, (place) => contentAt(this.#state, place) === null);
  }

  /** The value of a part of a sheet's formula in one record. */
  partValue({ sheet, record }: CellPlace, formula: RowFormula): Value {
    return formula(this.#records.sheet(sheet)[record] ?? [], this.#records, sheetRow(record));
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
