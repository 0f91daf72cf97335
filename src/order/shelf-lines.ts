import type { PriceBreak } from './search/offers.ts';
import { type Item, itemKey } from './search/order-list.ts';
import { type BeltUse, type ShelfItem, type ShelfLine, shelfPlan, unlisted, useByItem } from './search/shelf.ts';
import { breakQuantity } from './search/break-quantity.ts';
import { type ShelfPolicy, type SimulatedShelf, simulatedShelf } from './search/shelf-simulation.ts';
import { settled } from '../functions/rounding.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import type { FleetOrder } from './fleet-order.ts';
import type { BookOffer } from './listed-offers.ts';
import { beltUses, bookServices, itemSteps, reorderTerms, type Uncounted } from './shelf-levels.ts';

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
  readonly uncounted: readonly Uncounted[];
  readonly daysPerYear: number;
}

/** How much of an item all belts use in a year. */
const yearlyUse = (item: Item, uses: readonly BeltUse[]): number =>
  (useByItem(uses).get(itemKey(item))?.sources ?? []).reduce(
    (sum, { planned, unplanned }) => sum + planned + unplanned,
    0,
  );

/** The offer of the least yearly cost at its best order quantity, with its prices in the book's money. */
function bestOffer(
  item: Item,
  { offered: { offers, suppliers, rates } }: FleetOrder,
  { demand, orderCost, holdingShare }: Readonly<Record<'demand' | 'orderCost' | 'holdingShare', number>>,
): { readonly offer: BookOffer; readonly breaks: readonly PriceBreak[] } | undefined {
  const own = offers
    .filter((one) => itemKey(one.item) === itemKey(item))
    .map((offer) => {
      const supplier = suppliers.find(({ name }) => name === offer.supplier);
      const rate = rates[supplier?.currency ?? ''] ?? 1;
      const breaks = offer.breaks.map(({ from, price }) => ({ from, price: price * rate }));
      const freight = (supplier?.freight ?? 0) * rate;
      const { yearlyCost } = breakQuantity({
        demand: demand / offer.pack,
        orderCost: orderCost + freight,
        holdingShare,
        breaks,
      });
      // Of what nobody uses, the cheapest by piece says what it is worth.
      return { offer, breaks, yearlyCost: demand === 0 ? (breaks[0]?.price ?? 0) / offer.pack : yearlyCost };
    });
  return own.toSorted((one, other) => one.yearlyCost - other.yearlyCost)[0];
}

interface Shelved {
  readonly bin: string;
  readonly offer?: BookOffer;
  readonly shelved: ShelfItem;
}

/** The items that the shelf lists, with whose pack and prices they are ordered. */
function shelvedItems(book: Workbook, order: FleetOrder, uses: readonly BeltUse[]): Shelved[] {
  const [orderCost, holdingShare] = [assumed(book, 'OrderCost'), assumed(book, 'HoldingCost')];
  const sum = (item: Item, stocked: FleetOrder['stock']['shelf']): number =>
    stocked.reduce((total, one) => (itemKey(one.item) === itemKey(item) ? total + one.quantity : total), 0);
  return order.stock.reorders.map((reorder) => {
    const { item } = reorder;
    const terms = { orderCost: reorder.orderCost ?? orderCost, holdingShare };
    const best = bestOffer(item, order, { ...terms, demand: yearlyUse(item, uses) });
    return {
      ...(best === undefined ? {} : { offer: best.offer }),
      bin: reorder.bin,
      shelved: {
        item,
        ...reorderTerms(book, reorder),
        ...terms,
        pack: best?.offer.pack ?? 1,
        breaks: best?.breaks ?? [{ from: 1, price: 0 }],
        onShelf: sum(item, order.stock.shelf),
        onOrder: sum(item, order.stock.onOrder),
        ...itemSteps(book, item, uses),
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
  const { uses, uncounted } = beltUses(book, order.running);
  const items = shelvedItems(book, order, uses);
  const shelf = items.map(({ shelved }) => shelved);
  const services = bookServices(book);
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
