import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compiledSheets } from '../../src/workbook/declared.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { goTo, shot, TestBrowser } from './opened-page.ts';

/** How the page looks empty, on paper and in a small window; all else is looked at in the days of its users. */

let browser: TestBrowser;
const folder = mkdtempSync(join(tmpdir(), 'skewbook-looks-'));

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(async () => {
  await browser.stop();
  rmSync(folder, { recursive: true });
});

describe('an empty book', () => {
  it('says what to do in every part', async () => {
    const { page, context, complaints } = await browser.open();
    await page.click('.menu-button:has-text("Book")');
    await page.click('.menu-list button:has-text("New empty book")');
    await page.locator('.count', { hasText: '0 rows' }).waitFor();
    await page.waitForTimeout(500);
    await shot(page, 'empty');
    expect(await page.locator('.joint-panel .empty').innerText()).toContain('Select a belt');
    expect(await page.locator('.findings-panel .empty').innerText()).toContain('No belts yet');
    expect(await page.locator('.ht_master td.cell-hint').first().innerText()).toContain('new belt');
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('the printed sheet', () => {
  it('has every belt and column, the header again on each page', async () => {
    const { page, context } = await browser.open();
    const file = join(folder, 'belts.pdf');
    await page.pdf({ path: file, preferCSSPageSize: true });
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    const pages = text.split('\f').filter((one) => one.trim() !== '');
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    expect(pages.length).toBeGreaterThan(1);
    for (const one of pages) expect(one).toMatch(/Belt/);
    for (const belt of ['Q1', 'C7', 'K1']) expect(text).toContain(belt);
    for (const header of ['Construction', 'Verdict', 'Findings']) expect(text).toContain(header);
    execFileSync('pdftoppm', ['-r', '70', '-png', file, join('.cache/screenshots', 'printed')]);
    await context.close();
  });
});

describe('a small window', () => {
  it('shows no number by its last digits beside the frozen columns, and all of a menu', async () => {
    const { page, context } = await browser.open({ width: 800, height: 600 });
    const skew = `${columnLetters(compiledSheets.get('Belts')?.position.get('Skew') ?? 0)}4`;
    /** How far the first column that scrolls reaches below the frozen ones. */
    const hidden = (): Promise<number> =>
      page.evaluate(() => {
        const right = document.querySelector('.ht_clone_inline_start')?.getBoundingClientRect().right ?? 0;
        const cells = [...document.querySelectorAll('.ht_master tbody tr:first-child td')];
        const boxes = cells.map((cell) => cell.getBoundingClientRect());
        const across = boxes.find((box) => box.left < right - 2 && box.right > right + 2);
        return across === undefined ? 0 : right - across.left;
      });
    await goTo(page, skew);
    await expect.poll(hidden).toBe(0);
    await page.getByRole('tab', { name: 'What if' }).click();
    await expect.poll(hidden).toBe(0);
    await page.getByRole('button', { name: /^View: / }).click();
    const menu = page.getByRole('menu', { name: /^View: / });
    await expect.poll(async () => bottom(await menu.boundingBox())).toBeLessThanOrEqual(600);
    await menu.getByText('Group Checks').click();
    await context.close();
  });
});

const bottom = (box: { readonly y: number; readonly height: number } | null): number =>
  box === null ? Infinity : box.y + box.height;
