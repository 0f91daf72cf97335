import { beforeAll, describe, expect, test, vi } from 'vitest';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { PriceHistory } from '../../src/order/price-history.ts';
import { itemKey } from '../../src/order/search/order-list.ts';
import { changeText, quotedBook } from '../../src/purchase/quote-edits.ts';
import { askedColumns, type AskedCell } from '../../src/purchase/request-columns.ts';
import { type FilledSheet, requestAnswers, type RequestAnswers } from '../../src/purchase/request-answers.ts';
import { type RequestDocument, requestDocuments } from '../../src/purchase/request-document.ts';
import { requestForm, titleRow } from '../../src/purchase/request-form.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';
import { edited } from '../xlsx/libreoffice.ts';

/** A request goes out, another program fills it in, and it comes back: what is quoted changes, and nothing else. */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const supplier = 'Invented Supplier A';

/** Cells that differ between two states: "Offers 3 Price". */
function differing(book: Workbook, before: BookState, after: BookState): string[] {
  return after.sheets.flatMap(({ name, rows }) =>
    rows.flatMap(({ cells }, record) =>
      cells.flatMap((content, column) => {
        const was = before.sheets.find((sheet) => sheet.name === name)?.rows[record]?.cells[column] ?? null;
        return was === content ? [] : [`${name} ${record} ${book.columns(name)[column]?.header ?? ''}`];
      }),
    ),
  );
}

const answers = (bytes: Uint8Array): RequestAnswers => {
  const found = requestAnswers(readBook(bytes).sheets);
  if (found === undefined) throw new Error('the file is no request');
  return found;
};

describe('a request to a supplier', () => {
  let book: Workbook;
  let document: RequestDocument;
  let bytes: Uint8Array;
  let from: number;
  /** Columns count from 0 in the other program. */
  const column = (to: AskedCell['to']): number =>
    titleRow.first - 1 + askedColumns.findIndex((asked) => asked.to === to);
  const row = (line: number): number => from + line;
  const value = (to: AskedCell['to'], line: number, number: number): string =>
    `sheet.getCellByPosition(${column(to)}, ${row(line)}).Value = ${number}`;
  const sheet = 'sheet = book.Sheets.getByName("Request")';

  beforeAll(async () => {
    book = new Workbook(demoBook('metric'));
    const [found] = requestDocuments(book, fleetOrder(book, { which: 'all' }), {
      suppliers: [supplier],
      everything: true,
    });
    if (found === undefined) throw new Error('nothing to ask for');
    document = found;
    bytes = await laidBook([requestForm(document)], { title: 'request', paper: 9 });
    from = [...(readBook(bytes).sheets[0]?.rows ?? [])].find(([, cells]) => cells[0]?.value === 'No.')?.[0] ?? 0;
    expect(from).toBeGreaterThan(3);
  });

  test('comes back with prices, and exactly those change, each told with how much', async () => {
    const known = document.lines.findIndex(({ article, price }) => article !== '' && price !== undefined);
    const added = document.lines.findIndex(({ article, pack }) => article === '' && pack === undefined);
    const line = document.lines[known];
    const fresh = document.lines[added];
    if (line === undefined || fresh === undefined) throw new Error('the demo lacks a line that the test needs');
    const price = Math.round((line.price ?? 0) * 104.2) / 100;
    const filled = await edited(bytes, [
      sheet,
      value('Price', known, price),
      ...line.breaks.flatMap((packs, index) =>
        packs === undefined ? [] : [value(`Price ${([2, 3, 4] as const)[index] ?? 2}`, known, price - index - 1)],
      ),
      value('Lead time', known, 12),
      value('pack', added, 10),
      value('Price', added, 99.5),
      ...[...(readBook(bytes).sheets[0]?.rows ?? [])].flatMap(([at, cells]) =>
        cells[0]?.value === 'Your quotation number'
          ? [`sheet.getCellByPosition(${titleRow.answer - 1}, ${at - 1}).String = "Q-77"`]
          : [],
      ),
    ]);
    const quoted = quotedBook(book, [answers(filled)]);
    expect(quoted.problems).toEqual([]);
    const record = book.sheet('Offers').rows.findIndex(({ cells }) => cells[0] === line.article);
    const end = book.sheet('Offers').rows.length;
    const tiers = line.breaks.flatMap((packs, index) => (packs === undefined ? [] : [`Price ${index + 2}`]));
    // Rows are in the order of the request's lines.
    const before = known < added ? 0 : 1;
    const expected = [
      ...['Price', ...tiers, 'Lead time', 'Quote'].map((header) => `Offers ${record} ${header}`),
      ...['Article', 'Sold by', 'Kind', 'Item', 'Price', 'Quote'].map((header) => `Offers ${end} ${header}`),
      `Offers ${end} ${fresh.item.kind === 'strip' ? 'Length in pack' : 'Pieces in pack'}`,
      ...(fresh.item.length === undefined ? [] : [`Offers ${end} Size`]),
      // What the article cost before and what it costs now is kept; of the new one there is no price before.
      ...['Price entry', 'Priced article', 'Price then'].map((header) => `Price history ${before} ${header}`),
      ...[0, 1, 2].flatMap((place) =>
        place === before
          ? []
          : ['Price entry', 'Priced article', 'Priced on', 'Price then', 'Price from'].map(
              (header) => `Price history ${place} ${header}`,
            ),
      ),
    ];
    expect(differing(book, book.state, quoted.state).toSorted()).toEqual(expected.toSorted());
    expect(quoted.changes.map(changeText)).toContainEqual(
      expect.stringMatching(
        new RegExp(`^${line.article}: Price ${line.price?.toFixed(2)} → ${price.toFixed(2)} \\(\\+4\\.2 %\\)$`),
      ),
    );
    expect(quoted.notOffered).toHaveLength(document.lines.length - 2);
    const after = new Workbook(quoted.state);
    const offers = fleetOrder(after, { which: 'all' }).offered.offers;
    expect(offers.find(({ article }) => article === line.article)?.breaks[0]?.price).toBe(price);
    const own = offers.filter((offer) => offer.supplier === supplier && itemKey(offer.item) === itemKey(fresh.item));
    expect(own.map(({ pack, quote }) => [pack, quote])).toEqual([[10, 'Q-77']]);
    const change = new PriceHistory(after).change(line.article, () => price);
    expect(change?.last.price).toBe(line.price);
    expect(change?.rise).toBeCloseTo(0.042, 3);
    // A second time there is nothing left to change.
    const again = quotedBook(after, [answers(filled)]);
    expect(again.changes).toEqual([]);
    expect(again.state.sheets).toEqual(after.state.sheets);
  });

  test('is locked: what was asked cannot be changed, and what does not fit is told with its cell', async () => {
    const filled = await edited(bytes, [
      sheet,
      `asked = sheet.getCellByPosition(2, ${row(0)}).CellProtection.IsLocked`,
      `answer = sheet.getCellByPosition(${column('Price')}, ${row(0)}).CellProtection.IsLocked`,
      'said = IIf(sheet.isProtected(), "protected", "open") & IIf(asked, ", locked", ", free")',
      `sheet.getCellByPosition(${column('Article number')}, ${row(2)}).String = said & IIf(answer, ", locked", ", ` +
        `free")`,
      `sheet.getCellByPosition(${column('Price')}, ${row(0)}).String = "about 5"`,
      `sheet.getCellByPosition(${column('Price')}, ${row(1)}).String = "$ 5"`,
    ]);
    const back = readBook(filled).sheets[0]?.rows.get(row(2) + 1);
    expect(back?.find(({ column: at }) => at === column('Article number') + 1)?.value).toBe('protected, locked, free');
    const quoted = quotedBook(book, [answers(filled)]);
    expect(quoted.state.sheets).toEqual(book.state.sheets);
    expect(quoted.problems).toEqual([
      expect.stringMatching(/^Request![A-Z]+\d+: Price per pack "about 5" cannot be used: /),
      expect.stringMatching(/^Request![A-Z]+\d+: Price per pack "\$ 5" cannot be used: /),
    ]);
  });

  test('is refused when the supplier sells in another currency by now, or its columns were moved', () => {
    const known = readBook(bytes).sheets;
    const priced = known.map((one): FilledSheet => ({
      ...one,
      rows: new Map(
        [...one.rows].map(([at, cells]) => [
          at,
          at === row(0) + 1 ? [...cells, { column: column('Price') + 1, value: 5 }] : cells,
        ]),
      ),
    }));
    const found = requestAnswers(priced);
    if (found === undefined) throw new Error('the file is no request');
    const other = new Workbook(demoBook('metric'));
    const record = other.sheet('Suppliers').rows.findIndex(({ cells }) => cells[0] === supplier);
    other.edit([
      { sheet: 'Suppliers', record, column: other.column('Suppliers', 'Currency'), content: 'GBP' },
      { sheet: 'Suppliers', record, column: other.column('Suppliers', 'Exchange rate'), content: 1.18 },
    ]);
    expect(quotedBook(other, [found]).problems).toEqual([
      `Request!A${row(0) + 1}: it was asked for in EUR, but ${supplier} sells in GBP now, so the line is left out`,
    ]);
    const moved = known.map((one): FilledSheet => ({
      ...one,
      rows: new Map(
        [...one.rows].map(([at, cells]) => [at, cells.map((cell) => ({ ...cell, column: cell.column + 1 }))]),
      ),
    }));
    expect(requestAnswers(moved)).toBeUndefined();
  });
});
