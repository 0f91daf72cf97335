import { byLength, amountText, itemText } from './items.ts';
import type { FleetOrder } from './fleet-order.ts';
import { itemKey } from './search/order-list.ts';
import type { Supply } from './search/supply.ts';
import type { UnitSystem } from '../units/quantities.ts';

/** What an order buys beyond its needs and the rounding to packs, and why. */

/** Why more packs of a supplier are bought than the needs take: a limit of its that the order only just reaches. */
function reason(
  { invoiced: { goods } }: Supply['orders'][number],
  terms: FleetOrder['offered']['suppliers'][number],
): string {
  const limits: readonly (readonly [number | undefined, string])[] = [
    [terms.minimumOrder, 'the minimum order'],
    [terms.freightFreeFrom, 'freight free of charge'],
    [terms.surchargeBelow, 'an order without surcharge'],
    ...(terms.discounts ?? []).map(({ from }) => [from, 'a discount'] as const),
  ];
  const [, word] = limits
    .filter(([limit]) => limit !== undefined && goods >= limit)
    .toSorted(([one = 0], [other = 0]) => other - one)[0] ?? [undefined, 'a lower price'];
  return `to reach ${word} of ${terms.name}`;
}

/** A sentence for each purchase that holds at least a whole pack more than its item needs. */
export function surplusTexts(
  { lines, offered: { suppliers } }: Pick<FleetOrder, 'lines' | 'offered'>,
  supply: Supply,
  units: UnitSystem,
): string[] {
  return lines.flatMap(({ item, toOrder }) => {
    const own = supply.purchases.filter((purchase) => itemKey(purchase.item) === itemKey(item));
    const surplus = own.reduce((sum, { quantity }) => sum + quantity, 0) - toOrder;
    return own.flatMap(({ pack, supplier, included, offer: { minimumPacks = 1 }, packs }) => {
      const order = supply.orders.find((one) => one.supplier === supplier);
      const terms = suppliers.find(({ name }) => name === supplier);
      if (surplus < pack * (1 + 1e-9) || included.length > 0 || order === undefined || terms === undefined) return [];
      const why = packs === minimumPacks ? `since ${supplier} sells no fewer packs` : reason(order, terms);
      const amount = byLength(item) ? surplus : Math.floor(surplus);
      return [`${amountText(amount, item, units)} ${itemText(item, units)} are bought beyond the need, ${why}`];
    });
  });
}
