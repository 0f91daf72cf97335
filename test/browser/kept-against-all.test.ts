import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoBook } from '../../src/workbook/demo.ts';
import { formula, goTo, TestBrowser } from './opened-page.ts';
import { store, storedCells } from './stored-book.ts';

/** A browser without room, without leave to store, with a book that does not open, with a file that does not end. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

const type = async (page: Page, cell: string, text: string): Promise<void> => {
  await goTo(page, cell);
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
};

const downloaded = async (page: Page, act: () => Promise<void>): Promise<Buffer> => {
  const offered = page.waitForEvent('download', { timeout: 50_000 });
  await act();
  return readFileSync(await (await offered).path());
};

test('a store that is denied is told, and the book can be exported', async () => {
  const { page, context } = await browser.open();
  await context.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', {
      get: () => {
        throw new DOMException('The user denied permission to access the database.', 'SecurityError');
      },
    });
  });
  await page.reload();
  await page.waitForSelector('.ht_master td');
  expect(await page.locator('.saved').innerText()).toMatch(/^Not saved: this browser does not let the page store/);
  await type(page, 'D2', '777');
  expect(await page.locator('.saved').innerText()).toMatch(/^Not saved: .*Export the book before you close it/);
  const bytes = await downloaded(page, () => page.keyboard.press('Control+s'));
  expect(bytes.subarray(0, 2).toString()).toBe('PK');
});

test('a store that is full is told with the edit that found no room, and again saved once there is some', async () => {
  const { page } = await browser.open();
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    (window as unknown as { room: () => void }).room = () => (IDBObjectStore.prototype.put = put);
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...rest: [unknown, IDBValidKey?]) {
      // The rows still find room, the book's head does not: half of it must not stay.
      if (this.name !== 'head') return put.apply(this, rest);
      throw new DOMException('The disk quota is used up.', 'QuotaExceededError');
    };
  });
  await type(page, 'D2', '777');
  await type(page, `A${2 + 36}`, 'new');
  await page
    .locator('.saved', { hasText: 'Not saved: The disk quota is used up. Export the book to keep it.' })
    .waitFor();
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('777');
  expect(await storedCells(page, 3, 1)).not.toEqual([777]);
  await page.evaluate(() => (window as unknown as { room: () => void }).room());
  await type(page, 'D3', '778');
  await page.locator('.saved', { hasText: /^Saved/ }).waitFor();
  await page.reload();
  await page.waitForSelector('.ht_master td');
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('777');
});

test('a stored book that can not be read is handed out as it is', async () => {
  const { page } = await browser.open();
  await store(page, { ...demoBook('metric'), title: 'Damaged' });
  // A run of rows holds what is no row.
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const request = indexedDB.open('skewbook');
        request.onsuccess = () => {
          const writing = request.result.transaction('runs', 'readwrite');
          writing.objectStore('runs').put([{ cells: [new Date(), 10n] }], [2, 0]);
          writing.oncomplete = () => done();
        };
      }),
  );
  await page.reload();
  await page.waitForSelector('.ht_master td');
  expect(await page.locator('.saved').innerText()).toMatch(
    /could not be read \(the cell A2 of the sheet Plate series holds no text or number/,
  );
  const bytes = await downloaded(page, () => page.getByRole('button', { name: 'Download the stored book' }).click());
  const raw = JSON.parse(bytes.toString('utf8')) as {
    head: { title: string };
    runs: { key: number[]; rows: unknown[] }[];
  };
  expect(raw.head.title).toBe('Damaged');
  expect(raw.runs.find(({ key }) => key.join() === '0,0')?.rows).toHaveLength(36);
});

test('a stored book that the page fails over is left alone, and the demo is open instead', async () => {
  const { page, context } = await browser.open();
  await store(page, { ...demoBook('metric'), title: 'Breaks' });
  await context.addInitScript(() => {
    Object.defineProperty(document, 'title', {
      set: (title: string) => {
        if (title.startsWith('Breaks')) throw new Error('it can not be shown.');
      },
    });
  });
  await page.reload();
  await page.locator('.saved', { hasText: 'could not be shown (it can not be shown)' }).waitFor();
  await type(page, 'D2', '777');
  expect(await page.locator('.saved').innerText()).toContain('It is left unchanged');
  const bytes = await downloaded(page, () => page.getByRole('button', { name: 'Download the stored book' }).click());
  const { head } = JSON.parse(bytes.toString('utf8')) as { readonly head: { readonly title: string } };
  expect(head.title).toBe('Breaks');
});

test('a file that does not end is stopped after its time or at once, and the open book is as it was', async () => {
  const { page, context } = await browser.open();
  await context.addInitScript(() => {
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (this: Worker, message: { do?: string }, ...rest: never[]) {
      if (message.do !== 'propose') post.call(this, message, ...rest);
    };
  });
  await page.clock.install();
  await page.reload();
  await page.waitForSelector('.ht_master td');
  await type(page, 'D2', '777');
  const list = 'test/xlsx/files/belts-tern-quay.xlsx';
  await page.keyboard.press('Control+o');
  await page.setInputFiles('input[type=file]', list);
  const reading = page.locator('.dialog-body', { hasText: 'Reading belts-tern-quay.xlsx' });
  await reading.locator('progress').waitFor();
  const noted = (): Promise<string | null> => page.evaluate(() => sessionStorage.getItem('skewbook reading'));
  expect(await noted()).toBe('belts-tern-quay.xlsx');
  await page.getByRole('button', { name: 'Cancel' }).click();
  await reading.waitFor({ state: 'detached' });
  expect(await noted()).toBeNull();
  await page.setInputFiles('input[type=file]', list);
  await reading.locator('progress').waitFor();
  await page.clock.fastForward(21_000);
  await page
    .locator('.import-problem', { hasText: /(reading it|finding its lists) took more than 20 s\. The open book is/ })
    .waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  await page.locator('dialog').waitFor({ state: 'detached' });
  await page.locator('.ht_master td').nth(40).click();
  await goTo(page, 'D2');
  expect(await formula(page)).toBe('777');
  // A browser that runs out of memory ends the page: the next start says at which file.
  await context.addInitScript(() => sessionStorage.setItem('skewbook reading', 'large.xlsx'));
  await page.reload();
  await page.locator('.notice', { hasText: 'The page ended while large.xlsx was read' }).waitFor();
  expect(await noted()).toBeNull();
});
