import { expect, test } from 'vitest';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { joinedBooks } from '../../src/order/joined-books.ts';
import { orderBook } from '../../src/order/order-files.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { scheduleTables } from '../../src/purchase/schedule-tables.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { half, sitesOf } from './halved-demo.ts';
import { solving } from './search/solving.ts';

test('what sites get and pay of an order is worked out by another program to the same values', async () => {
  const joined = joinedBooks([
    { file: 'quay.xlsx', book: half(0) },
    { file: 'mill.xlsx', book: half(1) },
  ]);
  const book = new Workbook(joined.state);
  const order = fleetOrder(book, { which: 'all' }, { sites: sitesOf(joined, true) });
  const supplied = suppliedOrder(order, await solving());
  const written = orderBook(book.state, { order, supplied, plans: [] }, 'a test');
  const budgets = scheduleTables(book, order, supplied);
  const bytes = await tableBook(book, { ...written, tables: [...written.tables, ...budgets] });
  const [ours, theirs] = [readBook(bytes), await recalculated(bytes)];
  const { formulas, differing } = formulaDifferences(ours, theirs);
  expect(differing).toEqual([]);
  expect(formulas).toBeGreaterThan(1000);
  const centres = budgets.find(({ name }) => name === 'Budget by cost centre');
  const words = centres?.rows.map((row) => String(row[1] ?? '')) ?? [];
  expect(words.filter((word) => word.startsWith('Total of '))).toEqual(
    expect.arrayContaining(['Total of Mill', 'Total of Quay']),
  );
  expect(ours.sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Deliveries', 'Needs by site']));
}, 120_000);
