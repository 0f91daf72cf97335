import { criticalities } from '../../sheets/buying/shelf.ts';
import { assumed } from '../records/assumed.ts';
import { Belt } from '../records/belt.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { FleetJoints } from './fleet-joints.ts';
import { byLength } from './items.ts';
import { itemKey, type Item, type Stocked } from './search/order-list.ts';
import { type BeltUse, reorderLevel, useByItem } from './search/shelf.ts';
import type { Reorder, Stock } from './stock.ts';

/** What the shelf is to hold beside the planned joints, from the use of all belts. */

/** A belt whose use is not counted, since its life or running hours are not known. */
export interface Uncounted {
  readonly belt: string;
  readonly record: number;
  readonly reason: string;
}

/**
 * The use of every belt whose life and running hours are known, and why the others have none.
 *
 * Joints that are ordered by their day leave only failures to the shelf. A belt that fails a check, or whose joint has
 * no day, runs today and uses up parts like any other: until that is changed, all its joints are the shelf's.
 */
export function beltUses(
  book: Workbook,
  running: FleetJoints,
): { readonly uses: readonly BeltUse[]; readonly uncounted: readonly Uncounted[] } {
  const failureShare = assumed(book, 'UnplannedFailures');
  const uncounted: Uncounted[] = [];
  const uses = running.belts.flatMap(({ record, belt: name, joints, parts, due, failing }): BeltUse[] => {
    const belt = new Belt(book, record);
    const [hoursPerYear, jointLife] = [belt.number('Hours per year'), belt.number('Life in hours')];
    if (hoursPerYear !== undefined && jointLife !== undefined && jointLife > 0 && hoursPerYear >= 0)
      return [
        { belt: name, joints, hoursPerYear, jointLife, failureShare, planned: due !== undefined && !failing, parts },
      ];
    uncounted.push({
      belt: name,
      record,
      reason: hoursPerYear === undefined ? 'its hours per year are not known' : 'its joint life is not known',
    });
    return [];
  });
  return { uses, uncounted };
}

/** Minimum length of strip and belt that use is distinguished by: a tenth of a metre, a third of a foot. */
const lengthStep = 0.1;

/** Shares of a punch or a consumable that are distinguished. */
const fraction = 0.01;

/** Smallest amounts of an item that use is distinguished by, and that people count. */
export function itemSteps(
  book: Workbook,
  item: Item,
  uses: readonly BeltUse[],
): { readonly step: number; readonly counted?: number } {
  if (byLength(item)) return { step: lengthStep / assumed(book, 'MetresPerLong') };
  /** The least quantity that a joint takes, at most 1. */
  const smallest = Math.min(
    ...uses.flatMap(({ parts }) =>
      parts.filter((part) => itemKey(part.item) === itemKey(item)).map(({ quantity }) => quantity),
    ),
    1,
  );
  return { step: smallest < 1 ? fraction : 1, counted: 1 };
}

/** Lead time, criticality and service of an item, with what the assumptions say where its bin says nothing. */
export const reorderTerms = (
  book: Workbook,
  { leadDays, spreadDays, criticality }: Reorder,
): { readonly criticality: string; readonly leadDays: number; readonly leadDeviationDays: number } => ({
  criticality: criticality === '' ? 'normal' : criticality,
  leadDays: leadDays ?? assumed(book, 'LeadTime'),
  leadDeviationDays: spreadDays ?? 0,
});

/** Chances of no shortage by criticality. */
export const bookServices = (book: Workbook): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(criticalities).map(([word, name]) => [word, assumed(book, name)]));

/** The level of every item that the shelf lists. */
export function shelfLevels(book: Workbook, { reorders }: Stock, running: FleetJoints): Stocked[] {
  const { uses } = beltUses(book, running);
  const byItem = useByItem(uses);
  const terms = { services: bookServices(book), daysPerYear: assumed(book, 'DaysPerYear') };
  return reorders.map((reorder) => ({
    item: reorder.item,
    quantity: reorderLevel(
      { item: reorder.item, ...reorderTerms(book, reorder), ...itemSteps(book, reorder.item, uses) },
      byItem.get(itemKey(reorder.item))?.lots ?? [],
      terms,
    ).reorderPoint,
  }));
}
