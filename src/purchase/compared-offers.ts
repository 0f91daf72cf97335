import { chosenSupply, type FleetOrder, type SuppliedOrder } from '../order/fleet-order.ts';
import type { BookOffer } from '../order/listed-offers.ts';
import { inCents, packPrice, packsFor } from '../order/search/offers.ts';
import { itemKey, type OrderLine } from '../order/search/order-list.ts';
import { rounded } from '../sheet/words.ts';
import { money } from './order-words.ts';

/** Every offer for what is to be ordered, and why it was bought or not. */

/** An offer for a line of the order, as if all of it were bought there. */
export interface ComparedOffer {
  readonly line: number;
  readonly orderLine: OrderLine;
  readonly offer: BookOffer;
  readonly currency: string;
  readonly rate: number;
  readonly packs: number;
  readonly price: number;
  readonly cost: number;
  readonly bought: number;
}

export function comparedOffers({ lines, offered }: FleetOrder, supplied: SuppliedOrder): ComparedOffer[] {
  const { purchases } = chosenSupply(supplied);
  const serves = (offer: BookOffer, { item }: OrderLine): boolean =>
    [offer.item, ...(offer.alternativeFor ?? [])].some((one) => itemKey(one) === itemKey(item));
  return lines.flatMap((orderLine, line) =>
    orderLine.toOrder <= 0
      ? []
      : offered.offers
          .filter((offer) => serves(offer, orderLine))
          .map((offer): ComparedOffer => {
            const currency = offered.suppliers.find(({ name }) => name === offer.supplier)?.currency ?? '';
            const rate = offered.rates[currency] ?? 1;
            const packs = Math.max(offer.minimumPacks ?? 1, packsFor(orderLine.toOrder, offer));
            const price = packPrice(packs, offer);
            const bought = purchases.filter(
              (one) =>
                one.supplier === offer.supplier &&
                one.pack === offer.pack &&
                itemKey(one.item) === itemKey(orderLine.item) &&
                itemKey(one.offer.item) === itemKey(offer.item) &&
                one.offer.breaks[0]?.price === offer.breaks[0]?.price &&
                JSON.stringify(one.included.map(({ item }) => item)) ===
                  JSON.stringify((offer.included ?? []).map(({ item }) => item)),
            );
            return {
              line,
              orderLine,
              offer,
              currency,
              rate,
              packs,
              price,
              cost: inCents(inCents(packs * price) * rate),
              bought: bought.reduce((sum, one) => sum + one.packs, 0),
            };
          }),
  );
}

/** Why an offer was bought or not, beside the cheapest of its item and what was bought instead. */
export function reason(one: ComparedOffer, others: readonly ComparedOffer[], day: number): string {
  const least = Math.min(...others.map(({ cost }) => cost));
  if (one.bought > 0)
    return one.cost <= least
      ? 'bought: cheapest goods'
      : 'bought: with freight, charges and other items from there the whole order is cheapest';
  const { arrival } = one.offer;
  const first = one.orderLine.before[0]?.day;
  if (arrival !== undefined && first !== undefined && arrival >= first)
    return (
      `not bought: comes ${arrival - day} days from now, ${rounded(arrival - first + 1, 0)} days after a joint ` +
      `is due`
    );
  const winner = others.find(({ bought }) => bought > 0);
  if (winner === undefined) return 'not bought: bolts come in kits, or the supplier’s minimum order is not worth it';
  const dearer = one.cost - winner.cost;
  return dearer > 0
    ? `not bought: goods ${money(dearer)} dearer (${rounded((dearer / winner.cost) * 100, 1)} %) than ` +
        `${winner.offer.supplier}`
    : 'not bought: goods are no dearer, but freight, charges or minimum order make the whole order dearer';
}
