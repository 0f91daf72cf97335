import { normalQuantile } from '../functions/normal-quantile.ts';
import { randomNumbers } from '../random/random-numbers.ts';
import type { Belt } from '../records/belt.ts';
import type { Tolerances } from './effects.ts';
import { type Factor, factorInput, factorsOf, factorValue } from './factor.ts';
import type { Tolerance } from './tolerance.ts';

/** True values of uncertain factors, drawn by chance. */

/** 19 of 20 lie within so many standard deviations. */
const deviations = normalQuantile(0.975);

/** A value by its tolerance, from a number evenly between 0 and 1. */
function drawnValue(value: number, { half, shape }: Tolerance, chance: number): number {
  switch (shape) {
    case 'even':
      return value + (2 * chance - 1) * half;
    case 'normal':
      return value + (normalQuantile(chance) * half) / deviations;
    case 'lognormal':
      // So much more at one end is as much less, by its factor, at the other.
      return value * Math.exp((normalQuantile(chance) * Math.log1p(half / Math.abs(value))) / deviations);
  }
}

/** One factor with its stream of numbers: the same for a seed, whatever else is drawn. */
export interface Drawn {
  readonly factor: Factor;
  readonly next: () => number;
}

/**
 * What names a stream. Low, likely and high figures of one rate are wrong together: they draw the same numbers.
 */
const streamName = (name: string): string => name.replace(/(?:Low|Likely|High)$/, '');

/** A seed and a name as one seed (FNV-1a, 32 bits). */
function seedOf(seed: number, name: string): number {
  let mixed = 0x811c9dc5 ^ (Math.trunc(seed) >>> 0);
  for (const letter of name) mixed = Math.imul(mixed ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  return mixed;
}

/** The uncertain factors of a belt that some of its columns follow from; `of` picks the belt's own or the book's. */
export function drawnFactors(
  belt: Belt,
  of: Factor['of'],
  columns: ReadonlySet<number>,
  tolerances: Tolerances,
  seed: number,
): Drawn[] {
  return factorsOf(belt.book).flatMap((factor): Drawn[] => {
    if (factor.of !== of || ![...columns].some((column) => factor.columns.has(column))) return [];
    const value = factorValue(factor, belt);
    const tolerance = tolerances(factor, belt);
    if (typeof value !== 'number' || tolerance === undefined) return [];
    const { min = -Infinity, max = Infinity, above } = factorInput(factor, belt) ?? {};
    const whose = factor.of === 'book' ? '' : `${belt.name.toLowerCase()}!`;
    const random = randomNumbers(seedOf(seed, `${whose}${streamName(factor.name)}`));
    return [
      {
        factor,
        next() {
          const drawn = Math.min(max, Math.max(min, drawnValue(value, tolerance, random())));
          return above !== undefined && drawn <= above ? value : drawn;
        },
      },
    ];
  });
}
