import { afterAll, beforeAll, expect, it } from 'vitest';
import { letters } from '../workbook/books.ts';
import { formula, goTo, shot, TestBrowser } from './opened-page.ts';

/** The panel What if: a goal solved, entered and kept, inputs ranked, variants compared and applied. */

let browser: TestBrowser;

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(() => browser.stop());

it('solves a goal by keyboard, enters the answer, keeps it as a variant, and applies it again', async () => {
  const { page, context, complaints } = await browser.open();
  const skew = `${letters('Skew')}4`;
  await goTo(page, `${letters('Cut length')}4`);
  await page.keyboard.press('Alt+Shift+V');
  await page.locator('#what-if-goal').waitFor();
  expect(await page.getAttribute('#what-if-goal', 'placeholder')).toBe('Cut length <= 1414');
  await page.fill('#what-if-goal', 'Cut length <= 1.2 m');
  await page.selectOption('#what-if-by', 'Skew');
  await page.focus('#what-if-goal');
  await page.keyboard.press('Enter');
  await page.locator('.what-if-answer', { hasText: 'Skew: Cut length at most 1200 mm with 0° to 33.5°' }).waitFor();
  await page.click('.what-if-answer button:has-text("Keep as a variant")');
  await page.locator('.foot .tab', { hasText: 'Variants' }).waitFor();
  await page.keyboard.press('Escape');
  await page.click('.what-if-ask button:has-text("Solve")');
  await page.click('.what-if-answer button:has-text("Enter 33.5°")');
  await goTo(page, skew);
  expect(await formula(page)).toBe('33.5');
  await page.keyboard.press('Control+z');
  await goTo(page, skew);
  expect(await formula(page)).toBe('45');
  await page.click('.what-if-panel button:has-text("Compare with the book")');
  await page.locator('.what-if-variants', { hasText: 'Belts that differ: Q3.' }).waitFor();
  await goTo(page, `${letters('Working tension')}4`);
  await page.click('.what-if-panel button:has-text("Rank the inputs of Working tension")');
  await page.locator('.what-if-effects th', { hasText: 'Capacity' }).waitFor();
  await page.click('.what-if-panel button:has-text("Draw 1000 times")');
  await page.locator('.what-if-line', { hasText: 'Belt Q3 passes in' }).waitFor();
  await page.locator('.what-if-line', { hasText: /^Working tension: .* in 90 of 100/ }).waitFor();
  await shot(page, 'what-if-light');
  await page.click('.what-if-variants button:has-text("Apply")');
  await goTo(page, skew);
  expect(await formula(page)).toBe('33.5');
  expect(complaints).toEqual([]);
  await context.close();
});

it('says what is wrong with a goal, in dark colours and a narrow window too', async () => {
  const { page, context, complaints } = await browser.open({ scheme: 'dark', width: 1000 });
  await goTo(page, `${letters('Pulley check')}4`);
  await page.keyboard.press('Alt+Shift+V');
  await page.click('.what-if-panel button:has-text("Find what turns Pulley check")');
  await page.locator('.what-if-turns tr', { hasText: 'Smallest pulley' }).filter({ hasText: '311.06' }).waitFor();
  await page.fill('#what-if-goal', 'Cut lenght <= 1');
  await page.keyboard.press('Enter');
  await page.locator('.what-if-line[role=alert]', { hasText: 'Did you mean Cut length' }).waitFor();
  await shot(page, 'what-if-dark');
  expect(complaints).toEqual([]);
  await context.close();
});

it('draws the fleet by keyboard, with a correlation, and says what cannot be had', async () => {
  const { page, context, complaints } = await browser.open({ width: 1440 });
  await goTo(page, `${letters('Working tension')}4`);
  await page.keyboard.press('Alt+Shift+V');
  await page.focus('.what-if-terms summary');
  await page.keyboard.press('Enter');
  await page.fill('#what-if-terms', 'Power~Speed=0.9\nPower~Width=0.9\nSpeed~Width=-0.9');
  await page.focus('button:has-text("Draw the fleet")');
  await page.keyboard.press('Enter');
  await page.locator('.what-if-line[role=alert]', { hasText: 'not positive definite' }).waitFor();
  await page.fill('#what-if-terms', 'Power=20%\nPower~Speed=0.6');
  await page.selectOption('#what-if-draws', '10000');
  await page.focus('button:has-text("Draw the fleet")');
  await page.keyboard.press('Enter');
  await page.click('.what-if-do:has(progress) button:has-text("Stop")');
  await page.locator('progress').waitFor({ state: 'detached' });
  await page.selectOption('#what-if-draws', '1000');
  await page.click('button:has-text("Draw the fleet")');
  await page.locator('.what-if-fleet', { hasText: /Of 36 belts \d+(?:\.\d)? are expected to fail/ }).waitFor();
  expect(await page.locator('.what-if-fleet tbody').first().innerText()).toMatch(/Joint cost[^]*Labour hours/);
  await page.locator('.what-if-fleet').scrollIntoViewIfNeeded();
  await shot(page, 'what-if-fleet-light');
  await page.locator('.what-if-fleet button.link').first().click();
  expect(complaints).toEqual([]);
  await context.close();
});

it('keeps a skew that is looked at, and a cure, as variants', async () => {
  const { page, context, complaints } = await browser.open({ scheme: 'dark', width: 1024 });
  await goTo(page, `${letters('Skew')}4`);
  await page.keyboard.press('Alt+Shift+K');
  await page.fill('.skew-field', '30');
  await page.keyboard.press('Enter');
  await page.click('.skew-choice button:has-text("Keep as a variant")');
  await page.locator('.ask-dialog input').waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.foot .tab', { hasText: 'Variants' }).waitFor();
  await page
    .getByRole('button', { name: /^Try a cure/ })
    .first()
    .click();
  await page.locator('.cure-dialog').waitFor();
  await shot(page, 'what-if-cure-dark');
  await page.click('.cure-dialog button:has-text("Keep as a variant") >> nth=0');
  await page.locator('.ask-dialog input').waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.ask-dialog').waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
  await context.close();
});
