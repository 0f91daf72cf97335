import { plateSeries } from '../../sheets/series/plate-series.ts';
import { strips } from '../../sheets/series/strips.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type BookSuppliers, bookSuppliers, type ExchangeRate } from './book-suppliers.ts';
import { itemText, type Items } from './items.ts';
import {
  type BookOffer,
  boltsPerPlate,
  kitOffers,
  listedOffers,
  type OfferTerms,
  type PlacedOffer,
  wantedBolts,
} from './listed-offers.ts';
import { PriceHistory } from './price-history.ts';
import { tellPrices } from './price-doubts.ts';
import type { Rates, Supplier } from './search/offers.ts';
import { type Item, itemKey } from './search/order-list.ts';

/** Who sells what, from the sheets Suppliers and Offers, and from what plate series and strips say of themselves. */

export interface Offered {
  /** The book's own currency. */
  readonly currency: string;
  readonly suppliers: readonly Supplier[];
  readonly offers: readonly BookOffer[];
  readonly rates: Rates;
  readonly exchangeRates: readonly ExchangeRate[];
}

/** Who sells what names no supplier. */
const unnamed = 'supplier not named';

interface OwnPack {
  readonly supplier: string;
  readonly article: string;
  readonly pack: number | undefined;
  /** In the supplier's currency. */
  readonly price: number | undefined;
  /** Bolts come in the pack of plates. */
  readonly kit: boolean;
}

/** A price; one of 0 is told and is none. */
function priceOf(price: number | undefined, tell: () => void): number | undefined {
  if (price === 0) tell();
  return price === 0 ? undefined : price;
}

const zero = (header: string): string =>
  `${header} is 0, so nothing is bought at it: enter the price, or leave the cell blank until it is known`;

/** What plate series and strips say of themselves, by item without its size. */
function ownPacks(book: Workbook, items: Items, remarks: CellRemark[]): Map<string, OwnPack> {
  const packs = new Map<string, OwnPack>();
  // Cells that hold what they should not are findings of their own: here they count as empty.
  const none: CellRemark[] = [];
  const told = new Map(sheetRows(book, plateSeries.name, remarks).map((row) => [row.record, row]));
  for (const row of sheetRows(book, plateSeries.name, none)) {
    const series = row.text('Series');
    if (series === '') continue;
    const supplier = row.text('Supplier');
    const kit = row.number('Bolt pack price') === 0;
    packs.set(itemKey(items.item('plates', series)), {
      supplier,
      article: `${series} plates`,
      pack: row.number('Plates per pack'),
      price: priceOf(row.number('Pack price'), () => told.get(row.record)?.tell('Pack price', zero('Pack price'))),
      kit,
    });
    packs.set(itemKey(items.item('bolts', series)), {
      supplier,
      article: `${series} bolts`,
      pack: row.number('Bolts per pack'),
      price: kit ? undefined : row.number('Bolt pack price'),
      kit: false,
    });
  }
  const toldStrips = new Map(sheetRows(book, strips.name, remarks).map((row) => [row.record, row]));
  for (const row of sheetRows(book, strips.name, none)) {
    const strip = row.text('Strip');
    if (strip !== '')
      packs.set(itemKey(items.item('strip', strip)), {
        supplier: row.text('Supplier'),
        article: `${strip} roll`,
        pack: row.number('Roll length'),
        price: priceOf(row.number('Roll price'), () =>
          toldStrips.get(row.record)?.tell('Roll price', zero('Roll price')),
        ),
        kit: false,
      });
  }
  return packs;
}

/** Offers of plate series and strips for what is wanted, where their supplier's own offers have none of it. */
class OwnOffers {
  readonly #book: Workbook;
  readonly #packs: Map<string, OwnPack>;
  readonly #terms: OfferTerms;
  readonly #sellers: BookSuppliers;
  readonly #byName: Map<string, Supplier>;

  constructor(
    book: Workbook,
    terms: OfferTerms,
    sellers: BookSuppliers,
    byName: Map<string, Supplier>,
    remarks: CellRemark[],
  ) {
    this.#book = book;
    this.#packs = ownPacks(book, terms.items, remarks);
    this.#terms = terms;
    this.#sellers = sellers;
    this.#byName = byName;
  }

  /** Who sells it; a supplier that the sheet Suppliers does not list sells in the book's currency. */
  #seller({ supplier }: OwnPack): Supplier | undefined {
    const name = supplier === '' ? unnamed : supplier;
    if (this.#sellers.unusable.has(name.toLowerCase())) return undefined;
    const known = this.#byName.get(name.toLowerCase()) ?? { name, currency: this.#sellers.currency };
    this.#byName.set(name.toLowerCase(), known);
    return known;
  }

  of(item: Item, listed: readonly PlacedOffer[]): BookOffer[] {
    const own = this.#packs.get(itemKey({ kind: item.kind, name: item.name }));
    if (own?.pack === undefined || own.price === undefined) return [];
    const supplier = this.#seller(own);
    if (supplier === undefined) return [];
    if (listed.some(({ offer }) => offer.supplier === supplier.name && itemKey(offer.item) === itemKey(item)))
      return [];
    const leadDays = this.#terms.leadDays(item);
    const size = item.length === undefined ? '' : itemText({ ...item, name: '' }, this.#book.units).replace(/^\S+/, '');
    const offer: BookOffer = {
      article: `${own.article}${size}`,
      articleNumber: '',
      quote: '',
      item,
      supplier: supplier.name,
      pack: own.pack,
      breaks: [{ from: 1, price: own.price }],
      leadDays,
      arrival: this.#terms.today + leadDays,
    };
    const each = own.kit ? boltsPerPlate(this.#book, item.name) : undefined;
    return each === undefined ? [offer] : kitOffers(offer, each, wantedBolts(this.#terms.wanted, item.name));
  }
}

/**
 * Offers for the items that are wanted.
 *
 * What a plate series or strip says of its own pack and price, in its supplier's currency, is an offer of that supplier
 * where the sheet Offers has none of that item from them. From a supplier whose currency has no rate nothing is bought.
 */
export function offered(
  book: Workbook,
  terms: Pick<OfferTerms, 'items' | 'today' | 'leadDays' | 'wanted'>,
  remarks: CellRemark[],
): Offered {
  const sellers = bookSuppliers(book, remarks);
  const byName = new Map(sellers.suppliers.map((supplier) => [supplier.name.toLowerCase(), supplier]));
  const complete: OfferTerms = {
    ...terms,
    supplier: (name) => (sellers.unusable.has(name.toLowerCase()) ? 'unusable' : byName.get(name.toLowerCase())),
  };
  const listed = listedOffers(book, complete, remarks);
  const own = new OwnOffers(book, complete, sellers, byName, remarks);
  const offers = [...listed, ...terms.wanted.flatMap((item) => own.of(item, listed).map((offer) => ({ offer })))];
  const rates = Object.fromEntries(sellers.rates.map(({ currency, rate }) => [currency, rate]));
  const suppliers = [...byName.values()];
  tellPrices(offers, suppliers, rates, new PriceHistory(book));
  return {
    currency: sellers.currency,
    suppliers,
    offers: offers.map(({ offer }) => offer),
    rates,
    exchangeRates: sellers.rates,
  };
}
