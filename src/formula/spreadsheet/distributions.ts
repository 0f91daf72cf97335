import { betaPlace, betaShare, betaShareOf, gamma, logBeta, logGamma } from './gamma-and-beta.ts';
import { numbersIn, pairsIn } from './ranges.ts';
import { noDivision, noNumber, notFound, standard, type StandardFunction } from './standard-function.ts';
import type { Matrix } from '../values.ts';

/**
 * Distributions that rest on the beta integral, which the engine computes to 8 digits.
 *
 * Arguments and bounds: ECMA-376 Part 1, 18.17.7.
 */

const check = (holds: boolean, message: string): void => {
  if (!holds) throw noNumber(message);
};
const share = (name: string, value: number): void =>
  check(value > 0 && value < 1, `${name}: a probability must be above 0 and below 1; ${value} was given`);

/** Whole degrees of freedom, as spreadsheets take them. */
function freedom(name: string, value: number): number {
  const whole = Math.trunc(value);
  check(whole >= 1, `${name}: degrees of freedom must be 1 or more; ${value} was given`);
  return whole;
}

/** The chance that |t| is larger. */
const bothTails = (t: number, degrees: number): number => {
  const square = t * t;
  return betaShareOf(degrees / (degrees + square), square / (degrees + square), degrees / 2, 0.5);
};
const tBelow = (t: number, degrees: number): number =>
  t > 0 ? 1 - bothTails(t, degrees) / 2 : bothTails(t, degrees) / 2;
const tDensity = (t: number, degrees: number): number =>
  Math.exp(-logBeta(degrees / 2, 0.5) - ((degrees + 1) / 2) * Math.log1p((t * t) / degrees)) / Math.sqrt(degrees);

/** The t that |t| is above with this chance. */
function tOfTails(tails: number, degrees: number): number {
  const { x, rest } = betaPlace(tails, 1 - tails, degrees / 2, 0.5);
  return Math.sqrt((degrees * rest) / x);
}

function fTails(x: number, above: number, below: number): { readonly lower: number; readonly upper: number } {
  const whole = above * x + below;
  return {
    lower: betaShareOf((above * x) / whole, below / whole, above / 2, below / 2),
    upper: betaShareOf(below / whole, (above * x) / whole, below / 2, above / 2),
  };
}

function fPlace(lower: number, upper: number, above: number, below: number): number {
  const { x, rest } = betaPlace(lower, upper, above / 2, below / 2);
  return (below * x) / (above * rest);
}

const fDensity = (x: number, above: number, below: number): number =>
  x === 0
    ? above === 2
      ? 1
      : above < 2
        ? Infinity
        : 0
    : Math.exp(
        (above / 2) * Math.log(above / below) +
          (above / 2 - 1) * Math.log(x) -
          ((above + below) / 2) * Math.log1p((above * x) / below) -
          logBeta(above / 2, below / 2),
      );

const studentT: readonly StandardFunction[] = [
  standard('T.DIST', ['number', 'number', 'truth'], (t, degrees, sum) => {
    const whole = freedom('T.DIST', degrees);
    return sum ? tBelow(t, whole) : tDensity(t, whole);
  }),
  standard('T.DIST.RT', ['number', 'number'], (t, degrees) => tBelow(-t, freedom('T.DIST.RT', degrees))),
  standard('T.DIST.2T', ['number', 'number'], (t, degrees) => {
    check(t >= 0, `T.DIST.2T: t must be 0 or more; ${t} was given`);
    return bothTails(t, freedom('T.DIST.2T', degrees));
  }),
  standard('TDIST', ['number', 'number', 'number'], (t, degrees, tails) => {
    check(t >= 0, `TDIST: t must be 0 or more; ${t} was given`);
    const count = Math.trunc(tails);
    check(count === 1 || count === 2, `TDIST: tails must be 1 or 2; ${tails} was given`);
    return (bothTails(t, freedom('TDIST', degrees)) * count) / 2;
  }),
  standard('T.INV', ['number', 'number'], (chance, degrees) => {
    share('T.INV', chance);
    const whole = freedom('T.INV', degrees);
    return chance === 0.5 ? 0 : chance < 0.5 ? -tOfTails(2 * chance, whole) : tOfTails(2 * (1 - chance), whole);
  }),
  ...['T.INV.2T', 'TINV'].map((name) =>
    standard(name, ['number', 'number'], (chance, degrees) => {
      check(chance > 0 && chance <= 1, `${name}: the probability must be above 0 and at most 1; ${chance} was given`);
      return chance === 1 ? 0 : tOfTails(chance, freedom(name, degrees));
    }),
  ),
  standard('CONFIDENCE.T', ['number', 'number', 'number'], (alpha, deviation, size) => {
    share('CONFIDENCE.T', alpha);
    check(deviation > 0, `CONFIDENCE.T: the standard deviation must be above 0; ${deviation} was given`);
    const count = Math.trunc(size);
    if (count === 1) throw noDivision('CONFIDENCE.T: a sample of one has no spread');
    check(count > 1, `CONFIDENCE.T: the size must be 2 or more; ${size} was given`);
    return (tOfTails(alpha, count - 1) * deviation) / Math.sqrt(count);
  }),
];

const fisherF: readonly StandardFunction[] = [
  standard('F.DIST', ['number', 'number', 'number', 'truth'], (x, above, below, sum) => {
    check(x >= 0, `F.DIST: x must be 0 or more; ${x} was given`);
    const [one, other] = [freedom('F.DIST', above), freedom('F.DIST', below)];
    return sum ? fTails(x, one, other).lower : fDensity(x, one, other);
  }),
  ...['F.DIST.RT', 'FDIST'].map((name) =>
    standard(name, ['number', 'number', 'number'], (x, above, below) => {
      check(x >= 0, `${name}: x must be 0 or more; ${x} was given`);
      return fTails(x, freedom(name, above), freedom(name, below)).upper;
    }),
  ),
  standard('F.INV', ['number', 'number', 'number'], (chance, above, below) => {
    share('F.INV', chance);
    return fPlace(chance, 1 - chance, freedom('F.INV', above), freedom('F.INV', below));
  }),
  ...['F.INV.RT', 'FINV'].map((name) =>
    standard(name, ['number', 'number', 'number'], (chance, above, below) => {
      check(chance > 0 && chance <= 1, `${name}: the probability must be above 0 and at most 1; ${chance} was given`);
      return fPlace(1 - chance, chance, freedom(name, above), freedom(name, below));
    }),
  ),
];

/** A place within an interval as a share of it. */
function within(name: string, x: number, from: number, to: number): number {
  check(from < to, `${name}: the lower bound must be below the upper; ${from} and ${to} were given`);
  check(x >= from && x <= to, `${name}: x must be from ${from} to ${to}; ${x} was given`);
  return (x - from) / (to - from);
}

function shapes(name: string, a: number, b: number): void {
  check(a > 0 && b > 0, `${name}: alpha and beta must be above 0; ${a} and ${b} were given`);
}

function betaInverse(name: string, chance: number, a: number, b: number, from = 0, to = 1): number {
  share(name, chance);
  shapes(name, a, b);
  check(from < to, `${name}: the lower bound must be below the upper; ${from} and ${to} were given`);
  return from + (to - from) * betaPlace(chance, 1 - chance, a, b).x;
}

const beta: readonly StandardFunction[] = [
  standard(
    'BETA.DIST',
    ['number', 'number', 'number', 'truth', 'number?', 'number?'],
    (x, a, b, sum, from = 0, to = 1) => {
      shapes('BETA.DIST', a, b);
      const at = within('BETA.DIST', x, from, to);
      if (sum) return betaShare(at, a, b);
      check((at > 0 || a >= 1) && (at < 1 || b >= 1), `BETA.DIST: the density has no bound at ${x}`);
      return Math.exp((a - 1) * Math.log(at) + (b - 1) * Math.log1p(-at) - logBeta(a, b)) / (to - from);
    },
  ),
  standard('BETADIST', ['number', 'number', 'number', 'number?', 'number?'], (x, a, b, from = 0, to = 1) => {
    shapes('BETADIST', a, b);
    return betaShare(within('BETADIST', x, from, to), a, b);
  }),
  ...['BETA.INV', 'BETAINV'].map((name) =>
    standard(name, ['number', 'number', 'number', 'number?', 'number?'], (chance, a, b, from, to) =>
      betaInverse(name, chance, a, b, from, to),
    ),
  ),
];

const chosen = (from: number, count: number): number => -Math.log(from + 1) - logBeta(from - count + 1, count + 1);

/** The chance of exactly so many successes; by logarithms where powers would vanish. */
const exactly = (successes: number, trials: number, chance: number): number =>
  chance === 0
    ? Number(successes === 0)
    : chance === 1
      ? Number(successes === trials)
      : Math.exp(chosen(trials, successes) + successes * Math.log(chance) + (trials - successes) * Math.log1p(-chance));

const binomial: readonly StandardFunction[] = ['BINOM.DIST', 'BINOMDIST'].map((name) =>
  standard(name, ['number', 'number', 'number', 'truth'], (given, of, chance, sum) => {
    const [successes, trials] = [Math.trunc(given), Math.trunc(of)];
    check(successes >= 0 && successes <= trials, `${name}: successes must be from 0 to the trials; ${given} was given`);
    check(chance >= 0 && chance <= 1, `${name}: the probability must be from 0 to 1; ${chance} was given`);
    if (!sum) return exactly(successes, trials, chance);
    return successes === trials ? 1 : betaShareOf(1 - chance, chance, trials - successes, successes + 1);
  }),
);

function spread(name: string, values: readonly number[]): { readonly mean: number; readonly variance: number } {
  if (values.length < 2) throw noDivision(`${name}: a sample needs two numbers or more`);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, variance: values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1) };
}

/** Student's t of two samples and its degrees of freedom: paired, alike in spread, or not (B. L. Welch). */
function tStatistic(
  name: string,
  one: Matrix,
  other: Matrix,
  type: number,
): { readonly t: number; readonly degrees: number } {
  if (type === 1) {
    const { first, second } = pairsIn(one, other);
    const { mean, variance } = spread(
      name,
      first.map((value, index) => value - (second[index] ?? 0)),
    );
    return { t: mean / Math.sqrt(variance / first.length), degrees: first.length - 1 };
  }
  const [left, right] = [numbersIn(one), numbersIn(other)];
  const [a, b] = [spread(name, left), spread(name, right)];
  const [m, n] = [left.length, right.length];
  if (type === 2) {
    const pooled = ((m - 1) * a.variance + (n - 1) * b.variance) / (m + n - 2);
    return { t: (a.mean - b.mean) / Math.sqrt(pooled * (1 / m + 1 / n)), degrees: m + n - 2 };
  }
  const [u, v] = [a.variance / m, b.variance / n];
  return { t: (a.mean - b.mean) / Math.sqrt(u + v), degrees: (u + v) ** 2 / (u ** 2 / (m - 1) + v ** 2 / (n - 1)) };
}

const fTests: readonly StandardFunction[] = ['F.TEST', 'FTEST'].map((name) =>
  standard(name, ['range', 'range'], (one, other) => {
    const [left, right] = [numbersIn(one), numbersIn(other)];
    const [a, b] = [spread(name, left).variance, spread(name, right).variance];
    if (a === 0 || b === 0) throw noDivision(`${name}: a sample has no spread`);
    const { lower, upper } = fTails(a / b, left.length - 1, right.length - 1);
    return 2 * Math.min(lower, upper);
  }),
);

const tests: readonly StandardFunction[] = ['T.TEST', 'TTEST'].map((name) =>
  standard(name, ['range', 'range', 'number', 'number'], (one, other, tails, type) => {
    const [count, kind] = [Math.trunc(tails), Math.trunc(type)];
    check(count === 1 || count === 2, `${name}: tails must be 1 or 2; ${tails} was given`);
    check(kind >= 1 && kind <= 3, `${name}: the type must be 1, 2 or 3; ${type} was given`);
    const { t, degrees } = tStatistic(name, one, other, kind);
    if (Number.isNaN(t)) throw noDivision(`${name}: the samples have no spread`);
    return (bothTails(t, degrees) * count) / 2;
  }),
);

const gammas: readonly StandardFunction[] = [
  standard('GAMMA', ['number'], (x) => {
    check(x > 0 || !Number.isInteger(x), `GAMMA has no value at 0 and at negative whole numbers; ${x} was given`);
    return gamma(x);
  }),
  ...['GAMMALN', 'GAMMALN.PRECISE'].map((name) =>
    standard(name, ['number'], (x) => {
      check(x > 0, `${name}: x must be above 0; ${x} was given`);
      return logGamma(x);
    }),
  ),
  standard('PERMUTATIONA', ['number', 'number'], (all, taken) => {
    const [n, k] = [Math.trunc(all), Math.trunc(taken)];
    check(n >= 0 && k >= 0, `PERMUTATIONA: both numbers must be 0 or more; ${all} and ${taken} were given`);
    return n ** k;
  }),
  standard('PERMUT', ['number', 'number'], (all, taken) => {
    const [n, k] = [Math.trunc(all), Math.trunc(taken)];
    check(n >= 0 && k >= 0 && k <= n, `PERMUT: it takes a number and one from 0 to it; ${all} and ${taken} were given`);
    if (k > 400) throw notFound('PERMUT: the result is too large to be a number');
    let product = 1;
    for (let factor = n; factor > n - k; factor -= 1) product *= factor;
    return product;
  }),
];

export const distributionFunctions: readonly StandardFunction[] = [
  ...studentT,
  ...fisherF,
  ...beta,
  ...binomial,
  ...fTests,
  ...tests,
  ...gammas,
];
