import type { Value } from '../formula/values.ts';

/**
 * At which values of one number a figure meets a goal: all of them in a range, however the figure goes up and down.
 *
 * Every step of the range is tried where there are no more than `mostTried`; of more, as many of them, and the ends of
 * what is found are then followed step by step. What begins and ends between two neighbours that were tried, and
 * touches neither, is not found; `everyStep` says whether that can be.
 */

/** A range of whole steps: 0 to 60 by 0.5. Steps are counted from 0. */
export interface Steps {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

/** What is wanted of a figure. */
export interface Target {
  /** How far a value is from the goal, 0 where it meets it; undefined where that can't be said. */
  readonly distance: (value: Value) => number | undefined;
  /** For a figure that shall equal a number: the value less that number. */
  readonly difference?: (value: Value) => number | undefined;
}

/** A run of steps that meet the goal, and between which reals it holds: its ends lie less than a step further out. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly exactFrom: number;
  readonly exactTo: number;
}

export interface Solutions {
  readonly stretches: readonly Stretch[];
  /** Where a figure that goes on evenly equals its number, between steps too, ascending. */
  readonly roots: readonly number[];
  /** The step that comes nearest to the goal, and how far from it that is; absent where nothing can be said of any. */
  readonly nearest: { readonly at: number; readonly distance: number } | undefined;
  readonly everyStep: boolean;
}

/** Steps that are tried at most. Chosen: some tenths of a second for a belt. */
const mostTried = 4000;
/** Halvings after which two doubles of a usual size lie side by side. */
const halvings = 60;
/** A difference that counts as none, as a share of the differences around it: far above rounding, far below a step. */
const negligible = 1e-9;

type Figure = (at: number) => Value;

/** The number of steps as a number without the rounding that a product leaves: 3 x 0.1 is 0.3. */
export const atStep = (index: number, step: number): number => Number((index * step).toPrecision(14));

/** The numbers of the first and the last whole step in a range. */
export const indexes = ({ from, to, step }: Steps): readonly [number, number] => [
  Math.ceil(from / step - 1e-9),
  Math.floor(to / step + 1e-9),
];

/**
 * The steps that are tried, by their numbers: all, or half of them evenly spaced and half closer together towards the
 * beginning, where the same step changes more of a number.
 */
function tried(steps: Steps, most: number): { readonly at: readonly number[]; readonly every: boolean } {
  const [first, last] = indexes(steps);
  const count = last - first + 1;
  if (count <= most)
    return { at: Array.from({ length: Math.max(0, count) }, (_, index) => first + index), every: true };
  const half = Math.max(2, Math.floor(most / 2));
  const places = Array.from({ length: half }, (_, index) => {
    const share = index / (half - 1);
    return [first + share * (last - first), first - 1 + (last - first + 2) ** share];
  });
  return {
    at: [...new Set(places.flat().map((place) => Math.min(last, Math.round(place))))].toSorted(
      (one, other) => one - other,
    ),
    every: false,
  };
}

/**
 * The last whole number on the side of `inside` at which a condition holds, between it and one at which it does not.
 */
function lastHolding(inside: number, outside: number, holds: (index: number) => boolean): number {
  let [good, bad] = [inside, outside];
  while (Math.abs(good - bad) > 1) {
    const middle = Math.round((good + bad) / 2);
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** The last real on the side of `inside` at which a condition holds. */
function edge(inside: number, outside: number, holds: (at: number) => boolean): number {
  let [good, bad] = [inside, outside];
  for (let round = 0; round < halvings; round += 1) {
    const middle = (good + bad) / 2;
    if (middle === good || middle === bad) break;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** The runs of steps at which a condition holds. */
function stretches(steps: Steps, at: readonly number[], holds: (at: number) => boolean): Stretch[] {
  const { step } = steps;
  const meets = (index: number): boolean => holds(atStep(index, step));
  const held = at.map(meets);
  const found: Stretch[] = [];
  for (let begin = 0; begin < at.length; begin += 1) {
    if (held[begin] !== true) continue;
    let end = begin;
    while (held[end + 1] === true) end += 1;
    const [first = 0, last = 0, before, after] = [at[begin], at[end], at[begin - 1], at[end + 1]];
    const from = before === undefined ? first : lastHolding(first, before, meets);
    const to = after === undefined ? last : lastHolding(last, after, meets);
    const [low, high] = [atStep(from, step), atStep(to, step)];
    found.push({
      from: low,
      to: high,
      exactFrom: edge(low, before === undefined ? Math.min(steps.from, low) : atStep(from - 1, step), holds),
      exactTo: edge(high, after === undefined ? Math.max(steps.to, high) : atStep(to + 1, step), holds),
    });
    begin = end;
  }
  return found;
}

/** A place and the difference there. */
interface Point {
  readonly at: number;
  readonly off: number;
}

/** Where a difference changes its sign between two places, if it does so evenly and not in a leap. */
function crossing(one: Point, other: Point, off: (at: number) => number | undefined): number | undefined {
  let [low, high] = [one, other];
  for (let round = 0; round < halvings; round += 1) {
    const at = (low.at + high.at) / 2;
    if (at === low.at || at === high.at) break;
    const here = off(at);
    if (here === undefined) return undefined;
    if (here === 0) return at;
    if (here < 0 === low.off < 0) low = { at, off: here };
    else high = { at, off: here };
  }
  const best = Math.abs(low.off) <= Math.abs(high.off) ? low : high;
  return Math.abs(best.off) <= negligible * (Math.abs(one.off) + Math.abs(other.off)) ? best.at : undefined;
}

const golden = (Math.sqrt(5) - 1) / 2;

/** Where a difference comes nearest to 0 between two places, at least once; by the golden section. */
function nearestBetween(from: number, to: number, off: (at: number) => number | undefined): Point | undefined {
  let [low, high] = [from, to];
  const point = (at: number): Point | undefined => {
    const here = off(at);
    return here === undefined ? undefined : { at, off: here };
  };
  for (let round = 0; round < halvings; round += 1) {
    const [one, other] = [point(high - golden * (high - low)), point(low + golden * (high - low))];
    if (one === undefined || other === undefined) return undefined;
    if (Math.abs(one.off) < Math.abs(other.off)) high = other.at;
    else low = one.at;
  }
  return point((low + high) / 2);
}

/** What lies between two neighbours of one sign: the difference may touch 0 there, or pass it and come back. */
function dips(before: Point, middle: Point, after: Point, off: (at: number) => number | undefined): number[] {
  const lowest = nearestBetween(before.at, after.at, (at) => {
    const here = off(at);
    return here === undefined ? undefined : middle.off > 0 ? Math.max(here, 0) : Math.min(here, 0);
  });
  if (lowest === undefined) return [];
  const there = off(lowest.at);
  if (there === undefined) return [];
  if (there !== 0 && there > 0 !== middle.off > 0) {
    const bottom = { at: lowest.at, off: there };
    return [crossing(before, bottom, off), crossing(bottom, after, off)].filter((at) => at !== undefined);
  }
  const size = Math.abs(before.off) + Math.abs(after.off);
  return Math.abs(there) <= negligible * size ? [lowest.at] : [];
}

/** Everywhere that a difference is 0, found from the places that were tried. */
function roots(at: readonly number[], off: (at: number) => number | undefined): number[] {
  const points = at.map((place) => ({ at: place, off: off(place) }));
  const known = (index: number): Point | undefined => {
    const point = points[index];
    return point?.off === undefined ? undefined : { at: point.at, off: point.off };
  };
  const found: number[] = [];
  for (const index of at.keys()) {
    const [before, here, after] = [known(index - 1), known(index), known(index + 1)];
    if (here === undefined) continue;
    if (here.off === 0) found.push(here.at);
    else if (after !== undefined && after.off !== 0 && here.off < 0 !== after.off < 0) {
      const root = crossing(here, after, off);
      if (root !== undefined) found.push(root);
    } else if (before !== undefined && after !== undefined && before.off < 0 === here.off < 0) {
      const size = Math.abs(here.off);
      if (size < Math.abs(before.off) && size <= Math.abs(after.off) && after.off !== 0)
        found.push(...dips(before, here, after, off));
    }
  }
  return found;
}

/**
 * All solutions of a figure over a range of steps, of which at most so many are tried before their ends are sought;
 * `figures` works many out at once, where that is quicker.
 */
export function solutions(
  figure: Figure,
  steps: Steps,
  { distance, difference }: Target,
  most: number = mostTried,
  figures: (places: readonly number[]) => readonly Value[] = (places) => places.map(figure),
): Solutions {
  const values = new Map<number, Value>();
  const valueAt = (at: number): Value => {
    if (!values.has(at)) values.set(at, figure(at));
    return values.get(at) ?? null;
  };
  const { at, every } = tried(steps, most);
  const places = at.map((index) => atStep(index, steps.step));
  for (const [index, value] of figures(places).entries()) values.set(places[index] ?? NaN, value);
  const holds = (place: number): boolean => distance(valueAt(place)) === 0;
  let nearest: Solutions['nearest'];
  for (const place of places) {
    const far = distance(valueAt(place));
    if (far !== undefined && (nearest === undefined || far < nearest.distance)) nearest = { at: place, distance: far };
  }
  return {
    stretches: stretches(steps, at, holds),
    roots: difference === undefined ? [] : roots(places, (place) => difference(valueAt(place))),
    nearest,
    everyStep: every,
  };
}
