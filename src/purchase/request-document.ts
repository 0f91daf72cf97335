import { laterPrices, offers as offersSheet } from '../../sheets/buying/offers.ts';
import type { FleetOrder } from '../order/fleet-order.ts';
import { byLength, Items, itemText } from '../order/items.ts';
import { type Item, itemKey, type OrderLine } from '../order/search/order-list.ts';
import { assumed } from '../records/assumed.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { unitWords } from './order-document.ts';
import { bookSite, type Site } from './site.ts';
import { type SupplierAddress, supplierAddresses } from './supplier-address.ts';

/** What one supplier is asked to quote for. */

/** What was offered last; '' and undefined for what is not known. */
interface LastOffer {
  /** As the sheet Offers calls it; '' where it has no row of it. */
  readonly article: string;
  readonly articleNumber: string;
  readonly pack: number | undefined;
  readonly price: number | undefined;
  /** Packs that later prices began at. */
  readonly breaks: readonly (number | undefined)[];
}

export interface RequestLine extends LastOffer {
  readonly number: number;
  readonly item: Item;
  readonly description: string;
  readonly quantity: number;
  readonly unit: string;
  /** Day on which it is wanted, today where that has passed; undefined when no joint waits for it. */
  readonly wanted: number | undefined;
}

export interface RequestDocument {
  readonly day: number;
  readonly units: UnitSystem;
  readonly invented: boolean;
  readonly site: Site;
  readonly address: SupplierAddress;
  readonly currency: string;
  readonly lines: readonly RequestLine[];
}

interface RequestTerms {
  /** Suppliers that are asked, by name; all of the book's when it is empty. */
  readonly suppliers: readonly string[];
  /** Asks each for all items, and not for those alone that they have offered. */
  readonly everything: boolean;
}

const nothing: LastOffer = { article: '', articleNumber: '', pack: undefined, price: undefined, breaks: [] };

const soldKey = (supplier: string, item: Item): string => `${supplier.trim().toLowerCase()} ${itemKey(item)}`;

class RequestMaker {
  readonly #book: Workbook;
  readonly #order: FleetOrder;
  readonly #margin: number;
  readonly #day: number;
  /** Offers by supplier and item, those that have ended included: a quotation renews them. */
  readonly #listed = new Map<string, LastOffer[]>();

  constructor(book: Workbook, order: FleetOrder) {
    this.#book = book;
    this.#order = order;
    this.#margin = assumed(book, 'DeliveryMargin');
    this.#day = assumed(book, 'ReviewDate');
    const items = new Items(book);
    for (const row of sheetRows(book, offersSheet.name, [])) {
      const item = items.ofRow(row);
      if (item === undefined || row.text('Article') === '') continue;
      const key = soldKey(row.text('Sold by'), item);
      const offer: LastOffer = {
        article: row.text('Article'),
        articleNumber: row.text('Article number'),
        pack: row.number(byLength(item) ? 'Length in pack' : 'Pieces in pack'),
        price: row.number('Price'),
        breaks: laterPrices.map((tier) => row.number(`Break ${tier}`)),
      };
      this.#listed.set(key, [...(this.#listed.get(key) ?? []), offer]);
    }
  }

  /** What a supplier has offered of an item: by the sheet, otherwise by what the series says of itself. */
  #offersOf(supplier: string, item: Item): LastOffer[] {
    const listed = this.#listed.get(soldKey(supplier, item));
    if (listed !== undefined) return listed;
    const own = this.#order.offered.offers.find(
      (offer) => offer.supplier === supplier && itemKey(offer.item) === itemKey(item),
    );
    return own === undefined ? [] : [{ ...nothing, pack: own.pack, price: own.breaks[0]?.price }];
  }

  #wanted(item: Item): number | undefined {
    const days = this.#order.joints.belts.flatMap(({ due, needs }) =>
      due !== undefined && needs.some((need) => itemKey(need.item) === itemKey(item)) ? [due] : [],
    );
    return days.length === 0 ? undefined : Math.max(this.#day, Math.floor(Math.min(...days)) - this.#margin);
  }

  lines(supplier: string, everything: boolean): RequestLine[] {
    const { units } = this.#book;
    const open = this.#order.lines.filter(({ toOrder }) => toOrder > 0);
    const known = open.filter(({ item }) => this.#offersOf(supplier, item).length > 0);
    const line = ({ item, toOrder }: OrderLine): Omit<RequestLine, 'number'>[] => {
      const offers = this.#offersOf(supplier, item);
      return (offers.length === 0 ? [nothing] : offers).map((offer) => ({
        ...offer,
        item,
        description: itemText(item, units),
        quantity: toOrder,
        unit: unitWords({ item }, units),
        wanted: this.#wanted(item),
      }));
    };
    return (everything || known.length === 0 ? open : known)
      .flatMap(line)
      .map((one, place) => ({ ...one, number: place + 1 }));
  }
}

/**
 * Requests for what is to be bought: of each supplier what they offer already, in the sheet Offers or by the series
 * itself; of one who offers nothing yet, and where everything is asked for, all of it.
 */
export function requestDocuments(
  book: Workbook,
  order: FleetOrder,
  { suppliers, everything }: RequestTerms,
): RequestDocument[] {
  const site = bookSite(book, []);
  const addressOf = supplierAddresses(book);
  const maker = new RequestMaker(book, order);
  const asked = (name: string): boolean =>
    suppliers.length === 0 || suppliers.some((one) => one.toLowerCase() === name.toLowerCase());
  return order.offered.suppliers
    .filter(({ name }) => asked(name))
    .map(({ name, currency }): RequestDocument => ({
      day: assumed(book, 'ReviewDate'),
      units: book.units,
      invented: book.state.invented,
      site,
      address: addressOf(name),
      currency,
      lines: maker.lines(name, everything),
    }))
    .filter(({ lines }) => lines.length > 0);
}
