import { ChangeRefused } from './typed-change.ts';

/**
 * Which uncertain figures are wrong together: correlations between them, given in pairs.
 *
 * A correlation is that of the normal scores (a Gaussian copula): of two normal figures it is their own, of two
 * lognormal ones that of their logarithms, and Spearman's rank correlation is 6/pi asin(r/2) whatever their shapes.
 * What no pair names is independent.
 */

export interface Correlation {
  readonly one: string;
  readonly other: string;
  readonly by: number;
}

type Matrix = readonly (readonly number[])[];

/**
 * The lower triangle whose product with its own transpose a matrix is (Cholesky); undefined where there is none, since
 * the matrix is not positive definite.
 */
export function lowerTriangle(matrix: Matrix): number[][] | undefined {
  const lower: number[][] = [];
  for (const [row, given] of matrix.entries()) {
    const line: number[] = [];
    for (let column = 0; column <= row; column += 1) {
      const left = lower[column] ?? line;
      let rest = given[column] ?? 0;
      for (let place = 0; place < column; place += 1) rest -= (line[place] ?? 0) * (left[place] ?? 0);
      if (column < row) line.push(rest / (left[column] ?? NaN));
      // What is left of 1 by rounding alone is none.
      else if (rest > 1e-12) line.push(Math.sqrt(rest));
      else return undefined;
    }
    lower.push(line);
  }
  return lower;
}

/** The correlations as a matrix of some figures, in their order. */
export function correlationMatrix(names: readonly string[], given: readonly Correlation[]): number[][] {
  const matrix = names.map((_, row) => names.map((__, column): number => (row === column ? 1 : 0)));
  for (const { one, other, by } of given) {
    const [row, column] = [names.indexOf(one), names.indexOf(other)];
    const [line, mirrored] = [matrix[row], matrix[column]];
    if (line === undefined || mirrored === undefined) continue;
    line[column] = by;
    mirrored[row] = by;
  }
  return matrix;
}

/** The names that pairs correlate, each once. */
const correlatedNames = (given: readonly Correlation[]): string[] => [
  ...new Set(given.flatMap(({ one, other }) => [one, other])),
];

/** By how much, in hundredths, all correlations may be multiplied at most for figures to have them together. */
function possibleShare(names: readonly string[], given: readonly Correlation[]): number {
  for (let share = 99; share > 0; share -= 1) {
    const weaker = given.map((one) => ({ ...one, by: (one.by * share) / 100 }));
    if (lowerTriangle(correlationMatrix(names, weaker)) !== undefined) return share / 100;
  }
  return 0;
}

/** Throws ChangeRefused for correlations that no figures can have together. */
export function checkCorrelations(given: readonly Correlation[]): void {
  const names = correlatedNames(given);
  const seen = new Map<string, number>();
  for (const { one, other, by } of given) {
    if (one === other)
      throw new ChangeRefused(
        `${one} cannot be correlated with itself; low, likely and high figures of one rate are wrong together already.`,
      );
    const pair = [one, other].toSorted().join('~');
    const before = seen.get(pair);
    if (before !== undefined && before !== by)
      throw new ChangeRefused(`${one} and ${other} have two correlations, ${before} and ${by}. Give one of them.`);
    seen.set(pair, by);
  }
  if (lowerTriangle(correlationMatrix(names, given)) !== undefined) return;
  throw new ChangeRefused(
    `No figures can have these correlations together: their matrix is not positive definite. Weaken them: multiplied ` +
      `by ${possibleShare(names, given)} they can be had.`,
  );
}

/** A correlation as it is typed: "Power~Speed=0.6". Throws ChangeRefused for what can't be read. */
export function typedCorrelation(text: string): Correlation {
  const [, one = '', other = '', amount = ''] = /^([^~=]+)~([^~=]+)=\s*([-+\u2212]?[\d.,]+)\s*$/.exec(text) ?? [];
  const by = Number(amount.replace('\u2212', '-').replace(',', '.'));
  if (one.trim() === '' || other.trim() === '' || amount === '' || !(Math.abs(by) < 1))
    throw new ChangeRefused(
      `"${text}" says no correlation. Write NAME~NAME=NUMBER with a number between −1 and 1, as Power~Speed=0.6.`,
    );
  return { one: one.trim(), other: other.trim(), by };
}
