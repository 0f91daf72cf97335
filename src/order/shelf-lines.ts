import type { PriceBreak } from './search/offers.ts';
import { type Item, itemKey } from './search/order-list.ts';
import { type BeltUse, type ShelfItem, type ShelfLine, shelfPlan, unlisted } from './search/shelf.ts';
import { type ShelfPolicy, type SimulatedShelf, simulatedShelf } from './search/shelf-simulation.ts';
import { Belt } from '../records/belt.ts';
import { settled } from '../functions/rounding.ts';
import { criticalities } from '../../sheets/buying/shelf.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import type { FleetOrder } from './fleet-order.ts';
import { fleetJoints } from './fleet-joints.ts';
import { byLength, Items } from './items.ts';
import type { BookOffer } from './listed-offers.ts';

/**
 * What to keep on the shelf, from the use of all belts, and the service that it gives when years are played through.
 */

export interface FleetShelfLine extends ShelfLine {
  readonly bin: string;
  readonly criticality: string;
  /** Smallest amount that is distinguished. */
  readonly step: number;
  /** Whose pack and prices the order quantity is worked out with; absent when nobody offers it. */
  readonly offer?: BookOffer;
}

export interface FleetShelf {
  readonly lines: readonly FleetShelfLine[];
  /** Items that joints take and the shelf does not list. */
  readonly unlisted: readonly Item[];
  /** Belts whose use is not counted, since their life or running hours are not known. */
  readonly uncounted: readonly { readonly belt: string; readonly record: number; readonly reason: string }[];
  readonly daysPerYear: number;
}

/** The offer whose single pack is cheapest by piece or length, with its prices in the book's money. */
function cheapestOffer(
  item: Item,
  { offered: { offers, suppliers, rates } }: FleetOrder,
): { readonly offer: BookOffer; readonly breaks: readonly PriceBreak[] } | undefined {
  const rate = new Map(suppliers.map(({ name, currency }) => [name, rates[currency] ?? 1]));
  const each = (offer: BookOffer): number =>
    ((offer.breaks[0]?.price ?? 0) * (rate.get(offer.supplier) ?? 1)) / offer.pack;
  const [offer] = offers
    .filter((one) => itemKey(one.item) === itemKey(item))
    .toSorted((one, other) => each(one) - each(other));
  return offer === undefined
    ? undefined
    : {
        offer,
        breaks: offer.breaks.map(({ from, price }) => ({ from, price: price * (rate.get(offer.supplier) ?? 1) })),
      };
}

/** Minimum length of strip and belt that use is distinguished by: a tenth of a metre, a third of a foot. */
const lengthStep = 0.1;

/** Shares of a punch or a consumable that are distinguished. */
const fraction = 0.01;

/**
 * The use of every belt whose life and running hours are known, and why the others have none.
 *
 * A belt that fails a check runs today and uses up parts like any other: until its joint is changed it counts.
 */
function beltUses(
  book: Workbook,
  { stock }: FleetOrder,
): { readonly uses: BeltUse[]; readonly uncounted: FleetShelf['uncounted'] } {
  const failureShare = assumed(book, 'UnplannedFailures');
  const uncounted: FleetShelf['uncounted'][number][] = [];
  const { belts } = fleetJoints(book, new Items(book), stock.consumables, { which: 'all' }, { failing: true });
  const uses = belts.flatMap(({ record, belt: name, joints: number, parts }): BeltUse[] => {
    const belt = new Belt(book, record);
    const [hoursPerYear, jointLife] = [belt.number('Hours per year'), belt.number('Life in hours')];
    if (hoursPerYear !== undefined && jointLife !== undefined && jointLife > 0 && hoursPerYear >= 0)
      return [{ belt: name, joints: number, hoursPerYear, jointLife, failureShare, parts }];
    uncounted.push({
      belt: name,
      record,
      reason: hoursPerYear === undefined ? 'its hours per year are not known' : 'its joint life is not known',
    });
    return [];
  });
  return { uses, uncounted };
}

interface Shelved {
  readonly bin: string;
  readonly offer?: BookOffer;
  readonly shelved: ShelfItem;
}

/** The items that the shelf lists, with whose pack and prices they are ordered. */
function shelvedItems(book: Workbook, order: FleetOrder, uses: readonly BeltUse[]): Shelved[] {
  const [leadDays, orderCost, holdingShare, lengths] = [
    assumed(book, 'LeadTime'),
    assumed(book, 'OrderCost'),
    assumed(book, 'HoldingCost'),
    lengthStep / assumed(book, 'MetresPerLong'),
  ];
  const sum = (item: Item, stocked: FleetOrder['stock']['shelf']): number =>
    stocked.reduce((total, one) => (itemKey(one.item) === itemKey(item) ? total + one.quantity : total), 0);
  /** The least quantity that a joint takes of an item, at most 1. */
  const smallest = (wanted: Item): number =>
    Math.min(
      ...uses.flatMap(({ parts }) =>
        parts.filter(({ item }) => itemKey(item) === itemKey(wanted)).map(({ quantity }) => quantity),
      ),
      1,
    );
  return order.stock.reorders.map((reorder) => {
    const { item } = reorder;
    const best = cheapestOffer(item, order);
    return {
      ...(best === undefined ? {} : { offer: best.offer }),
      bin: reorder.bin,
      shelved: {
        item,
        criticality: reorder.criticality === '' ? 'normal' : reorder.criticality,
        leadDays: reorder.leadDays ?? leadDays,
        leadDeviationDays: reorder.spreadDays ?? 0,
        orderCost: reorder.orderCost ?? orderCost,
        holdingShare,
        pack: best?.offer.pack ?? 1,
        breaks: best?.breaks ?? [{ from: 1, price: 0 }],
        onShelf: sum(item, order.stock.shelf),
        onOrder: sum(item, order.stock.onOrder),
        ...(byLength(item) ? { step: lengths } : { step: smallest(item) < 1 ? fraction : 1, counted: 1 }),
      },
    };
  });
}

/**
 * The shelf of a book; its goods, offers and orders are those of `order`.
 *
 * Punches and consumables are used up joint by joint, a share each: they count as one for as many joints as they last,
 * and are ordered by whole ones, since nobody sees a share of one.
 */
export function fleetShelf(book: Workbook, order: FleetOrder): FleetShelf {
  const daysPerYear = assumed(book, 'DaysPerYear');
  const { uses, uncounted } = beltUses(book, order);
  const items = shelvedItems(book, order, uses);
  const shelf = items.map(({ shelved }) => shelved);
  const services = Object.fromEntries(Object.entries(criticalities).map(([word, name]) => [word, assumed(book, name)]));
  return {
    lines: shelfPlan(shelf, uses, { services, daysPerYear }).map((line, place) => {
      const { bin = '', offer, shelved } = items[place] ?? {};
      return {
        ...line,
        bin,
        criticality: shelved?.criticality ?? '',
        step: shelved?.step ?? 1,
        ...(offer === undefined ? {} : { offer }),
      };
    }),
    unlisted: unlisted(shelf, uses),
    uncounted,
    daysPerYear,
  };
}

/** Joints that are played through for each item: enough for a narrow interval. */
const playedJoints = 20_000;
const mostYears = 20_000;

/**
 * Years on the shelf of one item with a fixed seed; undefined for an item that no joint takes.
 *
 * Played in whole steps, as the reorder point is worked out: sums of fractions would miss it by a last digit.
 */
export function played(
  { use, lots, lead, reorderPoint, orderQuantity, step }: FleetShelfLine,
  seed = 1,
): SimulatedShelf | undefined {
  const rate = lots.reduce((sum, { perYear }) => sum + perYear, 0);
  if (use === 'unused' || !(rate > 0) || !(orderQuantity >= step)) return undefined;
  const years = Math.max(1, Math.min(mostYears, Math.round(playedJoints / rate)));
  const inSteps: ShelfPolicy = {
    lots: lots.map(({ perYear, quantity }) => ({ perYear, quantity: Math.ceil(settled(quantity / step)) })),
    lead,
    reorderPoint: Math.round(reorderPoint / step),
    orderQuantity: Math.floor(settled(orderQuantity / step)),
  };
  const { least, mean, ...rest } = simulatedShelf(inSteps, { years, seed });
  return { ...rest, least: least * step, mean: mean * step };
}
