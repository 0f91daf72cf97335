import type { Matrix } from '../values.ts';
import { columnOf, givenNumbers, numbersIn } from './ranges.ts';
import { noDivision, noNumber, notFound, repeated, standard, type StandardFunction } from './standard-function.ts';

/** Places of numbers among others, and what rests on their order. Source: ECMA-376 Part 1, 18.17.7. */

const ascending = (values: readonly number[]): number[] => values.toSorted((one, other) => one - other);

/** The place of a number, and how many others share it. */
function rank(
  name: string,
  value: number,
  range: Matrix,
  upwards: boolean,
): { readonly first: number; readonly shared: number } {
  const values = numbersIn(range);
  const shared = values.filter((other) => other === value).length;
  if (shared === 0) throw notFound(`${name}: ${value} is not among the numbers`);
  return { first: 1 + values.filter((other) => (upwards ? other < value : other > value)).length, shared };
}

const ranks = [
  ...['RANK', 'RANK.EQ'].map((name) =>
    standard(
      name,
      ['number', 'range', 'number?'],
      (value, range, order = 0) => rank(name, value, range, order !== 0).first,
    ),
  ),
  standard('RANK.AVG', ['number', 'range', 'number?'], (value, range, order = 0) => {
    const { first, shared } = rank('RANK.AVG', value, range, order !== 0);
    return first + (shared - 1) / 2;
  }),
];

/** The share of numbers below one, between two of them in proportion; cut off to some digits. */
function percentRank(name: string, range: Matrix, value: number, digits: number, exclusive: boolean): number {
  const values = ascending(numbersIn(range));
  const places = Math.trunc(digits);
  if (places < 1) throw noNumber(`${name}: the digits must be 1 or more; ${digits} was given`);
  const [low, high] = [values[0], values.at(-1)];
  if (low === undefined || high === undefined) throw noNumber(`${name}: there are no numbers`);
  if (value < low || value > high) throw notFound(`${name}: ${value} is not from ${low} to ${high}`);
  const under = values.filter((other) => other < value).length;
  const below = values[under - 1] ?? value;
  const at = values[under] ?? value;
  const place = at === value ? under : under - 1 + (value - below) / (at - below);
  const share = exclusive ? (place + 1) / (values.length + 1) : values.length === 1 ? 1 : place / (values.length - 1);
  // Cut off, not rounded: of 15 digits, so that 0.3 does not become 0.299.
  return Math.floor(Number((share * 10 ** places).toPrecision(15))) / 10 ** places;
}

const percentRanks = (
  [
    ['PERCENTRANK', false],
    ['PERCENTRANK.INC', false],
    ['PERCENTRANK.EXC', true],
  ] as const
).map(([name, exclusive]) =>
  standard(name, ['range', 'number', 'number?'], (range, value, digits = 3) =>
    percentRank(name, range, value, digits, exclusive),
  ),
);

/** The number that comes most often; of several, the first in the order given. */
function mode(name: string, values: readonly number[]): number {
  const times = new Map<number, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  let [best, most] = [0, 1];
  for (const [value, count] of times) if (count > most) [best, most] = [value, count];
  if (most < 2) throw notFound(`${name}: no number comes twice`);
  return best;
}

const modes = ['MODE', 'MODE.SNGL'].map((name) =>
  repeated(name, [], 'any', (_, given) => mode(name, givenNumbers(given))),
);

/** How many numbers fall up to each bound, and above the last. */
function frequencies(data: Matrix, bounds: Matrix): number[] {
  const limits = numbersIn(bounds);
  const order = limits.map((limit, place) => ({ limit, place })).toSorted((one, other) => one.limit - other.limit);
  const counts = Array.from({ length: limits.length + 1 }, () => 0);
  for (const value of numbersIn(data)) {
    const place = order.find(({ limit }) => value <= limit)?.place ?? limits.length;
    counts[place] = (counts[place] ?? 0) + 1;
  }
  return counts;
}

function kurtosis(values: readonly number[]): number {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1);
  if (count < 4 || square === 0) throw noDivision('KURT needs four numbers or more that differ');
  const fourth = values.reduce((sum, value) => sum + (value - mean) ** 4, 0) / square ** 2;
  return (
    (count * (count + 1) * fourth) / ((count - 1) * (count - 2) * (count - 3)) -
    (3 * (count - 1) ** 2) / ((count - 2) * (count - 3))
  );
}

export const rankingFunctions: readonly StandardFunction[] = [
  ...ranks,
  ...percentRanks,
  ...modes,
  standard('FREQUENCY', ['range', 'range'], (data, bounds) => columnOf(frequencies(data, bounds)), { spills: true }),
  standard('TRIMMEAN', ['range', 'number'], (range, share) => {
    const values = ascending(numbersIn(range));
    if (share < 0 || share >= 1)
      throw noNumber(`TRIMMEAN: the share must be 0 or more and below 1; ${share} was given`);
    if (values.length === 0) throw noNumber('TRIMMEAN: there are no numbers');
    const cut = Math.floor((values.length * share) / 2);
    const kept = values.slice(cut, values.length - cut);
    return kept.reduce((sum, value) => sum + value, 0) / kept.length;
  }),
  repeated('KURT', [], 'any', (_, given) => kurtosis(givenNumbers(given))),
];
