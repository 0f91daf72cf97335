import { assumed } from '../records/assumed.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { chosenSupply, type FleetOrder, type SuppliedOrder } from './fleet-order.ts';
import { itemText } from './items.ts';
import type { ExchangeRate } from './book-suppliers.ts';
import { offerOf } from './order-figures.ts';
import { type Item, itemKey } from './search/order-list.ts';
import { inCents, type PackContent } from './search/offers.ts';
import type { Purchase } from './search/supply.ts';
import { sharedDelivery, type SiteDelivery } from './site-needs.ts';

/**
 * An order as data, a document a supplier: what is sent, in the supplier's currency and rounded as it is invoiced, with
 * the net requirement behind it. Files, budget and records of what was ordered read this and nothing of the search.
 */

export interface PurchaseOrderLine {
  /** What is bought. */
  readonly item: Item;
  /** What it is needed as: another item where it is an alternative. */
  readonly servesFor: Item;
  /** The supplier's article number; '' when none is known. */
  readonly article: string;
  /** What the book calls the offer. */
  readonly ownArticle: string;
  readonly description: string;
  /** Pieces, or length in long units, of one pack. */
  readonly pack: number;
  readonly packs: number;
  readonly quantity: number;
  /** What comes with the packs in all: the bolts of kits. */
  readonly included: readonly PackContent[];
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
  /** Packs times price, rounded. */
  readonly amount: number;
  /** The same in the book's currency, rounded. */
  readonly bookAmount: number;
  /** Of the quantity: what planned joints take of it, and what goes to the shelf, what packs hold beyond included. */
  readonly forJoints: number;
  readonly forShelf: number;
  /** Day on which it must be there, as a serial number; undefined when no day of its joints is known. */
  readonly wanted: number | undefined;
  readonly leadDays: number;
  /** Of the quantity, what goes to each site; none where there is one site. */
  readonly deliveries: readonly SiteDelivery[];
  /** Number of the quote that the price is from; '' when none is known. */
  readonly quote: string;
}

export interface PurchaseOrder extends ExchangeRate {
  readonly supplier: string;
  readonly lines: readonly PurchaseOrderLine[];
  /** All in the supplier's currency; goods are the sum of the lines before the discount. */
  readonly goods: number;
  readonly discount: number;
  readonly surcharge: number;
  readonly freight: number;
  /** Each is charged freight, unless the goods are worth that it is free. */
  readonly deliveries: number;
  /** Before tax: whoever writes a document adds its line. */
  readonly total: number;
  /** In the book's currency. */
  readonly bookTotal: number;
}

/** What must be bought of an item, and why. */
interface NetRequirement {
  readonly item: Item;
  readonly description: string;
  /** What planned joints take, and what is spoilt on top. */
  readonly joints: number;
  readonly allowance: number;
  /** What the shelf is to hold when the joints are made. */
  readonly shelfLevel: number;
  readonly onShelf: number;
  readonly onOrder: number;
  /** Of what is on order, what joints cannot wait for. */
  readonly late: number;
  /** What is to be bought; `toOrder` is their sum. */
  readonly forJoints: number;
  readonly forShelf: number;
  readonly toOrder: number;
  /** First day on which a joint needs it. */
  readonly firstDue: number | undefined;
}

export interface PurchaseOrders {
  /** The book's own currency. */
  readonly currency: string;
  /** Day that the order is counted from. */
  readonly day: number;
  readonly orders: readonly PurchaseOrder[];
  readonly requirements: readonly NetRequirement[];
  readonly rates: readonly ExchangeRate[];
  /** In the book's currency: goods, surcharges and freight of all orders, as they are printed. */
  readonly total: number;
  /** Items that nobody offers: not in the total. */
  readonly unsupplied: readonly Item[];
}

const sum = (numbers: readonly number[]): number => inCents(numbers.reduce((total, number) => total + number, 0));

/** What of a purchase goes to each site; none where there is one site. */
export function deliveriesOf(
  { lines, sites }: Pick<FleetOrder, 'lines' | 'sites'>,
  { item, quantity }: Pick<Purchase, 'item' | 'quantity'>,
): SiteDelivery[] {
  const line = lines.find((one) => itemKey(one.item) === itemKey(item));
  const needs = sites?.get(itemKey(item));
  if (line?.sites === undefined || needs === undefined) return [];
  // Of a line that is covered by what comes with others, all goes to the first site.
  const to = line.sites.length === 0 ? needs.slice(0, 1).map(({ site }) => site) : line.sites;
  return sharedDelivery(item, quantity, to, needs);
}

class OrderReader {
  readonly #book: Workbook;
  readonly #order: FleetOrder;

  constructor(book: Workbook, order: FleetOrder) {
    this.#book = book;
    this.#order = order;
  }

  requirements(): NetRequirement[] {
    return this.#order.lines.map(({ item, sources, need, allowance, shelfLevel, shelf, ...line }) => {
      const days = sources.flatMap(({ due }) => (due === undefined ? [] : [due]));
      return {
        item,
        description: itemText(item, this.#book.units),
        joints: need,
        allowance,
        shelfLevel,
        onShelf: shelf,
        onOrder: line.onOrder,
        late: line.late,
        forJoints: line.forJoints + line.forCutting,
        forShelf: line.forShelf,
        toOrder: line.toOrder,
        firstDue: days.length === 0 ? undefined : Math.min(...days),
      };
    });
  }

  line(purchase: Purchase, { firstDue }: Partial<NetRequirement>, forJoints: number): PurchaseOrderLine {
    const { item, pack, packs, quantity, price, amount, cost } = purchase;
    const offer = offerOf(purchase, this.#order.offered.offers);
    return {
      item: purchase.offer.item,
      servesFor: item,
      article: offer?.articleNumber ?? '',
      ownArticle: offer?.article ?? '',
      description: itemText(purchase.offer.item, this.#book.units),
      pack,
      packs,
      quantity,
      included: purchase.included,
      price,
      amount,
      bookAmount: cost,
      forJoints,
      forShelf: quantity - forJoints,
      // What nothing is waiting for may come when it comes.
      wanted: forJoints > 0 ? firstDue : undefined,
      deliveries: deliveriesOf(this.#order, purchase),
      leadDays: offer?.leadDays ?? assumed(this.#book, 'LeadTime'),
      quote: offer?.quote ?? '',
    };
  }
}

/** The documents of an order, in the order of its suppliers. */
export function purchaseOrders(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): PurchaseOrders {
  const supply = chosenSupply(supplied);
  const reader = new OrderReader(book, order);
  const requirements = reader.requirements();
  const byItem = new Map(requirements.map((one) => [itemKey(one.item), one]));
  const open = new Map(requirements.map(({ item, forJoints }) => [itemKey(item), forJoints]));
  const rates = order.offered.exchangeRates;
  const orders = supply.orders.map(({ supplier, currency, invoiced, deliveries, goods, charges }): PurchaseOrder => {
    const exchange = rates.find((one) => one.currency === currency) ?? {
      currency,
      rate: 1,
      day: undefined,
      source: '',
    };
    const lines = supply.purchases
      .filter((purchase) => purchase.supplier === supplier)
      .map((purchase) => {
        const key = itemKey(purchase.item);
        const wanted = open.get(key) ?? 0;
        const forJoints = Math.min(wanted, purchase.quantity);
        open.set(key, wanted - forJoints);
        return reader.line(purchase, byItem.get(key) ?? {}, forJoints);
      });
    return {
      ...exchange,
      ...invoiced,
      deliveries,
      supplier,
      lines,
      total: sum([invoiced.goods, -invoiced.discount, invoiced.surcharge, invoiced.freight]),
      bookTotal: sum([goods, charges]),
    };
  });
  return {
    currency: order.offered.currency,
    day: assumed(book, 'ReviewDate'),
    orders,
    requirements,
    rates,
    total: supply.total,
    unsupplied: supply.unsupplied,
  };
}
