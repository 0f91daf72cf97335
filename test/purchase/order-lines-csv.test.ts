import { expect, test } from 'vitest';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { orderDocuments } from '../../src/purchase/order-document.ts';
import { orderLinesCsv } from '../../src/purchase/order-lines-csv.ts';
import { orderNumber } from '../../src/purchase/site.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { commaRows } from '../../src/workbook/csv.ts';
import type { PurchaseOrders } from '../../src/order/purchase-orders.ts';
import type { Item } from '../../src/order/search/order-list.ts';

const item: Item = { kind: 'plates', name: 'Heron' };

const orders = (description: string, quote: string): PurchaseOrders => ({
  currency: 'EUR',
  day: 46_352,
  rates: [],
  requirements: [],
  total: 0,
  unsupplied: [],
  orders: [
    {
      currency: 'EUR',
      rate: 1,
      day: undefined,
      source: '',
      supplier: 'Invented Supplier A',
      goods: 20,
      discount: 0,
      surcharge: 0,
      freight: 0,
      deliveries: 1,
      total: 20,
      bookTotal: 20,
      lines: [
        {
          item,
          servesFor: item,
          included: [],
          article: '',
          ownArticle: 'own',
          description,
          pack: 24,
          packs: 2,
          quantity: 48,
          price: 10,
          amount: 20,
          bookAmount: 20,
          forJoints: 48,
          forShelf: 0,
          deliveries: [],
          wanted: undefined,
          leadDays: 10,
          quote,
        },
      ],
    },
  ],
});

test.each([
  ['=HYPERLINK("http://nowhere.invalid/")', '\'=HYPERLINK("http://nowhere.invalid/")'],
  [' +1+1', "' +1+1"],
  ['-2', "'-2"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['a\r\n"b", c', 'a "b", c'],
])('a text such as %j is one field and no formula', (given, read) => {
  const book = new Workbook(demoBook('metric'));
  const list = orders(given, given);
  const { documents } = orderDocuments(book, fleetOrder(book, { which: 'all' }), list);
  const [document] = documents;
  if (document === undefined) throw new Error('no document');
  const rows = commaRows(orderLinesCsv(document).replace('\uFEFF', ''));
  expect(rows).toHaveLength(2);
  const [headers = [], cells = []] = rows;
  expect(cells).toHaveLength(headers.length);
  expect(cells[headers.indexOf('Description')]).toBe(read);
  expect(cells[headers.indexOf('Quotation')]).toBe(read);
});

test.each([
  ['TQ-2026-0099', 2, 'TQ-2026-0101'],
  ['99', 1, '100'],
  ['A', 0, 'A'],
  ['A', 1, 'A-2'],
  ['', 2, '20261126-3'],
  ['9'.repeat(30), 1, `1${'0'.repeat(30)}`],
])('order numbers count on from %s: the one at place %d is %s', (next, place, number) => {
  expect(orderNumber(next, place, '2026-11-26')).toBe(number);
});
