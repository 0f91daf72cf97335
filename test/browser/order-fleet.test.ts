import { afterAll, beforeAll, expect, it } from 'vitest';
import { fleet } from '../bench/fleet.ts';
import { type OpenedPage, shot, TestBrowser } from './opened-page.ts';
import { store } from './stored-book.ts';

/** A thousand belts in the buyer's view: the list at once, the searches beside the page. */
const belts = 1000;

let browser: TestBrowser;
let opened: OpenedPage;

beforeAll(async () => {
  browser = await TestBrowser.start();
  opened = await browser.open();
  const { page } = opened;
  await store(page, fleet(belts));
  await page.reload();
  await page.waitForFunction((count) => document.querySelector('.count')?.textContent?.includes(String(count)), belts, {
    timeout: 60_000,
  });
});

afterAll(() => browser.stop());

/** Runs in the page: counts its ticks, and keeps how many there were when something was first to be seen. */
function watch(): void {
  const seen = { ticks: 0, list: -1, search: -1, done: -1 };
  Object.assign(window, { seen });
  setInterval(() => {
    seen.ticks += 1;
    const searching = document.querySelector('.planning-search') !== null;
    if (seen.list < 0 && document.querySelector('.planning-table tbody tr') !== null) seen.list = seen.ticks;
    if (seen.search < 0 && searching) seen.search = seen.ticks;
    if (seen.search >= 0 && seen.done < 0 && !searching) seen.done = seen.ticks;
  }, 20);
}

// How many milliseconds the list takes is told by `npm run bench`.
it('lists before it searches, and the page goes on while it does', async () => {
  const { page, complaints } = opened;
  await page.evaluate(watch);
  await page.keyboard.press('Alt+Shift+Q');
  await page.locator('.planning-table tfoot .order-total').waitFor();
  await page.click('.order-dialog [role=tab]:text-is("Fewest series")');
  await page.locator('.order-point-chosen').waitFor({ timeout: 120_000 });
  await page.click('.order-dialog [role=tab]:text-is("Cutting plan")');
  await page.locator('.planning-search').waitFor({ state: 'detached', timeout: 120_000 });
  await shot(page, 'order-fleet-cutting');
  const seen = await page.evaluate(
    () => (window as unknown as { readonly seen: Readonly<Record<'list' | 'search' | 'done', number>> }).seen,
  );
  expect(seen.list).toBeGreaterThan(0);
  expect(seen.list).toBeLessThanOrEqual(seen.search);
  // A search that ran in the page would let no tick come between its beginning and its end.
  expect(seen.done - seen.search).toBeGreaterThan(10);
  expect(complaints).toEqual([]);
});
