import { laterPrices } from '../../sheets/buying/offers.ts';
import { columnLetters, sheetRow } from '../formula/address.ts';
import type { BookOffer } from '../order/listed-offers.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { formula } from '../order/order-table-cells.ts';
import { listColumns, orderTableNames, rateColumns } from '../order/order-table-columns.ts';
import { itemText } from '../order/items.ts';
import { PriceHistory } from '../order/price-history.ts';
import { packPrice } from '../order/search/offers.ts';
import { assumed } from '../records/assumed.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { comparedOffers, reason } from './compared-offers.ts';
import { type OfferMatrix, offerMatrix } from './offer-matrix.ts';

/** The offers that an order was chosen from, as tables with live formulas: one by one, and item by supplier. */

const names = { offers: 'Offers compared', matrix: 'Comparison of offers', history: 'Price history' } as const;

const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;
const theirMoney = { kind: 'money', digits: 2, currency: 'row' } as const;
const amounts = { kind: 'number', digits: 2 } as const;

const offerColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Article', kind: 'text' },
  { header: 'To order', ...amounts, computed: true, note: 'from the order list' },
  { header: 'Pack', ...amounts },
  { header: 'Minimum packs', kind: 'count' },
  { header: 'Packs', kind: 'count', computed: true, note: 'if all of it were bought here' },
  { header: 'Price 1', ...theirMoney },
  ...laterPrices.flatMap((tier): TableColumn[] => [
    { header: `Break ${tier}`, kind: 'count' },
    { header: `Price ${tier}`, ...theirMoney },
  ]),
  { header: 'Price', ...theirMoney, computed: true, note: 'at this number of packs' },
  { header: 'Currency', kind: 'text' },
  { header: 'Exchange rate', kind: 'number', digits: 4, computed: true, note: 'from the sheet Rates' },
  { header: 'Cost', ...bookMoney, computed: true, note: "of goods, in the book's money" },
  { header: 'Cheapest', kind: 'text', computed: true, note: 'of the goods for this item' },
  { header: 'Lead time', kind: 'number', digits: 0, note: 'days' },
  { header: 'Packs bought', kind: 'count' },
  { header: 'Why', kind: 'text' },
];

/** Every offer with what all of an item would cost there, whether it was bought, and why. */
export function offerTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table {
  const rows = comparedOffers(order, supplied);
  const own = new TableCells(names.offers, offerColumns, rows.length);
  const list = new TableCells(orderTableNames.list, listColumns, order.lines.length);
  const rates = new TableCells(orderTableNames.rates, rateColumns, order.offered.exchangeRates.length);
  const day = assumed(book, 'ReviewDate');
  return {
    name: names.offers,
    columns: offerColumns,
    keys: 2,
    currency: order.offered.currency,
    rows: rows.map((one, record): TableCell[] => {
      const { line, offer } = one;
      const at = (header: string): string => own.cell(header, record);
      const others = rows.filter((other) => other.line === line);
      const least = Math.min(...others.map(({ cost }) => cost));
      const tier = (at_: number): BookOffer['breaks'][number] | undefined => offer.breaks[at_];
      const priced = laterPrices.reduce(
        (before, number) =>
          `IF(AND(ISNUMBER(${at(`Break ${number}`)}),${at('Packs')}>=${at(`Break ${number}`)}),` +
          `${at(`Price ${number}`)},${before})`,
        at('Price 1'),
      );
      const costs = rows.flatMap((other, place) => (other.line === line ? [own.cell('Cost', place)] : []));
      return [
        line + 1,
        itemText(one.orderLine.item, book.units),
        offer.supplier,
        offer.article,
        formula(`INDEX(${list.column('To order')},${at('No.')})`, one.orderLine.toOrder),
        offer.pack,
        offer.minimumPacks ?? 1,
        formula(`MAX(${at('Minimum packs')},ROUNDUP(ROUND(${at('To order')}/${at('Pack')},9),0))`, one.packs),
        tier(0)?.price ?? null,
        ...laterPrices.flatMap((_, place): TableCell[] => [
          tier(place + 1)?.from ?? null,
          tier(place + 1)?.price ?? null,
        ]),
        formula(priced, one.price),
        one.currency,
        formula(
          `SUMPRODUCT(EXACT(${rates.column('Currency')},${at('Currency')})*${rates.column('Exchange rate')})`,
          one.rate,
        ),
        formula(`ROUND(ROUND(${at('Packs')}*${at('Price')},2)*${at('Exchange rate')},2)`, one.cost),
        formula(`IF(${at('Cost')}<=MIN(${costs.join(',')}),"cheapest","")`, one.cost <= least ? 'cheapest' : ''),
        offer.leadDays,
        one.bought === 0 ? null : one.bought,
        reason(one, others, day),
      ];
    }),
  };
}

const historyColumns: readonly TableColumn[] = [
  { header: 'Offer no.', kind: 'count', note: 'row of the sheet Offers compared, without its heading' },
  { header: 'Article', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Priced on', kind: 'date' },
  { header: 'Price from', kind: 'text', note: 'quotation or order' },
  { header: 'Packs then', kind: 'count' },
  { header: 'Price then', ...theirMoney },
  { header: 'Price now', ...theirMoney, computed: true, note: 'for as many packs' },
  { header: 'Currency', kind: 'text' },
  { header: 'Change', kind: 'ratio', percent: true, digits: 1, computed: true, note: 'of the price since then' },
];

/** Earlier prices that are shown of an article. */
const mostPrices = 5;

/** What the compared articles cost before, the newest first, and how much more or less it is now. */
export function historyTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table {
  const history = new PriceHistory(book);
  const compared = comparedOffers(order, supplied);
  const offersAt = new TableCells(names.offers, offerColumns, compared.length);
  // An article may be compared for several items: its prices are the same.
  const articles = compared.flatMap(({ offer, currency }, place) =>
    compared.findIndex((one) => one.offer.article === offer.article) === place ? [{ offer, currency, place }] : [],
  );
  const entries = articles.flatMap((one) =>
    history
      .of(one.offer.article)
      .slice(-mostPrices)
      .toReversed()
      .map((past) => ({ ...one, past })),
  );
  const own = new TableCells(names.history, historyColumns, entries.length);
  return {
    name: names.history,
    columns: historyColumns,
    keys: 2,
    rows: entries.map(({ offer, currency, place, past }, record): TableCell[] => {
      const at = (header: string): string => own.cell(header, record);
      const of = (header: string): string => `INDEX(${offersAt.column(header)},${at('Offer no.')})`;
      const priced = laterPrices.reduce(
        (before, tier) =>
          `IF(AND(ISNUMBER(${of(`Break ${tier}`)}),${at('Packs then')}>=${of(`Break ${tier}`)}),` +
          `${of(`Price ${tier}`)},${before})`,
        of('Price 1'),
      );
      const now = packPrice(past.packs, offer);
      return [
        place + 1,
        offer.article,
        offer.supplier,
        past.day ?? null,
        past.from,
        past.packs,
        past.price,
        formula(priced, now),
        currency,
        past.price > 0 ? formula(`${at('Price now')}/${at('Price then')}-1`, now / past.price - 1) : null,
      ];
    }),
  };
}

/** The columns of the matrix that stand before its suppliers. */
const matrixKeys = ['No.', 'Item'] as const;

/**
 * What all of each item would cost from each supplier, in the book's money: the cheapest of its offers there. A
 * supplier is a column, so that the row's minimum is the cheapest; formulas follow the sheet Offers compared.
 */
export function matrixTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table {
  const matrix: OfferMatrix = offerMatrix(book, order, supplied);
  const { suppliers, rows, offers } = matrix;
  const cells = new TableCells(names.offers, offerColumns, offers);
  const columns: TableColumn[] = [
    { header: matrixKeys[0], kind: 'count', note: 'of the order list' },
    { header: matrixKeys[1], kind: 'text' },
    ...suppliers.map((header): TableColumn => ({ header, ...bookMoney, computed: true })),
    { header: 'Cheapest goods', kind: 'text', computed: true, note: 'supplier; its goods for this item alone' },
    { header: 'Bought from', kind: 'text', note: 'in the cheapest order as a whole' },
    { header: 'The others', kind: 'text', note: 'why nothing is bought there' },
  ];
  const [from, to] = [matrixKeys.length, matrixKeys.length + suppliers.length - 1];
  const across = (record: number): string =>
    `$${columnLetters(from)}${sheetRow(record)}:$${columnLetters(to)}${sheetRow(record)}`;
  const headings = `$${columnLetters(from)}$1:$${columnLetters(to)}$1`;
  return {
    name: names.matrix,
    columns,
    keys: matrixKeys.length,
    currency: order.offered.currency,
    ...(suppliers.length === 0 ? {} : { cheapest: [from, to] as const }),
    rows: rows.map((row, record): TableCell[] => [
      row.line + 1,
      row.item,
      ...row.cells.map((cell): TableCell => {
        if (cell === undefined) return null;
        const costs = cell.offers.map((offer) => `INDEX(${cells.column('Cost')},${offer + 1})`);
        return formula(costs.length === 1 ? (costs[0] ?? '') : `MIN(${costs.join(',')})`, cell.cost);
      }),
      formula(`INDEX(${headings},MATCH(MIN(${across(record)}),${across(record)},0))`, row.cheapest),
      row.bought.join(', '),
      row.lost,
    ]),
  };
}
