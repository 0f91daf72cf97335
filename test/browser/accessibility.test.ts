import axe, { type Result } from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo, TestBrowser } from './opened-page.ts';

/**
 * The main screens by the rules of axe-core (WCAG 2.0 to 2.2, A and AA, and its best practices), in both schemes; and
 * what a screen reader is told of a cell.
 */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

/**
 * What is excused of a rule, by element, so that others still count. The menu of a column, which the grid's package
 * draws as a table of items, is not looked at: its roles are not the page's to give.
 */
const excused: Readonly<Record<string, RegExp>> = {
  // The grid's package puts guards that catch the focus between the grid and its rows.
  'aria-required-children': /class="ht-wrapper/,
  // A branch of the calculation is read out as a sentence, in which its figures stand otherwise than on the line.
  'label-content-name-mismatch': /role="treeitem"/,
};

async function violations(page: Page, screen: string, scheme: 'light' | 'dark'): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  // A job card in its frame is paper: it has landmarks of its own.
  const found: Result[] = await page.evaluate(
    async (runOnly) =>
      (
        await window.axe.run(document, {
          resultTypes: ['violations'],
          iframes: false,
          ...(runOnly === undefined ? {} : { runOnly }),
        })
      ).violations,
    // In the other scheme nothing but the colours is another.
    scheme === 'dark' ? ['color-contrast'] : undefined,
  );
  return found.flatMap(({ id, nodes }) =>
    nodes
      .filter(({ html }) => excused[id]?.test(html) !== true)
      .map(({ html }) => `${screen}: ${id}: ${html.slice(0, 150)}`),
  );
}

declare global {
  interface Window {
    readonly axe: typeof axe;
  }
}

it.each(['light', 'dark'] as const)('has no violation on its main screens, %s', async (scheme) => {
  const { page, context, complaints } = await browser.open({ width: 1024, height: 768, scheme });
  const found: string[] = [];
  const look = async (screen: string): Promise<void> => void found.push(...(await violations(page, screen, scheme)));
  const dialog = async (key: string, ready: string, screen: string): Promise<void> => {
    await page.keyboard.press(key);
    await page.locator(ready).first().waitFor();
    await look(screen);
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached' });
  };
  await page.locator('.finding').first().waitFor();
  await goTo(page, 'B2');
  await look('Belts');
  for (const panel of ['Calculation', 'Tension', 'What if']) {
    await page.getByRole('tab', { name: panel, exact: true }).click();
    await look(panel);
  }
  await dialog('Alt+Shift+N', '.column-list li', 'columns');
  await dialog('Alt+Shift+Q', '.planning-table tfoot .order-total', 'order list');
  await dialog('Alt+Shift+Y', '.books-dialog td', 'books');
  await dialog('Alt+Shift+H', '.versions-dialog', 'versions');
  await dialog('Alt+Shift+X', '[data-picture=expected] svg', 'pictures');
  await dialog('Control+o', '.import-dialog', 'import');
  await dialog('Alt+Shift+C', '.card-dialog', 'job card');
  await dialog('F1', '.dialog[open]', 'help');
  await page.click('.welcome .menu-button');
  await page.click('.welcome [role=menuitem]');
  await page.locator('.tour').waitFor();
  await look('tour');
  expect(found).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
});

it('calls a cell by its header with unit, its value, where that comes from, and what is wrong with it', async () => {
  const { page, context } = await browser.open();
  const cell = (name: RegExp): Promise<void> => page.getByRole('gridcell', { name }).first().waitFor();
  await cell(/^Belt: Q1, entered, verdict \w/);
  await cell(/^Width \(mm\): \d+, entered$/);
  await cell(/^Verdict: [a-z ]+, computed$/);
  await goTo(page, 'D2');
  await page.keyboard.type('about so wide');
  await page.keyboard.press('Enter');
  await cell(/^Width \(mm\): about so wide, entered, .*was not understood/);
  await context.close();
});
