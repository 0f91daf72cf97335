import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { drawn, goTo, type OpenedPage, TestBrowser } from './opened-page.ts';

/**
 * One page for all tests of a file, since a page takes longer to open than most tests take: each goes on where the one
 * before left it, or from the book as it was.
 */

/** Takes back all that was done to the book since the page was loaded. */
async function takeAllBack(page: Page): Promise<void> {
  await page.keyboard.press('Escape');
  // The first column that scrolls, so that the sheet stands at its beginning.
  await goTo(page, 'Belts!B2');
  await goTo(page, 'A2');
  const undo = page.locator('.top > button:has-text("Undo")');
  while (await undo.isEnabled()) {
    await page.keyboard.press('Control+z');
    await drawn(page);
  }
}

/** Opens it before the first test and hands it over; after each test nothing may have been complained of. */
export function onePage(take: (opened: OpenedPage) => void, between: 'take back' | 'go on' = 'go on'): void {
  let browser: TestBrowser;
  let opened: OpenedPage;
  beforeAll(async () => {
    browser = await TestBrowser.start();
    opened = await browser.open();
    opened.page.setDefaultTimeout(15_000);
    take(opened);
  });
  afterEach(async () => {
    if (between === 'take back') await takeAllBack(opened.page);
    expect(opened.complaints).toEqual([]);
  });
  afterAll(() => browser.stop());
}

/** Types a text into a cell. */
export async function typeInto(page: Page, cell: string, text: string): Promise<void> {
  await goTo(page, cell);
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}
