import { Refusal } from '../../formula/define.ts';
import { type FleetOrder, firstOrder, type SuppliedOrder } from '../../order/fleet-order.ts';
import { itemKey } from '../../order/search/order-list.ts';

/** What the order dialog can say at once, before any worker is asked. */

/** Each item from its cheapest offer; undefined where offers refuse, which the search then tells. */
export function firstAnswer(order: FleetOrder): SuppliedOrder | undefined {
  try {
    return firstOrder(order);
  } catch (error) {
    if (error instanceof Refusal) return undefined;
    throw error;
  }
}

/** How many cutting plans there will be: one for each strip and belt. */
export const wantedPlans = ({ joints }: FleetOrder): number =>
  new Set(joints.belts.flatMap(({ pieces }) => pieces.map(({ item }) => itemKey(item)))).size;
