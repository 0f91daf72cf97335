import { writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { unzipSync } from 'fflate';
import assert from 'node:assert/strict';
import type { Download } from 'playwright-core';
import { demoFile } from '../../cli/lists.ts';
import type { Step, Visit } from './day.ts';

/**
 * A buyer's day: the plant's book imported, what to order and from whom, offers side by side, the budget, requests and
 * orders as files, and a supplier's answer and a sent order taken back.
 */

const orderTab = async ({ page, hand }: Visit, name: string, ready: string): Promise<void> => {
  await hand.press(page.locator('.order-dialog').getByRole('tab', { name, exact: true }));
  await page.locator(ready).first().waitFor();
  await page.locator('.planning-search').waitFor({ state: 'detached' });
};

async function pressedFor({ page, hand }: Visit, button: string): Promise<Download> {
  const file = page.waitForEvent('download');
  await hand.press(page.locator('.planning-head').getByRole('button', { name: button }));
  return file;
}

/** The first .xlsx of an archive, in the folder under a name. */
async function unpacked(download: Download, folder: string, name: string): Promise<string> {
  const files = Object.entries(unzipSync(await readFile(await download.path())));
  const [, bytes] = files.find(([path]) => path.endsWith('.xlsx')) ?? [];
  if (bytes === undefined) throw new Error('the archive holds no workbook');
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

/** A supplier's answer: its price for the first item. */
async function answer(path: string): Promise<void> {
  const file = new ExcelJS.Workbook();
  await file.xlsx.readFile(path);
  let column = 0;
  for (const sheet of file.worksheets)
    sheet.eachRow((row) => {
      if (column > 0) {
        row.getCell(column).value = 111.11;
        column = -1;
      }
      if (column === 0) row.eachCell((cell, at) => void (cell.value === 'Price per pack' && (column = at)));
    });
  assert.equal(column, -1);
  await file.xlsx.writeFile(path);
}

export const buyerDay: readonly Step[] = [
  {
    screen: 'import of a book',
    async does({ page, hand, folder }) {
      const book = join(folder, 'plant.xlsx');
      await demoFile(book);
      await hand.command('Book', 'Import a list …', 'Control+o');
      const drop = page.locator('.import-dialog .drop');
      await hand.hand(hand.by === 'mouse' ? drop : drop.locator('input'), [book]);
      await page.locator('.import-summary', { hasText: '36 rows of Belts' }).waitFor();
    },
  },
  {
    screen: "buyer's view",
    async does({ page, hand }) {
      await hand.press(page.locator('.import-dialog').getByRole('button', { name: 'Import', exact: true }));
      await page.locator('.import-dialog').waitFor({ state: 'detached' });
      await hand.command('View', 'Buyer view', 'Alt+Shift+2');
      await page.locator('.view-strip', { hasText: 'View: Buyer' }).waitFor();
    },
  },
  {
    screen: 'offers',
    async does({ page, hand }) {
      await hand.show('Offers');
      await page.locator('.count', { hasText: 'rows' }).waitFor();
    },
  },
  {
    screen: 'order list',
    async does({ page, hand }) {
      await hand.command('Book', 'Order list …', 'Alt+Shift+Q');
      await page.locator('.planning-table tfoot .order-total').waitFor();
      await page.locator('.planning-search').waitFor({ state: 'detached' });
    },
  },
  {
    screen: 'order list, one item',
    async does({ page, hand }) {
      await hand.press(page.locator('.order-item').first());
      await page.locator('.order-sources li').first().waitFor();
    },
  },
  { screen: 'offers compared', does: (visit) => orderTab(visit, 'Offers', '.order-matrix') },
  { screen: 'budget', does: (visit) => orderTab(visit, 'Budget', '.order-budget-bar') },
  { screen: 'shelf', does: (visit) => orderTab(visit, 'Shelf', '.order-state') },
  { screen: 'cutting plan', does: (visit) => orderTab(visit, 'Cutting plan', '.order-roll') },
  { screen: 'fewest series', does: (visit) => orderTab(visit, 'Fewest series', '.order-point-chosen') },
  { screen: 'square or skew', does: (visit) => orderTab(visit, 'Square or skew', '.order-compare') },
  {
    screen: 'requests and orders',
    async does(visit) {
      const { page, folder } = visit;
      await orderTab(visit, 'Order list', '.order-total');
      await answer(await unpacked(await pressedFor(visit, 'Requests .zip'), folder, 'answer.xlsx'));
      await page.locator('.planning-said', { hasText: 'requests.zip was written' }).waitFor();
      await unpacked(await pressedFor(visit, 'Orders .zip'), folder, 'sent.xlsx');
      await page.locator('.planning-said', { hasText: 'orders.zip was written' }).waitFor();
    },
  },
  {
    screen: 'taken back',
    async does({ page, hand, folder }) {
      const files = ['answer.xlsx', 'sent.xlsx'].map((name) => join(folder, name));
      await hand.hand(page.locator('.planning-head').getByRole('button', { name: 'Take in files …' }), files);
      await page.locator('.order-dialog', { hasText: /answer\.xlsx: \d+ cells? of Offers changed\./ }).waitFor();
      await page.locator('.order-dialog', { hasText: /sent\.xlsx: \d+ order lines? entered/ }).waitFor();
      await page.locator('.planning-search').waitFor({ state: 'detached' });
    },
  },
  {
    screen: 'orders placed',
    async does({ page, hand }) {
      await hand.leave();
      await hand.show('Orders');
      await page.locator('.count', { hasText: /\d rows?/ }).waitFor();
      assert.doesNotMatch(await page.locator('.count').innerText(), /^0 /);
    },
  },
];
