import { CellError, ErrorType, type SimpleRangeValue } from 'hyperformula';
import { type Part, rawNumber } from './engine-parts.ts';
import { nearOrder } from './near-numbers.ts';
import { NotedCells, type Reading } from './noted-cells.ts';

/**
 * Look-ups and conditions over the same range by many formulas, in time that does not grow with the range each time.
 *
 * The engine reads a whole range for every MATCH and SUMIFS: filled down 10,000 rows that is a hundred million cells.
 * Here the cells of a range are noted by their values once for all formulas of one calculation, and a formula looks at
 * those only that may meet its condition; the engine's own test of the condition still decides. A formula is computed
 * after all that it refers to, so what is noted of a range stays true to the end of the calculation, and is forgotten
 * when the next one begins. Ranges that begin at the same cell, as A$2:A2, A$2:A3 and so on, share their notes.
 */

interface Area {
  readonly start: { readonly sheet: number; readonly row: number; readonly col: number };
}

/** How often cells are read one by one before they are noted: noting takes some ten times as long as reading. */
const readsBeforeNoting = 3;

interface Graph {
  getCellValue(address: { readonly sheet: number; readonly row: number; readonly col: number }): unknown;
}

export interface Criterion {
  readonly raw: unknown;
  readonly lambda: (cell: unknown) => boolean;
}

/** What the cells of a range must be like. */
export interface RangeCondition {
  readonly range: SimpleRangeValue;
  readonly criterion: Criterion;
}

export const plain = (value: unknown): unknown => rawNumber(value) ?? value;

interface PlaceTest {
  readonly holds: (place: number) => boolean;
  readonly candidates?: readonly number[];
}

/** Whether a number is larger or smaller than the one in a condition; undefined for other conditions. */
function comparison(raw: unknown, { number }: Reading): ((value: number) => boolean) | undefined {
  const [, operator, text = ''] = (typeof raw === 'string' ? /^(<=|>=|<(?!>)|>)(.*)$/s.exec(raw) : null) ?? [];
  const limit = operator === undefined ? undefined : number(text);
  if (limit === undefined) return undefined;
  // Most numbers are far from the limit; only near ones are looked at closely.
  const margin = Math.abs(limit) * 2 ** -40;
  const above = operator?.startsWith('>') === true;
  const orEqual = operator?.endsWith('=') === true;
  return (value) => {
    const difference = above ? value - limit : limit - value;
    if (difference > margin) return true;
    if (difference < -margin) return false;
    const order = above ? nearOrder(value, limit) : nearOrder(limit, value);
    return order > 0 || (orEqual && order === 0);
  };
}

/** What one engine has noted of its ranges in the calculation that is under way. */
class RangeIndex {
  readonly #noted = new Map<string, NotedCells>();
  readonly #results = new Map<string, unknown>();
  readonly #reading: Reading;
  readonly #graph: Graph;

  constructor(interpreter: Part) {
    this.#graph = interpreter['dependencyGraph'] as Graph;
    const helper = interpreter['arithmeticHelper'] as {
      normalizeString(text: string): string;
      coerceToMaybeNumber(text: string): unknown;
    };
    this.#reading = {
      alike: (text) => helper.normalizeString(text),
      number: (text) => (text === '' ? undefined : rawNumber(helper.coerceToMaybeNumber(text))),
    };
  }

  forget(): void {
    this.#noted.clear();
    this.#results.clear();
  }

  #key({ range }: SimpleRangeValue, width: number): string | undefined {
    const { start } = (range as Area | undefined) ?? {};
    return start === undefined ? undefined : `${start.sheet},${start.row},${start.col},${width}`;
  }

  /** The notes of a range that was read often enough; undefined for others, and for what is no range of a sheet. */
  #cells(range: SimpleRangeValue): NotedCells | undefined {
    const width = range.width();
    const key = this.#key(range, width);
    if (key === undefined) return undefined;
    let cells = this.#noted.get(key);
    if (cells === undefined) {
      const { sheet, row, col } = (range.range as Area).start;
      const read = (place: number): unknown => {
        const value = this.#graph.getCellValue({
          sheet,
          row: row + Math.floor(place / width),
          col: col + (place % width),
        });
        return typeof value === 'object' && value !== null && 'data' in value
          ? new CellError(ErrorType.VALUE, 'a single value is needed')
          : value;
      };
      this.#noted.set(key, (cells = new NotedCells(read, this.#reading)));
    }
    cells.reads += 1;
    return cells.reads > readsBeforeNoting ? cells : undefined;
  }

  /** A test of the cell at each place of a range, with the few places that may pass it if they are known. */
  #test({ range, criterion: { raw, lambda } }: RangeCondition): PlaceTest {
    const count = range.width() * range.height();
    const cells = this.#cells(range);
    if (cells === undefined) {
      const values = range.data.flat();
      return { holds: (place) => lambda(plain(values[place])) };
    }
    const compared = comparison(raw, this.#reading);
    if (compared !== undefined) {
      const numbers = cells.numbers(count);
      return { holds: (place) => compared(numbers[place] ?? Number.NaN) };
    }
    const [values, candidates] = [cells.upTo(count), cells.candidates(raw, count)];
    const holds = (place: number): boolean => lambda(plain(values[place]));
    return candidates === undefined ? { holds } : { holds, candidates };
  }

  /** Takes the cells of a range one after the other that stand where all conditions hold in ranges of its size. */
  fold(conditions: readonly RangeCondition[], range: SimpleRangeValue, take: (value: unknown) => void): void {
    const count = range.width() * range.height();
    const values = this.#cells(range)?.upTo(count) ?? range.data.flat();
    const tests = conditions.map((condition) => this.#test(condition));
    const fewest = tests.reduce<readonly number[] | undefined>(
      (best, { candidates }) =>
        candidates !== undefined && (best === undefined || candidates.length < best.length) ? candidates : best,
      undefined,
    );
    const passes = (place: number): boolean => tests.every(({ holds }) => holds(place));
    if (fewest !== undefined) {
      for (const place of fewest) {
        if (place >= count) break;
        if (passes(place)) take(values[place]);
      }
      return;
    }
    const [only] = tests;
    const all = only !== undefined && tests.length === 1 ? only.holds : passes;
    for (let place = 0; place < count; place += 1) if (all(place)) take(values[place]);
  }

  /** The result of a function over ranges under conditions, computed once for all formulas that ask the same. */
  result(
    name: string,
    summed: SimpleRangeValue,
    conditions: readonly RangeCondition[],
    compute: () => unknown,
  ): unknown {
    const keys = [summed, ...conditions.map(({ range }) => range)].map((range) => this.#key(range, range.width()));
    if (keys.includes(undefined)) return compute();
    const raws = conditions.map(({ criterion: { raw } }) => `${typeof raw} ${String(raw).length} ${String(raw)}`);
    const key = [name, summed.height(), ...keys, ...raws].join(';');
    if (!this.#results.has(key)) this.#results.set(key, compute());
    return this.#results.get(key);
  }

  /** The place of a value in a range, exactly; undefined for a range that is not noted. */
  placeOf(
    value: unknown,
    range: SimpleRangeValue,
    last: boolean,
    normal: (value: unknown) => unknown,
  ): number | undefined {
    return this.#cells(range)?.placeOf(value, range.width() * range.height(), last, normal);
  }
}

const indexes = new WeakMap<object, RangeIndex>();

export function rangeIndex(interpreter: object): RangeIndex {
  let index = indexes.get(interpreter);
  if (index === undefined) indexes.set(interpreter, (index = new RangeIndex(interpreter as Part)));
  return index;
}
