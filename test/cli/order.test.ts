import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { demoFile, demoRows, listFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(at('plant.xlsx'));
  await listFile(at('list.xlsx'), { Fleet: demoRows({}, (name) => ['Q1', 'Q4', 'L4'].includes(name)) });
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('writes order list, shelf and cutting plan with live formulas, and says what is left out and why', async () => {
  const before = readFileSync(at('plant.xlsx'));
  const { code, out, err } = await ran(
    ['order', 'plant.xlsx', 'order.xlsx', '--due', '2027-12-31', '--fewest-series', '--compare', '--seconds', '8'],
    { folder },
  );
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^Not ordered: S6: its joint fails: carcass \(plant\.xlsx, Belts![A-Z]+13\)\.$/m);
  expect(out).toMatch(/^\d+ joints of \d+ belts due by 2027-12-31: \d+ items, \d+ to order\.$/m);
  expect(out).toMatch(
    /^Order: EUR [\d,.]+ and [\d,.]+ freight and charges, EUR [\d,.]+ in total, from \d suppliers? \(.*\)\.$/m,
  );
  expect(out).toMatch(
    /^Dead stock: 64 plates Sanderling in bin P11 are not used by any belt; value unknown \(no price\)\.$/m,
  );
  expect(out).toMatch(/^Plate series: .* cover the fleet at EUR [\d,.]+ per year \(cheapest, proven\)\. Cheapest: /m);
  expect(out).toMatch(/ Cheapest: \d+ series\. Fewest possible: \d+\. Leaves out \d+ belts\.$/m);
  expect(out).toMatch(/Wrote order\.xlsx\.\nAsk the plate supplier or a competent engineer before you order: .*\n$/);
  expect(readFileSync(at('plant.xlsx')).equals(before)).toBe(true);
  const book = readBook(readFileSync(at('order.xlsx')));
  expect(book.sheets.map(({ name }) => name)).toEqual([
    'Order list',
    'Purchases',
    'Suppliers',
    'Rates',
    'Belt by belt',
    'Budget',
    'Left out',
    'Remarks',
    'Shelf',
    'ABC',
    'Cutting plan',
    'Rolls',
    'Cuts',
    'Series curve',
    'Series changes',
    'Series forced',
    'Square or skew',
    'Not compared',
    'Schedule',
    'Budget by month',
    'Budget by area',
    'Budget by cost centre',
    'Budget lines',
    'Comparison of offers',
    'Offers compared',
    'Price history',
    'Audit',
    'About',
  ]);
  const formula = (sheet: string, header: string): string | undefined => {
    const rows = book.sheets.find(({ name }) => name === sheet)?.rows;
    const column = rows?.get(1)?.find(({ value }) => value === header)?.column;
    return rows?.get(2)?.find((cell) => cell.column === column)?.formula;
  };
  expect(formula('Order list', 'Need')).toMatch(/^SUMIFS\('Belt by belt'!/);
  expect(formula('Purchases', 'Whole packs')).toMatch(/^ROUNDUP\(/);
  expect(formula('Purchases', 'Cost')).toMatch(/^ROUND\([A-Z]+2\*[A-Z]+2,2\)$/);
  expect(formula('Purchases', 'Exchange rate')).toMatch(/^INDEX\('?Rates'?!/);
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

test('orders for the next months, in the currencies of the suppliers; for all belts when asked', async () => {
  const soon = await ran(['order', 'plant.xlsx', 'soon.xlsx'], { folder });
  expect(soon.out).toMatch(/^2 joints of 2 belts due by 2027-03-30: /m);
  expect(soon.out).toMatch(/^Invented Supplier B: GBP [\d,.]+, EUR [\d,.]+\.$/m);
  expect(soon.out).toMatch(/^Remark: plant\.xlsx, Shelf!C12: no plate series is called "Sanderling"\.$/m);
  const all = await ran(['order', 'plant.xlsx', 'all.xlsx', '--all'], { folder });
  expect(all.out).toMatch(/^39 joints of 27 belts: /m);
});

test('a list without prices takes those of another book; chosen belts alone, failing ones when asked for', async () => {
  const { code, out } = await ran(
    [
      'order',
      'list.xlsx',
      'few.xlsx',
      '--series',
      'plant.xlsx',
      '--belt',
      'q4',
      '--belt',
      'L4',
      '--failing',
      '--seconds',
      '4',
    ],
    { folder },
  );
  expect(code).toBe(0);
  expect(out).toMatch(/^3 joints of 2 belts: /m);
  const without = await ran(['order', 'list.xlsx', 'few.xlsx', '--series', 'plant.xlsx', '--belt', 'L4'], { folder });
  expect(without.out).toMatch(/Not ordered: L4: its joint fails: thickness \(list\.xlsx, Fleet/);
});

test.each([
  [
    ['order', 'plant.xlsx', 'plant.xlsx'],
    /plant\.xlsx could not be written: it is the same file as the input plant\.xlsx, which is never changed/,
  ],
  [['order', 'plant.xlsx', 'no.xlsx', '--due', 'soon'], /^--due must be a date as YYYY-MM-DD; "soon" was given/],
  [['order', 'plant.xlsx', 'no.xlsx', '--belt', 'Z9'], /^plant\.xlsx has no belt "Z9"/],
  [['order', 'plant.xlsx', 'no.xlsx', '--belt', 'Q1', '--due', '2027-01-01'], /^--belt and --due are both given/],
  [['order', 'plant.xlsx', 'no.xlsx', '--all', '--belt', 'Q1'], /^--all is given with --belt or --due/],
  [['order', 'plant.xlsx', 'no.xlsx', '--seconds', '0'], /^--seconds must be more than 0; "0" was given/],
  [['order', 'none.xlsx', 'no.xlsx'], /^none\.xlsx could not be read: there is no such file/],
] as const)('%j is refused, and nothing is written', async (args, message) => {
  const { code, err } = await ran([...args], { folder });
  expect(code).toBe(2);
  expect(err).toMatch(message);
  expect(existsSync(at('no.xlsx'))).toBe(false);
});
