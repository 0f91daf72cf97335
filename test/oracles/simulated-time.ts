import { gamma } from '../../src/random/draws.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import type { Counts, Rate } from '../../src/job/job-time.ts';
import { type Estimate, pertMean, type Spread } from '../../src/job/spread.ts';
import type { Operation } from '../../sheets/values/job-rates.ts';

/** The hours of a job line by line, and by chance: what the sums of PERT are held to. */

interface TimeLine {
  readonly operation: Operation;
  readonly count: number;
  readonly mean: number;
}

/** Operations of a job with the mean of all their pieces; those that it does not have are left out. */
export const timeLines = (counts: Counts, rates: readonly Rate[]): TimeLine[] =>
  rates.flatMap(({ operation, spread }) => {
    const count = counts[operation.per] ?? 0;
    return count === 0 ? [] : [{ operation, count, mean: count * pertMean(spread) }];
  });

export type Shape = 'beta-PERT' | 'triangular';

/** One draw from a spread. */
export function drawn(spread: Spread, shape: Shape, random: () => number): number {
  const { low, likely, high } = spread;
  if (high === low) return low;
  return shape === 'triangular'
    ? triangular(low, likely, high, random())
    : low + (high - low) * betaPert(spread, random);
}

/** By the inverse of the distribution, which is two parabolas. */
function triangular(low: number, likely: number, high: number, chance: number): number {
  const rising = (likely - low) / (high - low);
  return chance < rising
    ? low + Math.sqrt(chance * (high - low) * (likely - low))
    : high - Math.sqrt((1 - chance) * (high - low) * (high - likely));
}

/**
 * A share of the range: beta with exponents 1 + 4 (likely - low) / (high - low) and 1 + 4 (high - likely) / (high -
 * low), whose mean is PERT's. Its variance is (mean - low) (high - mean) / 7, near PERT's but not the same.
 */
function betaPert({ low, likely, high }: Spread, random: () => number): number {
  const one = gamma(1 + (4 * (likely - low)) / (high - low), random);
  return one / (one + gamma(1 + (4 * (high - likely)) / (high - low), random));
}

/**
 * Mean, deviation and quantiles of figures that were drawn; a quantile lies between the two nearest of them in order.
 */
export function sampleEstimate(figures: Float64Array, shares: readonly number[]): Estimate {
  const count = figures.length;
  const mean = figures.reduce((sum, figure) => sum + figure, 0) / count;
  const deviation = Math.sqrt(figures.reduce((sum, figure) => sum + (figure - mean) ** 2, 0) / Math.max(1, count - 1));
  const sorted = figures.toSorted();
  const quantile = (share: number): number => {
    const place = share * (count - 1);
    const below = sorted[Math.floor(place)] ?? 0;
    return below + (place % 1) * ((sorted[Math.ceil(place)] ?? 0) - below);
  };
  return { mean, deviation, quantiles: shares.map((share) => ({ share, value: quantile(share) })) };
}

/**
 * Hours by simulation with a fixed seed: each run draws every rate once. Together, the longest hours of all rates fall
 * into one run, the next ones into another, as where one cause makes all of them long.
 */
export function simulatedTime(
  counts: Counts,
  rates: readonly Rate[],
  { crewSize, shares }: { readonly crewSize: number; readonly shares: readonly number[] },
  {
    shape,
    seed,
    runs,
    together,
  }: { readonly shape: Shape; readonly seed: number; readonly runs: number; readonly together: boolean },
): { readonly crewHours: Estimate; readonly outageHours: Estimate } {
  const random = randomNumbers(seed);
  const [crewHours, outageHours] = [new Float64Array(runs), new Float64Array(runs)];
  for (const { operation, spread } of rates) {
    const draws = Float64Array.from({ length: runs }, () => drawn(spread, shape, random));
    for (const [run, rate] of (together ? draws.toSorted() : draws).entries()) {
      const hours = (counts[operation.per] ?? 0) * rate;
      if (operation.takes !== 'belt') crewHours[run] = (crewHours[run] ?? 0) + hours;
      if (operation.takes !== 'before')
        outageHours[run] = (outageHours[run] ?? 0) + (operation.takes === 'belt' ? hours : hours / crewSize);
    }
  }
  return { crewHours: sampleEstimate(crewHours, shares), outageHours: sampleEstimate(outageHours, shares) };
}
