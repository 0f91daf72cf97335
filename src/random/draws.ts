import { normalQuantile } from '../functions/normal-quantile.ts';

/** Quantities drawn by chance, from a source of numbers evenly between 0 and 1, neither of them. */

/** Waiting time for what comes once in a unit of time on average. */
export const waiting = (random: () => number): number => -Math.log(random());

/**
 * A gamma quantity of scale 1 and a shape above 0.
 *
 * Source: G. Marsaglia and W. W. Tsang, A simple method for generating gamma variables, ACM TOMS 26, 2000, from memory;
 * a shape below 1 by that of one more, as there.
 */
export function gamma(shape: number, random: () => number): number {
  if (shape < 1) return gamma(shape + 1, random) * random() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const normal = normalQuantile(random());
    const cube = (1 + c * normal) ** 3;
    if (cube > 0 && Math.log(random()) < normal ** 2 / 2 + d - d * cube + d * Math.log(cube)) return d * cube;
  }
}
