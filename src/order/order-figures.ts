import { TableCells } from '../sheet/table-cells.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { FleetOrder, SuppliedOrder } from './fleet-order.ts';
import { chosenSupply } from './fleet-order.ts';
import type { BookOffer } from './listed-offers.ts';
import {
  budgetColumns,
  listColumns,
  needColumns,
  orderTableNames,
  purchaseColumns,
  rateColumns,
  supplierColumns,
} from './order-table-columns.ts';
import { chargesOn } from './search/budget.ts';
import { packsFor } from './search/offers.ts';
import { type Item, itemKey } from './search/order-list.ts';
import type { Purchase, Supply } from './search/supply.ts';

/** What the tables of an order say, worked out once: rows, costs, charges, and where each table has its cells. */

/**
 * The offer that a purchase was made of, with its names. Found by what it says: a purchase that comes from a worker
 * holds a copy of its offer.
 */
export function offerOf({ offer }: Purchase, offers: readonly BookOffer[]): BookOffer | undefined {
  const text = (one: Purchase['offer']): string =>
    JSON.stringify([
      one.supplier,
      itemKey(one.item),
      one.pack,
      one.breaks,
      one.minimumPacks,
      one.included,
      one.arrival,
    ]);
  const wanted = text(offer);
  const same = offers.filter((one) => text(one) === wanted);
  return same.find((one) => 'article' in offer && one.article === offer.article) ?? same[0];
}

interface NeedRow {
  readonly line: number;
  readonly belt: string;
  readonly area: string;
  readonly site: string;
  readonly month: string;
  readonly due: number | undefined;
  readonly joints: number;
  readonly quantity: number;
}

/** Needs in the order of the lines, each with the number of its line. */
function needRows({ joints, lines }: FleetOrder): NeedRow[] {
  const place = new Map(lines.map(({ item }, index) => [itemKey(item), index]));
  return joints.belts
    .flatMap((one) =>
      one.needs.map(({ item, belt, area, month, due, quantity }) => ({
        line: place.get(itemKey(item)) ?? -1,
        belt,
        area,
        site: one.site ?? '',
        month,
        due,
        joints: item.kind === 'belt' ? 1 : one.joints,
        quantity,
      })),
    )
    .toSorted((one, other) => one.line - other.line);
}

interface PurchaseRow {
  /** Number of its line. */
  readonly line: number;
  readonly purchase: Purchase;
  /** What of the line is left for it. */
  readonly cover: number;
  /** Packs that cover that. */
  readonly whole: number;
  /** Number of the line of what comes with it; undefined for nothing that is needed. */
  readonly included: { readonly line: number; readonly perPack: number } | undefined;
}

/** Purchases in the order of the lines: of an item from several suppliers, the last one covers what is left. */
function purchaseRows({ lines }: FleetOrder, purchases: readonly Purchase[]): PurchaseRow[] {
  const place = new Map(lines.map(({ item }, line) => [itemKey(item), line]));
  const inKits = lines.map(() => 0);
  for (const { included } of purchases) {
    for (const { item, quantity } of included) {
      const line = place.get(itemKey(item));
      if (line !== undefined) inKits[line] = (inKits[line] ?? 0) + quantity;
    }
  }
  return lines.flatMap(({ item, toOrder }, line) => {
    let bought = inKits[line] ?? 0;
    return purchases
      .filter((purchase) => itemKey(purchase.item) === itemKey(item))
      .map((purchase): PurchaseRow => {
        const cover = Math.max(0, toOrder - bought);
        bought += purchase.quantity;
        const [content] = purchase.included;
        const contentLine = content === undefined ? undefined : place.get(itemKey(content.item));
        return {
          line,
          purchase,
          cover,
          whole: packsFor(cover, purchase.offer),
          included:
            content === undefined || contentLine === undefined
              ? undefined
              : { line: contentLine, perPack: content.quantity / purchase.packs },
        };
      });
  });
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

export class OrderFigures {
  readonly order: FleetOrder;
  readonly supplied: SuppliedOrder;
  readonly units: UnitSystem;
  readonly supply: Supply;
  readonly needs: readonly NeedRow[];
  readonly purchases: readonly PurchaseRow[];
  /** Lines of which something is bought for the shelf. */
  readonly shelved: readonly number[];
  /** What the goods of each line cost, and the charges that are paid for it. */
  readonly costs: readonly number[];
  readonly charges: readonly number[];
  readonly cells: Readonly<Record<'list' | 'purchases' | 'suppliers' | 'rates' | 'needs' | 'budget', TableCells>>;

  constructor(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem) {
    this.order = order;
    this.supplied = supplied;
    this.units = units;
    this.supply = chosenSupply(supplied);
    this.needs = needRows(order);
    this.purchases = purchaseRows(order, this.supply.purchases);
    const { lines } = order;
    this.shelved = lines.flatMap(({ forShelf }, line) => (forShelf > 0 ? [line] : []));
    this.cells = {
      list: new TableCells(orderTableNames.list, listColumns, lines.length),
      purchases: new TableCells(orderTableNames.purchases, purchaseColumns, this.purchases.length),
      suppliers: new TableCells(orderTableNames.suppliers, supplierColumns, this.supply.orders.length),
      rates: new TableCells(orderTableNames.rates, rateColumns, order.offered.exchangeRates.length),
      needs: new TableCells(orderTableNames.needs, needColumns, this.needs.length + this.shelved.length),
      budget: new TableCells(orderTableNames.budget, budgetColumns, supplied.budget.rows.length),
    };
    this.costs = lines.map((_, line) => sum(this.#of(line).map(({ purchase }) => purchase.cost)));
    this.charges = lines.map((_, line) => sum(this.#of(line).map(({ purchase }) => this.chargesOn(purchase))));
  }

  #of(line: number): PurchaseRow[] {
    return this.purchases.filter((row) => row.line === line);
  }

  /** The site whose shelf keeps an item: that of its bin, otherwise the first. */
  shelfSite(item: Item): string {
    const kept = this.order.stock.reorders.find((one) => itemKey(one.item) === itemKey(item))?.site;
    return kept ?? this.order.joints.belts[0]?.site ?? '';
  }

  /** How much of a line is bought, what comes in packs of others included. */
  bought(line: number): number {
    return sum([
      ...this.#of(line).map(({ purchase }) => purchase.quantity),
      ...this.purchases.map(({ included, purchase }) =>
        included?.line === line ? included.perPack * purchase.packs : 0,
      ),
    ]);
  }

  /** The offer that a purchase was made of. */
  offerOf(purchase: Purchase): BookOffer | undefined {
    return offerOf(purchase, this.order.offered.offers);
  }

  /** A purchase's share of what its supplier charges beside the goods. */
  chargesOn(purchase: Purchase): number {
    return chargesOn(purchase, this.supply);
  }
}
