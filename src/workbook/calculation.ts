import { type BookChange, type CellPlace, placeKey } from './place.ts';
import { Engine, type Place } from '../formula/engine.ts';
import { type Content, Fault, isFault, isFormula, type Matrix, type Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import { usedBy } from '../formula/references.ts';
import { functions } from '../functions/index.ts';
import { circularCells } from './circles.ts';
import { columnDependents, nameDependents } from './dependence.ts';
import { type Dirty, mark, merge } from './dirty.ts';
import { type DueStep, dueSteps } from './due-steps.ts';
import { bookColumns, computingRuns, computingSteps, compiledSheets } from './declared.ts';
import { BookNames } from './names.ts';
import { rectangles } from './rectangles.ts';
import { Records } from './records.ts';
import { cellFormula } from './compiled-sheet.ts';
import { columnLetters, quotedSheet, sheetRow } from '../formula/address.ts';
import type { BookState, SheetState } from './state.ts';
import { kinRecords, supposedRow, type Supposition } from './supposition.ts';

/** Every computed cell there is. */
function everything(): Dirty {
  const dirty: Dirty = new Map();
  for (const { plan, column } of computingSteps) mark(dirty, plan.declaration.name, column, 'all');
  return dirty;
}

/** Rounds of engine and row formulas after which formulas that still move are left as they are. */
const mostRounds = 50;

const same = (left: Value, right: Value): boolean =>
  left === right || (isFault(left) && isFault(right) && left.code === right.code && left.message === right.message);

const computed = (sheet: string, column: number): boolean =>
  compiledSheets.get(sheet)?.columns[column]?.formula !== undefined;

/**
 * The values of a book's state.
 *
 * Sheets' own formulas run as compiled rows; what users typed (formulas in inputs, overrides, own columns, free sheets)
 * is evaluated by the engine, which is told the computed columns that such formulas refer to. After a change the two
 * take turns until nothing moves. The engine's graph of a large book takes as long to build as the rows take to
 * compute, so it is built when the first formula is there.
 */
export class Calculation {
  #state: BookState;
  #built: Engine | undefined;
  readonly #names: BookNames;
  readonly #records = new Records(compiledSheets);
  readonly #formulaCells = new Map<string, CellPlace>();
  #circular = new Set<string>();
  /** Computed columns, by sheet, whose values the engine holds because a formula refers to them. */
  readonly #told = new Map<string, Set<number>>();

  constructor(state: BookState) {
    this.#state = state;
    this.#names = new BookNames(state);
    for (const sheet of state.sheets) this.#load(sheet);
    for (const place of this.#names.places) this.#records.name(place.name, this.value(place));
    this.#computeRows(everything());
    if (this.#formulaCells.size > 0) this.#settle(this.#formulasMoved([]), []);
  }

  /** The engine, which knows all contents from when it is first asked for. */
  get #engine(): Engine {
    this.#built ??= Engine.build(
      functions,
      this.#state.sheets.map((sheet) => ({
        name: sheet.name,
        rows: [bookColumns(sheet).map(({ header }) => header), ...sheet.rows.map(({ cells }) => cells)],
      })),
      this.#names.places.map(({ name, sheet, record, column }) => ({
        name,
        reference: `${quotedSheet(sheet)}!$${columnLetters(column)}$${sheetRow(record)}`,
      })),
    );
    return this.#built;
  }

  #load(sheet: SheetState): void {
    const width = bookColumns(sheet).length;
    const values = this.#records.sheet(sheet.name);
    sheet.rows.forEach((row, record) => {
      const own: Value[] = [];
      for (let column = 0; column < width; column += 1) {
        const content = row.cells[column] ?? null;
        if (isFormula(content))
          this.#formulaCells.set(placeKey({ sheet: sheet.name, record, column }), {
            sheet: sheet.name,
            record,
            column,
          });
        own.push(isFormula(content) ? null : content);
      }
      values.push(own);
    });
  }

  #sheet(name: string): SheetState {
    const sheet = this.#state.sheets.find((item) => item.name === name);
    if (sheet === undefined) throw new Error(`the book has no sheet ${name}`);
    return sheet;
  }

  #content({ sheet, record, column }: CellPlace): Content {
    return this.#sheet(sheet).rows[record]?.cells[column] ?? null;
  }

  /** A row's cells as the engine holds them: contents, and in the columns it is told, computed values. */
  #engineRow(sheet: SheetState, record: number, from: number, count: number): (Content | Fault)[] {
    const told = this.#told.get(sheet.name);
    return Array.from({ length: count }, (_, offset) => {
      const column = from + offset;
      const content = sheet.rows[record]?.cells[column] ?? null;
      return content === null && told?.has(column) === true ? this.#records.value(sheet.name, record, column) : content;
    });
  }

  #tell(cells: readonly CellPlace[]): Place[] {
    // An engine that no formula has asked for yet learns all contents when one does.
    if (cells.length === 0 || (this.#built === undefined && this.#formulaCells.size === 0)) return [];
    return this.#engine.setAll(
      rectangles(cells).map(({ sheet, record, column, records, columns }) => ({
        place: { sheet, row: record + 1, column },
        rows: Array.from({ length: records }, (_, down) =>
          this.#engineRow(this.#sheet(sheet), record + down, column, columns),
        ),
      })),
    );
  }

  /**
   * Tells the engine the computed columns that a formula refers to; a formula that can't be read may mean any of them.
   */
  #tellColumns(formula: string, sheet: string): void {
    const areas = usedBy(formula)?.areas;
    for (const { declaration, steps } of compiledSheets.values()) {
      const told = this.#told.get(declaration.name) ?? new Set();
      this.#told.set(declaration.name, told);
      const rows = this.#sheet(declaration.name).rows;
      for (const { column } of steps) {
        const meant =
          areas === undefined ||
          areas.some(
            (area) =>
              (area.sheet ?? sheet).toLowerCase() === declaration.name.toLowerCase() &&
              column >= area.left &&
              column <= area.right,
          );
        if (!meant || told.has(column)) continue;
        told.add(column);
        this.#tell(Array.from(rows, (_, record) => ({ sheet: declaration.name, record, column })));
      }
    }
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
      const { rows } = this.#sheet(sheet);
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
  #soil(dirty: Dirty, { sheet, record, column }: CellPlace): void {
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
        ? new Fault('#CYCLE!', 'the formula depends on its own result')
        : this.#engine.value({ sheet, row: record + 1, column });
      if (same(this.#records.value(sheet, record, column), value)) continue;
      this.#records.store(sheet, record, column, value);
      moved.push(place);
      this.#soil(dirty, place);
    }
    return dirty;
  }

  /** After formulas came, went or changed: what they refer to is told, circles are found, all are read. */
  #formulasMoved(moved: CellPlace[]): Dirty {
    const places = [...this.#formulaCells.values()];
    for (const place of places) this.#tellColumns(String(this.#content(place)), place.sheet);
    this.#circular = circularCells(places, this.#state, this.#names);
    return this.#readFormulas(places, moved);
  }

  #settle(first: Dirty, moved: CellPlace[]): void {
    let dirty = first;
    for (let round = 0; round < mostRounds && dirty.size > 0; round += 1) {
      const before = moved.length;
      this.#computeRows(dirty, moved);
      const followed = this.#tell(
        moved.slice(before).filter(({ sheet, column }) => this.#told.get(sheet)?.has(column)),
      );
      dirty = this.#readFormulas(this.#formulaPlaces(followed), moved);
    }
  }

  #formulaPlaces(places: readonly Place[]): CellPlace[] {
    return places.flatMap(({ sheet, row, column }) => {
      const place = { sheet, record: row - 1, column };
      return this.#formulaCells.has(placeKey(place)) ? [place] : [];
    });
  }

  /** Moves to a state of the same shape (sheets, columns, numbers of rows), of which only `cells` differ. */
  edit(state: BookState, cells: readonly CellPlace[]): BookChange {
    this.#state = state;
    const moved: CellPlace[] = [...cells];
    const dirty: Dirty = new Map();
    let formulas = false;
    for (const place of cells) {
      const content = this.#content(place);
      formulas ||= isFormula(content) || this.#formulaCells.has(placeKey(place));
      if (isFormula(content)) this.#formulaCells.set(placeKey(place), place);
      else {
        this.#formulaCells.delete(placeKey(place));
        this.#records.store(place.sheet, place.record, place.column, content);
      }
      this.#soil(dirty, place);
    }
    const followed = this.#tell(cells);
    merge(dirty, formulas ? this.#formulasMoved(moved) : this.#readFormulas(this.#formulaPlaces(followed), moved));
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
    return supposedRow(this.#records, { sheet, record }, supposition, (place) => this.#content(place) === null);
  }

  /** The value of a part of a sheet's formula in one record. */
  partValue({ sheet, record }: CellPlace, formula: RowFormula): Value {
    return formula(this.#records.sheet(sheet)[record] ?? [], this.#records, sheetRow(record));
  }

  /** The value of a formula that stands in no cell. */
  evaluate(formula: string): Value | Matrix {
    const engine = this.#engine;
    this.#tellColumns(formula, this.#state.sheets[0]?.name ?? '');
    return engine.evaluate(formula);
  }

  /** What the engine shows in a cell: in a free sheet also what a neighbour's result fills. */
  engineValue({ sheet, record, column }: CellPlace): Value {
    return this.#built === undefined
      ? this.#records.value(sheet, record, column)
      : this.#built.value({ sheet, row: record + 1, column });
  }

  /** Moves rows in the engine and gives all users' formulas as they then read, by place after the move. */
  moveRows(sheet: string, at: number, added: number, removed: number): Map<CellPlace, string> {
    const texts = new Map<CellPlace, string>();
    if (this.#built === undefined) return texts;
    if (removed > 0) this.#built.removeRows(sheet, at + 1, removed);
    if (added > 0) this.#built.addRows(sheet, at + 1, added);
    for (const place of this.#formulaCells.values()) {
      if (place.sheet === sheet && place.record >= at && place.record < at + removed) continue;
      const record = place.sheet === sheet && place.record >= at ? place.record + added - removed : place.record;
      const text = this.#built.content({ sheet: place.sheet, row: record + 1, column: place.column });
      if (typeof text === 'string') texts.set({ ...place, record }, text);
    }
    return texts;
  }

  /** The formula behind a cell: what the user typed, or the sheet's own; undefined for a plain content. */
  formula(place: CellPlace): string | undefined {
    const content = this.#content(place);
    if (content !== null) return isFormula(content) ? content : undefined;
    const plan = compiledSheets.get(place.sheet);
    return plan === undefined ? undefined : cellFormula(place.column, place.record, plan, compiledSheets);
  }

  destroy(): void {
    this.#built?.destroy();
  }
}
