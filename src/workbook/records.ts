import type { BookValues } from '../formula/kernel.ts';
import { Fault, isFault, type Value } from '../formula/values.ts';
import type { SheetPlan } from './sheet-plan.ts';

/** The values of all sheets' cells, and the look-ups that row formulas make in them. */
export class Records implements BookValues {
  /** Values by sheet, record and column. */
  readonly #values = new Map<string, Value[][]>();
  readonly #names = new Map<string, Value>();
  readonly #plans: ReadonlyMap<string, SheetPlan>;
  /** Columns, and the places of their values, by sheet and header. */
  readonly #columns = new Map<string, Map<string, readonly Value[]>>();
  readonly #places = new Map<string, Map<string, ReadonlyMap<string, number>>>();

  constructor(plans: ReadonlyMap<string, SheetPlan>) {
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
    this.forget(sheet);
  }

  name(name: string, value: Value): void {
    this.#names.set(name, value);
  }

  /** Look-ups into a sheet are made anew after its values changed. */
  forget(sheet: string): void {
    this.#columns.delete(sheet);
    this.#places.delete(sheet);
  }

  /** The same values but for some named ones. */
  with(named: ReadonlyMap<string, Value>): BookValues {
    return { column: this.column, find: this.find, named: (name) => (named.has(name) ? (named.get(name) ?? null) : this.named(name)) };
  }

  readonly named = (name: string): Value => {
    const value = this.#names.get(name);
    return value === undefined ? new Fault('#NAME?', `there is no named value ${name}`) : value;
  };

  readonly column = (sheet: string, header: string): readonly Value[] => {
    const kept = this.#columns.get(sheet)?.get(header);
    if (kept !== undefined) return kept;
    const at = this.#plans.get(sheet)?.position.get(header) ?? -1;
    const values = [null, header, ...this.sheet(sheet).map((row) => row[at] ?? null)];
    keep(this.#columns, sheet, header, values);
    return values;
  };

  readonly find = (sheet: string, header: string, value: Value): Value => {
    if (value === null || isFault(value)) return value ?? new Fault('#N/A', `${header} is not given, so nothing can be looked up in the sheet ${sheet}`);
    let places = this.#places.get(sheet)?.get(header);
    if (places === undefined) {
      const found = new Map<string, number>();
      this.column(sheet, header).forEach((item, row) => {
        if (item === null || isFault(item)) return;
        const word = matching(item);
        if (!found.has(word)) found.set(word, row);
      });
      places = keep(this.#places, sheet, header, found);
    }
    return places.get(matching(value)) ?? new Fault('#N/A', `"${String(value)}" is not in the column ${header} of the sheet ${sheet}`);
  };
}

function keep<Kept>(all: Map<string, Map<string, Kept>>, sheet: string, header: string, kept: Kept): Kept {
  const own = all.get(sheet) ?? new Map<string, Kept>();
  all.set(sheet, own.set(header, kept));
  return kept;
}

const matching = (value: number | string | boolean): string => (typeof value === 'string' ? `t${value.toLowerCase()}` : `${typeof value}${String(value)}`);
