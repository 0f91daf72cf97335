import { normalQuantile } from '../functions/normal-quantile.ts';

/** What is not known exactly: a low, a likely and a high figure, and sums of such. */

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
 *
 * For tests: held to its formula.
 */
export const pertMean = ({ low, likely, high }: Spread): number => (low + 4 * likely + high) / 6;

/**
 * Standard deviation of a spread: (high - low) / 6, which takes the range for six of them. Source: the same.
 *
 * For tests: held to its formula.
 */
export const pertDeviation = ({ low, high }: Spread): number => (high - low) / 6;

/** A spread so many times over; what makes one of them long makes all of them long. */
export interface Term {
  readonly times: number;
  readonly spread: Spread;
}

interface Quantile {
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

/** How a sum is made of spreads, in words for the reader. */
export const pertMethod =
  'PERT: mean (low + 4 likely + high) / 6, deviation (high - low) / 6, all tasks assumed to run long together, ' +
  'quantiles of the normal distribution';

/**
 * Sum of terms by PERT, all of them long or short together.
 *
 * Means add up, and so do deviations: a crew that is slow at bolts is slow at holes, and a wet night slows all of it.
 * That is the cautious end. Taken as independent, 90 hours of 100 held in 88 of 100 where rates are, and in 71 where
 * one cause drives all of them. Quantiles take the sum for normal, and never below 0.
 */
export function pertSum(terms: readonly Term[], shares: readonly number[]): Estimate {
  const sum = (of: (spread: Spread) => number): number =>
    terms.reduce((total, { times, spread }) => total + times * of(spread), 0);
  const [mean, deviation] = [sum(pertMean), sum(pertDeviation)];
  return {
    mean,
    deviation,
    quantiles: shares.map((share) => ({ share, value: Math.max(0, mean + deviation * normalQuantile(share)) })),
  };
}
