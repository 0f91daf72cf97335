import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tours } from '../../src/page/tour-steps.ts';
import { shot, TestBrowser } from './opened-page.ts';

/** What somebody meets who opens the page for the first time. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

describe('the first minutes', () => {
  it('say that this is a demo, lead through each tour by keyboard, and stay away once put away', async () => {
    const { page, context, complaints } = await browser.open({ width: 1024, height: 768 });
    const welcome = page.locator('.welcome');
    expect(await welcome.innerText()).toContain('This is a demo.');
    expect((await welcome.boundingBox())?.height).toBeLessThan(50);
    for (const { name, steps } of Object.values(tours)) {
      await page.focus('.welcome .menu-button');
      await page.keyboard.press('ArrowDown');
      await page.locator('.welcome [role=menuitem]:focus').waitFor();
      while (!(await page.locator('.welcome [role=menuitem]:focus').innerText()).includes(name))
        await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      const tour = page.getByRole('dialog', { name: `Tour: ${name}` });
      for (const [index, { says }] of steps.entries()) {
        await tour.getByText(says).waitFor();
        expect(await tour.innerText()).toContain(`${index + 1} of ${steps.length}`);
        // The part that it speaks of is on show, and framed.
        await page.locator('.tour-frame:not([hidden])').waitFor();
        await page.keyboard.press(index % 2 === 0 ? 'Enter' : 'ArrowRight');
      }
      await tour.waitFor({ state: 'detached' });
    }
    expect(await page.locator('.what-if-panel').count()).toBe(1);
    await page.click('.welcome button[aria-label="Put this line away"]');
    await page.reload();
    await page.waitForSelector('.ht_master td');
    expect(await welcome.count()).toBe(0);
    await page.keyboard.press('F1');
    await page.click('.dialog-tabs button:text-is("First steps")');
    await shot(page, 'first-steps');
    await page.click('.first-steps button:text-is("From joints to an order")');
    await page.getByRole('dialog', { name: 'Tour: From joints to an order' }).waitFor();
    await page.keyboard.press('Escape');
    expect(await page.locator('.tour').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('are over in a book of one’s own', async () => {
    const { page, context } = await browser.open({ width: 800, height: 600, scheme: 'dark' });
    await shot(page, 'welcome-dark-800');
    await page.click('.welcome button:text-is("New empty book")');
    await page.locator('.welcome').waitFor({ state: 'detached' });
    await context.close();
  });
});

it('keeps panels and planning within reach at 200 % of 1366 x 768', async () => {
  const { page, context } = await browser.open({ width: 683, height: 384 });
  await page.keyboard.press('Alt+Shift+W');
  const findings = page.locator('.findings-panel .finding').first();
  await findings.scrollIntoViewIfNeeded();
  expect((await findings.boundingBox())?.y).toBeLessThan(384);
  expect((await page.locator('.side-panel .panel-body').boundingBox())?.height).toBeGreaterThan(150);
  await page.keyboard.press('Alt+Shift+U');
  const row = page.locator('.outage-dialog tbody tr').first();
  await row.waitFor();
  await row.scrollIntoViewIfNeeded();
  await shot(page, 'outage-683');
  const box = await row.boundingBox();
  expect(box === null ? undefined : box.y > 0 && box.y + box.height < 384).toBe(true);
  await context.close();
});
