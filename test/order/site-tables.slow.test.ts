import { expect, test } from 'vitest';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { joinedBooks } from '../../src/order/joined-books.ts';
import { orderBook } from '../../src/order/order-files.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { half, sitesOf } from './halved-demo.ts';
import { solving } from './search/solving.ts';

test('what sites get of an order is worked out by another program to the same values', async () => {
  const joined = joinedBooks([
    { file: 'quay.xlsx', book: half(0) },
    { file: 'mill.xlsx', book: half(1) },
  ]);
  const book = new Workbook(joined.state);
  const order = fleetOrder(book, { which: 'all' }, { sites: sitesOf(joined, true) });
  const supplied = suppliedOrder(order, await solving());
  const bytes = await tableBook(book, orderBook(book.state, { order, supplied, plans: [] }, 'a test'));
  const [ours, theirs] = [readBook(bytes), await recalculated(bytes)];
  const { formulas, differing } = formulaDifferences(ours, theirs);
  expect(differing).toEqual([]);
  expect(formulas).toBeGreaterThan(1000);
  expect(ours.sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Deliveries', 'Needs by site']));
}, 120_000);
