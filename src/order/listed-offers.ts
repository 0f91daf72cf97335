import { laterPrices, offers as offersSheet } from '../../sheets/buying/offers.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { type CellRemark, type SheetRow, sheetRows } from '../records/sheet-rows.ts';
import { isoDate } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { byLength, type Items } from './items.ts';
import type { Offer, PriceBreak, Supplier } from './search/offers.ts';
import { type Item, itemKey } from './search/order-list.ts';

/** The offers of the sheet Offers. */

/** An offer with what documents say of it. */
export interface BookOffer extends Offer {
  /** What the book calls it. */
  readonly article: string;
  /** The supplier's own number; '' when it is not told. */
  readonly articleNumber: string;
  readonly quote: string;
  readonly leadDays: number;
}

/** An offer with the row where it stands; without one for what a series or strip says of itself. */
export interface PlacedOffer {
  readonly offer: BookOffer;
  readonly row?: OfferRow;
}

export type OfferRow = SheetRow<'Offers'>;

/** What offers are read with. */
export interface OfferTerms {
  readonly items: Items;
  /** Day that orders are placed on. */
  readonly today: number;
  /** Of a supplier by name, in any case; a word for one from whom nothing is bought. */
  readonly supplier: (name: string) => Supplier | 'unusable' | undefined;
  /** Days from order to delivery of an item that says none itself. */
  readonly leadDays: (item: Item) => number;
  readonly wanted: readonly Item[];
}

/** A price; one of 0 is none, since nobody sells for nothing and quotes write 0 for what is still to be agreed. */
function priceIn(row: OfferRow, header: 'Price' | `Price ${(typeof laterPrices)[number]}`): number | undefined {
  const price = row.number(header);
  if (price !== 0) return price;
  row.tell(header, `${header} is 0, so it is left out: enter the price, or leave the cell blank until it is agreed`);
  return undefined;
}

/** Prices by number of packs; breaks that are half given, or out of order, are reported and left out. */
function breaksOf(row: OfferRow): PriceBreak[] {
  const price = priceIn(row, 'Price');
  const breaks: PriceBreak[] = price === undefined ? [] : [{ from: 1, price }];
  for (const number of laterPrices) {
    const [from, later] = [row.number(`Break ${number}`), priceIn(row, `Price ${number}`)];
    if (from === undefined && later === undefined) continue;
    if (from === undefined || later === undefined) {
      const lacking = from === undefined ? (`Break ${number}` as const) : (`Price ${number}` as const);
      row.tell(lacking, `${lacking} is empty, so the break is left out`);
    } else if (from <= (breaks.at(-1)?.from ?? 0))
      row.tell(`Break ${number}`, `Break ${number} is ${from}, not more than the break before it, so it is left out`);
    else breaks.push({ from, price: later });
  }
  if (price === undefined && (breaks.length === 0 || row.isWrong('Price') || row.number('Price') === 0)) {
    row.tell('Price', 'Price is empty, so the offer is left out: enter the price of one pack');
    return [];
  }
  // Without a price for one pack the first break is the minimum.
  if (price === undefined && (row.number('Minimum packs') ?? 1) < (breaks[0]?.from ?? 1))
    row.tell(
      'Price',
      `Price is empty, so the minimum is ${breaks[0]?.from ?? 1} packs: enter the price of one pack, or that ` +
        `number in ` +
        'Minimum packs',
    );
  return breaks;
}

/** Why an offer does not hold today; undefined when it does. */
function notValid(row: OfferRow, today: number): ['Valid from' | 'Valid until', string] | undefined {
  const [from, until] = [row.number('Valid from'), row.number('Valid until')];
  if (row.isWrong('Valid until')) return ['Valid until', 'Valid until cannot be read, so the offer is left out'];
  if (row.isWrong('Valid from')) return ['Valid from', 'Valid from cannot be read, so the offer is left out'];
  if (until !== undefined && until < today)
    return [
      'Valid until',
      `the offer ended on ${isoDate(until)}, before the review date ${isoDate(today)}, so it is left out: ask for a ` +
        `new one`,
    ];
  if (from !== undefined && from > today)
    return [
      'Valid from',
      `the offer begins on ${isoDate(from)}, after the review date ${isoDate(today)}, so it is left out`,
    ];
  return undefined;
}

/** Bolts that belong to one plate of a series. */
export function boltsPerPlate(book: Workbook, series: string): number | undefined {
  return sheetRows(book, plateSeries.name, [])
    .find((row) => row.text('Series').toLowerCase() === series.toLowerCase())
    ?.number('Bolts per plate');
}

/** A kit as an offer for each length of bolts that it may be ordered with; as it is where none is wanted. */
export function kitOffers(kit: BookOffer, each: number, lengths: readonly Item[]): BookOffer[] {
  return lengths.length === 0
    ? [kit]
    : lengths.map((bolts) => ({ ...kit, included: [{ item: bolts, quantity: each * kit.pack }] }));
}

/** The lengths of a series' bolts that are wanted. */
export const wantedBolts = (wanted: readonly Item[], series: string): Item[] =>
  wanted.filter(({ kind, name }) => kind === 'bolts' && name.toLowerCase() === series.toLowerCase());

function withBolts(row: OfferRow, offer: BookOffer, { items, wanted }: OfferTerms): BookOffer[] {
  if (offer.item.kind !== 'plates') {
    if (row.text('Bolts included') === 'yes')
      row.tell(
        'Bolts included',
        `Bolts included is yes, but the item is ${offer.item.kind}: it counts for plates only`,
      );
    return [offer];
  }
  if (row.text('Bolts included') !== 'yes') return [offer];
  const each = boltsPerPlate(row.book, offer.item.name);
  if (each === undefined) {
    row.tell(
      'Bolts included',
      `Bolts per plate of ${offer.item.name} is not known, so the bolts in the pack are not counted: enter it in the ` +
        'sheet Plate series',
    );
    return [offer];
  }
  const size = row.number('Size');
  const lengths =
    size === undefined ? wantedBolts(wanted, offer.item.name) : [items.item('bolts', offer.item.name, size)];
  return kitOffers(offer, each, lengths);
}

function alternativesOf(row: OfferRow, item: Item, items: Items): Item[] {
  return row
    .text('Alternative for')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
    .flatMap((name): Item[] => {
      const unknown = items.unknownName(item.kind, name);
      if (unknown !== undefined) {
        row.tell('Alternative for', `${unknown}; it is left out here`);
        return [];
      }
      const other = items.item(item.kind, name, item.length);
      return itemKey(other) === itemKey(item) ? [] : [other];
    });
}

/** The offers of one row; none, and told, when it cannot be used or does not hold today. */
function offersIn(row: OfferRow, terms: OfferTerms): PlacedOffer[] {
  const { items, today } = terms;
  if (!row.keyed('Article')) return [];
  const item = items.ofRow(row);
  if (item === undefined) return [];
  const seller = row.text('Sold by');
  const supplier = terms.supplier(seller);
  if (supplier === undefined || supplier === 'unusable') {
    row.tell(
      'Sold by',
      seller === ''
        ? 'Sold by is empty, so the offer is left out: enter a supplier'
        : `${seller} has no usable row in the sheet Suppliers, so the offer is left out`,
    );
    return [];
  }
  const ended = notValid(row, today);
  if (ended !== undefined) {
    row.tell(...ended);
    return [];
  }
  const header = byLength(item) ? 'Length in pack' : 'Pieces in pack';
  const pack = row.number(header);
  if (pack === undefined) {
    row.tell(header, `${header} is empty, so the offer is left out`);
    return [];
  }
  const breaks = breaksOf(row);
  if (breaks.length === 0 || row.isWrong('Minimum packs')) {
    if (breaks.length > 0) row.tell('Minimum packs', 'Minimum packs cannot be read, so the offer is left out');
    return [];
  }
  const leadDays = row.number('Lead time') ?? terms.leadDays(item);
  const alternatives = alternativesOf(row, item, items);
  const offer: BookOffer = {
    article: row.text('Article'),
    articleNumber: row.text('Article number'),
    quote: row.text('Quote'),
    item,
    supplier: supplier.name,
    pack,
    breaks,
    minimumPacks: Math.max(row.number('Minimum packs') ?? 1, breaks[0]?.from ?? 1),
    leadDays,
    arrival: today + leadDays,
    ...(alternatives.length === 0 ? {} : { alternativeFor: alternatives }),
  };
  return withBolts(row, offer, terms).map((one) => ({ offer: one, row }));
}

export const listedOffers = (book: Workbook, terms: OfferTerms, remarks: CellRemark[]): PlacedOffer[] =>
  sheetRows(book, offersSheet.name, remarks).flatMap((row) => offersIn(row, terms));
