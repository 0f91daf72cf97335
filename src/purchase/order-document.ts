import { amountKind } from '../order/items.ts';
import type { BookOffer } from '../order/listed-offers.ts';
import type { FleetOrder } from '../order/fleet-order.ts';
import type { PurchaseOrder, PurchaseOrderLine, PurchaseOrders } from '../order/purchase-orders.ts';
import { inCents, packsFor, type Supplier } from '../order/search/offers.ts';
import { type Item, itemKey } from '../order/search/order-list.ts';
import { assumed } from '../records/assumed.ts';
import type { CellRemark } from '../records/sheet-rows.ts';
import { isoDate } from '../units/dates.ts';
import { unitOf, type UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type LineDays, lineDays } from './delivery-days.ts';
import { bookSite, deliveryAddresses, orderNumber, type Site } from './site.ts';
import { type SupplierAddress, supplierAddresses } from './supplier-address.ts';

/** An order to one supplier with all that its documents say, however they are written. */

export interface DocumentLine extends PurchaseOrderLine {
  readonly number: number;
  /** 'pieces', or the unit of length. */
  readonly unit: string;
  readonly days: LineDays;
  /** What it was worked out from. */
  readonly offer: BookOffer | undefined;
  /** What this line covers of what is to be bought. */
  readonly cover: number;
  /** Packs that cover it; more are bought for a minimum, a break or free freight. */
  readonly wholePacks: number;
}

export interface OrderDocument {
  readonly number: string;
  /** Serial number of its day. */
  readonly day: number;
  readonly units: UnitSystem;
  readonly invented: boolean;
  readonly site: Site;
  /** Of all sites that something goes to. */
  readonly deliverTo: string;
  readonly address: SupplierAddress;
  /** What the supplier charges. */
  readonly terms: Supplier;
  readonly order: PurchaseOrder;
  /** The book's own currency. */
  readonly bookCurrency: string;
  readonly lines: readonly DocumentLine[];
  /** In the supplier's currency. */
  readonly lineTotal: number;
  readonly tax: number;
  readonly payable: number;
}

/** The documents of an order. */
interface OrderDocuments {
  readonly documents: readonly OrderDocument[];
  readonly site: Site;
  /** Cells that could not be used. */
  readonly remarks: readonly CellRemark[];
}

/** How much of each item is still to be covered, as lines take it. */
class OpenNeeds {
  readonly #open: Map<string, number>;

  constructor({ requirements, orders }: PurchaseOrders) {
    this.#open = new Map(requirements.map(({ item, toOrder }) => [itemKey(item), toOrder]));
    // What comes in packs of others need not be bought.
    for (const { lines } of orders)
      for (const { included } of lines) for (const { item, quantity } of included) this.#take(item, quantity);
  }

  #take(item: Item, quantity: number): number {
    const open = this.#open.get(itemKey(item)) ?? 0;
    const cover = Math.max(0, Math.min(open, quantity));
    this.#open.set(itemKey(item), open - cover);
    return cover;
  }

  taken({ servesFor, quantity }: PurchaseOrderLine): number {
    return this.#take(servesFor, quantity);
  }
}

/** The offer that a line was made of. */
const offerOfLine = (
  { item, ownArticle, pack }: PurchaseOrderLine,
  supplier: string,
  offers: readonly BookOffer[],
): BookOffer | undefined =>
  offers.find(
    (offer) =>
      offer.supplier === supplier &&
      offer.article === ownArticle &&
      offer.pack === pack &&
      itemKey(offer.item) === itemKey(item),
  );

/** What a pack of an item holds, in words: 'pieces' or the unit of long lengths. */
export function unitWords(line: Pick<PurchaseOrderLine, 'item'>, units: UnitSystem): string {
  const unit = unitOf(amountKind(line.item), units);
  return unit === '' ? 'pieces' : unit;
}

export function orderDocuments(book: Workbook, { offered }: FleetOrder, orders: PurchaseOrders): OrderDocuments {
  const remarks: CellRemark[] = [];
  const site = bookSite(book, remarks);
  const addressOf = supplierAddresses(book);
  const open = new OpenNeeds(orders);
  const margin = assumed(book, 'DeliveryMargin');
  const documents = orders.orders.map((order, place): OrderDocument => {
    const address = addressOf(order.supplier);
    const lines = order.lines.map((line, index): DocumentLine => {
      const offer = offerOfLine(line, order.supplier, offered.offers);
      const cover = open.taken(line);
      const wholePacks = offer === undefined ? line.packs : Math.min(line.packs, packsFor(cover, offer));
      return {
        ...line,
        number: index + 1,
        unit: unitWords(line, book.units),
        days: lineDays(line, { day: orders.day, margin, paymentDays: address.paymentDays }),
        offer,
        cover,
        wholePacks,
      };
    });
    const to = [...new Set(lines.flatMap(({ deliveries }) => deliveries.map(({ site: name }) => name)))];
    const tax = inCents(order.total * site.taxRate);
    return {
      number: orderNumber(site.nextNumber, place, isoDate(orders.day)),
      day: orders.day,
      units: book.units,
      invented: book.state.invented,
      site,
      deliverTo: to.length === 0 ? site.deliverTo : deliveryAddresses(book, to),
      address,
      terms: offered.suppliers.find(({ name }) => name === order.supplier) ?? {
        name: order.supplier,
        currency: order.currency,
      },
      order,
      bookCurrency: orders.currency,
      lines,
      lineTotal: inCents(lines.reduce((sum, { amount }) => sum + amount, 0)),
      tax,
      payable: inCents(order.total + tax),
    };
  });
  return { documents, site, remarks };
}
