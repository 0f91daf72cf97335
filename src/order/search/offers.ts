import { Refusal } from '../../formula/define.ts';
import { breakPrice, packs } from '../../functions/buying.ts';
import type { Matrix, Value } from '../../formula/values.ts';
import type { Item } from './order-list.ts';

/** What suppliers sell: packs at price breaks, in their currencies, with freight and minimum orders. */

export interface PriceBreak {
  /** Packs from which the price holds, for all of them. */
  readonly from: number;
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
}

export interface Offer {
  readonly item: Item;
  readonly supplier: string;
  /** How much a pack holds, in the unit of the item's need. */
  readonly pack: number;
  /** Ascending. */
  readonly breaks: readonly PriceBreak[];
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
}

/** What one unit of a currency is in the book's money. */
export type Rates = Readonly<Record<string, number>>;

export function rateOf({ name, currency }: Supplier, rates: Rates): number {
  const rate = rates[currency];
  if (rate === undefined || !(rate > 0))
    throw new Refusal(
      'rates',
      `must have an exchange rate above 0 for ${currency}, the currency of ${name}; ${rate ?? 'none'} was given`,
    );
  return rate;
}

/**
 * Freight of an order whose goods are worth so much, all in the supplier's currency. A hair below the threshold counts
 * as reached.
 */
export const freightOf = (
  { freight = 0, freightFreeFrom = Number.POSITIVE_INFINITY }: Supplier,
  goods: number,
): number => (goods >= freightFreeFrom * (1 - 1e-9) ? 0 : freight);

const column = (numbers: readonly number[]): Matrix => numbers.map((number) => [number]);

/** The number that a function gives, or its message as a refusal that names the offer. */
function figure(value: Value | Matrix, { item, supplier }: Offer): number {
  if (typeof value === 'number') return value;
  throw new Refusal('offers', `of ${supplier} for ${item.kind} ${item.name}: ${String(value)}`);
}

export function checkOffer(offer: Offer): void {
  const { item, supplier, pack, breaks } = offer;
  const must = (holds: boolean, what: string): void => {
    if (!holds) throw new Refusal('offers', `of ${supplier} for ${item.kind} ${item.name} must ${what}`);
  };
  must(Number.isFinite(pack) && pack > 0, `have packs that hold more than 0; ${pack} was given`);
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
