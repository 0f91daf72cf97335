import { laterPrices } from '../../sheets/buying/offers.ts';
import type { BookOffer } from '../order/listed-offers.ts';
import { chosenSupply, type FleetOrder, type SuppliedOrder } from '../order/fleet-order.ts';
import { formula } from '../order/order-table-cells.ts';
import { listColumns, orderTableNames, rateColumns } from '../order/order-table-columns.ts';
import { itemText } from '../order/items.ts';
import { inCents, packPrice, packsFor } from '../order/search/offers.ts';
import { itemKey, type OrderLine } from '../order/search/order-list.ts';
import { assumed } from '../records/assumed.ts';
import { rounded } from '../sheet/words.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { auditScope, type AuditTerms } from './audit.ts';
import { money } from './order-words.ts';

/** What an auditor reads in the order's own workbook: what it was made of, and why one offer won over another. */

const names = { audit: 'Audit', offers: 'Offers compared' } as const;

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

interface ComparedOffer {
  readonly line: number;
  readonly orderLine: OrderLine;
  readonly offer: BookOffer;
  readonly currency: string;
  readonly rate: number;
  readonly packs: number;
  readonly price: number;
  readonly cost: number;
  readonly bought: number;
}

function compared({ lines, offered }: FleetOrder, supplied: SuppliedOrder): ComparedOffer[] {
  const { purchases } = chosenSupply(supplied);
  const serves = (offer: BookOffer, { item }: OrderLine): boolean =>
    [offer.item, ...(offer.alternativeFor ?? [])].some((one) => itemKey(one) === itemKey(item));
  return lines.flatMap((orderLine, line) =>
    orderLine.toOrder <= 0
      ? []
      : offered.offers
          .filter((offer) => serves(offer, orderLine))
          .map((offer): ComparedOffer => {
            const currency = offered.suppliers.find(({ name }) => name === offer.supplier)?.currency ?? '';
            const rate = offered.rates[currency] ?? 1;
            const packs = Math.max(offer.minimumPacks ?? 1, packsFor(orderLine.toOrder, offer));
            const price = packPrice(packs, offer);
            const bought = purchases.filter(
              (one) =>
                one.supplier === offer.supplier &&
                one.pack === offer.pack &&
                itemKey(one.item) === itemKey(orderLine.item) &&
                itemKey(one.offer.item) === itemKey(offer.item) &&
                one.offer.breaks[0]?.price === offer.breaks[0]?.price &&
                JSON.stringify(one.included.map(({ item }) => item)) ===
                  JSON.stringify((offer.included ?? []).map(({ item }) => item)),
            );
            return {
              line,
              orderLine,
              offer,
              currency,
              rate,
              packs,
              price,
              cost: inCents(inCents(packs * price) * rate),
              bought: bought.reduce((sum, one) => sum + one.packs, 0),
            };
          }),
  );
}

/** Why an offer was bought or not, beside the cheapest of its item and what was bought instead. */
function reason(one: ComparedOffer, others: readonly ComparedOffer[], day: number): string {
  const least = Math.min(...others.map(({ cost }) => cost));
  if (one.bought > 0)
    return one.cost <= least
      ? 'bought: cheapest goods'
      : 'bought: with freight, charges and other items from there the whole order is cheapest';
  const { arrival } = one.offer;
  const first = one.orderLine.before[0]?.day;
  if (arrival !== undefined && first !== undefined && arrival >= first)
    return (
      `not bought: comes ${arrival - day} days from now, ${rounded(arrival - first + 1, 0)} days after a joint ` +
      `is due`
    );
  const winner = others.find(({ bought }) => bought > 0);
  if (winner === undefined) return 'not bought: bolts come in kits, or the supplier’s minimum order is not worth it';
  const dearer = one.cost - winner.cost;
  return dearer > 0
    ? `not bought: goods ${money(dearer)} dearer (${rounded((dearer / winner.cost) * 100, 1)} %) than ` +
        `${winner.offer.supplier}`
    : 'not bought: goods are no dearer, but freight, charges or minimum order make the whole order dearer';
}

function offerTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table {
  const rows = compared(order, supplied);
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

function auditTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder, terms: AuditTerms): Table {
  return {
    name: names.audit,
    columns: [
      { header: 'What', kind: 'text' },
      { header: 'Said', kind: 'text' },
    ],
    keys: 1,
    rows: auditScope(order, supplied, assumed(book, 'ReviewDate'), terms),
  };
}

/** Offers that were compared, and what the order was made of; prices that were left out stand in the sheet Remarks. */
export const auditTables = (book: Workbook, order: FleetOrder, supplied: SuppliedOrder, terms: AuditTerms): Table[] => [
  offerTable(book, order, supplied),
  auditTable(book, order, supplied, terms),
];
