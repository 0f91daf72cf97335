import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { onePage } from './one-page.ts';
import { formula, goTo } from './opened-page.ts';

/** Columns as a reader wants them: views, hidden and moved columns, and what ranges then mean. */

let page: Page;
onePage((opened) => ({ page } = opened));

const strip = (): ReturnType<Page['locator']> => page.locator('.view-strip');
const headers = (): Promise<string[]> =>
  page.locator('.grid-sheet:not([hidden]) .ht_clone_top thead .header-name').allInnerTexts();
const saved = (): Promise<void> => page.locator('.saved', { hasText: /^Saved / }).waitFor();

test('the sheet opens on the columns of a planner; a key shows those of an engineer', async () => {
  expect(await strip().innerText()).toMatch(/View: Planner .*\s+\d\d of 2\d\d columns/);
  expect((await headers()).slice(0, 4)).toEqual(['Belt', 'Verdict', 'Area', 'Width']);
  await page.keyboard.press('Alt+Shift+3');
  await strip().getByText('View: Engineer').waitFor();
  await expect.poll(async () => (await headers())[3]).toBe('Construction');
  await page.keyboard.press('Alt+Shift+1');
  await strip().getByText('View: Planner').waitFor();
});

test('a column is found in the list, shown, and moved by keys; a reload keeps all that and the sorting', async () => {
  await page.keyboard.press('Alt+Shift+N');
  await page.keyboard.type('known tension');
  await page.getByRole('list', { name: 'Columns' }).getByText('Known tension').waitFor();
  await page.getByRole('checkbox', { name: 'Known tension' }).check();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await goTo(page, 'T2');
  const from = (await headers()).indexOf('Known tension');
  expect(from).toBeGreaterThan(2);
  for (let at = from; at > 2; at -= 1) await page.keyboard.press('Alt+Shift+ArrowLeft');
  await expect.poll(async () => (await headers())[2]).toBe('Known tension');
  await goTo(page, 'B2');
  await page.keyboard.press('Alt+Shift+ArrowDown');
  await page.getByRole('menuitem', { name: 'Sort: largest or Z first' }).click();
  await strip()
    .getByRole('button', { name: /^Sorted by Area, largest first/ })
    .waitFor();
  await saved();
  await page.reload();
  await page.waitForSelector('.ht_master td');
  await expect.poll(async () => (await headers()).slice(0, 4)).toEqual(['Belt', 'Verdict', 'Known tension', 'Area']);
  await strip()
    .getByRole('button', { name: /^Sorted by Area/ })
    .click();
  await expect
    .poll(() =>
      strip()
        .getByRole('button', { name: /^Sorted by Area/ })
        .count(),
    )
    .toBe(0);
});

test('what is on show is kept as a view of one’s own', async () => {
  await page.getByRole('button', { name: /^View: Planner/ }).click();
  await page.getByRole('menuitem', { name: /^Save as a view/ }).click();
  await page.getByLabel('Name of the view').fill('Mine');
  await page.keyboard.press('Enter');
  await strip().getByText('View: Mine').waitFor();
  await page.keyboard.press('Alt+Shift+4');
  await strip().getByText('View: All columns').waitFor();
  await page.getByRole('button', { name: /^View: All columns/ }).click();
  await page.getByRole('menuitemradio', { name: 'Mine' }).click();
  await expect.poll(async () => (await headers())[2]).toBe('Known tension');
});

test('Delete over a range leaves hidden columns alone; a whole row is copied with them', async () => {
  await goTo(page, 'C2');
  const material = await formula(page);
  expect(material).not.toBe('');
  await page.keyboard.press('Alt+Shift+1');
  await strip().getByText('View: Planner').waitFor();
  await goTo(page, 'B2');
  await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Delete');
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('');
  await goTo(page, 'C2');
  expect(await formula(page)).toBe(material);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Alt+Shift+1');
  await page.locator('.ht_clone_inline_start tbody th').nth(0).click();
  await page.keyboard.press('Control+c');
  await page.locator('.ht_clone_inline_start tbody th').nth(3).click();
  await page.keyboard.press('Control+v');
  await goTo(page, 'C5');
  await expect.poll(() => formula(page)).toBe(material);
  await page.keyboard.press('Control+z');
});
