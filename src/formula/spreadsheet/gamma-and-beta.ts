/**
 * The gamma and beta functions and the incomplete beta integral, to some 14 digits.
 *
 * Sources: C. Lanczos, "A precision approximation of the gamma function" (1964), with the coefficients for g = 607/128
 * and 15 terms (P. Godfrey, from memory); the continued fraction of the incomplete beta integral by W. J. Lentz's
 * method, as DLMF 8.17.22 has it.
 */

const lanczos = [
  0.9999999999999971, 57.15623566586292, -59.59796035547549, 14.136097974741746, -0.4919138160976202,
  0.00003399464998481189, 0.00004652362892704858, -0.00009837447530487956, 0.0001580887032249125,
  -0.00021026444172410488, 0.00021743961811521265, -0.0001643181065367639, 0.00008441822398385275,
  -0.000026190838401581408, 0.0000036899182659531625,
] as const;

/** Natural logarithm of the gamma function of a number above 0. */
export function logGamma(value: number): number {
  if (value < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * value)) - logGamma(1 - value);
  const base = value + 607 / 128 - 0.5;
  const sum = lanczos.reduce((total, part, index) => total + (index === 0 ? part : part / (value - 1 + index)), 0);
  return (value - 0.5) * Math.log(base) - base + Math.log(Math.sqrt(2 * Math.PI) * sum);
}

/** The gamma function; NaN at 0 and at negative whole numbers. */
export function gamma(value: number): number {
  if (Number.isInteger(value)) {
    if (value <= 0) return Number.NaN;
    if (value <= 171) {
      let product = 1;
      for (let factor = 2; factor < value; factor += 1) product *= factor;
      return product;
    }
  }
  if (value < 0.5) return Math.PI / (Math.sin(Math.PI * value) * gamma(1 - value));
  return Math.exp(logGamma(value));
}

export const logBeta = (a: number, b: number): number => logGamma(a) + logGamma(b) - logGamma(a + b);

const smallest = 1e-300;
const away = (value: number): number => (Math.abs(value) < smallest ? smallest : value);

function continuedFraction(x: number, a: number, b: number): number {
  let upper = 1;
  let lower = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = lower;
  for (let step = 1; step <= 20_000; step += 1) {
    const even = (step * (b - step) * x) / ((a + 2 * step - 1) * (a + 2 * step));
    lower = 1 / away(1 + even * lower);
    upper = away(1 + even / upper);
    result *= lower * upper;
    const odd = (-(a + step) * (a + b + step) * x) / ((a + 2 * step) * (a + 2 * step + 1));
    lower = 1 / away(1 + odd * lower);
    upper = away(1 + odd / upper);
    const change = lower * upper;
    result *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return result;
}

/** The regularized incomplete beta integral from 0 to x. */
export const betaShare = (x: number, a: number, b: number): number => betaShareOf(x, 1 - x, a, b);

/** The same from x and what it lacks of 1, which may be too small to tell from x. */
export function betaShareOf(x: number, rest: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  const front = Math.exp(a * Math.log(x) + b * Math.log(rest) - logBeta(a, b));
  return x < (a + 1) / (a + b + 2)
    ? (front * continuedFraction(x, a, b)) / a
    : 1 - (front * continuedFraction(rest, b, a)) / b;
}

/** Where an increasing function of numbers from 0 to 1 reaches a value; by halving, in logarithms near 0. */
function crossing(increasing: (x: number) => number, wanted: number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 2_000 && high - low > 1e-16 * high; step += 1) {
    const middle = low === 0 ? high / 4 : high / low > 4 ? Math.sqrt(low * high) : (low + high) / 2;
    if (middle === low || middle === high) break;
    if (increasing(middle) < wanted) low = middle;
    else high = middle;
    if (high < smallest) return 0;
  }
  return (low + high) / 2;
}

/** Where the integral reaches a share: x and what it lacks of 1. The share is given with what it lacks of 1 as well. */
export function betaPlace(
  share: number,
  rest: number,
  a: number,
  b: number,
): { readonly x: number; readonly rest: number } {
  if (share <= 0) return { x: 0, rest: 1 };
  if (rest <= 0) return { x: 1, rest: 0 };
  if (betaShare(0.5, a, b) >= share) {
    const x = crossing((at) => betaShareOf(at, 1 - at, a, b), share);
    return { x, rest: 1 - x };
  }
  const lacking = crossing((at) => betaShareOf(at, 1 - at, b, a), rest);
  return { x: 1 - lacking, rest: lacking };
}
