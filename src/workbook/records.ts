import { recordInRow, sheetRow } from '../formula/address.ts';
import type { BookValues } from '../formula/kernel.ts';
import { Fault, isFault, type Value } from '../formula/values.ts';
import type { CompiledSheet } from './compiled-sheet.ts';

/** Sheet row numbers by what a column holds there. */
type Places = ReadonlyMap<string, readonly number[]>;

const nowhere: readonly number[] = [];

/** The values of all sheets' cells, and the look-ups that row formulas make in them. */
export class Records implements BookValues {
  /** Values by sheet, record and column. */
  readonly #values = new Map<string, Value[][]>();
  readonly #names = new Map<string, Value>();
  readonly #plans: ReadonlyMap<string, CompiledSheet>;
  /** Indexes by sheet and header, made when first asked for. */
  readonly #places = new Map<string, Map<string, Places>>();

  constructor(plans: ReadonlyMap<string, CompiledSheet>) {
    this.#plans = plans;
  }

  sheet(name: string): Value[][] {
    let rows = this.#values.get(name);
    if (rows === undefined) this.#values.set(name, (rows = []));
    return rows;
  }

  value(sheet: string, record: number, column: number): Value {
    return this.#values.get(sheet)?.[record]?.[column] ?? null;
  }

  store(sheet: string, record: number, column: number, value: Value): void {
    const rows = this.sheet(sheet);
    (rows[record] ??= [])[column] = value;
    this.forget(sheet, column);
  }

  name(name: string, value: Value): void {
    this.#names.set(name, value);
  }

  /** Look-ups in a column are made anew after its values changed. */
  forget(sheet: string, column: number): void {
    const indexes = this.#places.get(sheet);
    if (indexes === undefined) return;
    const header = this.#plans.get(sheet)?.columns[column]?.header;
    if (header !== undefined) indexes.delete(header);
  }

  readonly named = (name: string): Value => {
    const value = this.#names.get(name);
    return value === undefined ? new Fault('#NAME?', `there is no named value ${name}`) : value;
  };

  readonly cell = (sheet: string, header: string, row: number): Value => {
    if (row === 1) return header;
    const column = this.#plans.get(sheet)?.position.get(header);
    return column === undefined ? null : (this.#values.get(sheet)?.[recordInRow(row)]?.[column] ?? null);
  };

  readonly find = (sheet: string, header: string, value: Value): Value => foundFirst(this, sheet, header, value);

  readonly all = (sheet: string, header: string, value: Value): readonly number[] =>
    value === null || isFault(value) ? nowhere : (this.#index(sheet, header).get(matching(value)) ?? nowhere);

  #index(sheet: string, header: string): Places {
    const indexes = this.#places.get(sheet) ?? new Map<string, Places>();
    this.#places.set(sheet, indexes);
    const kept = indexes.get(header);
    if (kept !== undefined) return kept;
    const found = new Map<string, number[]>();
    for (let row = 1; row < this.sheet(sheet).length + 2; row += 1) {
      const item = this.cell(sheet, header, row);
      if (item === null || isFault(item)) continue;
      const word = matching(item);
      const rows = found.get(word);
      if (rows === undefined) found.set(word, [row]);
      else rows.push(row);
    }
    indexes.set(header, found);
    return found;
  }
}

const matching = (value: number | string | boolean): string =>
  typeof value === 'string' ? `t${value.toLowerCase()}` : `${typeof value}${String(value)}`;

/** The same values but for some rows and named values: what a what-if sees. */
export class SupposedValues implements BookValues {
  readonly #book: Records;
  readonly #plans: ReadonlyMap<string, CompiledSheet>;
  readonly #named: ReadonlyMap<string, Value>;
  readonly #rows = new Map<string, Map<number, Value[]>>();

  constructor(book: Records, plans: ReadonlyMap<string, CompiledSheet>, named: ReadonlyMap<string, Value>) {
    this.#book = book;
    this.#plans = plans;
    this.#named = named;
  }

  /** A record's own copy of its values, to be changed. */
  row(sheet: string, record: number): Value[] {
    const rows = this.#rows.get(sheet) ?? new Map<number, Value[]>();
    this.#rows.set(sheet, rows);
    let row = rows.get(record);
    if (row === undefined) rows.set(record, (row = [...(this.#book.sheet(sheet)[record] ?? [])]));
    return row;
  }

  readonly named = (name: string): Value =>
    this.#named.has(name) ? (this.#named.get(name) ?? null) : this.#book.named(name);

  readonly cell = (sheet: string, header: string, row: number): Value => {
    const supposed = this.#rows.get(sheet)?.get(recordInRow(row));
    return supposed === undefined
      ? this.#book.cell(sheet, header, row)
      : (supposed[this.#plans.get(sheet)?.position.get(header) ?? -1] ?? null);
  };

  readonly find = (sheet: string, header: string, value: Value): Value =>
    this.#rows.has(sheet) ? foundFirst(this, sheet, header, value) : this.#book.find(sheet, header, value);

  readonly all = (sheet: string, header: string, value: Value): readonly number[] => {
    const supposed = this.#rows.get(sheet);
    const found = this.#book.all(sheet, header, value);
    if (supposed === undefined || value === null || isFault(value)) return found;
    const word = matching(value);
    const moved = [...supposed.keys()]
      .map((record) => sheetRow(record))
      .filter((row) => {
        const held = this.cell(sheet, header, row);
        return held !== null && !isFault(held) && matching(held) === word;
      });
    return [...found.filter((row) => !supposed.has(recordInRow(row))), ...moved].toSorted((one, other) => one - other);
  };
}

/** The first row that holds a value, or why there is none. */
function foundFirst(book: BookValues, sheet: string, header: string, value: Value): Value {
  if (value === null || isFault(value))
    return value ?? new Fault('#N/A', `${header} is missing, so nothing can be looked up in the sheet ${sheet}`);
  return (
    book.all(sheet, header, value)[0] ??
    new Fault('#N/A', `"${String(value)}" is not in the column ${header} of the sheet ${sheet}`)
  );
}
