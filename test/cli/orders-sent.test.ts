import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { demoFile, demoRows, listFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

/** Orders and requests as files in a folder, and what comes back into the book. */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(at('plant.xlsx'));
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('writes an order per supplier, enters one that was sent, and counts it as on order', async () => {
  const { code, out, err } = await ran(['order', 'plant.xlsx', 'order.xlsx', '--orders', 'sent'], { folder });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const orders = [
    ...out.matchAll(/^Order (TQ-2026-\d{4} .*): \d+ lines?, [A-Z]{3} [\d,.]+, with tax [A-Z]{3} [\d,.]+\.$/gm),
  ];
  expect(orders.length).toBeGreaterThan(0);
  expect(readdirSync(at('sent')).toSorted()).toEqual(
    [
      'Orders.ics',
      ...orders.flatMap(([, name = '']) => ['csv', 'pdf', 'xlsx'].map((ending) => `${name}.${ending}`)),
    ].toSorted(),
  );
  const file = join('sent', `${orders[0]?.[1] ?? ''}.xlsx`);
  const placed = await ran(['placed', 'plant.xlsx', file, 'placed.xlsx'], { folder });
  expect({ code: placed.code, err: placed.err }).toEqual({ code: 0, err: '' });
  const entered = Number(/^(\d+) order lines? entered in the sheet Orders\.$/m.exec(placed.out)?.[1]);
  expect(entered).toBeGreaterThan(0);
  const sheet = readBook(readFileSync(at('placed.xlsx'))).sheets.find(({ name }) => name === 'Orders');
  expect(sheet?.lastRow).toBe(entered + 1);
  const twice = await ran(['placed', 'placed.xlsx', file, 'twice.xlsx'], { folder });
  expect(twice.out).toMatch(/^0 order lines entered in the sheet Orders\.$/m);
  const other = await ran(['placed', 'plant.xlsx', 'order.xlsx', 'none.xlsx'], { folder });
  expect(other.code).toBe(2);
  expect(other.err).toMatch(/order\.xlsx could not be used: it is not an order/);
});

test('writes requests, and takes nothing over of one that nobody filled in', async () => {
  const { code, out, err } = await ran(['request', 'plant.xlsx', 'asked', '--all'], { folder });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const files = readdirSync(at('asked'));
  expect(out).toMatch(new RegExp(`^Wrote ${files.length} requests to asked\\.$`, 'm'));
  const quoted = await ran(['quote', 'plant.xlsx', join('asked', files[0] ?? ''), 'quoted.xlsx'], { folder });
  expect({ code: quoted.code, err: quoted.err }).toEqual({ code: 0, err: '' });
  expect(quoted.out).toMatch(/^0 cells of Offers changed\.$/m);
  expect(quoted.out).toMatch(/^Not offered: Invented /m);
  const unknown = await ran(['request', 'plant.xlsx', 'asked', '--supplier', 'Nobody'], { folder });
  expect(unknown.code).toBe(2);
});

test('orders for two books together, and says what goes to which site', async () => {
  const list = demoRows({}, (name) => ['Q4', 'C2'].includes(name));
  await listFile(at('mill.xlsx'), { Fleet: list });
  const args = ['order', 'plant.xlsx', 'mill.xlsx', 'both.xlsx', '--all', '--orders', 'both', '--seconds', '2'];
  const { code, out, err } = await ran(args, { folder });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^2 belts of mill\.xlsx have names of another book: Q4 \(mill\), C2 \(mill\)\.$/m);
  expect(out).toMatch(/^Invented Supplier B: GBP [\d,.]+, EUR [\d,.]+, delivered to 2 sites\.$/m);
  const { sheets } = readBook(readFileSync(at('both.xlsx')));
  expect(sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Deliveries', 'Needs by site']));
  const csv = readdirSync(at('both')).filter((name) => name.endsWith('.csv'));
  const texts = csv.map((name) => readFileSync(at(join('both', name)), 'utf8'));
  expect(texts.some((text) => /plates Heron: \d+ pieces to Tern Quay, \d+ pieces to mill/.test(text))).toBe(true);
  const supposed = await ran([...args, '--set', 'Q4.Joints=2'], { folder });
  expect(supposed.code).toBe(2);
  expect(supposed.err).toMatch(/--set and --variant change one book/);
});
