import { skew } from '../../functions/parameters.ts';
import type { Change } from '../../records/belt.ts';
import { rounded, withUnit } from '../../sheet/words.ts';
import { type Cure, cures, helps, mayClear, outcome, rank, type Sought, tried, untried } from './sought.ts';

/** Cures by another skew. */

/** Steps in degrees by which skews are tried: chosen, as fine as a cut is marked by hand. */
const skewStep = 0.5;
const greatestSkew = skew.max;
const skews: readonly number[] = Array.from({ length: greatestSkew / skewStep + 1 }, (_, index) => index * skewStep);

const bySkew = ({ belt }: Sought, skew: number): Change => ({ inputs: belt.atSkew(skew) });

/** The skews that cure the check, in ascending order. */
const curingSkews = (sought: Sought): number[] => skews.filter((skew) => cures(sought, bySkew(sought, skew)));

export const degrees = (skew: number): string => withUnit(rounded(skew, 1), '°');

/** Of some skews, in order, the first after which nothing fails, and the very first; of those that help. */
function bestSkews(sought: Sought, candidates: readonly number[]): number[] {
  const { belt } = sought;
  const [first] = candidates;
  if (first === undefined) return [];
  const clean = mayClear(belt, ['Skew'])
    ? candidates.find((skew) => belt.after(bySkew(sought, skew)).verdict !== 'fails')
    : undefined;
  return [...new Set(clean === undefined ? [first] : [clean, first])].filter((skew) =>
    helps(sought, bySkew(sought, skew)),
  );
}

const noSkew = (sought: Sought): Cure[] =>
  sought.verdict === 'fails' ? [untried(`No skew up to ${degrees(greatestSkew)} cures it.`)] : [];

const skewCure = (sought: Sought, skew: number, bound = ''): Cure =>
  tried(
    sought,
    bySkew(sought, skew),
    `Cut the joint at a skew of ${bound}${degrees(skew)}: ${outcome(sought, bySkew(sought, skew))}.`,
  );

/**
 * The least skew that cures, as every larger one does, and where that leaves others to fail, the least after which none
 * does.
 */
export function leastSkew(sought: Sought): Cure[] {
  const found = curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  return bestSkews(sought, found).map((skew) => skewCure(sought, skew, 'at least '));
}

/** The maximum skew that cures. */
export function greatestSkewCure(sought: Sought): Cure[] {
  const found = curingSkews(sought).toReversed();
  if (found.length === 0) return noSkew(sought);
  return bestSkews(sought, found).map((skew) => skewCure(sought, skew, 'at most '));
}

/** The nearest skews on either side that cure, those first after which fewest checks fail. */
export function nearestSkews(sought: Sought): Cure[] {
  const present = sought.belt.number('Skew') ?? 0;
  const found = curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  const below = bestSkews(sought, found.filter((skew) => skew < present).toReversed()).slice(0, 1);
  const above = bestSkews(
    sought,
    found.filter((skew) => skew > present),
  ).slice(0, 1);
  return [...below, ...above]
    .toSorted(
      (one, other) =>
        rank(sought, bySkew(sought, one)) - rank(sought, bySkew(sought, other)) ||
        Math.abs(one - present) - Math.abs(other - present),
    )
    .map((skew) => skewCure(sought, skew));
}

/** Skews tried together with other series, beside the present one. */
export const roundSkews: readonly number[] = skews.filter((skew) => skew % 5 === 0);
