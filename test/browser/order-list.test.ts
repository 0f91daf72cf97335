import { goTo, TestBrowser } from './opened-page.ts';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { demoFile, testFolder } from '../cli/lists.ts';
import { ran } from '../cli/program.ts';
import { findings } from '../../src/checks/findings.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { half } from '../order/halved-demo.ts';

/** The buyer's view: what it lists, that it searches beside the page, and that it changes nothing unasked. */

let browser: TestBrowser;

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(() => browser.stop());

async function opened(page: Page): Promise<void> {
  await page.keyboard.press('Alt+Shift+Q');
  await page.locator('.planning-table tfoot .order-total').waitFor();
}

const bookType = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** The list of all belts, which is longer than the usual one. */
async function ofAllBelts(page: Page): Promise<void> {
  await page.selectOption('.planning-terms select[aria-label="Joints"]', 'all');
  await page.locator('.planning-sum', { hasText: '39 joints of 27 belts' }).waitFor();
}

const tab = (page: Page, name: string): Promise<void> => page.click(`.order-dialog [role=tab]:text-is("${name}")`);

/** Waits until nothing is searched for. */
const settled = (page: Page): Promise<void> =>
  page.locator('.planning-search').waitFor({ state: 'detached', timeout: 60_000 });

describe('the order list', () => {
  it('lists items with their belts, what is left out, orders and budget, and goes to a cell', async () => {
    const { page, context, complaints } = await browser.open();
    await goTo(page, 'A2');
    await opened(page);
    await ofAllBelts(page);
    await page.locator('.planning-table tfoot .order-total').waitFor();
    await settled(page);
    const row = page.locator('.planning-table tbody tr', { hasText: 'plates Heron' });
    expect((await row.innerText()).replaceAll(/\s+/g, ' ')).toMatch(
      /^plates Heron 317 6\.34 (\d+) 52 271\.3 \1 (\d+) \d+ × 24 Invented Supplier B, B-HER-24 [\d,]+\.\d\d$/,
    );
    await page.click('.order-item:text-is("plates Heron")');
    expect(await page.locator('.order-sources li').allInnerTexts()).toHaveLength(5);
    const [goods = 0, charges = 0, total = 0] = (
      await page.locator('.planning-table tfoot td.number').allInnerTexts()
    ).map((text) => Number(text.replaceAll(',', '')));
    expect(total).toBeGreaterThan(5000);
    expect(total).toBeCloseTo(goods + charges, 6);
    expect(await page.locator('.planning-sum').innerText()).toMatch(/EUR [\d,]+\.\d\d/);
    expect(await page.locator('.order-side').innerText()).toMatch(/Invented Supplier B GBP [\d,]+\.\d\d/);
    const file = page.waitForEvent('download');
    await page.click('.planning-head button:text-is("Export .xlsx")');
    const path = await (await file).path();
    expect(
      readBook(readFileSync(path))
        .sheets.map(({ name }) => name)
        .slice(0, 2),
    ).toEqual(['Order list', 'Purchases']);
    const archive = page.waitForEvent('download');
    await page.click('.planning-head button:text-is("Orders .zip")');
    expect((await archive).suggestedFilename()).toBe('Tern Quay orders.zip');
    const papers = unzipSync(readFileSync(await (await archive).path()));
    const endings = Object.keys(papers).map((name) => name.replace(/^.*\./, ''));
    expect(new Set(endings)).toEqual(new Set(['xlsx', 'pdf', 'csv', 'ics']));
    const [sent] = Object.entries(papers).filter(([name]) => name.endsWith('.xlsx'));
    expect(readBook(sent?.[1] ?? new Uint8Array()).sheets.map(({ name }) => name)).toEqual(['Order', 'Audit']);
    const asked = page.waitForEvent('download');
    await page.click('.planning-head button:text-is("Requests .zip")');
    expect((await asked).suggestedFilename()).toBe('Tern Quay requests.zip');
    const requests = Object.keys(unzipSync(readFileSync(await (await asked).path())));
    expect(requests.every((name) => name.endsWith('.xlsx'))).toBe(true);
    await page
      .locator('.order-dialog', { hasText: `requests.zip was written: ${requests.length} requests.` })
      .waitFor();
    const chooser = page.waitForEvent('filechooser');
    await page.click('.planning-head button:text-is("Take in files …")');
    await (
      await chooser
    ).setFiles([
      { name: 'sent.xlsx', mimeType: bookType, buffer: Buffer.from(sent?.[1] ?? []) },
      { name: 'other.xlsx', mimeType: bookType, buffer: Buffer.from('no workbook') },
    ]);
    await page
      .locator('.order-dialog', { hasText: /sent\.xlsx: \d+ order lines? entered in the sheet Orders\./ })
      .waitFor();
    await page.locator('.order-dialog', { hasText: 'other.xlsx could not be used: ' }).waitFor();
    // What was ordered is on order now; the list is asked anew.
    await settled(page);
    await page.click('.planning-left button:text-is("S6")');
    await page.locator('.order-dialog').waitFor({ state: 'detached' });
    expect(await page.locator('#formula').getAttribute('aria-label')).toMatch(/13$/);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('exports the workbook that the command line writes: sheets, formulas, values and rows of About', async () => {
    const { page, context } = await browser.open();
    const folder = await testFolder();
    try {
      await demoFile(join(folder, 'plant.xlsx'));
      // Few belts, so that neither search ends by its time.
      const due = '2027-06-30';
      expect((await ran(['order', 'plant.xlsx', 'order.xlsx', '--due', due, '--seconds', '20'], { folder })).err).toBe(
        '',
      );
      await opened(page);
      await page.selectOption('.planning-terms select[aria-label="Joints"]', 'due');
      await page.fill('.planning-terms input[type=date]', due);
      await page.keyboard.press('Tab');
      await page.locator('.planning-sum', { hasText: /of [1-9] belts/ }).waitFor();
      await tab(page, 'Cutting plan');
      await settled(page);
      const file = page.waitForEvent('download');
      await page.click('.planning-head button:text-is("Export .xlsx")');
      const [fromPage = [], fromCommand = []] = [await (await file).path(), join(folder, 'order.xlsx')].map((path) =>
        readBook(readFileSync(path)).sheets.flatMap(({ name, rows }) =>
          [...rows.values()]
            .flat()
            // The audit says how it was asked for, which the page and the command line say in their own words.
            .filter(() => name !== 'Audit')
            .map(({ row, column, value, formula = '' }) => `${name} ${row},${column}: ${value} ${formula}`),
        ),
      );
      // What the book was taken from is all that may differ.
      const from = (file: string): string =>
        `About 1,2: Made by Skewbook from ${file}, joint age counted to 2026-11-25. `;
      expect(fromCommand).toContain(from('plant.xlsx'));
      expect(fromPage.filter((cell) => !fromCommand.includes(cell))).toEqual([from('Tern Quay')]);
      expect(fromPage).toHaveLength(fromCommand.length);
    } finally {
      rmSync(folder, { recursive: true, force: true });
      await context.close();
    }
  });

  it('follows its terms: due until a day, the selected belts, failing ones too', async () => {
    const { page, context, complaints } = await browser.open();
    await goTo(page, 'A4');
    await opened(page);
    const sum = (): Promise<string> => page.locator('.planning-sum').innerText();
    expect(await sum()).toMatch(/2 joints of 2 belts/);
    await ofAllBelts(page);
    await page.check('.planning-terms input[type=checkbox]');
    await page.locator('.planning-sum', { hasText: 'of 36 belts' }).waitFor();
    await page.selectOption('.planning-terms select[aria-label="Joints"]', 'selected');
    await page.locator('.planning-sum', { hasText: '2 joints of 1 belt' }).waitFor();
    await page.selectOption('.planning-terms select[aria-label="Joints"]', 'due');
    await page.fill('.planning-terms input[type=date]', '2027-06-30');
    await page.keyboard.press('Tab');
    await page.locator('.planning-sum', { hasText: /of [1-9] belts/ }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('proposes fewer series, applies them only when told to, as one step that undo takes back', async () => {
    const { page, context, complaints } = await browser.open();
    await opened(page);
    await tab(page, 'Fewest series');
    await page.locator('.order-point-chosen').waitFor({ timeout: 60_000 });
    const points = await page.locator('.order-point').count();
    expect(points).toBeGreaterThan(2);
    await page.selectOption('.order-skews select', 'any');
    await page.locator('.order-point-chosen').waitFor({ timeout: 60_000 });
    expect(await page.locator('.order-point').count()).toBe(5);
    await page.locator('.order-point').first().press('Enter');
    await page.locator('.order-facts', { hasText: '6 series' }).first().waitFor();
    const changes = page.locator('.order-series section tbody tr');
    const proposed = await changes.count();
    expect(proposed).toBeGreaterThan(10);
    await page.click('.order-apply button:text-is("Apply to the book")');
    await page.locator('.planning-said', { hasText: `${proposed} belts were changed in one step` }).waitFor();
    await page.locator('.order-point-chosen').waitFor({ timeout: 60_000 });
    expect(await page.locator('.order-series section p', { hasText: 'No change needed.' }).count()).toBe(1);
    await page.click('.order-apply button:text-is("Undo")');
    await page.locator('.order-point-chosen').waitFor({ timeout: 60_000 });
    await changes.first().waitFor();
    expect(await changes.count()).toBe(proposed);
    await tab(page, 'Square or skew');
    await page.locator('.order-compare').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.order-dialog').waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('lets a site that is added by its file buy too, compares the offers, and budgets for both', async () => {
    const { page, context, complaints } = await browser.open();
    await opened(page);
    await ofAllBelts(page);
    const mill = half(1);
    const { bytes } = await exportedBook(mill, findings(mill));
    const add = async (name: string, buffer: Buffer): Promise<void> => {
      const chooser = page.waitForEvent('filechooser');
      await page.click('.order-sites button:text-is("Add sites …")');
      await (await chooser).setFiles([{ name, mimeType: bookType, buffer }]);
    };
    await add('mill.xlsx', Buffer.from(bytes));
    await page.locator('.order-side', { hasText: 'offers and 4 suppliers of mill.xlsx are not used' }).waitFor();
    await settled(page);
    expect(await page.locator('.order-site').innerText()).toMatch(/^Mill/);
    expect(await page.locator('.order-side').innerText()).toContain('delivers to 2 sites');
    await tab(page, 'Offers');
    expect(await page.locator('.order-offer-bought').count()).toBeGreaterThan(3);
    await tab(page, 'Budget');
    await page.selectOption('select[aria-label="By"]', 'site');
    await page.locator('.planning-body thead th:text-is("Mill")').waitFor();
    expect(await page.locator('.planning-body thead th').allInnerTexts()).toEqual([
      'Month',
      'Mill',
      'Tern Quay',
      'Total',
    ]);
    await page.uncheck('.order-sites input[type=checkbox]');
    await tab(page, 'Order list');
    const side = (): Promise<string> => page.locator('.order-side').innerText();
    await expect.poll(side, { timeout: 30_000 }).not.toContain('delivers to 2 sites');
    await add('note.xlsx', Buffer.from('no book'));
    await page.locator('.order-dialog .why', { hasText: 'note.xlsx could not be used: ' }).waitFor();
    for (const name of ['note.xlsx', 'mill.xlsx']) await page.click(`button[aria-label="Remove ${name}"]`);
    await expect.poll(side, { timeout: 30_000 }).not.toContain('mill.xlsx');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('shows the page in use while it searches, and stops when it is cancelled', async () => {
    const { page, context, complaints } = await browser.open();
    await page.keyboard.press('Alt+Shift+Q');
    await page.locator('.planning-table').waitFor();
    await ofAllBelts(page);
    await tab(page, 'Cutting plan');
    await page.locator('.planning-search button').click();
    await page.locator('.planning-body .why', { hasText: 'plans were not made' }).waitFor();
    await page.click('.planning-body button:text-is("Search again")');
    await settled(page);
    expect(await page.locator('.order-roll svg').count()).toBeGreaterThan(8);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
