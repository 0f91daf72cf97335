import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { type OrderPaper, orderPapers, orderPdf } from '../../src/purchase/order-papers.ts';
import { money } from '../../src/purchase/order-words.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { cellAt } from '../../src/xlsx/read/raw-cells.ts';
import type { RawBook, RawCell, RawSheet } from '../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';
import { testFolder } from '../cli/lists.ts';
import { edited, recalculated } from '../xlsx/libreoffice.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';

/** Orders that are sent: what another program works out of them, and what they follow. */

vi.setConfig({ testTimeout: 180_000, hookTimeout: 120_000 });

function sheetIn(book: RawBook, name: string): RawSheet {
  const sheet = book.sheets.find((one) => one.name === name);
  if (sheet === undefined) throw new Error(`the file has no sheet ${name}`);
  return sheet;
}

/** The row whose first filled cell in a column says so. */
function rowOf(sheet: RawSheet, column: number, said: string): number {
  for (const row of sheet.rows.keys()) if (cellAt(sheet, row, column)?.value === said) return row;
  throw new Error(`${sheet.name} has no row ${said}`);
}

const columns = { packs: 6, price: 9, amount: 10 } as const;
/** Of the sums: their names stand under the packs. */
const sumOf = (sheet: RawSheet, name: string): RawCell | undefined =>
  cellAt(sheet, rowOf(sheet, columns.packs, name), columns.amount);

describe('orders of Tern Quay', () => {
  let papers: readonly OrderPaper[];
  let paper: OrderPaper;
  let bytes: Uint8Array;

  beforeAll(async () => {
    const book = new Workbook(demoBook('metric'));
    const order = fleetOrder(book, { which: 'all' });
    const supplied = suppliedOrder(order, await loadSolver());
    ({ papers } = orderPapers(book, order, supplied, {
      inputs: [{ name: 'plant.xlsx', sha256: 'a'.repeat(64) }],
      options: [['Scope', 'all belts']],
      unfinished: ['the cutting plan'],
    }));
    const found = papers.find(({ document }) => document.order.currency === 'GBP');
    if (found === undefined) throw new Error('nothing is bought in GBP');
    paper = found;
    bytes = await laidBook(paper.sheets, { title: paper.title, paper: 9 });
  });

  test('add up to the cent, line by line, in another program', async () => {
    for (const { sheets, title } of papers.slice(0, 2)) {
      const file = await laidBook(sheets, { title, paper: 9 });
      const { formulas, differing } = formulaDifferences(readBook(file), await recalculated(file));
      expect(differing).toEqual([]);
      expect(formulas).toBeGreaterThan(10);
    }
    for (const { document } of papers) {
      const cents = document.lines.reduce((sum, { packs, price }) => sum + Math.round(packs * price * 100), 0);
      expect(Math.round(document.lineTotal * 100)).toBe(cents);
      expect(Math.round(document.payable * 100)).toBe(Math.round(document.order.total * 100 * 1.2));
    }
  });

  test('follow a need, a price and a rate that somebody changes', async () => {
    const before = readBook(bytes);
    const [order, audit] = [sheetIn(before, 'Order'), sheetIn(before, 'Audit')];
    const basis = rowOf(audit, 2, String(paper.document.lines[0]?.description));
    const rate = rowOf(audit, 1, 'GBP');
    const line = rowOf(order, 4, String(paper.document.lines[0]?.description));
    const [first] = paper.document.lines;
    const after = readBook(
      await edited(bytes, [
        `audit = book.Sheets.getByName("Audit")`,
        `audit.getCellByPosition(2, ${basis - 1}).Value = ${(first?.cover ?? 0) + 10 * (first?.pack ?? 0)}`,
        `audit.getCellByPosition(8, ${basis - 1}).Value = 1000`,
        ...[9, 11, 13].map((column) => `audit.getCellByPosition(${column}, ${basis - 1}).String = ""`),
        `audit.getCellByPosition(2, ${rate - 1}).Value = 2`,
      ]),
    );
    const [changed, changedAudit] = [sheetIn(after, 'Order'), sheetIn(after, 'Audit')];
    const value = (sheet: RawSheet, column: number): number => Number(cellAt(sheet, line, column)?.value);
    expect(value(changed, columns.packs)).toBe(value(order, columns.packs) + 10);
    expect(value(changed, columns.price)).toBe(1000);
    expect(value(changed, columns.amount)).toBe(1000 * (value(order, columns.packs) + 10));
    const net = Number(sumOf(changed, 'Net total')?.value);
    expect(net).toBeCloseTo(
      Number(sumOf(changed, 'Goods')?.value) +
        Number(sumOf(changed, 'Discount')?.value) +
        Number(sumOf(changed, 'Freight')?.value),
      6,
    );
    expect(net).toBeGreaterThan(Number(sumOf(order, 'Net total')?.value) + 10_000);
    expect(Number(cellAt(changedAudit, rowOf(changedAudit, 1, 'Net total'), 3)?.value)).toBeCloseTo(net * 2, 6);
  });

  test('say in their audit what they were made from and what had not ended, and name no other supplier', () => {
    const audit = sheetIn(readBook(bytes), 'Audit');
    const texts = [...audit.rows.values()].flatMap((cells) => cells.map(({ value }) => String(value)));
    expect(texts).toContain(`plant.xlsx, SHA-256 ${'a'.repeat(64)}`);
    expect(texts).toContain('the cutting plan had not ended when this file was written');
    const others = papers.map(({ document }) => document.address.name).filter((name) => name !== 'Invented Supplier B');
    expect(others.length).toBeGreaterThan(0);
    for (const other of others) expect(texts.filter((text) => text.includes(other))).toEqual([]);
  });

  test('are printed with every line, the tax and the total, on either paper', async () => {
    const folder = await testFolder();
    try {
      for (const size of ['A4', 'Letter'] as const) {
        for (const one of papers) {
          const path = join(folder, 'order.pdf');
          writeFileSync(path, await orderPdf(one, size));
          const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
          const { lines, payable, order, number } = one.document;
          for (const { amount } of lines) expect(text).toContain(money(amount));
          for (const said of [number, money(order.total), money(payable), 'VAT']) expect(text).toContain(said);
          // What is signed stands on a sheet with what is signed for.
          const signed = text.split('\f').find((sheet) => sheet.includes('Confirmed: date'));
          expect(signed).toContain('Ask the plate supplier');
        }
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  test('are numbered one after the other from the number of the site', () => {
    expect(papers.map(({ document }) => document.number)).toEqual(
      papers.map((_, place) => `TQ-2026-${String(101 + place).padStart(4, '0')}`),
    );
  });
});
