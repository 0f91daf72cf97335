import { fixedText } from '../units/shown-mark.ts';
import { laterPrices } from '../../sheets/buying/offers.ts';
import type { BookOffer, OfferRow, PlacedOffer } from './listed-offers.ts';
import { isoDate } from '../units/dates.ts';
import type { PriceHistory } from './price-history.ts';
import { packPrice, type Rates, type Supplier } from './search/offers.ts';
import { itemKey } from './search/order-list.ts';

/** Prices that are allowed and hardly ever meant: they are used, and told. */

/** How many times dearer or cheaper than an item's other prices one may be. Our choice: packs differ by less. */
const doubtfulTimes = 3;

const median = (numbers: readonly number[]): number => {
  const sorted = numbers.toSorted((one, other) => one - other);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? (sorted[middle] ?? 0) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
};

function tellRises(row: OfferRow, { breaks }: BookOffer): void {
  breaks.forEach(({ from, price }, place) => {
    const before = breaks[place - 1];
    if (before === undefined || price <= before.price) return;
    const number = laterPrices.find((one) => row.number(`Break ${one}`) === from);
    if (number !== undefined)
      row.tell(
        `Price ${number}`,
        `Price ${number} is ${price}, more than the ${before.price} for fewer packs: is this meant? It is used`,
      );
  });
}

const isDoubtful = (times: number): boolean => times > doubtfulTimes || times < 1 / doubtfulTimes;

const timesText = (times: number): string =>
  `${fixedText(times > 1 ? times : 1 / times, 1)} times ${times > 1 ? 'dearer' : 'cheaper'}`;

/** A price far off the article's last one, where no other offer of the item says so. */
function tellChange(row: OfferRow, offer: BookOffer, history: PriceHistory): void {
  const change = history.change(offer.article, (packs) => packPrice(packs, offer));
  if (change === undefined || !isDoubtful(1 + change.rise)) return;
  const { day, price } = change.last;
  row.tell(
    'Price',
    `Price is ${offer.breaks[0]?.price ?? 0}, ${timesText(1 + change.rise)} than the ${price} ` +
      `${day === undefined ? 'before' : `of ${isoDate(day)}`} in Price history: is this meant? It is used`,
  );
}

/**
 * Tells prices far off the item's other ones, by piece or length in the book's money, or off the article's last one,
 * and prices that rise at a break.
 */
export function tellPrices(
  offers: readonly PlacedOffer[],
  suppliers: readonly Supplier[],
  rates: Rates,
  history: PriceHistory,
): void {
  const rate = new Map(suppliers.map(({ name, currency }) => [name, rates[currency] ?? 1]));
  const each = ({ offer: { breaks, pack, supplier } }: PlacedOffer): number =>
    ((breaks[0]?.price ?? 0) * (rate.get(supplier) ?? 1)) / pack;
  const byItem = new Map<string, PlacedOffer[]>();
  for (const one of offers) {
    const key = itemKey(one.offer.item);
    byItem.set(key, [...(byItem.get(key) ?? []), one]);
  }
  for (const one of offers) {
    const { row, offer } = one;
    if (row === undefined) continue;
    tellRises(row, offer);
    // Kits hold more than the plates: their prices are no measure for plates alone.
    const kit = offer.included !== undefined;
    const others = (byItem.get(itemKey(offer.item)) ?? [])
      .filter((other) => other.row?.record !== row.record && (other.offer.included !== undefined) === kit)
      .map(each);
    if (others.length === 0) {
      tellChange(row, offer, history);
      continue;
    }
    const times = each(one) / median(others);
    if (!isDoubtful(times)) continue;
    row.tell(
      'Price',
      `Price is ${offer.breaks[0]?.price ?? 0} for ${offer.pack}, ${timesText(times)} than the item's other prices: ` +
        'is this meant? It is used',
    );
  }
}
