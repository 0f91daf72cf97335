import { beltColumn } from '../../records/belt.ts';
import { amount } from '../../sheet/words.ts';
import { type Cure, cures, marginToKeep, outcome, type Sought, tried, untried } from './sought.ts';

/** Cures by another figure of the belt: its skive, its tension, its take-up, its joint. */

/** Depths of skive that bring the clamped thickness into the series' range, in whole steps of what the column shows. */
export function skiveRange(sought: Sought): Cure[] {
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
  const deepest = Math.min(to, Math.floor(cover / step + 1e-9) * step);
  const ends = [from, deepest].filter((depth) => cures(sought, skive(depth)));
  const [first = from, last = first] = ends;
  if (ends.length === 0) return [];
  return [
    tried(
      sought,
      skive(first),
      `Skive ${first === last ? words(first) : `${words(first)} to ${words(last)}`}: ${outcome(sought, skive(first))}.`,
    ),
  ];
}

/** The rating of the present series, for a tension that can be reduced. */
export function carried(sought: Sought): Cure[] {
  const { belt } = sought;
  const rating = belt.ofSeries('Tension rating');
  if (typeof rating !== 'number') return [];
  const margin = marginToKeep(sought);
  const measure = beltColumn('Working tension');
  return [
    untried(
      `Series ${String(belt.value('Plate series'))} is rated ` +
        `${amount(rating * (1 - margin), measure, belt.units)}${margin > 0 ? ' with the margin' : ''}: reduce the ` +
        `working tension (${belt.text('Tension from')}) to that.`,
    ),
  ];
}

/** The travel that would be enough, rounded up to what the column shows. */
export function neededTravel(sought: Sought): Cure[] {
  const { belt } = sought;
  const needed = belt.number('Travel needed');
  if (needed === undefined) return [];
  const column = beltColumn('Take-up travel');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 0));
  const travel = Math.ceil(needed / (1 - marginToKeep(sought)) / step - 1e-9) * step;
  const change = { inputs: { 'Take-up travel': travel } };
  return cures(sought, change)
    ? [
        tried(
          sought,
          change,
          `Move the take-up so that it has ${amount(travel, column, belt.units)} of travel: ` +
            `${outcome(sought, change)}.`,
        ),
      ]
    : [];
}

/** Steps of an insert's length, in long lengths: half a metre, a foot. Chosen. */
const insertSteps = { metric: 0.5, us: 1 } as const;

/** An insert in place of a joint, as long as it needs to be to hold the old joint and its own two plates' rows. */
export function insertedBelt(sought: Sought): Cure[] {
  const { belt } = sought;
  const [cutOut, width, long] = [belt.number('Cut-out used'), belt.number('Width'), belt.named('ShortPerLong')];
  if (cutOut === undefined || width === undefined || long === undefined || belt.given('Insert') !== undefined)
    return [];
  const step = insertSteps[belt.units];
  const length = Math.ceil((cutOut + 2 * width) / long / step - 1e-9) * step;
  const change = { inputs: { Insert: length } };
  if (!cures(sought, change)) return [];
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
export function renewed(sought: Sought): Cure[] {
  const { belt, verdict } = sought;
  const review = belt.book.named('ReviewDate');
  const due = belt.shown('Due');
  const change = { inputs: { Installed: review } };
  const renew = cures(sought, change)
    ? [tried(sought, change, `Renew the joint and enter the date in Installed: ${outcome(sought, change)}.`)]
    : [];
  return verdict === 'tight'
    ? [untried(`Plan to renew the joint by ${due}; then enter the date in Installed.`), ...renew.slice(1)]
    : renew;
}
