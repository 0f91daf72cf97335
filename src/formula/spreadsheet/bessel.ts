import { noNumber, standard, type StandardFunction } from './standard-function.ts';

/**
 * Bessel functions of whole order.
 *
 * Sources: DLMF 10.25.2 (series of I), 10.6.1 and 10.74(iv) (J by downward recurrence, after J. C. P. Miller), DLMF
 * 10.8.1 and Abramowitz and Stegun 9.1.88 (Y by a series of J), DLMF 10.32.9 (integral of K, by the trapezoidal rule,
 * which for such integrals gains digits with every halving).
 */

const eulersConstant = 0.5772156649015329;

/** J of the orders 0 to `most`, for x above 0. */
function besselJs(x: number, most: number): number[] {
  const start = 2 * Math.ceil((Math.max(most, x) + 20 + 3 * Math.cbrt(x) + 4 * Math.sqrt(Math.max(most, x))) / 2);
  const found = Array.from({ length: start + 2 }, () => 0);
  found[start] = 1e-280;
  for (let order = start; order > 0; order -= 1) {
    found[order - 1] = ((2 * order) / x) * (found[order] ?? 0) - (found[order + 1] ?? 0);
    if (Math.abs(found[order - 1] ?? 0) > 1e200)
      for (let place = order - 1; place < found.length; place += 1) found[place] = (found[place] ?? 0) * 1e-250;
  }
  const total = found.reduce((sum, value, order) => (order % 2 === 0 ? sum + (order === 0 ? 1 : 2) * value : sum), 0);
  return found.map((value) => value / total);
}

function besselJ(x: number, order: number): number {
  if (x === 0) return order === 0 ? 1 : 0;
  const value = besselJs(Math.abs(x), order)[order] ?? 0;
  return x < 0 && order % 2 === 1 ? -value : value;
}

function besselY(x: number, order: number): number {
  const js = besselJs(x, 1);
  const at = (index: number): number => js[index] ?? 0;
  const ahead = Math.log(x / 2);
  let zero = (2 / Math.PI) * (ahead + eulersConstant) * at(0);
  let one = (-2 / (Math.PI * x)) * at(0) + (2 / Math.PI) * (ahead + eulersConstant - 1) * at(1);
  for (let step = 1; 2 * step + 1 < js.length; step += 1) {
    const sign = step % 2 === 0 ? 1 : -1;
    zero -= ((4 / Math.PI) * sign * at(2 * step)) / step;
    one -= ((2 / Math.PI) * sign * (1 + 2 * step) * at(2 * step + 1)) / (step * (step + 1));
  }
  if (order === 0) return zero;
  let [before, here] = [zero, one];
  for (let step = 1; step < order; step += 1) [before, here] = [here, ((2 * step) / x) * here - before];
  return here;
}

function besselI(x: number, order: number): number {
  const half = Math.abs(x) / 2;
  let term = 1;
  for (let factor = 1; factor <= order; factor += 1) term *= half / factor;
  let sum = term;
  for (let step = 1; step < 100_000 && term > sum * 1e-17; step += 1) {
    term *= (half * half) / (step * (step + order));
    sum += term;
  }
  return x < 0 && order % 2 === 1 ? -sum : sum;
}

function besselK(x: number, order: number): number {
  const step = 1 / 64;
  let sum = 0.5;
  for (let place = 1; ; place += 1) {
    const at = place * step;
    const exponent = -x * (Math.cosh(at) - 1);
    const part = (Math.exp(exponent + order * at) + Math.exp(exponent - order * at)) / 2;
    sum += part;
    if (part < sum * 1e-18 && x * Math.sinh(at) > order) break;
  }
  return sum * step * Math.exp(-x);
}

const ofOrder = (name: string, positive: boolean, compute: (x: number, order: number) => number): StandardFunction =>
  standard(name, ['number', 'number'], (x, order) => {
    const whole = Math.trunc(order);
    if (whole < 0) throw noNumber(`${name}: the order must be 0 or more; ${order} was given`);
    if (positive && x <= 0) throw noNumber(`${name}: x must be above 0; ${x} was given`);
    return compute(x, whole);
  });

export const besselFunctions: readonly StandardFunction[] = [
  ofOrder('BESSELI', false, besselI),
  ofOrder('BESSELJ', false, besselJ),
  ofOrder('BESSELK', true, besselK),
  ofOrder('BESSELY', true, besselY),
];
