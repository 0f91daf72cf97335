import { expect, test } from 'vitest';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { itemKey } from '../../src/order/search/order-list.ts';
import { PriceHistory } from '../../src/order/price-history.ts';
import type { PlacedOrderLine } from '../../src/purchase/order-key.ts';
import { placedBook } from '../../src/purchase/placed-edits.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { withSheet } from '../../src/workbook/state-changes.ts';
import { rowOf } from '../workbook/books.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { HeaderOf } from '../../sheets/index.ts';

/** Orders that were placed cover what comes in time, and nothing that comes too late, is received or cancelled. */

const heron = { kind: 'plates', name: 'Heron' } as const;

const placed = (expected: number, packs: number): PlacedOrderLine => ({
  cell: 'Order!A12',
  key: {
    order: 'TQ-2026-0101',
    line: 1,
    supplier: 'Invented Supplier B',
    article: 'B-HER-24',
    ...heron,
    size: null,
    ordered: 46_352,
    expected,
    units: 'metric',
  },
  packs,
  pack: 24,
  price: 99.7,
});

const lineOf = (book: Workbook): { readonly toOrder: number; readonly onOrder: number; readonly late: number } => {
  const line = fleetOrder(book, { which: 'all' }).lines.find(({ item }) => itemKey(item) === itemKey(heron));
  if (line === undefined) throw new Error('no Heron is needed');
  return line;
};

test('packs on their way cover joints they come in time for; received and cancelled ones are none', () => {
  const before = lineOf(new Workbook(demoBook('metric')));
  const { state, added } = placedBook(new Workbook(demoBook('metric')), [placed(46_400, 3)]);
  expect(added).toEqual(['TQ-2026-0101/1']);
  const book = new Workbook(state);
  // What was paid is kept, and kept once.
  expect(new PriceHistory(book).of('b-her-24')).toEqual([
    { day: 46_352, price: 99.7, packs: 3, from: 'order TQ-2026-0101' },
  ]);
  expect(placedBook(book, [placed(46_400, 3)]).state.sheets).toEqual(state.sheets);
  expect(lineOf(book).onOrder).toBe(before.onOrder + 72);
  expect(lineOf(book).toOrder).toBeCloseTo(before.toOrder - 72, 9);
  const set = (header: HeaderOf<'Orders'>, content: number | null): void =>
    book.edit([{ sheet: 'Orders', record: 0, column: book.column('Orders', header), content }]);
  set('Received packs', 1);
  expect(lineOf(book).onOrder).toBe(before.onOrder + 48);
  set('Cancelled packs', 2);
  expect(lineOf(book).onOrder).toBe(before.onOrder);
});

test('a price far off the last one is told where the item has no other offer', () => {
  const book = new Workbook(
    withSheet(demoBook('metric'), 'Price history', (sheet) => ({
      ...sheet,
      rows: [{ 'Price entry': 'chalk', 'Priced article': 'A-CHALK', 'Priced on': 46_000, 'Price then': 0.5 }].map(
        (cells) => rowOf('Price history', cells),
      ),
    })),
  );
  const { remarks } = fleetOrder(book, { which: 'all' });
  expect(remarks.filter(({ sheet }) => sheet === 'Offers').map(({ message }) => message)).toEqual([
    expect.stringMatching(
      /^Price is [\d.]+, [\d.]+ times dearer than the 0\.5 of 2025-12-09 in Price history: is this/,
    ),
  ]);
});

test('what comes after all joints, or nobody knows when, covers none of them', () => {
  const before = lineOf(new Workbook(demoBook('metric')));
  const book = new Workbook(placedBook(new Workbook(demoBook('metric')), [placed(80_000, 3)]).state);
  expect(lineOf(book).late).toBe(before.late + 72);
  book.edit([{ sheet: 'Orders', record: 0, column: book.column('Orders', 'Expected on'), content: null }]);
  const order = fleetOrder(book, { which: 'all' });
  expect(lineOf(book).late).toBe(before.late + 72);
  expect(order.remarks.map(({ message }) => message)).toContain(
    'Expected on is empty, so the order line covers no joint: enter the day it arrives',
  );
});

test('the next number of the site goes on, and a second time is told', () => {
  const book = new Workbook(placedBook(new Workbook(demoBook('metric')), [placed(46_400, 3)]).state);
  expect(book.read('Sites', 0, 'Next order number')).toBe('TQ-2026-0102');
  expect(placedBook(book, [placed(46_400, 3)])).toEqual({
    state: book.state,
    added: [],
    problems: ['Order!A12: TQ-2026-0101/1 is in the sheet Orders already'],
  });
});
