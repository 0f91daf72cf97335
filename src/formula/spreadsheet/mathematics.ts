import { givenNumbers } from './ranges.ts';
import { noDivision, noNumber, repeated, standard, type StandardFunction } from './standard-function.ts';

/** Functions of numbers that the engine rounds, or takes by another branch. Source: ECMA-376 Part 1, 18.17.7. */

export const mathematicsFunctions: readonly StandardFunction[] = [
  standard('PI', [], () => Math.PI),
  standard('DEGREES', ['number'], (angle) => angle * (180 / Math.PI)),
  repeated('PRODUCT', [], 'any', (_, given) => {
    const numbers = givenNumbers(given);
    return numbers.length === 0 ? 0 : numbers.reduce((product, value) => product * value, 1);
  }),
  // From 0 to pi, without a jump at 0.
  standard('ACOT', ['number'], (value) => Math.PI / 2 - Math.atan(value)),
  standard('DOLLARFR', ['number', 'number'], (value, given) => {
    const fraction = Math.trunc(given);
    if (fraction < 0) throw noNumber(`DOLLARFR: the fraction must be 1 or more; ${given} was given`);
    if (fraction === 0) throw noDivision(`DOLLARFR: the fraction must be 1 or more; ${given} was given`);
    const whole = Math.trunc(value);
    return whole + ((value - whole) * fraction) / 10 ** Math.ceil(Math.log10(fraction));
  }),
];
