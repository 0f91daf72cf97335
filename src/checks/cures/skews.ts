import { skew } from '../../functions/parameters.ts';
import type { Asking, Trying } from '../../records/belt-trials.ts';
import { rounded, withUnit } from '../../sheet/words.ts';
import { type Cure, curing, helps, known, mayClear, outcome, rank, type Sought, tried, untried } from './sought.ts';

/** Cures by another skew. */

/** Steps in degrees by which skews are tried: chosen, as fine as a cut is marked by hand. */
const skewStep = 0.5;
const greatestSkew = skew.max;
const skews: readonly number[] = Array.from({ length: greatestSkew / skewStep + 1 }, (_, index) => index * skewStep);

const bySkew = ({ belt }: Sought, skew: number): Trying => ({ inputs: belt.atSkew(skew) });

/** The skews that cure the check, in ascending order. */
const curingSkews = (sought: Sought): Asking<number[]> => curing(sought, skews, (skew) => bySkew(sought, skew));

export const degrees = (skew: number): string => withUnit(rounded(skew, 1), '°');

/** Skews of which it is asked at once whether any check then fails; the first ones hold the answer, nearly always. */
const askedAtOnce = 4;

/** Of some skews, in order, the first after which nothing fails. */
function* firstClean(sought: Sought, candidates: readonly number[]): Asking<number | undefined> {
  const { belt } = sought;
  for (let [first, count] = [0, askedAtOnce]; first < candidates.length; first += count, count *= askedAtOnce) {
    const some = candidates.slice(first, first + count);
    yield* known(
      belt,
      some.map((skew) => bySkew(sought, skew)),
    );
    const clean = some.find((skew) => belt.after(bySkew(sought, skew)).verdict !== 'fails');
    if (clean !== undefined) return clean;
  }
  return undefined;
}

/** Of some skews, in order, the first after which nothing fails, and the very first; of those that help. */
function* bestSkews(sought: Sought, candidates: readonly number[]): Asking<number[]> {
  const { belt } = sought;
  const [first] = candidates;
  if (first === undefined) return [];
  const clean = mayClear(belt, ['Skew']) ? yield* firstClean(sought, candidates) : undefined;
  const best = [...new Set(clean === undefined ? [first] : [clean, first])];
  yield* known(
    belt,
    best.map((skew) => bySkew(sought, skew)),
  );
  return best.filter((skew) => helps(sought, bySkew(sought, skew)));
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
export function* leastSkew(sought: Sought): Asking<Cure[]> {
  const found = yield* curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  return (yield* bestSkews(sought, found)).map((skew) => skewCure(sought, skew, 'at least '));
}

/** The maximum skew that cures. */
export function* greatestSkewCure(sought: Sought): Asking<Cure[]> {
  const found = (yield* curingSkews(sought)).toReversed();
  if (found.length === 0) return noSkew(sought);
  return (yield* bestSkews(sought, found)).map((skew) => skewCure(sought, skew, 'at most '));
}

/** The nearest skews on either side that cure, those first after which fewest checks fail. */
export function* nearestSkews(sought: Sought): Asking<Cure[]> {
  const present = sought.belt.number('Skew') ?? 0;
  const found = yield* curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  const lesser = yield* bestSkews(sought, found.filter((skew) => skew < present).toReversed());
  const greater = yield* bestSkews(
    sought,
    found.filter((skew) => skew > present),
  );
  const [below, above] = [lesser.slice(0, 1), greater.slice(0, 1)];
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
