import { Refusal } from '../../formula/define.ts';
import type { PriceBreak } from './offers.ts';

/** How much to order at once, with price breaks for all units. */

interface BreakQuestion {
  /** A year, in what the breaks count: packs. */
  readonly demand: number;
  readonly orderCost: number;
  /** Share of the price that keeping one for a year costs. */
  readonly holdingShare: number;
  /** Ascending, with the price of one. */
  readonly breaks: readonly PriceBreak[];
}

interface BreakQuantity {
  readonly quantity: number;
  readonly price: number;
  /** Goods, orders and holding. */
  readonly yearlyCost: number;
}

/**
 * Of an order quantity: what is bought, the orders, and half of one order on the shelf all year. For tests: quantities
 * are compared by cost.
 */
export const yearlyCostOf = (
  { demand, orderCost, holdingShare }: Omit<BreakQuestion, 'breaks'>,
  quantity: number,
  price: number,
): number => demand * price + (demand / quantity) * orderCost + (holdingShare * price * quantity) / 2;

/**
 * The whole quantity whose cost a year is least.
 *
 * Within one price the cost falls to the economic order quantity and rises after it, so the candidates are that
 * quantity, rounded both ways and kept within the price's range, at each price. What costs nothing to keep would be
 * ordered once for ever: there, a year's use. No demand orders nothing.
 * Source: order quantity with all-units discounts, checked against the stockpyl documentation.
 */
export function breakQuantity(question: BreakQuestion): BreakQuantity {
  const { demand, orderCost, holdingShare, breaks } = question;
  if (!(demand >= 0 && Number.isFinite(demand))) throw new Refusal('demand', `must be at least 0; ${demand} was given`);
  if (!(orderCost >= 0)) throw new Refusal('orderCost', `must be at least 0; ${orderCost} was given`);
  if (!(holdingShare >= 0)) throw new Refusal('holdingShare', `must be at least 0; ${holdingShare} was given`);
  if (breaks.length === 0) throw new Refusal('breaks', 'must hold at least one price');
  if (breaks.some(({ from }, place) => place > 0 && from <= (breaks[place - 1]?.from ?? 0)))
    throw new Refusal('breaks', `must ascend; ${breaks.map(({ from }) => from).join(', ')} was given`);
  if (demand === 0) return { quantity: 0, price: breaks[0]?.price ?? 0, yearlyCost: 0 };
  const candidates = breaks.flatMap(({ from, price }, place): BreakQuantity[] => {
    const holding = holdingShare * price;
    const best = holding === 0 ? Math.ceil(demand) : Math.sqrt((2 * demand * orderCost) / holding);
    const least = Math.max(1, Math.ceil(from));
    const most = Math.max(least, (breaks[place + 1]?.from ?? Number.POSITIVE_INFINITY) - 1);
    return [Math.floor(best), Math.ceil(best)].map((rounded) => {
      const quantity = Math.min(most, Math.max(least, rounded));
      return { quantity, price, yearlyCost: yearlyCostOf(question, quantity, price) };
    });
  });
  return candidates.reduce((best, next) => (next.yearlyCost < best.yearlyCost ? next : best));
}
