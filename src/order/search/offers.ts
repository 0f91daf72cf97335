import { Refusal } from '../../formula/define.ts';
import { breakPrice, packs } from '../../functions/buying.ts';
import type { Matrix, Value } from '../../formula/values.ts';
import type { Item } from './order-list.ts';

/** What suppliers sell: packs at price breaks, in their currencies, with freight, discounts and minimum orders. */

export interface PriceBreak {
  /** Packs from which the price holds, for all of them. */
  readonly from: number;
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
}

/** How much of an item a pack holds, in the unit of the item's need. */
export interface PackContent {
  readonly item: Item;
  readonly quantity: number;
}

export interface Offer {
  readonly item: Item;
  readonly supplier: string;
  /** How much a pack holds, in the unit of the item's need. */
  readonly pack: number;
  /** Ascending. */
  readonly breaks: readonly PriceBreak[];
  /** Fewer packs are not sold; 1 when it is not given. */
  readonly minimumPacks?: number;
  /** What else a pack holds: the bolts of a kit. */
  readonly included?: readonly PackContent[];
  /** Other items that the pack's own item may be used for, piece by piece. */
  readonly alternativeFor?: readonly Item[];
  /** Day on which an order of today arrives; in time for every joint when it is not given. */
  readonly arrival?: number;
}

/** A discount on all goods of an order. */
interface Discount {
  /** Value of goods from which it is given, in the supplier's currency. */
  readonly from: number;
  readonly share: number;
}

export interface Supplier {
  readonly name: string;
  readonly currency: string;
  /** Of one order, in the supplier's currency. */
  readonly freight?: number;
  /** Value of goods from which freight is free. */
  readonly freightFreeFrom?: number;
  /** Least value of goods of an order. */
  readonly minimumOrder?: number;
  /** Charged where the value of goods is less than `surchargeBelow`. */
  readonly surcharge?: number;
  readonly surchargeBelow?: number;
  /** Ascending; the value of goods that all limits look at is that before the discount. */
  readonly discounts?: readonly Discount[];
}

/** What one unit of a currency is in the book's money. */
export type Rates = Readonly<Record<string, number>>;

/**
 * Money as invoices print it: to the hundredth, halves up. The hair is for products such as 1.005 × 100, which binary
 * numbers hold a little too small.
 */
export const inCents = (money: number): number =>
  (Math.sign(money) * Math.round(Math.abs(money) * 100 * (1 + 1e-12))) / 100;

export function rateOf({ name, currency }: Supplier, rates: Rates): number {
  const rate = rates[currency];
  if (rate === undefined || !(rate > 0))
    throw new Refusal(
      'rates',
      `must have an exchange rate above 0 for ${currency}, the currency of ${name}; ${rate ?? 'none'} was given`,
    );
  return rate;
}

/** Whether goods are worth a limit; a hair below it counts as reached. */
const reaches = (goods: number, limit: number): boolean => goods >= limit * (1 - 1e-9);

/** Freight of an order whose goods are worth so much, all in the supplier's currency. */
export const freightOf = (
  { freight = 0, freightFreeFrom = Number.POSITIVE_INFINITY }: Supplier,
  goods: number,
): number => (reaches(goods, freightFreeFrom) ? 0 : freight);

/** What an order whose goods are worth so little is charged on top. */
export const surchargeOf = ({ surcharge = 0, surchargeBelow = 0 }: Supplier, goods: number): number =>
  reaches(goods, surchargeBelow) ? 0 : surcharge;

/** The share that is taken off goods worth so much. */
export const discountOf = ({ discounts = [] }: Supplier, goods: number): number =>
  discounts.findLast(({ from }) => reaches(goods, from))?.share ?? 0;

const column = (numbers: readonly number[]): Matrix => numbers.map((number) => [number]);

/** The number that a function gives, or its message as a refusal that names the offer. */
function figure(value: Value | Matrix, { item, supplier }: Offer): number {
  if (typeof value === 'number') return value;
  throw new Refusal('offers', `of ${supplier} for ${item.kind} ${item.name}: ${String(value)}`);
}

export function checkOffer(offer: Offer): void {
  const { item, supplier, pack, breaks, minimumPacks = 1, included = [] } = offer;
  const must = (holds: boolean, what: string): void => {
    if (!holds) throw new Refusal('offers', `of ${supplier} for ${item.kind} ${item.name} must ${what}`);
  };
  must(Number.isFinite(pack) && pack > 0, `have packs that hold more than 0; ${pack} was given`);
  must(
    included.every(({ quantity }) => Number.isFinite(quantity) && quantity > 0),
    'include more than 0 of what it includes',
  );
  must(
    Number.isInteger(minimumPacks) && minimumPacks >= 1,
    `have a minimum of whole packs, at least 1; ${minimumPacks} was given`,
  );
  must(breaks.length > 0, 'have at least one price');
  for (const [place, { from, price }] of breaks.entries()) {
    must(Number.isInteger(from) && from >= 0, `have breaks at whole packs; ${from} was given`);
    must(Number.isFinite(price) && price >= 0, `have prices of at least 0; ${price} was given`);
    must(
      place === 0 || from > (breaks[place - 1]?.from ?? 0),
      `have breaks that ascend; ${from} follows ${breaks[place - 1]?.from}`,
    );
  }
}

/** Whole packs that cover a need. */
export const packsFor = (need: number, offer: Offer): number => figure(packs.evaluate([need, offer.pack]), offer);

/** Price of one pack when so many are bought, in the supplier's currency. */
export const packPrice = (number: number, offer: Offer): number =>
  figure(
    breakPrice.evaluate([
      number,
      column(offer.breaks.map(({ from }) => from)),
      column(offer.breaks.map(({ price }) => price)),
    ]),
    offer,
  );
