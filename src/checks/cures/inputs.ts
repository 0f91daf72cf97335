import { shortText } from '../../units/shown-mark.ts';
import { beltColumn } from '../../records/belt.ts';
import type { Asking } from '../../records/belt-trials.ts';
import { amount } from '../../sheet/words.ts';
import { type Cure, curedBy, curing, known, marginToKeep, outcome, type Sought, tried, untried } from './sought.ts';

/** Cures by another figure of the belt: its skive, its tension, its take-up, its joint. */

/** No skive at all is no depth. */
const skiveText = (words: (depth: number) => string, first: number, last: number): string =>
  first > 0
    ? `Skive ${first === last ? words(first) : `${words(first)} to ${words(last)}`}`
    : `Do not skive${last > 0 ? `, or skive at most ${words(last)}` : ''}`;

/** Depths of skive that bring the clamped thickness into the series' range, in whole steps of what the column shows. */
export function* skiveRange(sought: Sought): Asking<Cure[]> {
  const { belt } = sought;
  const [thickness, lower, upper] = [
    belt.number('Thickness'),
    belt.ofSeries('Minimum thickness'),
    belt.ofSeries('Maximum thickness'),
  ];
  if (thickness === undefined || typeof lower !== 'number' || typeof upper !== 'number') return [];
  const margin = marginToKeep(sought);
  const column = beltColumn('Skive depth');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 1));
  const cover = belt.number('Top cover') ?? Infinity;
  const from = Math.ceil(Math.max(0, thickness - upper * (1 - margin)) / step - 1e-9) * step;
  const to = Math.floor((thickness - lower * (1 + margin)) / step + 1e-9) * step;
  const skive = (depth: number): { readonly inputs: { readonly 'Skive depth': number } } => ({
    inputs: { 'Skive depth': depth },
  });
  const words = (depth: number): string => amount(depth, column, belt.units);
  if (from > to) return [];
  if (from > cover)
    return [
      untried(
        `Skiving cannot cure it: it would take at least ${words(from)}, more than the top cover of ${words(cover)}.`,
      ),
    ];
  // As much cover is left under the plates as there must be, where the thickness allows it.
  const left = cover - (belt.named('CoverLeft') ?? 0);
  const deepest = Math.min(to, Math.floor((left >= from ? left : cover) / step + 1e-9) * step);
  const ends = yield* curing(sought, [from, deepest], skive);
  const [first = from, last = first] = ends;
  if (ends.length === 0) return [];
  yield* known(belt, [skive(first)]);
  return [tried(sought, skive(first), `${skiveText(words, first, last)}: ${outcome(sought, skive(first))}.`)];
}

/** What can be done about a tension, by the method that it is from: a calculated one is not lowered by typing. */
const lowering: Readonly<Record<string, string>> = {
  entered: 'reduce the tension in the belt to that and enter it in Known tension',
  power: 'limit the starting torque or the load, or choose a stronger {part}; correct Power only if it is wrong',
  resistances:
    'reduce the load or the starting torque, or choose a stronger {part}; correct the inputs of the resistances only ' +
    'if they are wrong',
  'belt rating': 'if the belt runs at a lower tension, enter it in Known tension',
};

/** The tension at which a check passes, rounded down to what its column shows, and how to come to it. */
function lowered(sought: Sought, limit: number, named: string, part: 'series' | 'belt'): Cure[] {
  const { belt } = sought;
  const how = lowering[belt.text('Tension from')];
  if (how === undefined) return [];
  const margin = marginToKeep(sought);
  const column = beltColumn('Working tension');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 1));
  const tension = Math.floor((limit * (1 - margin)) / step + 1e-9) * step;
  const [shown, most] = [amount(tension, column, belt.units), amount(limit, column, belt.units)];
  const less = margin > 0 ? ` less the ${shortText(margin * 100, 2)} % margin` : '';
  return [
    untried(
      `At ${shown}${shown === most ? `, the ${named},` : ` (${named} ${most}${less})`} this check ` +
        `${sought.verdict === 'tight' ? 'fits' : 'passes'}: ${how.replace('{part}', part)}.`,
    ),
  ];
}

/** The rating of the present series, for a tension that can be reduced. */
export function seriesCarries(sought: Sought): Cure[] {
  const rating = sought.belt.ofSeries('Tension rating');
  return typeof rating === 'number' ? lowered(sought, rating, 'series rating', 'series') : [];
}

/** The belt's own rating. */
export function beltCarries(sought: Sought): Cure[] {
  const rating = sought.belt.number('Belt rating used');
  return rating === undefined ? [] : lowered(sought, rating, 'belt rating', 'belt');
}

/** The tension at which each plate carries no more than the rating of its pitch: less than the series' own rating. */
export function plateCarries(sought: Sought): Cure[] {
  const { belt } = sought;
  const [rating, pitch] = [belt.ofSeries('Tension rating'), belt.ofSeries('Pitch')];
  const [tension, load] = [belt.number('Working tension'), belt.number('Load per plate')];
  if (
    typeof rating !== 'number' ||
    typeof pitch !== 'number' ||
    tension === undefined ||
    load === undefined ||
    load <= 0
  )
    return [];
  return lowered(sought, (tension * rating * pitch) / load, 'limit of the plates', 'series');
}

/** The travel that would be enough, rounded up to what the column shows. */
export function* neededTravel(sought: Sought): Asking<Cure[]> {
  const { belt } = sought;
  const needed = belt.number('Travel needed');
  if (needed === undefined) return [];
  const column = beltColumn('Take-up travel');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 0));
  const travel = Math.ceil(needed / (1 - marginToKeep(sought)) / step - 1e-9) * step;
  const change = { inputs: { 'Take-up travel': travel } };
  const left = belt.number('Take-up travel');
  const now = left === undefined ? '' : ` from ${amount(left, column, belt.units)}`;
  return (yield* curedBy(sought, change))
    ? [
        tried(
          sought,
          change,
          `Increase the take-up travel${now} to ${amount(travel, column, belt.units)}, if the take-up's stroke ` +
            `allows ` +
            `it: ` +
            `${outcome(sought, change)}.`,
        ),
      ]
    : [];
}

/** Steps of an insert's length, in long lengths: half a metre, a foot. Chosen. */
const insertSteps = { metric: 0.5, us: 1 } as const;

/** An insert in place of a joint, as long as it needs to be to hold the old joint and its own two plates' rows. */
export function* insertedBelt(sought: Sought): Asking<Cure[]> {
  const { belt } = sought;
  const [cutOut, width, long] = [belt.number('Cut-out used'), belt.number('Width'), belt.named('ShortPerLong')];
  if (cutOut === undefined || width === undefined || long === undefined || belt.given('Insert') !== undefined)
    return [];
  const step = insertSteps[belt.units];
  const length = Math.ceil((cutOut + 2 * width) / long / step - 1e-9) * step;
  const change = { inputs: { Insert: length } };
  if (!(yield* curedBy(sought, change))) return [];
  const toOrder = belt.after(change).value('Insert to order');
  return [
    tried(
      sought,
      change,
      `Put in an insert of ${amount(length, beltColumn('Insert'), belt.units)} with two joints` +
        `${
          typeof toOrder === 'number' ? `, ${amount(toOrder, beltColumn('Insert to order'), belt.units)} to order` : ''
        }` +
        `: ${outcome(sought, change)}.`,
    ),
  ];
}

/** The date of the next joint: how long ago or ahead it is due, and what renewing does. */
export function* renewed(sought: Sought): Asking<Cure[]> {
  const { belt, verdict } = sought;
  const review = belt.book.named('ReviewDate');
  const due = belt.shown('Due');
  const change = { inputs: { Installed: review } };
  const renew = (yield* curedBy(sought, change))
    ? [tried(sought, change, `Renew the joint and enter the date in Installed: ${outcome(sought, change)}.`)]
    : [];
  return verdict === 'tight'
    ? [untried(`Plan to renew the joint by ${due}; then enter the date in Installed.`), ...renew.slice(1)]
    : renew;
}
