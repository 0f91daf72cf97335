import { normalQuantile } from '../functions/normal-quantile.ts';
import { gamma } from '../random/draws.ts';

/** What is not known exactly: a low, a likely and a high figure, sums of such, and draws from them. */

export interface Spread {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Why three figures are no spread; undefined when they are one. */
export function spreadFault({ low, likely, high }: Spread): string | undefined {
  if (![low, likely, high].every(Number.isFinite)) return 'low, likely and high must all be numbers';
  if (low < 0) return `low must be at least 0; it is ${low}`;
  return low <= likely && likely <= high
    ? undefined
    : `low, likely and high must not fall; they are ${low}, ${likely} and ${high}`;
}

/**
 * Mean of a spread: (low + 4 likely + high) / 6. Source: the PERT of 1959 (Malcolm, Roseboom, Clark, Fazar), from
 * memory.
 */
export const pertMean = ({ low, likely, high }: Spread): number => (low + 4 * likely + high) / 6;

/** Variance of a spread: ((high - low) / 6)^2, which takes the range for six standard deviations. Source: the same. */
export const pertVariance = ({ low, high }: Spread): number => ((high - low) / 6) ** 2;

/** A spread so many times over; what makes one of them long makes all of them long. */
export interface Term {
  readonly times: number;
  readonly spread: Spread;
}

export interface Quantile {
  /** Chance that the figure is not exceeded, above 0 and below 1. */
  readonly share: number;
  readonly value: number;
}

export interface Estimate {
  readonly mean: number;
  /** Standard deviation. */
  readonly deviation: number;
  readonly quantiles: readonly Quantile[];
}

/** How figures are made of spreads, in words for the reader. */
export const methods = {
  PERT:
    'PERT: mean (low + 4 likely + high) / 6, variance ((high - low) / 6)², terms independent, quantiles of the ' +
    'normal distribution',
  'beta-PERT':
    'simulation: each rate drawn from the beta-PERT distribution with its low, likely and high, rates independent',
  triangular:
    'simulation: each rate drawn from the triangular distribution with its low, likely and high, rates independent',
} as const;

export type Shape = 'beta-PERT' | 'triangular';

/**
 * Sum of independent terms by PERT.
 *
 * Means and variances add up. Quantiles take the sum for normal: fair for several terms of like size, poor where one
 * term rules the sum, and never below 0.
 */
export function pertSum(terms: readonly Term[], shares: readonly number[]): Estimate {
  const mean = terms.reduce((sum, { times, spread }) => sum + times * pertMean(spread), 0);
  const deviation = Math.sqrt(terms.reduce((sum, { times, spread }) => sum + times ** 2 * pertVariance(spread), 0));
  return {
    mean,
    deviation,
    quantiles: shares.map((share) => ({ share, value: Math.max(0, mean + deviation * normalQuantile(share)) })),
  };
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
