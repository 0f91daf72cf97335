import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { letters } from '../workbook/books.ts';
import { formula, goTo, TestBrowser } from './opened-page.ts';

/** A file of belts that the open book has already: what differs is shown, and only what is chosen is taken. */

let browser: TestBrowser;
const folder = mkdtempSync(join(tmpdir(), 'skewbook-compare-'));
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(async () => {
  await browser.stop();
  rmSync(folder, { recursive: true });
});

async function type(page: Page, cell: string, text: string): Promise<void> {
  await goTo(page, cell);
  await page.locator('#formula').fill(text);
  await page.keyboard.press('Enter');
}

async function held(page: Page, cell: string): Promise<string> {
  await goTo(page, cell);
  return formula(page);
}

test('takes one difference, leaves another, and is undone in one step', async () => {
  const { page, complaints } = await browser.open();
  const [width, speed] = [`${letters('Width')}2`, `${letters('Speed')}3`];
  await type(page, width, '623');
  await type(page, speed, '2.25');
  const download = page.waitForEvent('download', { timeout: 50_000 });
  await page.keyboard.press('Control+s');
  const file = join(folder, 'sent.xlsx');
  await (await download).saveAs(file);
  await type(page, width, '500');
  await type(page, speed, '1.75');

  await page.keyboard.press('Control+o');
  await page.setInputFiles('input[type=file]', file);
  await page.click('button:has-text("Compare with this book")', { timeout: 50_000 });
  const summary = page.locator('.import-summary');
  // The book knows what it wrote: the file brings nothing, and both changes since are its own.
  await summary.filter({ hasText: 'brings nothing new. 2 changes made only here stay.' }).waitFor();
  await page.locator('.dialog-body', { hasText: 'Both come from what this book last wrote to' }).waitFor();
  await page.getByLabel('What both come from').selectOption('something that nobody knows');
  await summary.filter({ hasText: '2 differences, 2 taken' }).waitFor();
  const rows = page.locator('.import-dialog .table tbody tr');
  expect((await rows.allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' ').trim())).toEqual([
    'Q1 500 mm 623 mm',
    'Q2 1.75 m/s 2.25 m/s',
  ]);
  await page.click('button:has-text("Take none")');
  await summary.filter({ hasText: '2 differences, 0 taken' }).waitFor();
  expect(await page.locator('button:has-text("Take into this book")').isDisabled()).toBe(true);
  await page.getByLabel('Take all of Belts, Width').check();
  await page.click('button:has-text("Take into this book")');
  expect([await held(page, width), await held(page, speed)]).toEqual(['623', '1.75']);
  await page.keyboard.press('Control+z');
  expect([await held(page, width), await held(page, speed)]).toEqual(['500', '1.75']);
  expect(complaints).toEqual([]);
});
