import { ceiled, floored, rounded, roundedDown, roundedUp } from '../decimal-rounding.ts';
import { nearDifference } from '../near-numbers.ts';
import { noDivision, noNumber, standard, type StandardFunction } from './standard-function.ts';

/**
 * Rounding, to places and to multiples. Source: ECMA-376 Part 1, 18.17.7; of CEILING.MATH and FLOOR.MATH, OpenFormula
 * 1.3, 6.17.
 */

const multiple = (value: number, step: number, rounding: (quotient: number) => number): number =>
  step === 0 ? 0 : rounding(value / step) * step;

const positive = (step: number | undefined): number => Math.abs(step ?? 1);

/** Away from 0 for a negative number when asked so. */
const mathCeiling = (value: number, step: number | undefined, mode: number | undefined): number =>
  value < 0 && (mode ?? 0) !== 0 ? -multiple(-value, positive(step), ceiled) : multiple(value, positive(step), ceiled);
const mathFloor = (value: number, step: number | undefined, mode: number | undefined): number =>
  value < 0 && (mode ?? 0) !== 0
    ? -multiple(-value, positive(step), floored)
    : multiple(value, positive(step), floored);

/** An even or odd number further from 0. */
const parity = (value: number, odd: number): number => {
  const size = Math.abs(value);
  const whole = 2 * ceiled((size - odd) / 2) + odd;
  return value < 0 ? -whole : whole;
};

const toPlaces = (name: string, round: (value: number, digits?: number) => number): StandardFunction =>
  standard(name, ['number', 'number?'], (value, digits) => round(value, digits));

export const roundingFunctions: readonly StandardFunction[] = [
  toPlaces('ROUND', rounded),
  toPlaces('ROUNDUP', roundedUp),
  toPlaces('ROUNDDOWN', roundedDown),
  toPlaces('TRUNC', roundedDown),
  standard('INT', ['number'], (value) => floored(value)),
  standard('EVEN', ['number'], (value) => parity(value, 0)),
  standard('ODD', ['number'], (value) => (value === 0 ? 1 : parity(value, 1))),
  standard('CEILING', ['number', 'number'], (value, step) => {
    if (value > 0 && step < 0)
      throw noNumber(`CEILING: a number above 0 has no multiple of a negative step; ${step} was given`);
    return multiple(value, step, ceiled);
  }),
  standard('FLOOR', ['number', 'number'], (value, step) => {
    if (value === 0) return 0;
    if (step === 0) throw noDivision('FLOOR: the step is 0');
    if (value > 0 && step < 0)
      throw noNumber(`FLOOR: a number above 0 has no multiple of a negative step; ${step} was given`);
    return multiple(value, step, floored);
  }),
  standard('CEILING.MATH', ['number', 'number?', 'number?'], mathCeiling),
  standard('FLOOR.MATH', ['number', 'number?', 'number?'], mathFloor),
  ...['CEILING.PRECISE', 'ISO.CEILING'].map((name) =>
    standard(name, ['number', 'number?'], (value, step) => multiple(value, positive(step), ceiled)),
  ),
  standard('FLOOR.PRECISE', ['number', 'number?'], (value, step) => multiple(value, positive(step), floored)),
  standard('MROUND', ['number', 'number'], (value, step) => {
    if (value * step < 0) throw noNumber(`MROUND: both numbers must have one sign; ${value} and ${step} were given`);
    return multiple(value, step, (quotient) => rounded(quotient));
  }),
  standard('MOD', ['number', 'number'], (value, divisor) => {
    if (divisor === 0) throw noDivision('MOD: the divisor is 0');
    return nearDifference(value, floored(value / divisor) * divisor);
  }),
  standard('QUOTIENT', ['number', 'number'], (value, divisor) => {
    if (divisor === 0) throw noDivision('QUOTIENT: the divisor is 0');
    const quotient = value / divisor;
    return quotient < 0 ? ceiled(quotient) : floored(quotient);
  }),
  standard('ISEVEN', ['number'], (value) => Math.trunc(value) % 2 === 0),
  standard('ISODD', ['number'], (value) => Math.trunc(value) % 2 !== 0),
];
