import { bold, plain, type Section, type TableColumn } from '../card/section.ts';
import { rounded, share } from '../sheet/words.ts';
import { isoDate } from '../units/dates.ts';
import type { OrderDocument } from './order-document.ts';
import { lineText, money, orderHead, orderNotes, orderTitle } from './order-words.ts';

/** An order to one supplier as sections to be printed. */

/** The supplier's article numbers only where one is known. */
const columnsFor = (numbered: boolean, currency: string): readonly TableColumn[] => [
  { title: 'No.', width: 8 },
  ...(numbered ? [{ title: 'Your article', width: 23 }] : []),
  { title: 'Our article', width: 24 },
  { title: 'Description', width: 36 },
  { title: 'Deliver by', width: 21 },
  { title: 'Packs', width: 12, align: 'end' },
  { title: 'Pack of', width: 21, align: 'end' },
  { title: `Price ${currency}`, width: 20, align: 'end' },
  { title: `Amount ${currency}`, width: 24, align: 'end' },
];

/** Below the lines, to their right: what is added up. */
const sumColumns: readonly TableColumn[] = [
  { title: '', width: 112 },
  { title: '', width: 50 },
  { title: '', width: 24, align: 'end' },
];

/** The sums of an order, name by name; a discount or surcharge only where there is one. */
function sums({ order, lineTotal, site, tax }: OrderDocument): [string, number][] {
  return [
    ['Goods', lineTotal],
    ...(order.discount === 0 ? [] : [['Discount', -order.discount] satisfies [string, number]]),
    ...(order.surcharge === 0 ? [] : [['Small-order surcharge', order.surcharge] satisfies [string, number]]),
    ['Freight', order.freight],
    ['Net total', order.total],
    ...(site.tax === '' ? [] : [[`${site.tax} ${share(site.taxRate)}`, tax] satisfies [string, number]]),
  ];
}

export function orderSections(document: OrderDocument): Section[] {
  const { number, address, order, lines, payable } = document;
  const numbered = lines.some(({ article }) => article !== '');
  return [
    { type: 'head', title: `${orderTitle} to ${address.name}`, belt: number, code: undefined },
    {
      type: 'pairs',
      pairs: orderHead(document)
        .filter(([name]) => name !== 'Order number')
        .map(([name, value]) => ({ name, value })),
    },
    {
      type: 'table',
      columns: columnsFor(numbered, order.currency),
      rows: lines.map((line) => [
        plain(String(line.number)),
        ...(numbered ? [plain(line.article)] : []),
        plain(line.ownArticle),
        plain(lineText(line)),
        line.days.late > 0
          ? [{ text: isoDate(line.days.delivery) }, { text: 'urgent', bold: true }]
          : plain(isoDate(line.days.delivery)),
        plain(String(line.packs)),
        plain(`${rounded(line.pack, 2)} ${line.unit}`),
        plain(money(line.price)),
        plain(money(line.amount)),
      ]),
    },
    {
      type: 'table',
      columns: sumColumns,
      rows: [
        ...sums(document).map(([name, value]) => [plain(''), plain(name), plain(money(value))]),
        [plain(''), bold(`Total ${order.currency}`), bold(money(payable))],
      ],
    },
    ...orderNotes(document).map((text): Section => ({ type: 'note', text })),
    { type: 'blanks', names: ['Ordered: date, name, signature', 'Confirmed: date, name, signature'] },
  ];
}
