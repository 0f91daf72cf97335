import type { EngineeringFunction } from '../formula/define.ts';
import type { Value } from '../formula/values.ts';

/** By how much a function's value grows with each of its arguments. */

type Partials = (args: readonly number[]) => readonly number[];

const radian = Math.PI / 180;
const governing =
  (better: (one: number, other: number) => boolean): Partials =>
  (args) => {
    const best = args.reduce((found, value, index) => (better(value, args[found] ?? NaN) ? index : found), 0);
    return args.map((_, index) => (index === best ? 1 : 0));
  };

/** A rounding so fine that it only clears away what arithmetic leaves, as a share of the number: it is no leap. */
const clearing = 1e-6;

/** Standard functions that grow evenly. What is missing here stays the same between its leaps: INT, ROUNDUP, MATCH. */
export const standardPartials: Readonly<Record<string, Partials>> = {
  ABS: ([value = 0]) => [Math.sign(value)],
  SUM: (args) => args.map(() => 1),
  MAX: governing((one, other) => one > other),
  MIN: governing((one, other) => one < other),
  ROUND: ([value = 0, digits = 0]) => [10 ** -digits < clearing * Math.abs(value) ? 1 : 0, 0],
  COS: ([value = 0]) => [-Math.sin(value)],
  SIN: ([value = 0]) => [Math.cos(value)],
  TAN: ([value = 0]) => [1 / Math.cos(value) ** 2],
  ASIN: ([value = 0]) => [1 / Math.sqrt(1 - value ** 2)],
  ATAN2: ([x = 0, y = 0]) => [-y / (x ** 2 + y ** 2), x / (x ** 2 + y ** 2)],
  EXP: ([value = 0]) => [Math.exp(value)],
  SQRT: ([value = 0]) => [0.5 / Math.sqrt(value)],
  RADIANS: () => [radian],
  DEGREES: () => [1 / radian],
  MOD: ([value = 0, by = 1]) => [1, -Math.floor(value / by)],
};

/** Values of standard functions that stand in plain equivalents alone, so that the row kernel does not know them. */
export const plainValues: Readonly<Record<string, (args: readonly number[]) => number>> = {
  SIN: ([value = 0]) => Math.sin(value),
  TAN: ([value = 0]) => Math.tan(value),
  ASIN: ([value = 0]) => Math.asin(value),
  ATAN2: ([x = 0, y = 0]) => Math.atan2(y, x),
  EXP: ([value = 0]) => Math.exp(value),
  SQRT: ([value = 0]) => Math.sqrt(value),
  DEGREES: ([value = 0]) => value / radian,
  PI: () => Math.PI,
  INT: ([value = 0]) => Math.floor(value),
  ROUNDUP: ([value = 0, digits = 0]) => (Math.sign(value) * Math.ceil(Math.abs(value) * 10 ** digits)) / 10 ** digits,
  MOD: ([value = 0, by = 1]) => value - by * Math.floor(value / by),
};

/** Shares of an argument by which it is moved for its slope, each a half of the one before. */
const firstShare = 1 / 64;
const rounds = 7;

/**
 * By how much a function of ours grows with one of its arguments, from its values around it: central differences whose
 * errors are taken out of each other (Richardson's extrapolation; Ridders, Advances in Engineering Software 4, 1982,
 * from memory). For functions without a plain equivalent that is smooth; right to some ten digits where the function
 * is, and no more than a difference at a leap.
 */
export function measuredSlope(
  evaluate: EngineeringFunction['evaluate'],
  args: readonly (Value | undefined)[],
  index: number,
): number {
  const at = args[index];
  if (typeof at !== 'number') return 0;
  const moved = (by: number): number => {
    const value = evaluate(args.map((argument, place) => (place === index ? at + by : argument)));
    return typeof value === 'number' ? value : NaN;
  };
  let [best, error] = [NaN, Infinity];
  let above: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const by = (Math.abs(at) || 1) * firstShare * 2 ** -round;
    const row = [(moved(by) - moved(-by)) / (2 * by)];
    for (let column = 1; column <= above.length; column += 1) {
      const [finer = NaN, coarser = NaN] = [row[column - 1], above[column - 1]];
      const next = finer + (finer - coarser) / (4 ** column - 1);
      const off = Math.max(Math.abs(next - finer), Math.abs(next - coarser));
      if (off < error) [best, error] = [next, off];
      row.push(next);
    }
    if (Number.isNaN(best)) best = row[0] ?? NaN;
    above = row;
  }
  return Number.isNaN(best) ? 0 : best;
}
