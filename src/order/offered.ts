import { type Item, itemKey } from './search/order-list.ts';
import type { Offer, PriceBreak, Rates, Supplier } from './search/offers.ts';
import { laterPrices, offers as offersSheet } from '../../sheets/buying/offers.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { strips } from '../../sheets/series/strips.ts';
import { suppliers as suppliersSheet } from '../../sheets/buying/suppliers.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { byLength, type Items } from './items.ts';
import { type CellRemark, type SheetRow, sheetRows } from '../records/sheet-rows.ts';

/** Who sells what, from the sheets Suppliers and Offers, and from what plate series and strips say of themselves. */

/** An offer with the name that the order calls it by. */
export interface BookOffer extends Offer {
  readonly article: string;
}

export interface Offered {
  readonly suppliers: readonly Supplier[];
  readonly offers: readonly BookOffer[];
  readonly rates: Rates;
}

/** The currency of suppliers that the sheet Suppliers does not list: the book's own money. */
export const ownMoney = 'own';
/** Who sells what names no supplier. */
const unnamed = 'supplier not named';

const optional = <Key extends string>(key: Key, value: number | undefined): Partial<Record<Key, number>> =>
  value === undefined ? {} : ({ [key]: value } as Record<Key, number>);

function bookSuppliers(
  book: Workbook,
  remarks: CellRemark[],
): { readonly suppliers: Supplier[]; readonly rates: Record<string, number> } {
  const suppliers: Supplier[] = [];
  // A currency may be called as what every object has.
  const rates = Object.assign(Object.create(null) as Record<string, number>, { [ownMoney]: 1 });
  for (const row of sheetRows(book, suppliersSheet.name, remarks)) {
    const name = row.text('Supplier');
    if (name === '') continue;
    const currency = row.text('Currency') === '' ? ownMoney : row.text('Currency');
    const rate = row.number('Exchange rate') ?? (currency === ownMoney ? 1 : undefined);
    if (rate === undefined) {
      row.tell(
        'Exchange rate',
        `Exchange rate is empty, so offers of ${name} are left out: enter the value of one ${currency} in the book's ` +
          `money`,
      );
      continue;
    }
    const known = rates[currency];
    if (known !== undefined && known !== rate)
      row.tell('Exchange rate', `${currency} has the exchange rate ${known} in another row, which is used`);
    rates[currency] = known ?? rate;
    suppliers.push({
      name,
      currency,
      ...optional('freight', row.number('Freight')),
      ...optional('freightFreeFrom', row.number('Freight free from')),
      ...optional('minimumOrder', row.number('Minimum order')),
    });
  }
  return { suppliers, rates };
}

/** Prices by number of packs; breaks that are half given, or out of order, are reported and left out. */
function breaksOf(row: SheetRow<'Offers'>): PriceBreak[] {
  const price = row.number('Price');
  if (price === undefined) {
    row.tell('Price', 'Price is empty, so the offer is left out: enter the price of one pack');
    return [];
  }
  const breaks: PriceBreak[] = [{ from: 1, price }];
  for (const number of laterPrices) {
    const [from, later] = [row.number(`Break ${number}`), row.number(`Price ${number}`)];
    if (from === undefined && later === undefined) continue;
    if (from === undefined || later === undefined) {
      const lacking = from === undefined ? (`Break ${number}` as const) : (`Price ${number}` as const);
      row.tell(lacking, `${lacking} is empty, so the break is left out`);
    } else if (from <= (breaks.at(-1)?.from ?? 0))
      row.tell(`Break ${number}`, `Break ${number} is ${from}, not more than the break before it, so it is left out`);
    else breaks.push({ from, price: later });
  }
  return breaks;
}

function listedOffers(
  book: Workbook,
  items: Items,
  known: (supplier: string) => Supplier | undefined,
  remarks: CellRemark[],
): BookOffer[] {
  return sheetRows(book, offersSheet.name, remarks).flatMap((row): BookOffer[] => {
    const item = items.ofRow(row);
    const seller = row.text('Sold by');
    if (item === undefined) return [];
    const supplier = known(seller);
    if (supplier === undefined) {
      row.tell(
        'Sold by',
        seller === ''
          ? 'Sold by is empty, so the offer is left out: enter a supplier'
          : `${seller} has no usable row in the sheet Suppliers, so the offer is left out`,
      );
      return [];
    }
    const header = byLength(item) ? 'Length in pack' : 'Pieces in pack';
    const pack = row.number(header);
    if (pack === undefined) {
      row.tell(header, `${header} is empty, so the offer is left out`);
      return [];
    }
    const breaks = breaksOf(row);
    return breaks.length === 0 ? [] : [{ article: row.text('Article'), item, supplier: supplier.name, pack, breaks }];
  });
}

interface OwnPack {
  readonly supplier: string;
  readonly article: string;
  readonly pack: number | undefined;
  /** In the book's money. */
  readonly price: number | undefined;
}

/** What plate series and strips say of themselves, by item without its size. */
function ownPacks(book: Workbook, items: Items): Map<string, OwnPack> {
  const packs = new Map<string, OwnPack>();
  const none: CellRemark[] = [];
  for (const row of sheetRows(book, plateSeries.name, none)) {
    const series = row.text('Series');
    if (series === '') continue;
    const supplier = row.text('Supplier');
    packs.set(itemKey(items.item('plates', series)), {
      supplier,
      article: `${series} plates`,
      pack: row.number('Plates per pack'),
      price: row.number('Pack price'),
    });
    packs.set(itemKey(items.item('bolts', series)), {
      supplier,
      article: `${series} bolts`,
      pack: row.number('Bolts per pack'),
      price: row.number('Bolt pack price'),
    });
  }
  for (const row of sheetRows(book, strips.name, none)) {
    const strip = row.text('Strip');
    if (strip !== '')
      packs.set(itemKey(items.item('strip', strip)), {
        supplier: row.text('Supplier'),
        article: `${strip} roll`,
        pack: row.number('Roll length'),
        price: row.number('Roll price'),
      });
  }
  return packs;
}

/**
 * Offers for the items that are wanted.
 *
 * What a plate series or strip says of its own pack and price, in the book's money, is an offer of its supplier where
 * the sheet Offers has none of that item from them.
 */
export function offered(book: Workbook, items: Items, wanted: readonly Item[], remarks: CellRemark[]): Offered {
  const { suppliers, rates } = bookSuppliers(book, remarks);
  const byName = new Map(suppliers.map((supplier) => [supplier.name.toLowerCase(), supplier]));
  const listed = listedOffers(book, items, (name) => byName.get(name.toLowerCase()), remarks);
  const offers = [...listed];
  const packs = ownPacks(book, items);
  for (const item of wanted) {
    const own = packs.get(itemKey({ kind: item.kind, name: item.name }));
    if (own?.pack === undefined || own.price === undefined) continue;
    const name = own.supplier === '' ? unnamed : own.supplier;
    const supplier = byName.get(name.toLowerCase()) ?? { name, currency: ownMoney };
    byName.set(name.toLowerCase(), supplier);
    if (listed.some((offer) => offer.supplier === supplier.name && itemKey(offer.item) === itemKey(item))) continue;
    offers.push({
      article: own.article,
      item,
      supplier: supplier.name,
      pack: own.pack,
      breaks: [{ from: 1, price: own.price / (rates[supplier.currency] ?? 1) }],
    });
  }
  return { suppliers: [...byName.values()], offers, rates };
}
