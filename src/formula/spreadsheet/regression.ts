import type { Matrix } from '../values.ts';
import { numericMatrix, pairsIn, transposed, valuesIn, widthOf } from './ranges.ts';
import { noDivision, noNumber, outside, standard, type StandardFunction } from './standard-function.ts';

/**
 * Straight lines and exponential curves through points, by least squares.
 *
 * Several columns of x are fitted by Householder's reflections, which keep the digits that the normal equations lose.
 * A column that the others make up gets the coefficient 0. Source: ECMA-376 Part 1, 18.17.7 (LINEST, LOGEST, TREND,
 * GROWTH); G. H. Golub, "Numerical methods for solving linear least squares problems" (1965).
 */

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** The line through pairs of numbers. */
function line(name: string, ys: Matrix, xs: Matrix): { readonly slope: number; readonly intercept: number } {
  const { first, second } = pairsIn(ys, xs);
  if (first.length === 0) throw noDivision(`${name}: there are no pairs of numbers`);
  const [y, x] = [mean(first), mean(second)];
  let above = 0;
  let below = 0;
  second.forEach((value, index) => {
    above += (value - x) * ((first[index] ?? 0) - y);
    below += (value - x) ** 2;
  });
  if (below === 0) throw noDivision(`${name}: all x are the same`);
  const slope = above / below;
  return { slope, intercept: y - slope * x };
}

interface Fit {
  /** One for each column of x, in its order. */
  readonly slopes: readonly number[];
  readonly intercept: number;
  /** Standard errors of the same. */
  readonly slopeErrors: readonly number[];
  readonly interceptError: number;
  readonly explained: number;
  readonly residual: number;
  readonly degrees: number;
}

/** R of the columns' QR decomposition and the first rows of Q'y; columns are used up. */
function reflected(columns: number[][], y: number[]): { readonly dependent: ReadonlySet<number> } {
  const dependent = new Set<number>();
  const sizes = columns.map((column) => Math.hypot(...column));
  let row = 0;
  for (const [place, column] of columns.entries()) {
    const below = Math.hypot(...column.slice(row));
    if (row >= column.length || below <= 1e-12 * (sizes[place] ?? 0) || below === 0) {
      dependent.add(place);
      continue;
    }
    const pivot = column[row] ?? 0;
    const length = pivot > 0 ? -below : below;
    const mirror = column.map((value, index) => (index < row ? 0 : index === row ? value - length : value));
    const square = mirror.reduce((sum, value) => sum + value * value, 0);
    for (const target of [...columns.slice(place), y]) {
      const twice = (2 * mirror.reduce((sum, value, index) => sum + value * (target[index] ?? 0), 0)) / square;
      mirror.forEach((value, index) => (target[index] = (target[index] ?? 0) - twice * value));
    }
    row += 1;
  }
  return { dependent };
}

function fitted(ys: readonly number[], xs: readonly (readonly number[])[], withConstant: boolean): Fit {
  const centres = xs.map((column) => (withConstant ? mean(column) : 0));
  const centre = withConstant ? mean(ys) : 0;
  const columns = xs.map((column, index) => column.map((value) => value - (centres[index] ?? 0)));
  const y = ys.map((value) => value - centre);
  const total = y.reduce((sum, value) => sum + value * value, 0);
  const { dependent } = reflected(columns, y);
  const used = xs.flatMap((_, index) => (dependent.has(index) ? [] : [index]));
  const at = (row: number, column: number): number => columns[used[column] ?? -1]?.[row] ?? 0;
  const size = used.length;
  const solved = (right: readonly number[]): number[] => {
    const found = Array.from({ length: size }, () => 0);
    for (let row = size - 1; row >= 0; row -= 1) {
      let value = right[row] ?? 0;
      for (let column = row + 1; column < size; column += 1) value -= at(row, column) * (found[column] ?? 0);
      found[row] = value / at(row, row);
    }
    return found;
  };
  const slopesUsed = solved(y.slice(0, size));
  const residual = y.slice(size).reduce((sum, value) => sum + value * value, 0);
  const degrees = ys.length - size - (withConstant ? 1 : 0);
  const variance = degrees > 0 ? residual / degrees : 0;
  const inverse = Array.from({ length: size }, (_, column) =>
    solved(Array.from({ length: size }, (_unused, row) => Number(row === column))),
  );
  const covariance = (one: number, other: number): number =>
    inverse.reduce((sum, column) => sum + (column[one] ?? 0) * (column[other] ?? 0), 0);
  const place = (index: number): number => used.indexOf(index);
  const slopes = xs.map((_, index) => (dependent.has(index) ? 0 : (slopesUsed[place(index)] ?? 0)));
  const intercept = withConstant
    ? centre - slopes.reduce((sum, slope, index) => sum + slope * (centres[index] ?? 0), 0)
    : 0;
  const pull = used.reduce(
    (sum, one, a) =>
      sum + used.reduce((inner, other, b) => inner + covariance(a, b) * (centres[one] ?? 0) * (centres[other] ?? 0), 0),
    1 / ys.length,
  );
  return {
    slopes,
    intercept,
    slopeErrors: xs.map((_, index) =>
      dependent.has(index) ? 0 : Math.sqrt(variance * covariance(place(index), place(index))),
    ),
    interceptError: withConstant ? Math.sqrt(variance * pull) : Number.NaN,
    explained: total - residual,
    residual,
    degrees,
  };
}

interface Points {
  readonly ys: number[];
  /** A column for each x. */
  readonly xs: number[][];
  /** Whether y stands in a row. */
  readonly across: boolean;
}

const filledColumn = (size: number): number[][] => [Array.from({ length: size }, (_, index) => index + 1)];

function points(name: string, y: Matrix, x: Matrix | undefined): Points {
  const ys = numericMatrix(y);
  const values = ys.flat();
  if (x === undefined) return { ys: values, xs: filledColumn(values.length), across: widthOf(y) > 1 && y.length === 1 };
  const given = numericMatrix(x);
  if (given.length === ys.length && widthOf(x) === widthOf(y))
    return { ys: values, xs: [given.flat()], across: y.length === 1 && widthOf(y) > 1 };
  if (widthOf(y) === 1 && given.length === ys.length)
    return { ys: values, xs: transposed(given).map((column) => column.map(Number)), across: false };
  if (y.length === 1 && widthOf(x) === widthOf(y)) return { ys: values, xs: given, across: true };
  throw outside(`${name}: the ranges of y and x must have as many rows, or as many columns`);
}

const logarithms = (name: string, values: readonly number[]): number[] =>
  values.map((value) => {
    if (value <= 0) throw noNumber(`${name}: every y must be above 0; ${value} was given`);
    return Math.log(value);
  });

function statistics(
  name: string,
  y: Matrix,
  x: Matrix | undefined,
  constant: boolean,
  all: boolean,
  exponential: boolean,
): Matrix {
  const { ys, xs } = points(name, y, x);
  const fit = fitted(exponential ? logarithms(name, ys) : ys, xs, constant);
  const shown = exponential ? Math.exp : (value: number): number => value;
  const first = [...fit.slopes.toReversed().map(shown), shown(fit.intercept)];
  if (!all) return [first];
  const empty = Array.from({ length: Math.max(0, xs.length - 1) }, () => null);
  const { explained, residual, degrees } = fit;
  const used = ys.length - degrees - (constant ? 1 : 0);
  return [
    first,
    [...fit.slopeErrors.toReversed(), Number.isNaN(fit.interceptError) ? null : fit.interceptError],
    [explained / (explained + residual), Math.sqrt(residual / degrees), ...empty],
    [explained / used / (residual / degrees), degrees, ...empty],
    [explained, residual, ...empty],
  ].map((row) => row.map((value) => (value !== null && !Number.isFinite(value) ? null : value)));
}

function continued(
  name: string,
  y: Matrix,
  x: Matrix | undefined,
  next: Matrix | undefined,
  constant: boolean,
  exponential: boolean,
): Matrix {
  const { ys, xs, across } = points(name, y, x);
  const fit = fitted(exponential ? logarithms(name, ys) : ys, xs, constant);
  const answer = (at: readonly number[]): number => {
    const value = fit.slopes.reduce((sum, slope, index) => sum + slope * (at[index] ?? 0), fit.intercept);
    return exponential ? Math.exp(value) : value;
  };
  const wanted = next ?? x ?? (across ? [xs[0] ?? []] : transposed([xs[0] ?? []]));
  const numbers = numericMatrix(wanted);
  if (xs.length === 1) return numbers.map((row) => row.map((value) => answer([value])));
  const records = across ? transposed(numbers).map((record) => record.map(Number)) : numbers;
  if (records.some((record) => record.length !== xs.length))
    throw outside(`${name}: the new x must have as many columns as the known ones`);
  const answers = records.map((record) => [answer(record)]);
  return across ? transposed(answers) : answers;
}

const forecasts = ['FORECAST', 'FORECAST.LINEAR'].map((name) =>
  standard(name, ['number', 'range', 'range'], (x, ys, xs) => {
    const { slope, intercept } = line(name, ys, xs);
    return intercept + slope * x;
  }),
);

const left = (range: Matrix | undefined): Matrix | undefined =>
  range !== undefined && valuesIn(range).every((value) => value === null) && range.flat().length === 1
    ? undefined
    : range;

const fits = (
  [
    ['LINEST', false],
    ['LOGEST', true],
  ] as const
).map(([name, exponential]) =>
  standard(
    name,
    ['range', 'range?', 'value?', 'value?'],
    (y, x, constant = true, all = false) =>
      statistics(
        name,
        y,
        left(x),
        constant !== false && constant !== 0,
        all !== null && all !== false && all !== 0,
        exponential,
      ),
    { spills: true },
  ),
);

const continuations = (
  [
    ['TREND', false],
    ['GROWTH', true],
  ] as const
).map(([name, exponential]) =>
  standard(
    name,
    ['range', 'range?', 'range?', 'value?'],
    (y, x, next, constant = true) =>
      continued(name, y, left(x), left(next), constant !== false && constant !== 0, exponential),
    { spills: true },
  ),
);

export const regressionFunctions: readonly StandardFunction[] = [
  standard('INTERCEPT', ['range', 'range'], (ys, xs) => line('INTERCEPT', ys, xs).intercept),
  ...forecasts,
  ...fits,
  ...continuations,
];
