import { itemKey, type OrderLine } from './order-list.ts';
import type { Supply } from './supply.ts';

/** What an order costs each area in each month. */

interface BudgetRow {
  readonly area: string;
  /** When the joints are made, as year-month. */
  readonly month: string;
  readonly goods: number;
  readonly freight: number;
  readonly cost: number;
}

export interface Budget {
  /** By month, then area. */
  readonly rows: readonly BudgetRow[];
  readonly total: number;
}

/**
 * An order's cost spread over the joints that it is for.
 *
 * What is paid for an item falls on its belts in proportion to what they need, whole packs and price breaks included;
 * what the shelf covers lightens all of them alike. Freight follows the value of the goods it came with. The rows add
 * up to the order's total.
 */
export function budget(
  lines: readonly OrderLine[],
  { purchases, orders }: Pick<Supply, 'purchases' | 'orders'>,
): Budget {
  const byItem = new Map(lines.map((line) => [itemKey(line.item), line]));
  const freightShare = new Map(
    orders.map(({ supplier, goods, freight }) => [
      supplier,
      { goods, freight, purchases: purchases.filter((one) => one.supplier === supplier).length },
    ]),
  );
  const rows = new Map<string, { area: string; month: string; goods: number; freight: number }>();
  for (const { item, supplier, cost } of purchases) {
    const line = byItem.get(itemKey(item));
    if (line === undefined) continue;
    const order = freightShare.get(supplier);
    // Goods that cost nothing share the freight evenly.
    const freight =
      order === undefined ? 0 : order.freight * (order.goods > 0 ? cost / order.goods : 1 / order.purchases);
    for (const { area, month, quantity } of line.sources) {
      const share = quantity / line.need;
      const key = JSON.stringify([month, area]);
      const row = rows.get(key) ?? { area, month, goods: 0, freight: 0 };
      row.goods += cost * share;
      row.freight += freight * share;
      rows.set(key, row);
    }
  }
  const listed = [...rows.values()]
    .map((row): BudgetRow => ({ ...row, cost: row.goods + row.freight }))
    .toSorted((one, other) => one.month.localeCompare(other.month, 'en') || one.area.localeCompare(other.area, 'en'));
  return { rows: listed, total: listed.reduce((sum, { cost }) => sum + cost, 0) };
}
