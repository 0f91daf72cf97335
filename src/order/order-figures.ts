import { TableCells } from '../sheet/table-cells.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { chosenSupply, type FleetOrder, type SuppliedOrder } from './fleet-order.ts';
import type { BookOffer } from './listed-offers.ts';
import {
  budgetColumns,
  listColumns,
  needColumns,
  orderTableNames,
  purchaseColumns,
  supplierColumns,
} from './order-table-columns.ts';
import { packsFor } from './search/offers.ts';
import { itemKey } from './search/order-list.ts';
import type { Purchase, Supply } from './search/supply.ts';

/** What the tables of an order say, worked out once: rows, costs, freight, and where each table has its cells. */

/** The offer that a purchase was made of. */
export const offerOf = (
  { item, supplier, pack, price, packs }: Purchase,
  offers: readonly BookOffer[],
): BookOffer | undefined =>
  offers.find(
    (offer) =>
      offer.supplier === supplier &&
      offer.pack === pack &&
      itemKey(offer.item) === itemKey(item) &&
      offer.breaks.findLast(({ from }) => from <= packs)?.price === price,
  );

interface NeedRow {
  readonly line: number;
  readonly belt: string;
  readonly area: string;
  readonly month: string;
  readonly joints: number;
  readonly quantity: number;
}

/** Needs in the order of the lines, each with the number of its line. */
function needRows({ joints, lines }: FleetOrder): NeedRow[] {
  const place = new Map(lines.map(({ item }, index) => [itemKey(item), index]));
  return joints.belts
    .flatMap((one) =>
      one.needs.map(({ item, belt, area, month, quantity }) => ({
        line: place.get(itemKey(item)) ?? -1,
        belt,
        area,
        month,
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
}

/** Purchases in the order of the lines: of an item from several suppliers, the last one covers what is left. */
function purchaseRows(order: FleetOrder, purchases: readonly Purchase[]): PurchaseRow[] {
  return order.lines.flatMap((orderLine, line) => {
    let bought = 0;
    return purchases
      .filter(({ item }) => itemKey(item) === itemKey(orderLine.item))
      .map((purchase) => {
        const cover = Math.max(0, orderLine.toOrder - bought);
        const offer = offerOf(purchase, order.offered.offers);
        bought += purchase.quantity;
        return { line, purchase, cover, whole: offer === undefined ? purchase.packs : packsFor(cover, offer) };
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
  /** What the goods of each line cost, and the freight that is paid for it. */
  readonly costs: readonly number[];
  readonly freight: readonly number[];
  readonly cells: Readonly<Record<'list' | 'purchases' | 'suppliers' | 'needs' | 'budget', TableCells>>;

  constructor(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem) {
    this.order = order;
    this.supplied = supplied;
    this.units = units;
    this.supply = chosenSupply(supplied);
    this.needs = needRows(order);
    this.purchases = purchaseRows(order, this.supply.purchases);
    const { lines } = order;
    this.cells = {
      list: new TableCells(orderTableNames.list, listColumns, lines.length),
      purchases: new TableCells(orderTableNames.purchases, purchaseColumns, this.purchases.length),
      suppliers: new TableCells(orderTableNames.suppliers, supplierColumns, this.supply.orders.length),
      needs: new TableCells(orderTableNames.needs, needColumns, this.needs.length),
      budget: new TableCells(orderTableNames.budget, budgetColumns, supplied.budget.rows.length),
    };
    this.costs = lines.map((_, line) => sum(this.#of(line).map(({ cost }) => cost)));
    this.freight = lines.map((_, line) => sum(this.#of(line).map((purchase) => this.freightOn(purchase))));
  }

  #of(line: number): Purchase[] {
    return this.purchases.flatMap((row) => (row.line === line ? [row.purchase] : []));
  }

  /** How much of a line is bought. */
  bought(line: number): number {
    return sum(this.#of(line).map(({ quantity }) => quantity));
  }

  /** The offer that a purchase was made of. */
  offerOf(purchase: Purchase): BookOffer | undefined {
    return offerOf(purchase, this.order.offered.offers);
  }

  /** A purchase's share of its supplier's freight, by value. */
  freightOn({ supplier, cost }: Purchase): number {
    const one = this.supply.orders.find((seller) => seller.supplier === supplier);
    if (one === undefined) return 0;
    const rows = this.purchases.filter(({ purchase }) => purchase.supplier === supplier).length;
    return one.freight * (one.goods > 0 ? cost / one.goods : 1 / rows);
  }
}
