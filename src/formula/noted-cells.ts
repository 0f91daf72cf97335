import { rawNumber } from './engine-parts.ts';

/** Cells of ranges, found by what they hold. */

/** Cells by how they read, each with its places in order. */
type Places = Map<unknown, number[]>;

/** So coarse that numbers which differ only by rounding fall into the same class or into the next. */
const coarse = (number: number): number => Number(number.toPrecision(9));
const neighbours = (number: number): readonly number[] => [
  ...new Set([coarse(number), coarse(number * (1 - 1e-8)), coarse(number * (1 + 1e-8))]),
];

const note = (places: Places, key: unknown, place: number): void => {
  const before = places.get(key);
  if (before === undefined) places.set(key, [place]);
  else before.push(place);
};

/** How a condition or a search reads texts. */
export interface Reading {
  /** A text as conditions compare it. */
  readonly alike: (text: string) => string;
  /** The number that a text stands for. */
  readonly number: (text: string) => number | undefined;
}

/** The cells of all ranges that begin at one cell and are equally wide. */
export class NotedCells {
  readonly values: unknown[] = [];
  readonly #numbers: number[] = [];
  reads = 0;
  readonly #read: (place: number) => unknown;
  readonly #reading: Reading;
  #conditions: { readonly places: Places; noted: number } | undefined;
  #searches: { readonly places: Places; noted: number } | undefined;

  constructor(read: (place: number) => unknown, reading: Reading) {
    this.#read = read;
    this.#reading = reading;
  }

  /** The first so many cells' numbers, and no number for what is none. */
  numbers(count: number): readonly number[] {
    const values = this.upTo(count);
    while (this.#numbers.length < count) this.#numbers.push(rawNumber(values[this.#numbers.length]) ?? Number.NaN);
    return this.#numbers;
  }

  /** The first so many cells' values, as far as they are asked for. */
  upTo(count: number): readonly unknown[] {
    while (this.values.length < count) this.values.push(this.#read(this.values.length));
    return this.values;
  }

  /** Places in order, those below `count` among them, that may meet a condition of equality; undefined when any may. */
  candidates(raw: unknown, count: number): readonly number[] | undefined {
    const keys = this.#conditionKeys(raw);
    if (keys === undefined) return undefined;
    const values = this.upTo(count);
    this.#conditions ??= { places: new Map(), noted: 0 };
    const { places } = this.#conditions;
    for (; this.#conditions.noted < count; this.#conditions.noted += 1) {
      const place = this.#conditions.noted;
      const value = values[place];
      const number = typeof value === 'string' ? this.#reading.number(value) : rawNumber(value);
      if (number !== undefined) note(places, coarse(number), place);
      if (typeof value === 'string') note(places, `=${this.#reading.alike(value)}`, place);
    }
    const [first = [], ...others] = keys.flatMap((key) => {
      const found = places.get(key);
      return found === undefined ? [] : [found];
    });
    return others.length === 0 ? first : [first, ...others].flat().toSorted((one, other) => one - other);
  }

  #conditionKeys(raw: unknown): readonly unknown[] | undefined {
    if (typeof raw === 'number') return neighbours(raw);
    if (typeof raw !== 'string') return undefined;
    const text = raw.startsWith('=') ? raw.slice(1) : raw;
    if (text === '' || /^[<>=]/.test(text) || /[*?~]/.test(text) || /^(?:true|false)$/i.test(text)) return undefined;
    const number = this.#reading.number(text);
    return number === undefined ? [`=${this.#reading.alike(text)}`] : neighbours(number);
  }

  /** The first or last place below `count` that holds a value exactly; below 0 when there is none. */
  placeOf(value: unknown, count: number, last: boolean, normal: (value: unknown) => unknown): number {
    const values = this.upTo(count);
    this.#searches ??= { places: new Map(), noted: 0 };
    for (; this.#searches.noted < count; this.#searches.noted += 1)
      note(this.#searches.places, normal(values[this.#searches.noted]), this.#searches.noted);
    const places = this.#searches.places.get(value) ?? [];
    return (last ? places.findLast((place) => place < count) : places.find((place) => place < count)) ?? -1;
  }
}
