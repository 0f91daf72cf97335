import { itemKey, type OrderLine } from './order-list.ts';
import type { Purchase, Supply } from './supply.ts';

/** What an order costs each area in each month. */

interface BudgetRow {
  readonly area: string;
  /** When the joints are made, as year-month; of the shelf, when it is ordered. */
  readonly month: string;
  readonly goods: number;
  /** Freight and surcharges less discounts. */
  readonly charges: number;
  readonly cost: number;
}

export interface Budget {
  /** By month, then area. */
  readonly rows: readonly BudgetRow[];
  readonly total: number;
}

/** What the budget calls goods that no joint is waiting for. */
export const shelfArea = 'Shelf';

type BudgetLine = Pick<OrderLine, 'item' | 'sources' | 'need'> & Partial<Pick<OrderLine, 'forShelf' | 'toOrder'>>;

/** A purchase's share of what its supplier charges beside the goods, by value; goods that cost nothing share evenly. */
export function chargesOn(
  { supplier, cost }: Pick<Purchase, 'supplier' | 'cost'>,
  { purchases, orders }: Pick<Supply, 'purchases' | 'orders'>,
): number {
  const order = orders.find((one) => one.supplier === supplier);
  if (order === undefined) return 0;
  const number = purchases.filter((one) => one.supplier === supplier).length;
  return order.charges * (order.goods > 0 ? cost / order.goods : 1 / number);
}

/**
 * An order's cost spread over the joints that it is for, and over the shelf.
 *
 * What is paid for an item falls on its belts in proportion to what they need, whole packs and price breaks included;
 * what the shelf covers lightens all of them alike, and what is ordered for the shelf is its own. Freight and charges
 * follow the value of the goods they came with. The rows add up to the order's total.
 */
export function budget(
  lines: readonly BudgetLine[],
  supply: Pick<Supply, 'purchases' | 'orders'>,
  orderMonth = '',
): Budget {
  const rows = new Map<string, { area: string; month: string; goods: number; charges: number }>();
  const byItem = new Map(lines.map((line) => [itemKey(line.item), line]));
  for (const purchase of supply.purchases) {
    const line = byItem.get(itemKey(purchase.item));
    if (line === undefined) continue;
    const { need, sources, forShelf = 0, toOrder = 0 } = line;
    const ofJoints = toOrder > 0 ? 1 - forShelf / toOrder : 1;
    const charges = chargesOn(purchase, supply);
    const shares = [
      ...sources.map(({ area, month, quantity }) => ({ area, month, share: (ofJoints * quantity) / need })),
      { area: shelfArea, month: orderMonth, share: 1 - ofJoints },
    ];
    for (const { area, month, share } of shares) {
      if (share === 0) continue;
      const key = JSON.stringify([month, area]);
      const row = rows.get(key) ?? { area, month, goods: 0, charges: 0 };
      row.goods += purchase.cost * share;
      row.charges += charges * share;
      rows.set(key, row);
    }
  }
  const listed = [...rows.values()]
    .map((row): BudgetRow => ({ ...row, cost: row.goods + row.charges }))
    .toSorted((one, other) => one.month.localeCompare(other.month, 'en') || one.area.localeCompare(other.area, 'en'));
  return { rows: listed, total: listed.reduce((sum, { cost }) => sum + cost, 0) };
}
