import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { compiledSheets } from '../../src/workbook/declared.ts';
import { formula, goTo, type OpenedPage, TestBrowser } from './opened-page.ts';

/** Findings followed to their end: a cure entered by its button, and only those of belts that a filter leaves. */

const letters = (header: string): string => columnLetters(compiledSheets.get('Belts')?.position.get(header) ?? -1);

let browser: TestBrowser;
let opened: OpenedPage;
let page: Page;

beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

beforeEach(async () => {
  opened = await browser.open();
  ({ page } = opened);
  page.setDefaultTimeout(10_000);
});
afterEach(async () => {
  expect(opened.complaints).toEqual([]);
  await opened.context.close();
});

/** Opens the menu of the column that is selected. */
async function openColumnMenu(cell: string): Promise<void> {
  await goTo(page, cell);
  await page.keyboard.press('Alt+Shift+ArrowDown');
  await page.locator('.htUIMultipleSelectHot').waitFor();
}

const columnMenu = (): ReturnType<Page['locator']> => page.locator('.htDropdownMenu');
const values = (): ReturnType<Page['locator']> => page.locator('.htUIMultipleSelectHot .ht_master td');
const shownRows = (): Promise<number> => page.locator('.grid-sheet:not([hidden]) .ht_master tbody tr').count();

it('shows what a cure would change, enters it by its button, and undo takes it back', async () => {
  const tried = page.getByRole('button', { name: /^Try a cure/ }).first();
  await tried.waitFor();
  const said = (await tried.getAttribute('aria-label')) ?? '';
  const [, check = '', belt = ''] = /^Try a cure … for (.+) of (.+)$/.exec(said) ?? [];
  await tried.click();
  const dialog = page.getByRole('dialog', { name: `${belt}: cures for ${check}` });
  await dialog.waitFor();
  const first = dialog.locator('.cure-list > li', { has: page.locator('button') }).first();
  const [header = ''] = (await first.locator('.cure-entered th').first().innerText()).split(/\s+entered$/);
  const [now, then] = await first.locator('.cure-entered').first().locator('td').allInnerTexts();
  expect(now).not.toBe(then);
  await first.getByRole('button', { name: `Enter ${header} ${then}` }).click();
  await dialog.waitFor({ state: 'detached' });
  await expect.poll(() => page.inputValue('#cell-name')).toMatch(new RegExp(`^${letters(header)}\\d+$`));
  const cell = await page.inputValue('#cell-name');
  const cured = await formula(page);
  await page.keyboard.press('Control+z');
  await expect.poll(() => formula(page)).not.toBe(cured);
  await page.keyboard.press('Control+y');
  await goTo(page, cell);
  expect(await formula(page)).toBe(cured);
});

it('takes a value of the list that is half in view, and findings follow the filter until it is cleared', async () => {
  const all = await shownRows();
  await page.locator('.finding').first().waitFor();
  await openColumnMenu(`${letters('Area')}2`);
  await page.locator('.htUIClearAll a').click();
  const list = await page.locator('.htUIMultipleSelectHot .ht_master .wtHolder').boundingBox();
  const boxes = await Promise.all((await values().all()).map((value) => value.boundingBox()));
  const [edge, half] = [(list?.y ?? 0) + (list?.height ?? 0), boxes.findIndex((box) => isAcross(box, list))];
  expect(half).toBeGreaterThan(0);
  const area = (await values().nth(half).innerText()).trim();
  // Where the pointer is put, not where a click would first scroll to.
  await page.mouse.click((boxes[half]?.x ?? 0) + 40, ((boxes[half]?.y ?? 0) + edge) / 2);
  await expect.poll(() => values().nth(half).locator('input').isChecked()).toBe(true);
  expect(await columnMenu().isVisible()).toBe(true);
  await page.locator('.htUIButtonOK input').click();
  const chip = page.getByRole('button', { name: `Area: ${area}` });
  await chip.waitFor();
  const counted = /^(\d+) of (\d+) belts/.exec(await page.locator('.finding-scope [role=status]').innerText());
  expect(Number(counted?.[1])).toBe(await shownRows());
  expect(Number(counted?.[1])).toBeLessThan(Number(counted?.[2]));
  const counts = async (): Promise<number> =>
    (await page.locator('.count-button b').allInnerTexts()).reduce((sum, text) => sum + Number(text), 0);
  expect(await counts()).toBe(Number(counted?.[1]));
  await page.getByLabel('only belts that the filter leaves').uncheck();
  await expect.poll(counts).toBe(Number(counted?.[2]));
  await chip.click();
  await chip.waitFor({ state: 'detached' });
  expect(await shownRows()).toBe(all);
});

it('filters by what is searched for, and goes on when rows are removed and come back', async () => {
  await openColumnMenu(`${letters('Area')}2`);
  await page.locator('.htUIMultipleSelectSearch input').click();
  await page.keyboard.type('crush');
  await expect.poll(() => values().allInnerTexts()).toEqual(['Crusher']);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Area: Crusher' }).waitFor();
  const names = (): Promise<string[]> =>
    page.locator('.grid-sheet:not([hidden]) .ht_clone_inline_start tbody td:first-of-type').allInnerTexts();
  const all = ['C1', 'C2', 'C3', 'C4', 'C5', 'C6', 'C7'];
  await expect.poll(names).toEqual(all);
  await goTo(page, 'A23');
  await page.keyboard.press('Shift+ArrowDown');
  await page.keyboard.press('Alt+Shift+d');
  await expect.poll(names).toEqual(['C1', 'C4', 'C5', 'C6', 'C7']);
  await page.keyboard.press('Control+z');
  await expect.poll(names).toEqual(all);

  await page.keyboard.press('Alt+Shift+o');
  await openColumnMenu('A2');
  await page.locator('.htDropdownMenu td', { hasText: 'Sort: largest or Z first' }).click();
  const first = ['S6', 'S5', 'S4', 'S3'];
  await expect.poll(async () => (await names()).slice(0, 4)).toEqual(first);
  await goTo(page, 'A12');
  await page.keyboard.press('Alt+Shift+d');
  await expect.poll(async () => (await names()).slice(0, 4)).toEqual(['S6', 'S4', 'S3', 'S2']);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await names()).slice(0, 4)).toEqual(first);
});

interface Box {
  readonly y: number;
  readonly height: number;
}

/** Whether a box lies across the lower edge of another, with enough of it above to be clicked. */
function isAcross(box: Box | null, around: Box | null): boolean {
  if (box === null || around === null) return false;
  const edge = around.y + around.height;
  return box.y < edge - 3 && box.y + box.height > edge + 1;
}
