/** Milliseconds, measured and summed up. */

export function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** The smallest number that a share of them do not exceed (nearest rank): of 100 the 99th percentile is the 99th. */
export function quantile(numbers: readonly number[], share: number): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

export const median = (numbers: readonly number[]): number => quantile(numbers, 0.5);

export const milliseconds = (number: number): string =>
  `${number >= 100 ? number.toFixed(0) : number >= 1 ? number.toFixed(1) : number.toFixed(4)} ms`;
export const times = (number: number): string => `${number >= 10 ? number.toFixed(0) : number.toFixed(1)}x`;
