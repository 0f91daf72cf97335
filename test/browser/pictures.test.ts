import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo, shot, TestBrowser } from './opened-page.ts';

/** The pictures: reached and read by keys, choosing belts, as tables and files, on paper. */

let browser: TestBrowser;

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(() => browser.stop());

it('shows the fleet, and by keys and mouse only the belts of a part', async () => {
  const { page, context, complaints } = await browser.open();
  await page.keyboard.press('Alt+Shift+X');
  const verdicts = page.locator('[data-picture=verdicts]');
  await verdicts.locator('svg').waitFor();
  await page.locator('[data-picture=expected] svg').waitFor();
  await shot(page, 'pictures-light-1440-overview');
  await verdicts.locator('[data-part="0"]').focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowLeft');
  expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
    'Crusher, fails: 2 belts (C3 and C4)',
  );
  expect(await verdicts.locator('.picture-read').innerText()).toBe('Crusher, fails: 2 belts (C3 and C4)');
  await page.keyboard.press('Enter');
  await verdicts.locator('.picture-chosen button', { hasText: 'Show only these 2 belts' }).click();
  await page.locator('.chip-filter', { hasText: 'Belt: C3, C4' }).waitFor();
  await page.locator('.count', { hasText: '2 of 36' }).waitFor();
  await page.locator('.chip-filter').click();

  await page.keyboard.press('Alt+Shift+X');
  await page.getByRole('tab', { name: 'Column against column' }).click();
  await page.selectOption('select[aria-label=Across]', 'Width');
  const dot = page.locator('[data-picture=columns] [aria-label^="Belt Q3,"]');
  await dot.click();
  await page.locator('[data-picture=columns] .picture-chosen button.link').click();
  await page.locator('#formula[aria-label$=" A4"]').waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

it('tries values beside the page, turns pictures into tables by one key, and saves them', async () => {
  const { page, context, complaints } = await browser.open({ width: 1024, height: 768, scheme: 'dark' });
  await goTo(page, 'A4');
  await page.keyboard.press('Alt+Shift+X');
  await page.locator('[data-picture=expected] svg').waitFor();
  await shot(page, 'pictures-dark-1024-overview');
  await page.getByRole('tab', { name: 'Verdict map' }).click();
  await page.locator('[data-picture=map] [data-part="0"]').waitFor();
  await page.fill('[aria-label="Upwards, from"]', '150');
  await page.fill('[aria-label="Upwards, to"]', '600');
  await page.keyboard.press('Tab');
  await page.locator('[data-picture=map] [aria-label*="Smallest pulley 600"]').first().waitFor();
  await shot(page, 'pictures-dark-1024-map');
  await page.locator('[data-picture=map] [aria-label^="Skew 30, Smallest pulley 375:"]').click();
  await page.locator('.picture-chosen button', { hasText: 'Enter Skew 30, Smallest pulley 375' }).click();
  await page.locator('.notice', { hasText: 'Entered: Skew 30, Smallest pulley 375' }).waitFor();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Alt+Shift+X');
  await page.getByRole('tab', { name: 'Verdict map' }).click();
  await page.locator('[data-picture=map] [data-part="0"]').waitFor();
  await page.locator('[data-picture=map] [data-part="0"]').focus();
  await page.keyboard.press('t');
  const table = page.locator('[data-picture=map] .picture-table');
  await table.waitFor();
  await expect.poll(() => table.evaluate((element) => document.activeElement === element)).toBe(true);
  await page.keyboard.press('t');
  await page.locator('[data-picture=map] svg').waitFor();
  await page.getByRole('tab', { name: 'Over an input' }).click();
  await page.locator('[data-picture=sweep] [aria-label^="Skew 30:"]').waitFor();
  const [drawing] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /^Save Joint minimum pulley .* as SVG$/ }).click(),
  ]);
  expect(readFileSync(await drawing.path(), 'utf8')).toMatch(/^<svg [^]*Joint minimum pulley \(mm\) of Q3[^]*<\/svg>$/);
  const [bitmap] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /^Save Joint minimum pulley .* as PNG$/ }).click(),
  ]);
  const bytes = readFileSync(await bitmap.path());
  expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  // Twice as many pixels as the drawing is wide.
  expect(bytes.readUInt32BE(16)).toBe(1640);
  expect(complaints).toEqual([]);
  await context.close();
});
