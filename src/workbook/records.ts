import { recordInRow, sheetRow } from '../formula/address.ts';
import type { BookValues } from '../formula/kernel.ts';
import { Fault, isFault, type Value } from '../formula/values.ts';
import type { CompiledSheet } from './compiled-sheet.ts';
import { RecordBlocks } from './record-blocks.ts';

/** Sheet row numbers by what a column holds there. */
type Places = ReadonlyMap<string, readonly number[]>;

const nowhere: readonly number[] = [];

/** The values of all sheets' cells, and the look-ups that row formulas make in them. */
export class Records implements BookValues {
  readonly #values = new Map<string, RecordBlocks>();
  readonly #names = new Map<string, Value>();
  readonly #plans: ReadonlyMap<string, CompiledSheet>;
  /** Indexes by sheet and header, made when first asked for. */
  readonly #places = new Map<string, Map<string, Places>>();

  constructor(plans: ReadonlyMap<string, CompiledSheet>) {
    this.#plans = plans;
  }

  sheet(name: string): RecordBlocks {
    let blocks = this.#values.get(name);
    if (blocks === undefined) this.#values.set(name, (blocks = new RecordBlocks()));
    return blocks;
  }

  value(sheet: string, record: number, column: number): Value {
    return this.#values.get(sheet)?.value(record, column) ?? null;
  }

  store(sheet: string, record: number, column: number, value: Value): void {
    this.sheet(sheet).store(record, column, value);
    this.forget(sheet, column);
  }

  /** Every record of a sheet. */
  records(sheet: string): Iterable<number> {
    return Array.from({ length: this.sheet(sheet).count }).keys();
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
    return column === undefined ? null : this.value(sheet, recordInRow(row), column);
  };

  /** Values of a column by sheet row, as `cell` has them. */
  reader(sheet: string, header: string): (row: number) => Value {
    const column = this.#plans.get(sheet)?.position.get(header);
    const values = this.#values.get(sheet);
    return (row) =>
      row === 1 ? header : column === undefined ? null : (values?.value(recordInRow(row), column) ?? null);
  }

  readonly find = (sheet: string, header: string, value: Value): Value => foundFirst(this, sheet, header, value);

  readonly all = (sheet: string, header: string, value: Value): readonly number[] =>
    value === null || isFault(value) ? nowhere : (this.#index(sheet, header).get(matching(value)) ?? nowhere);

  #index(sheet: string, header: string): Places {
    const indexes = this.#places.get(sheet) ?? new Map<string, Places>();
    this.#places.set(sheet, indexes);
    const kept = indexes.get(header);
    if (kept !== undefined) return kept;
    const found = new Map<string, number[]>();
    for (let row = 1; row < this.sheet(sheet).count + 2; row += 1) {
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
export abstract class OverlaidValues implements BookValues {
  readonly #book: Records;
  readonly #plans: ReadonlyMap<string, CompiledSheet>;

  constructor(book: Records, plans: ReadonlyMap<string, CompiledSheet>) {
    this.#book = book;
    this.#plans = plans;
  }

  /** A named value that is another; undefined where the book's holds. */
  protected abstract otherName(name: string): Value | undefined;

  /** The records of a sheet that have other values; undefined where none has. */
  protected abstract otherRecords(sheet: string): Iterable<number> | undefined;

  /** A value of a record; undefined where the book's holds. */
  protected abstract otherValue(sheet: string, record: number, column: number): Value | undefined;

  readonly named = (name: string): Value => {
    const other = this.otherName(name);
    return other === undefined ? this.#book.named(name) : other;
  };

  readonly cell = (sheet: string, header: string, row: number): Value => {
    const other = this.otherValue(sheet, recordInRow(row), this.#plans.get(sheet)?.position.get(header) ?? -1);
    return other === undefined ? this.#book.cell(sheet, header, row) : other;
  };

  readonly find = (sheet: string, header: string, value: Value): Value =>
    this.otherRecords(sheet) === undefined
      ? this.#book.find(sheet, header, value)
      : foundFirst(this, sheet, header, value);

  readonly all = (sheet: string, header: string, value: Value): readonly number[] => {
    const others = this.otherRecords(sheet);
    const found = this.#book.all(sheet, header, value);
    if (others === undefined || value === null || isFault(value)) return found;
    const word = matching(value);
    const supposed = new Set(others);
    const moved = [...supposed]
      .map((record) => sheetRow(record))
      .filter((row) => {
        const held = this.cell(sheet, header, row);
        return held !== null && !isFault(held) && matching(held) === word;
      });
    return [...found.filter((row) => !supposed.has(recordInRow(row))), ...moved].toSorted((one, other) => one - other);
  };
}

/** One supposition's values. */
export class SupposedValues extends OverlaidValues {
  readonly #base: Records;
  readonly #named: ReadonlyMap<string, Value>;
  readonly #rows = new Map<string, Map<number, Value[]>>();

  constructor(book: Records, plans: ReadonlyMap<string, CompiledSheet>, named: ReadonlyMap<string, Value>) {
    super(book, plans);
    this.#base = book;
    this.#named = named;
  }

  /** A record's own copy of its values, to be changed. */
  row(sheet: string, record: number): Value[] {
    const rows = this.#rows.get(sheet) ?? new Map<number, Value[]>();
    this.#rows.set(sheet, rows);
    let row = rows.get(record);
    if (row === undefined) rows.set(record, (row = [...this.#base.sheet(sheet).row(record)]));
    return row;
  }

  protected otherName(name: string): Value | undefined {
    return this.#named.get(name);
  }

  protected otherRecords(sheet: string): Iterable<number> | undefined {
    return this.#rows.get(sheet)?.keys();
  }

  protected otherValue(sheet: string, record: number, column: number): Value | undefined {
    const row = this.#rows.get(sheet)?.get(record);
    return row === undefined ? undefined : (row[column] ?? null);
  }
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
