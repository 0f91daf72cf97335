import type { Page } from 'playwright-core';
import type { BookState } from '../../src/workbook/state.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { setup } from '../browser/built-page.ts';
import { goTo, TestBrowser } from '../browser/opened-page.ts';
import { store } from '../browser/stored-book.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, times } from './timing.ts';

/** How long the page's thread is busy in a large book, against the demo in the same browser. */

async function showing(page: Page, state: BookState): Promise<void> {
  const count = state.sheets.find(({ name }) => name === 'Belts')?.rows.length ?? 0;
  await store(page, state);
  await page.reload();
  await page.waitForFunction((rows) => document.querySelector('.count')?.textContent?.includes(String(rows)), count, {
    timeout: 120_000,
  });
}

/** Milliseconds that each press of Enter takes which enters a number: handling it, and drawing the next frame. */
async function entered(page: Page, numbers: readonly number[]): Promise<{ handled: number[]; drawn: number[] }> {
  await page.evaluate(() => {
    const kept = { handled: new Array<number>(), drawn: new Array<number>() };
    Object.assign(window, { kept });
    let began = 0;
    window.addEventListener(
      'keydown',
      (event) => {
        if (event.key !== 'Enter') return;
        began = performance.now();
        // Runs when all that the key set off has run, next frame's drawing included.
        requestAnimationFrame(() => {
          const channel = new MessageChannel();
          const drawing = performance.now();
          channel.port1.addEventListener('message', () => kept.drawn.push(performance.now() - drawing));
          channel.port1.start();
          channel.port2.postMessage(null);
        });
      },
      { capture: true },
    );
    window.addEventListener('keydown', (event) => {
      if (event.key === 'Enter') queueMicrotask(() => kept.handled.push(performance.now() - began));
    });
  });
  for (const number of numbers) {
    await page.keyboard.type(String(number));
    await page.keyboard.press('Enter');
    await page.waitForTimeout(120);
  }
  return page.evaluate(
    () => (window as unknown as { readonly kept: { readonly handled: number[]; readonly drawn: number[] } }).kept,
  );
}

/** Milliseconds from the key to the lines of the order list, and the longest that the page stands still meanwhile. */
async function listed(page: Page): Promise<number> {
  await page.evaluate(() => {
    window.addEventListener(
      'keydown',
      () => {
        const pressed = performance.now();
        const seen = new MutationObserver(() => {
          if (document.querySelector('.planning-table tbody tr') === null) return;
          seen.disconnect();
          Object.assign(window, { listed: performance.now() - pressed });
        });
        seen.observe(document.body, { childList: true, subtree: true });
      },
      { capture: true, once: true },
    );
  });
  await page.keyboard.press('Alt+Shift+Q');
  await page.locator('.planning-table tbody tr').first().waitFor({ timeout: 60_000 });
  return page.evaluate(() => (window as unknown as { readonly listed: number }).listed);
}

const line = (what: string, large: number, demo: number): string =>
  `  ${what.padEnd(34)} ${milliseconds(large).padStart(11)}  demo ${milliseconds(demo).padStart(11)}  ` +
  times(large / demo).padStart(7);

export async function pageBench(count: number, write: (text: string) => void): Promise<void> {
  setup();
  const browser = await TestBrowser.start();
  try {
    const figures = [];
    for (const state of [demoBook('metric'), fleet(count)]) {
      const { page, context } = await browser.open();
      await showing(page, state);
      await goTo(page, 'D20');
      const { handled, drawn } = await entered(
        page,
        Array.from({ length: 20 }, (_, index) => 700 + 50 * (index % 8)),
      );
      figures.push({ handled: median(handled), drawn: median(drawn), list: await listed(page) });
      await context.close();
    }
    const [demo, large] = figures;
    if (demo === undefined || large === undefined) return;
    write(`The page with ${count.toLocaleString('en-US')} belts (medians of 20 entries; one list)`);
    write(line('entering a number', large.handled, demo.handled));
    write(line('drawing the next frame', large.drawn, demo.drawn));
    write(line('order list', large.list, demo.list));
  } finally {
    await browser.stop();
  }
}
