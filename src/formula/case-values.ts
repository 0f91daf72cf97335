import type { Among } from './among.ts';
import type { BookValues } from './kernel.ts';
import type { Value } from './values.ts';

/**
 * One cell's values in many cases at once: in every draw of a simulation, at every step of a search.
 *
 * A sheet's formula worked out case by case spends most of its time on finding out what it has before it. Over a block
 * of cases that is asked once: numbers lie in a row in memory, and what is the same in all cases is one value.
 */
export type CaseValues =
  | { readonly of: 'same'; readonly value: Value }
  | { readonly of: 'numbers'; readonly values: Float64Array }
  | { readonly of: 'truths'; readonly values: Uint8Array }
  | { readonly of: 'mixed'; readonly values: Value[] };

export const same = (value: Value): CaseValues => ({ of: 'same', value });

export function caseValue(cases: CaseValues, index: number): Value {
  switch (cases.of) {
    case 'same':
      return cases.value;
    case 'truths':
      return cases.values[index] === 1;
    default:
      return cases.values[index] ?? null;
  }
}

class Stock<Item> {
  readonly #items: Item[] = [];
  readonly #make: () => Item;
  #used = 0;

  constructor(make: () => Item) {
    this.#make = make;
  }

  take(): Item {
    const item = this.#items[this.#used] ?? this.#make();
    this.#items[this.#used] = item;
    this.#used += 1;
    return item;
  }

  free(): void {
    this.#used = 0;
  }
}

/** Room for values of a block of cases, used again and again: making it anew would cost more than what fills it. */
export class CaseRoom {
  readonly size: number;
  readonly #numbers: Stock<Float64Array>;
  readonly #truths: Stock<Uint8Array>;
  readonly #mixed: Stock<Value[]>;
  readonly #indexes: Stock<Int32Array>;

  constructor(size: number) {
    this.size = size;
    this.#numbers = new Stock(() => new Float64Array(size));
    this.#truths = new Stock(() => new Uint8Array(size));
    this.#mixed = new Stock(() => Array.from<Value>({ length: size }).fill(null));
    this.#indexes = new Stock(() => new Int32Array(size));
  }

  numbers(): Float64Array {
    return this.#numbers.take();
  }

  truths(): Uint8Array {
    return this.#truths.take();
  }

  mixed(): Value[] {
    return this.#mixed.take();
  }

  indexes(): Int32Array {
    return this.#indexes.take();
  }

  /** All that was taken may be taken again. */
  free(): void {
    for (const stock of [this.#numbers, this.#truths, this.#mixed, this.#indexes]) stock.free();
  }

  /** A copy of values that lie in other room. */
  kept(cases: CaseValues): CaseValues {
    switch (cases.of) {
      case 'same':
        return cases;
      case 'numbers': {
        const values = this.numbers();
        values.set(cases.values);
        return { of: 'numbers', values };
      }
      case 'truths': {
        const values = this.truths();
        values.set(cases.values);
        return { of: 'truths', values };
      }
      case 'mixed': {
        const values = this.mixed();
        for (let index = 0; index < this.size; index += 1) values[index] = cases.values[index] ?? null;
        return { of: 'mixed', values };
      }
    }
  }
}

/** What formulas can see beyond their own row, in all cases at once. */
export interface CaseBook {
  readonly room: CaseRoom;
  readonly named: (name: string) => CaseValues;
  readonly cell: (sheet: string, header: string, row: number) => CaseValues;
  /** A column that is the same in all cases, by sheet row; undefined where one may see another in it. */
  readonly column: (sheet: string, header: string) => ((row: number) => Value) | undefined;
  /** Whether a column holds other values in some cases than in others, in any row. */
  readonly varies: (sheet: string, header: string) => boolean;
  /** The book as one case has it. */
  readonly in: (index: number) => BookValues;
}

/** A row in all cases, or a row for each; `at` is its number in its sheet, counted from 1. */
export interface CaseRow {
  readonly cells: readonly CaseValues[];
  readonly at: CaseValues;
  readonly book: CaseBook;
}

/** A formula over one row's cells in the cases asked for. What it answers is right until the book's room is freed. */
export type CaseFormula = (row: CaseRow, among: Among) => CaseValues;

/** Values worked out case by case: numbers in a row where all are numbers, one value where all are the same. */
export function collected(room: CaseRoom, { at, count }: Among, value: (index: number) => Value): CaseValues {
  const numbers = room.numbers();
  const first = value(at[0] ?? 0);
  let next = first;
  let place = 0;
  let alike = true;
  while (typeof next === 'number') {
    numbers[at[place] ?? 0] = next;
    alike &&= Object.is(next, first);
    place += 1;
    if (place >= count) return alike ? same(first) : { of: 'numbers', values: numbers };
    next = value(at[place] ?? 0);
  }
  const mixed = room.mixed();
  for (let before = 0; before < place; before += 1) mixed[at[before] ?? 0] = numbers[at[before] ?? 0] ?? null;
  while (place < count) {
    mixed[at[place] ?? 0] = next;
    alike &&= next === first;
    place += 1;
    if (place < count) next = value(at[place] ?? 0);
  }
  return alike ? same(first) : { of: 'mixed', values: mixed };
}

/** Values as numbers in a row; undefined where one of those asked for is none. */
export function numbersOf(room: CaseRoom, cases: CaseValues): Float64Array | undefined {
  if (cases.of === 'numbers') return cases.values;
  if (cases.of !== 'same' || typeof cases.value !== 'number') return undefined;
  return room.numbers().fill(cases.value);
}

/** The cases in which a condition holds, and those in which it does not. */
export function parted(room: CaseRoom, { at, count }: Among, holds: (index: number) => boolean): [Among, Among] {
  const [yes, no] = [room.indexes(), room.indexes()];
  let [held, missed] = [0, 0];
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    if (holds(index)) {
      yes[held] = index;
      held += 1;
    } else {
      no[missed] = index;
      missed += 1;
    }
  }
  return [
    { at: yes, count: held },
    { at: no, count: missed },
  ];
}

/** Values of some cases and of others as one. */
export function joined(room: CaseRoom, parts: readonly (readonly [values: CaseValues, among: Among])[]): CaseValues {
  const some = parts.filter(([, { count }]) => count > 0);
  const [first] = some;
  if (first === undefined) return same(null);
  const [one] = first;
  if (some.length === 1) return one;
  if (one.of === 'same' && some.every(([values]) => values.of === 'same' && Object.is(values.value, one.value)))
    return one;
  if (some.every(([{ of, ...rest }]) => of === 'numbers' || ('value' in rest && typeof rest.value === 'number'))) {
    const numbers = room.numbers();
    for (const [values, { at, count }] of some) {
      const row = values.of === 'numbers' ? values.values : undefined;
      const number = values.of === 'same' ? Number(values.value) : 0;
      for (let place = 0; place < count; place += 1) {
        const index = at[place] ?? 0;
        numbers[index] = row === undefined ? number : (row[index] ?? 0);
      }
    }
    return { of: 'numbers', values: numbers };
  }
  const mixed = room.mixed();
  for (const [values, { at, count }] of some)
    for (let place = 0; place < count; place += 1) mixed[at[place] ?? 0] = caseValue(values, at[place] ?? 0);
  return { of: 'mixed', values: mixed };
}
