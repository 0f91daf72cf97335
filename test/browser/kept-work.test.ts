import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { formula, goTo, TestBrowser } from './opened-page.ts';
import { store } from './stored-book.ts';

/** What was typed last is what the book holds and what is stored; a book that can't be read is left alone. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

/** The contents of a belt's first cells as the store has them, with the store's own heading. */
const stored = (page: Page): Promise<{ version: unknown; title: unknown; cells: unknown[] }> =>
  page.evaluate(
    () =>
      new Promise((done, failed) => {
        const request = indexedDB.open('skewbook');
        request.onerror = () => failed(request.error);
        request.onsuccess = () => {
          const reading = request.result.transaction(['head', 'runs'], 'readonly');
          const head = reading.objectStore('head').get('book');
          const run = reading.objectStore('runs').get([0, 0]);
          reading.oncomplete = () => {
            const { version, title } = (head.result ?? {}) as Record<string, unknown>;
            const rows = (run.result ?? []) as { cells: unknown[] }[];
            request.result.close();
            done({ version, title, cells: rows[0]?.cells.slice(0, 9) ?? [] });
          };
        };
      }),
  );

test('Enter, Tab and Escape in bar and cell keep what was typed last', async () => {
  const { page, complaints } = await browser.open();
  await goTo(page, 'D2');
  const first = await formula(page);

  await page.locator('#formula').fill('777');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(100);
  await page.locator('.ht_master td', { hasText: /^/ }).nth(40).click();
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('777');

  await page.locator('#formula').fill('778');
  await page.keyboard.press('Escape');
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('777');

  await page.keyboard.type('779');
  await page.keyboard.press('Tab');
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('779');

  await page.locator('#formula').fill('780');
  await page.locator('.ht_master td').nth(40).click();
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('780');

  // The editor opens on what stands there now, whatever has been entered or taken back since the cell was selected.
  await page.locator('#formula').fill('781');
  for (const key of ['Enter', 'Enter', 'Enter']) await page.keyboard.press(key);
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('781');
  for (const key of ['Control+z', 'F2', 'Enter']) await page.keyboard.press(key);
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('780');
  await page.keyboard.type('782');
  for (const key of ['Escape', 'F2', 'Tab']) await page.keyboard.press(key);
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('780');

  // Who leaves the page in the middle of a text is asked first.
  const asks = (): Promise<boolean> =>
    page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })));
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  await page.keyboard.press('F2');
  expect(await asks()).toBe(false);
  await page.keyboard.type('5');
  expect(await asks()).toBe(true);
  await page.keyboard.press('Escape');
  expect(await asks()).toBe(false);
  await page.locator('#formula').fill('783');
  expect(await asks()).toBe(true);
  await page.keyboard.press('Escape');

  expect(first).not.toBe('780');
  expect(complaints).toEqual([]);
});

test('steady typing is stored at most a second behind', async () => {
  const { page } = await browser.open();
  await goTo(page, 'D2');
  const entered: { text: number; at: number }[] = [];
  let latest = 0;
  for (let text = 700; text < 716; text += 1) {
    await page.keyboard.type(String(text));
    await page.keyboard.press('Enter');
    entered.push({ text, at: Date.now() });
    await page.keyboard.press('ArrowUp');
    await page.waitForTimeout(200);
    const asked = Date.now();
    const kept = Number((await stored(page)).cells[3] ?? 0);
    const due = entered.findLast(({ at }) => asked - at > 1000)?.text ?? 0;
    expect(kept).toBeGreaterThanOrEqual(due);
    if (due > 0) latest = kept;
  }
  expect(latest).toBeGreaterThan(700);
});

test('a book of a later version is told of, left alone and replaced only when asked to', async () => {
  const { page } = await browser.open();
  await store(page, { ...demoBook('metric'), title: 'From later' });
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const request = indexedDB.open('skewbook');
        request.onsuccess = () => {
          const writing = request.result.transaction('head', 'readwrite');
          const head = writing.objectStore('head').get('book');
          head.onsuccess = () =>
            writing.objectStore('head').put({ ...(head.result as Record<string, unknown>), version: 99 }, 'book');
          writing.oncomplete = () => done();
        };
      }),
  );
  await page.reload();
  await page.waitForSelector('.ht_master td');
  expect(await page.locator('.saved').innerText()).toContain('a later version of Skewbook stored it');
  await goTo(page, 'D2');
  await page.keyboard.type('777');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(1500);
  expect(await stored(page)).toMatchObject({ version: 99, title: 'From later' });
  await page.getByRole('button', { name: 'Keep the open book instead' }).click();
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  const { version, cells } = await stored(page);
  expect([version, cells[3]]).toEqual([2, 777]);
});

test('a book with absurd cells opens with all of them, and lets them be corrected', async () => {
  const { page, complaints } = await browser.open();
  const demo = demoBook('metric');
  const [belts, ...others] = demo.sheets;
  if (belts === undefined) throw new Error('the demo has no sheets');
  const widths: Readonly<Record<number, Content>> = { 0: 1e8, 1: '=LEN(REPT("x",1E9))', 3: '=D5' };
  const rows = belts.rows.map((row, record) =>
    widths[record] === undefined ? row : { ...row, cells: row.cells.with(3, widths[record] ?? null) },
  );
  await store(page, { ...demo, sheets: [{ ...belts, rows }, ...others] });
  await page.reload();
  await page.waitForSelector('.ht_master td');
  await goTo(page, 'D5');
  expect(await formula(page)).toBe('=D5');
  await goTo(page, 'D3');
  expect(await formula(page)).toBe('=LEN(REPT("x",1E9))');
  await page.keyboard.type('900');
  await page.keyboard.press('Enter');
  await goTo(page, 'D3');
  expect(await formula(page)).toBe('900');
  await goTo(page, 'D2');
  await page.locator('.remark', { hasText: 'No plates are drawn: the cut takes' }).waitFor();
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  expect(complaints).toEqual([]);
});

test('a second window reads only, says so, and takes over with what the first has stored', async () => {
  const { page, context } = await browser.open();
  await goTo(page, 'D2');
  await page.keyboard.type('777');
  await page.keyboard.press('Enter');
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  const second = await context.newPage();
  await second.goto(page.url());
  await second.locator('.saved', { hasText: 'another window of this browser has the book open' }).waitFor();
  await goTo(second, 'D2');
  expect(await formula(second)).toBe('777');
  await second.keyboard.type('888');
  await second.keyboard.press('Enter');
  await second.locator('.notice', { hasText: 'was refused' }).waitFor();
  await page.bringToFront();
  await goTo(page, 'D3');
  await page.keyboard.type('779');
  await page.keyboard.press('Enter');
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  await second.bringToFront();
  await goTo(second, 'D3');
  await expect.poll(() => formula(second), { timeout: 20_000 }).toBe('779');
  // The other's steps are not this window's to take back, neither while it follows nor once it has the book.
  const undo = second.getByRole('button', { name: /^Undo/ });
  expect(await undo.isDisabled()).toBe(true);
  await second.keyboard.press('Control+z');
  expect(await formula(second)).toBe('779');
  await page.close();
  await second.locator('.saved', { hasText: /^Saved/ }).waitFor();
  await goTo(second, 'D3');
  expect(await formula(second)).toBe('779');
  await goTo(second, 'D2');
  expect(await formula(second)).toBe('777');
  expect(await undo.isDisabled()).toBe(true);
  await second.keyboard.press('Control+z');
  expect(await formula(second)).toBe('777');
  await second.keyboard.type('790');
  await second.keyboard.press('Enter');
  await goTo(second, 'D2');
  await second.keyboard.press('Control+z');
  await goTo(second, 'D2');
  expect(await formula(second)).toBe('777');
  await goTo(second, 'D3');
  expect(await formula(second)).toBe('779');
});
