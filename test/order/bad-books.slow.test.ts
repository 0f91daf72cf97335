import { expect, test, vi } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import type { Content } from '../../src/formula/values.ts';
import { buyingFindings } from '../../src/order/buying-findings.ts';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { understood } from '../../src/records/typed-entry.ts';
import { serialOf } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { columnOf } from '../workbook/books.ts';

/** Books with one mistake each: what is told, where, and that an order tells it too. */

vi.setConfig({ testTimeout: 60_000 });

const [ended, later] = [serialOf(2025, 3, 31) ?? 0, serialOf(2030, 1, 1) ?? 0];

const offer = 'A-PLO-48';
const trader = 'Invented Trader D';

/** Sheet, record by its name, header and content of the mistake; what is told; the header it is told at, if another. */
const mistakes: readonly (readonly [
  sheet: string,
  key: string,
  header: string,
  content: Content,
  told: RegExp,
  at?: string,
])[] = [
  ['Offers', offer, 'Price', 0, /^Price is 0, so it is left out: enter the price/],
  ['Offers', offer, 'Price', null, /^Price is empty, so the minimum is 5 packs/],
  ['Offers', offer, 'Price', -5, /Price is -5/],
  ['Offers', offer, 'Price', 'on request', /Price holds the text "on request"/],
  ['Offers', offer, 'Price', 1.22, /^Price is 1.22 for 48, [\d.]+ times cheaper than the item's other prices/],
  ['Offers', offer, 'Price', 5856, /^Price is 5856 for 48, [\d.]+ times dearer than the item's other prices/],
  ['Offers', 'D-BLADE', 'Price', 0, /^Price is 0, so it is left out/],
  ['Offers', 'A-CHALK', 'Price', null, /^Price is empty, so the offer is left out/],
  ['Offers', offer, 'Price 2', 549, /^Price 2 is 549, more than the 58.56 for fewer packs/],
  ['Offers', offer, 'Price 2', 0, /^Price 2 is 0, so it is left out/],
  ['Offers', offer, 'Price 3', null, /^Price 3 is empty, so the break is left out/],
  ['Offers', offer, 'Break 2', null, /^Break 2 is empty, so the break is left out/],
  ['Offers', offer, 'Break 3', 4, /^Break 3 is 4, not more than the break before it/],
  ['Offers', offer, 'Break 2', 2.5, /Break 2 is 2.5/],
  ['Offers', offer, 'Kind', null, /^Kind is empty, so the row is left out/],
  ['Offers', offer, 'Kind', 'plate', /Kind holds "plate", which is not allowed/],
  ['Offers', offer, 'Item', null, /^Item is empty, so the row is left out/],
  ['Offers', offer, 'Item', 'Plovver', /^No plate series is called "Plovver": did you mean Plover/],
  ['Offers', 'D-SED-100', 'Item', 'Segde', /^No strip is called "Segde": did you mean Sedge/],
  ['Offers', 'A-PUN-72', 'Size', 7.5, /^No joint takes punch 7.5 mm; the nearest is punch 7.2 mm/],
  ['Offers', 'A-PUN-72', 'Size', null, /^Size is empty, so the row is left out/],
  ['Offers', 'A-PUN-72', 'Size', -7, /Size is -7 mm/],
  ['Offers', offer, 'Sold by', null, /^Sold by is empty, so the offer is left out/],
  ['Offers', offer, 'Sold by', 'Supplier A', /Sold by names "Supplier A", which is not in the sheet Suppliers/],
  ['Offers', offer, 'Pieces in pack', null, /^Pieces in pack is empty, so the offer is left out/],
  ['Offers', 'D-SED-100', 'Length in pack', null, /^Length in pack is empty, so the offer is left out/],
  ['Offers', 'A-LAP-36', 'Article', offer, /The name "A-PLO-48" is already used/],
  ['Offers', offer, 'Valid until', ended, /^The offer ended on 2025-03-31, before the review date/],
  ['Offers', offer, 'Valid from', later, /^The offer begins on 2030-01-01, after the review date/],
  ['Offers', offer, 'Valid until', 'end of March', /Valid until holds the text "end of March"/],
  ['Offers', offer, 'Minimum packs', 0, /Minimum packs is 0/],
  ['Offers', offer, 'Lead time', -3, /Lead time is -3/],
  ['Offers', offer, 'Alternative for', 'Lapwyng', /^No plate series is called "Lapwyng": did you mean Lapwing/],
  ['Offers', 'A-CHALK', 'Bolts included', 'yes', /^Bolts included is yes, but the item is consumable/],
  ['Offers', offer, 'Bolts included', 'maybe', /Bolts included holds "maybe"/],
  ['Suppliers', trader, 'Exchange rate', null, /^Exchange rate is empty, so nothing is bought from Invented Trader D/],
  ['Suppliers', trader, 'Exchange rate', 0, /Exchange rate is 0/],
  ['Suppliers', trader, 'Exchange rate', 'x', /Exchange rate holds the text "x"/],
  [
    'Suppliers',
    'Invented Supplier A',
    'Exchange rate',
    1.1,
    /^Exchange rate is 1.1, but EUR is the book's own currency/,
  ],
  ['Suppliers', 'Invented Supplier A', 'Currency', null, /^Currency is empty, so Invented Supplier A counts .* EUR/],
  ['Suppliers', trader, 'Currency', 'GBP', /^GBP has the exchange rate 1.18 in another row/, 'Exchange rate'],
  ['Suppliers', trader, 'Supplier', 'Invented Supplier A', /The name "Invented Supplier A" is already used/],
  ['Suppliers', trader, 'Freight', -1, /Freight is -1/],
  ['Suppliers', trader, 'Surcharge', 50, /^Surcharge below is empty, so no surcharge is counted/, 'Surcharge below'],
  [
    'Suppliers',
    trader,
    'Discount 1',
    0.05,
    /^Discount 1 from is empty, so the discount is left out/,
    'Discount 1 from',
  ],
  ['Suppliers', trader, 'Discount 2 from', 500, /^Discount 2 is empty, so the discount is left out/, 'Discount 2'],
  ['Suppliers', trader, 'Minimum order', 'none', /Minimum order holds the text "none"/],
  ['Shelf', 'P5', 'Item', 'Heronn', /^No plate series is called "Heronn": did you mean Heron/],
  ['Shelf', 'B1', 'Size', 36, /^No joint takes bolts Plover 36 mm; the nearest is bolts Plover 3[39] mm/],
  ['Shelf', 'P6', 'Bin', 'P5', /The name "P5" is already used/, 'Bin'],
  ['Shelf', 'P5', 'On shelf', -52, /On shelf is -52/],
  ['Shelf', 'S1', 'Length each', null, /^Length each is empty, so the bin is left out/],
  ['Plate series', 'Heron', 'Pack price', 0, /^Pack price is 0, so nothing is bought at it/],
  ['Strips', 'Sedge', 'Roll price', 0, /^Roll price is 0, so nothing is bought at it/],
];

function bookWith(sheet: string, key: string, header: string, content: Content): { book: Workbook; record: number } {
  const book = new Workbook(demoBook('metric'));
  const record = book.sheet(sheet).rows.findIndex(({ cells }) => cells[0] === key);
  expect(record, key).toBeGreaterThanOrEqual(0);
  book.edit([{ sheet, record, column: columnOf(book, sheet, header), content }]);
  return { book, record };
}

const told = (book: Workbook) => [...findings(book), ...buyingFindings(book)];

test('the demo itself has one row that nothing takes, and no other remark', () => {
  const book = new Workbook(demoBook('metric'));
  expect(buyingFindings(book).map(({ cell, message }) => [cell, message])).toEqual([
    ['Shelf!C12', 'No plate series is called "Sanderling" (sheet Shelf, row 12, column Item).'],
  ]);
});

const each = mistakes.map(([sheet, key, header, content, message, at = header]) => ({
  sheet,
  key,
  header,
  content,
  message,
  at,
}));

test.each(each)('$sheet $key, $header is $content', ({ sheet, key, header, content, message, at }) => {
  const { book, record } = bookWith(sheet, key, header, content);
  const found = told(book).filter((finding) => finding.sheet === sheet && message.test(finding.message));
  expect(
    found.map((finding) => [finding.record, finding.column]),
    told(book)
      .map((one) => one.message)
      .join('\n'),
  ).toContainEqual([record, at]);
  // The order says it as well: on the command line, on the page and in its file.
  const { remarks } = fleetOrder(book, { which: 'all' });
  expect(remarks.filter((remark) => remark.sheet === sheet && remark.record === record)).not.toEqual([]);
  book.destroy();
});

test.each([
  ['Offers', offer, 'Price', '£ 49.50', 'the price is in £, and the row counts in EUR'],
  ['Offers', 'B-HER-24', 'Price', '49.50 €', 'the price is in €, and the row counts in GBP'],
  ['Suppliers', trader, 'Freight', '€ 30', 'the price is in €, and the row counts in SEK'],
  ['Plate series', 'Heron', 'Pack price', '$ 99', 'the price is in $, and the row counts in GBP'],
  ['Strips', 'Sedge', 'Roll price', 'USD 99', 'the price is in $, and the row counts in EUR'],
] as const)("a currency that is not the row's is refused: %s %s %s %s", (sheet, key, header, typed, reason) => {
  const book = new Workbook(demoBook('metric'));
  const record = book.sheet(sheet).rows.findIndex(({ cells }) => cells[0] === key);
  const place = { sheet, record, column: columnOf(book, sheet, header) };
  expect(understood(book, place, typed)).toMatchObject({ content: typed, refusal: { reason } });
  const own = sheet === 'Offers' && key === offer ? '€ 49.50' : '49.50';
  expect(understood(book, place, own).content).toBe(49.5);
  book.destroy();
});
