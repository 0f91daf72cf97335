import { type Content, Engine, isFormula, type Place } from '../formula/engine.ts';
import { Fault, isFault, type Matrix, type Value } from '../formula/values.ts';
import { functions } from '../functions/index.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { circularCells } from './circles.ts';
import { bookColumns, type BookColumn, computingSheets, namedSheetOf, plans } from './layout.ts';
import { Records } from './records.ts';
import { rectangles } from './rectangles.ts';
import { cellFormula, columnLetters, quotedSheet, sheetRow } from './sheet-plan.ts';
import type { BookState, SheetState } from './state.ts';

/** A cell of the book: records count from 0, columns from 0 in the sheet's order. */
export interface CellPlace {
  readonly sheet: string;
  readonly record: number;
  readonly column: number;
}

/** What a change did, for views: the cells whose values moved, or that everything may have. */
export interface BookChange {
  readonly cells: readonly CellPlace[] | 'all';
}

/** Rounds of engine and row formulas after which formulas that still move are taken to chase each other. */
const mostRounds = 50;
/** From this many changed records on, a sheet's computed columns go to the engine as one rectangle. */
const manyRecords = 64;

const same = (left: Value, right: Value): boolean =>
  left === right || (isFault(left) && isFault(right) && left.code === right.code && left.message === right.message);

interface Dirty {
  readonly records: Map<string, Set<number> | 'all'>;
  names: boolean;
}

const nothingDirty = (): Dirty => ({ records: new Map(), names: false });

/**
 * The values of a book's state.
 *
 * Sheets' own formulas run as compiled rows; what users typed (formulas in inputs, overrides, own columns, free sheets)
 * is evaluated by the engine, which holds every cell's value so that such a formula may refer to any of them. After a
 * change the two take turns until nothing moves.
 */
export class Calculation {
  #state: BookState;
  readonly #engine: Engine;
  readonly #records = new Records(plans);
  readonly #formulaCells = new Map<string, CellPlace>();
  #circular = new Set<string>();

  constructor(state: BookState) {
    this.#state = state;
    for (const sheet of state.sheets) this.#load(sheet);
    this.#loadNames();
    const dirty: Dirty = { records: new Map(computingSheets.map(({ declaration }) => [declaration.name, 'all'])), names: true };
    this.#computeRows(dirty);
    this.#engine = Engine.build(
      functions,
      state.sheets.map((sheet) => ({ name: sheet.name, rows: [bookColumns(sheet).map(({ header }) => header), ...sheet.rows.map((_, record) => this.#engineRow(sheet, record))] })),
      this.#names(),
    );
    if (this.#formulaCells.size > 0) {
      this.#circular = circularCells([...this.#formulaCells.values()], this.#state);
      this.#settle(this.#readFormulas([...this.#formulaCells.values()]));
    }
  }

  #names(): { name: string; reference: string }[] {
    return this.#state.sheets.flatMap((sheet) =>
      namedSheetOf(sheet.name) === undefined
        ? []
        : sheet.rows.flatMap((row, record) => {
            const name = row.cells[0];
            return typeof name === 'string' && name !== '' ? [{ name, reference: `${quotedSheet(sheet.name)}!$${columnLetters(valueColumn)}$${sheetRow(record)}` }] : [];
          }),
    );
  }

  #load(sheet: SheetState): void {
    const width = bookColumns(sheet).length;
    const values = this.#records.sheet(sheet.name);
    values.length = 0;
    sheet.rows.forEach((row, record) => {
      const own: Value[] = [];
      for (let column = 0; column < width; column += 1) {
        const content = row.cells[column] ?? null;
        if (isFormula(content)) this.#formulaCells.set(key({ sheet: sheet.name, record, column }), { sheet: sheet.name, record, column });
        own.push(isFormula(content) ? null : content);
      }
      values.push(own);
    });
  }

  #loadNames(): void {
    for (const sheet of this.#state.sheets) {
      if (namedSheetOf(sheet.name) === undefined) continue;
      sheet.rows.forEach((row, record) => {
        if (typeof row.cells[0] === 'string') this.#records.name(row.cells[0], this.#records.value(sheet.name, record, valueColumn));
      });
    }
  }

  #sheet(name: string): SheetState {
    const sheet = this.#state.sheets.find((item) => item.name === name);
    if (sheet === undefined) throw new Error(`the book has no sheet ${name}`);
    return sheet;
  }

  #engineCell(sheet: SheetState, record: number, column: number): Content | Fault {
    const content = sheet.rows[record]?.cells[column] ?? null;
    return content !== null || plans.get(sheet.name)?.columns[column]?.formula === undefined ? content : this.#records.value(sheet.name, record, column);
  }

  #engineRow(sheet: SheetState, record: number, from = 0, to = bookColumns(sheet).length - 1): (Content | Fault)[] {
    const cells: (Content | Fault)[] = [];
    for (let column = from; column <= to; column += 1) cells.push(this.#engineCell(sheet, record, column));
    return cells;
  }

  /** Runs the compiled rows that are dirty; returns changed cells by sheet. */
  #computeRows(dirty: Dirty): Map<string, CellPlace[]> {
    const changed = new Map<string, CellPlace[]>();
    for (const plan of computingSheets) {
      const { name } = plan.declaration;
      const rows = this.#state.sheets.find((item) => item.name === name)?.rows ?? [];
      const lookedIntoMoved = [...plan.looksInto].some((other) => dirty.records.has(other) || changed.has(other));
      const all = lookedIntoMoved || (dirty.names && plan.usesNames) || dirty.records.get(name) === 'all';
      const some = dirty.records.get(name);
      if (plan.steps.length === 0 || (!all && some === undefined)) continue;
      const values = this.#records.sheet(name);
      const moved: CellPlace[] = [];
      for (const record of all || some === 'all' || some === undefined ? rows.keys() : some) {
        const row = values[record];
        const contents = rows[record]?.cells;
        if (row === undefined || contents === undefined) continue;
        for (const { column, formula } of plan.steps) {
          if ((contents[column] ?? null) !== null) continue;
          const value = formula(row, this.#records) ?? 0;
          if (same(row[column] ?? null, value)) continue;
          row[column] = value;
          moved.push({ sheet: name, record, column });
        }
      }
      if (moved.length === 0) continue;
      this.#records.forget(name);
      changed.set(name, moved);
    }
    return changed;
  }

  /** Hands computed values to the engine; returns the places that followed. */
  #tellEngine(changed: ReadonlyMap<string, readonly CellPlace[]>): Place[] {
    const places: Place[] = [];
    for (const [name, cells] of changed) {
      const sheet = this.#sheet(name);
      const columns = new Set(cells.map(({ column }) => column));
      const [from, to] = [Math.min(...columns), Math.max(...columns)];
      const records = [...new Set(cells.map(({ record }) => record))].toSorted((a, b) => a - b);
      if (records.length >= manyRecords) {
        places.push(...this.#engine.set({ sheet: name, row: 1, column: from }, sheet.rows.map((_, record) => this.#engineRow(sheet, record, from, to))));
      } else {
        places.push(...this.#engine.setAll(records.map((record) => ({ place: { sheet: name, row: record + 1, column: from }, rows: [this.#engineRow(sheet, record, from, to)] }))));
      }
    }
    return places;
  }

  /** Takes formulas' values over from the engine; what moved makes its record dirty. */
  #readFormulas(places: readonly CellPlace[], moved: CellPlace[] = []): Dirty {
    const dirty = nothingDirty();
    for (const place of places) {
      const { sheet, record, column } = place;
      const formula = this.#formulaCells.has(key(place));
      const value = this.#circular.has(key(place)) ? new Fault('#CYCLE!', 'the formula depends on its own result') : this.#engine.value({ sheet, row: record + 1, column });
      if (!formula && plans.get(sheet)?.columns[column]?.formula !== undefined) continue;
      if (same(this.#records.value(sheet, record, column), value)) continue;
      this.#records.store(sheet, record, column, value);
      moved.push(place);
      this.#soil(dirty, place);
    }
    return dirty;
  }

  #soil(dirty: Dirty, { sheet, record, column }: CellPlace): void {
    if (namedSheetOf(sheet) !== undefined) {
      const name = this.#sheet(sheet).rows[record]?.cells[0];
      if (column === valueColumn && typeof name === 'string') {
        this.#records.name(name, this.#records.value(sheet, record, column));
        dirty.names = true;
      }
      return;
    }
    if (!plans.has(sheet)) return;
    const set = dirty.records.get(sheet);
    if (set === undefined) dirty.records.set(sheet, new Set([record]));
    else if (set !== 'all') set.add(record);
  }

  #settle(first: Dirty, moved: CellPlace[] = []): CellPlace[] {
    let dirty = first;
    for (let round = 0; round < mostRounds && (dirty.names || dirty.records.size > 0); round += 1) {
      const changed = this.#computeRows(dirty);
      for (const cells of changed.values()) for (const cell of cells) moved.push(cell);
      const followed = this.#tellEngine(changed);
      dirty = this.#formulaCells.size === 0 ? nothingDirty() : this.#readFormulas(this.#formulaPlaces(followed), moved);
    }
    return moved;
  }

  #formulaPlaces(places: readonly Place[]): CellPlace[] {
    return places.flatMap(({ sheet, row, column }) => (row === 0 || (plans.get(sheet)?.columns[column]?.formula !== undefined && !this.#formulaCells.has(key({ sheet, record: row - 1, column }))) ? [] : [{ sheet, record: row - 1, column }]));
  }

  /** Moves to a state of the same shape (sheets, columns, numbers of rows), of which only `cells` differ. */
  edit(state: BookState, cells: readonly CellPlace[]): BookChange {
    this.#state = state;
    const moved: CellPlace[] = [...cells];
    const dirty = nothingDirty();
    let formulasMoved = false;
    for (const place of cells) {
      const content = this.#sheet(place.sheet).rows[place.record]?.cells[place.column] ?? null;
      formulasMoved ||= isFormula(content) || this.#formulaCells.has(key(place));
      if (isFormula(content)) this.#formulaCells.set(key(place), place);
      else {
        this.#formulaCells.delete(key(place));
        this.#records.store(place.sheet, place.record, place.column, content);
      }
      this.#soil(dirty, place);
    }
    const followed = this.#engine.setAll(
      rectangles(cells).map(({ sheet, record, column, records, columns }) => ({
        place: { sheet, row: record + 1, column },
        rows: Array.from({ length: records }, (_, down) => this.#engineRow(this.#sheet(sheet), record + down, column, column + columns - 1)),
      })),
    );
    if (formulasMoved) this.#circular = circularCells([...this.#formulaCells.values()], this.#state);
    const read = formulasMoved ? [...this.#formulaCells.values()] : this.#formulaPlaces(followed);
    const more = this.#readFormulas(read, moved);
    merge(dirty, more);
    return { cells: this.#settle(dirty, moved) };
  }

  value({ sheet, record, column }: CellPlace): Value {
    return this.#records.value(sheet, record, column);
  }

  /** A named value's present value. */
  named(name: string): Value {
    return this.#records.named(name);
  }

  /** A record's values if some of its inputs were others: computed by the same rows, changing nothing. */
  whatIf(sheet: string, record: number, inputs: ReadonlyMap<number, Value>): Value[] {
    const plan = plans.get(sheet);
    const row = [...(this.#records.sheet(sheet)[record] ?? [])];
    for (const [column, value] of inputs) row[column] = value;
    for (const { column, formula } of plan?.steps ?? []) {
      if (!inputs.has(column) && (this.#sheet(sheet).rows[record]?.cells[column] ?? null) === null) row[column] = formula(row, this.#records) ?? 0;
    }
    return row;
  }

  /** The value of a formula that stands in no cell. */
  evaluate(formula: string): Value | Matrix {
    return this.#engine.evaluate(formula);
  }

  /** The cells that a formula's spill fills, beyond the declared and own columns of a sheet: everything the engine shows there. */
  engineValue({ sheet, record, column }: CellPlace): Value {
    return this.#engine.value({ sheet, row: record + 1, column });
  }

  /** Moves rows in the engine and gives all users' formulas as they then read, by place after the move. */
  moveRows(sheet: string, at: number, added: number, removed: number): Map<string, string> {
    if (removed > 0) this.#engine.removeRows(sheet, at + 1, removed);
    if (added > 0) this.#engine.addRows(sheet, at + 1, added);
    const texts = new Map<string, string>();
    for (const place of this.#formulaCells.values()) {
      if (place.sheet === sheet && place.record >= at && place.record < at + removed) continue;
      const record = place.sheet === sheet && place.record >= at ? place.record + added - removed : place.record;
      const text = this.#engine.content({ sheet: place.sheet, row: record + 1, column: place.column });
      if (typeof text === 'string') texts.set(key({ ...place, record }), text);
    }
    return texts;
  }

  /** Formulas that users typed, wherever they stand. */
  formulaCells(): readonly CellPlace[] {
    return [...this.#formulaCells.values()];
  }

  columns(sheet: string): BookColumn[] {
    return bookColumns(this.#sheet(sheet));
  }

  /** The formula behind a cell: what the user typed, or the sheet's own; undefined for a plain content. */
  formula({ sheet, record, column }: CellPlace): string | undefined {
    const content = this.#sheet(sheet).rows[record]?.cells[column] ?? null;
    if (content !== null) return isFormula(content) ? content : undefined;
    const plan = plans.get(sheet);
    const declared = plan?.columns[column];
    return plan === undefined || declared === undefined ? undefined : cellFormula(declared, record, plan, plans);
  }

  destroy(): void {
    this.#engine.destroy();
  }
}

export const key = ({ sheet, record, column }: CellPlace): string => `${sheet}!${record},${column}`;

function merge(dirty: Dirty, more: Dirty): void {
  dirty.names ||= more.names;
  for (const [sheet, records] of more.records) {
    const present = dirty.records.get(sheet);
    if (present === undefined || records === 'all') dirty.records.set(sheet, records);
    else if (present !== 'all') for (const record of records) present.add(record);
  }
}
