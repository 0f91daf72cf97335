import { numbersIn } from './ranges.ts';
import { noDivision, noNumber, notFound, standard, type StandardFunction } from './standard-function.ts';

/**
 * The normal distribution and the error function, to some 14 digits in the tails as well.
 *
 * Sources: DLMF 7.6.1 (series near 0), 7.9.1 (continued fraction of the tails); ECMA-376 Part 1, 18.17.7.
 */

/** The share of the error function above a number of 0 or more. */
function tail(x: number): number {
  if (x < 2.5) {
    let [term, sum] = [x, x];
    for (let step = 1; Math.abs(term) > 1e-18 * Math.abs(sum); step += 1) {
      term *= (2 * x * x) / (2 * step + 1);
      sum += term;
    }
    return 1 - (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
  }
  let fraction = 0;
  for (let step = 120; step > 0; step -= 1) fraction = step / 2 / (x + fraction);
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + fraction);
}

const complement = (x: number): number => (x >= 0 ? tail(x) : 2 - tail(-x));

/** The error function: its series, where the complement would lose digits. */
function errorFunction(x: number): number {
  if (Math.abs(x) > 1) return 1 - complement(x);
  let [term, sum] = [x, x];
  for (let step = 1; Math.abs(term) > 1e-18 * Math.abs(sum); step += 1) {
    term *= (2 * x * x) / (2 * step + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

/** The share of a standard normal quantity below a number. */
export const normalShare = (z: number): number => complement(-z / Math.SQRT2) / 2;
const below = normalShare;
const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

function standardized(name: string, x: number, mean: number, deviation: number): number {
  if (deviation <= 0) throw noNumber(`${name}: the standard deviation must be above 0; ${deviation} was given`);
  return (x - mean) / deviation;
}

const normals = ['NORM.DIST', 'NORMDIST'].map((name) =>
  standard(name, ['number', 'number', 'number', 'truth'], (x, mean, deviation, sum) => {
    const z = standardized(name, x, mean, deviation);
    return sum ? below(z) : density(z) / deviation;
  }),
);

function logarithm(name: string, x: number): number {
  if (x <= 0) throw noNumber(`${name}: x must be above 0; ${x} was given`);
  return Math.log(x);
}

const zTests = ['Z.TEST', 'ZTEST'].map((name) =>
  standard(name, ['range', 'number', 'number?'], (range, x, sigma) => {
    const values = numbersIn(range);
    const count = values.length;
    if (count === 0) throw notFound(`${name}: there are no numbers`);
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    if (sigma === undefined && count < 2) throw noDivision(`${name}: a sample of one has no spread`);
    const deviation = sigma ?? Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1));
    if (sigma === undefined && deviation === 0) throw noDivision(`${name}: the numbers have no spread`);
    return below(-standardized(name, mean, x, deviation) * Math.sqrt(count));
  }),
);

export const normalFunctions: readonly StandardFunction[] = [
  ...normals,
  standard('NORM.S.DIST', ['number', 'truth'], (z, sum) => (sum ? below(z) : density(z))),
  standard('NORMSDIST', ['number'], (z) => below(z)),
  standard('GAUSS', ['number'], (z) => errorFunction(z / Math.SQRT2) / 2),
  standard('LOGNORM.DIST', ['number', 'number', 'number', 'truth'], (x, mean, deviation, sum) => {
    const z = standardized('LOGNORM.DIST', logarithm('LOGNORM.DIST', x), mean, deviation);
    return sum ? below(z) : density(z) / (deviation * x);
  }),
  standard('LOGNORMDIST', ['number', 'number', 'number'], (x, mean, deviation) =>
    below(standardized('LOGNORMDIST', logarithm('LOGNORMDIST', x), mean, deviation)),
  ),
  standard('ERF', ['number', 'number?'], (from, to) =>
    to === undefined ? errorFunction(from) : errorFunction(to) - errorFunction(from),
  ),
  standard('ERF.PRECISE', ['number'], errorFunction),
  ...['ERFC', 'ERFC.PRECISE'].map((name) => standard(name, ['number'], complement)),
  ...zTests,
];
