import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TestBrowser } from './opened-page.ts';

/** The page without its server, once it has been loaded. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

describe('the page offline', () => {
  it('starts from what the browser keeps, with the book, and with parts that were never opened', async () => {
    const { page, context, complaints } = await browser.open({ offline: true });
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      // It serves this window once it has taken it over.
      if (navigator.serviceWorker.controller === null)
        await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done));
    });
    await browser.stopServing();
    await page.reload();
    await page.waitForSelector('.ht_master td');
    expect(await page.locator('.top .title').innerText()).toContain('Tern Quay');
    await page.keyboard.press('Alt+Shift+C');
    await page.frameLocator('.card-paper').locator('h2', { hasText: 'Steps' }).first().waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Alt+Shift+U');
    await page.locator('.planning-sum', { hasText: 'planned' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
