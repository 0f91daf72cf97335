import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { letters } from '../workbook/books.ts';
import { onePage } from './one-page.ts';
import { formula, goTo } from './opened-page.ts';

/** The panels beside the grid: the working of a cell, the skew advice, the pull, by keyboard and by mouse. */

let page: Page;
onePage((opened) => ({ page } = opened), 'take back');

afterEach(async () => {
  if ((await page.locator('.joint-panel').count()) === 0) await page.keyboard.press('Alt+Shift+J');
  await page.locator('.joint-panel').waitFor();
});

const focused = (page: Page): Promise<string | null> =>
  page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);

/** Waits until the advice for the belt on show is complete. */
const advised = (page: Page): Promise<void> => page.locator('.skew-table[aria-busy=false]').waitFor();

describe('the working', () => {
  it('is opened, walked and left by keyboard; Enter goes to the cell, what was held shows what it was', async () => {
    await goTo(page, `${letters('Edge clearance')}4`);
    await page.keyboard.press('Alt+Shift+W');
    await page.locator('[role=treeitem]', { hasText: 'Edge clearance' }).first().waitFor();
    await page.keyboard.press('F6');
    expect(await focused(page)).toMatch(/^Edge clearance of Q3: /);
    await page.keyboard.press('ArrowDown');
    expect(await focused(page)).toMatch(/^Width: 1000 mm, entered/);
    await page.keyboard.press('s');
    expect(await focused(page)).toMatch(/^Skew: /);
    await page.keyboard.press('s');
    expect(await focused(page)).toMatch(/^Series row/);
    await page.keyboard.press('ArrowRight');
    await page.locator('[role=treeitem][aria-label^="Plate series"]').waitFor();
    await page.keyboard.press('ArrowLeft');
    await page.locator('[role=treeitem][aria-label^="Plate series"]').waitFor({ state: 'detached' });
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.locator(`#formula[aria-label="Formula or content of ${letters('Width')}4"]`).waitFor();
    const before = await page.locator('.working-value').first().innerText();
    await page.keyboard.type('800');
    await page.keyboard.press('Enter');
    await page.locator('.working-former', { hasText: `was ${before}` }).waitFor();
    await page.click('.working-held button:has-text("Follow")');
    await page.keyboard.press('Alt+Shift+W');
    await page.locator('.working-panel').waitFor({ state: 'detached' });
  });

  it('is opened by mouse, goes to cells and back, follows inputs and named values, says what moves along', async () => {
    await goTo(page, `${letters('Strip length each')}2`);
    await page.click('.told button:has-text("Calculation")');
    await page.locator('.working-unsure', { hasText: 'StripOverhang' }).waitFor();
    await page.locator('.working-row', { hasText: 'StripOverhang' }).click();
    await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Assumptions' }).waitFor();
    await page.locator('.told', { hasText: 'you can change it' }).waitFor();
    await page.keyboard.type('4');
    await page.keyboard.press('Enter');
    await page.locator('.working-former', { hasText: 'was 60' }).waitFor();
    await page.click('.working-held button:has-text("Back to")');
    await page.locator(`#formula[aria-label="Formula or content of ${letters('Strip length each')}2"]`).waitFor();
    await page.click('.working-held button:has-text("Follow")');
    await goTo(page, `${letters('Skew')}2`);
    await page.locator('.working-followers', { hasText: 'Cut length' }).waitFor();
    const rows = Number.parseInt(await page.locator('.count').innerText(), 10);
    await goTo(page, `${letters('Strip per joint')}${rows + 2}`);
    await page.locator('.working-panel .empty').waitFor();
  });
});

describe('the skew advice', () => {
  it('sets another series and skew by keyboard, as one step to undo', async () => {
    await goTo(page, `${letters('Plate series')}4`);
    const before = await formula(page);
    await page.keyboard.press('Alt+Shift+K');
    await advised(page);
    expect(await page.locator('.skew-table tbody tr').count()).toBe(10);
    await page.keyboard.press('F6');
    await page.keyboard.press('ArrowDown');
    // The page is drawn with the next frame.
    await page.locator(`.skew-chosen .skew-series:not(:text-is("${before}"))`).waitFor();
    const chosen = await page.locator('.skew-chosen .skew-series').innerText();
    const least = (await page.locator('.skew-chosen .skew-least').innerText()).split('°')[0];
    await page.locator('.skew-choice button:has-text("Set this skew and series")').focus();
    await page.keyboard.press('Enter');
    await goTo(page, `${letters('Plate series')}4`);
    expect(await formula(page)).toBe(chosen);
    await goTo(page, `${letters('Skew')}4`);
    expect(await formula(page)).toBe(least);
    await page.keyboard.press('Control+z');
    await goTo(page, `${letters('Plate series')}4`);
    expect(await formula(page)).toBe(before);
    await goTo(page, `${letters('Skew')}4`);
    expect(await formula(page)).toBe('45');
  });

  it('takes a skew from the field or from the plot, and sets it by mouse', async () => {
    await goTo(page, `${letters('Skew')}4`);
    await page.keyboard.press('Alt+Shift+K');
    await advised(page);
    const box = await page.locator('.plot').boundingBox();
    if (box === null) throw new Error('no plot');
    const before = await page.inputValue('.skew-field');
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    // The page is drawn with the next frame.
    await expect.poll(() => page.inputValue('.skew-field')).not.toBe(before);
    const clicked = Number(await page.inputValue('.skew-field'));
    expect(clicked).toBeGreaterThan(15);
    expect(clicked).toBeLessThan(50);
    await page.fill('.skew-field', '20.5');
    await page.keyboard.press('Enter');
    await page.click('.skew-choice button:has-text("Set this skew")');
    await goTo(page, `${letters('Skew')}4`);
    expect(await formula(page)).toBe('20.5');
    await advised(page);
    expect(await page.locator('.joint-name').innerText()).toContain('now 20.5°');
  });
});

describe('the pull', () => {
  it('shows every route, forces one by mouse as one step to undo, and goes to the cell of a figure', async () => {
    await goTo(page, 'A2');
    await page.keyboard.press('Alt+Shift+P');
    const used = page.locator('.pull-panel .skew-chosen th').first();
    await used.waitFor();
    const before = await used.innerText();
    await page.click('button[aria-label="Use this: belt rating"]');
    await used.filter({ hasText: 'selected in Tension method' }).waitFor();
    await goTo(page, `${letters('Tension from')}2`);
    expect(await page.locator('.told').innerText()).toContain('belt rating');
    await page.keyboard.press('Control+z');
    await used.filter({ hasText: before.split('\n')[0] ?? '' }).waitFor();
    await page.click('.pull-panel .figure[title^="Go to Maximum tension:"]');
    await page.locator(`#formula[aria-label="Formula or content of ${letters('Maximum tension')}2"]`).waitFor();
  });

  it('draws the loop, goes to a pulley, and lists those of a belt that has none yet', async () => {
    await goTo(page, 'A2');
    await page.keyboard.press('Alt+Shift+P');
    expect(await page.locator('.loop').getAttribute('aria-label')).toMatch(
      /head, 1000 mm, \d+° wrap; snub, .*reverse bend/,
    );
    await page.click('.pull-panel th button:has-text("take-up")');
    await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Pulleys' }).waitFor();
    await page.locator('.joint-name', { hasText: 'Q1' }).waitFor();
    await goTo(page, 'Belts!A4');
    await page.click('button:has-text("List its pulleys")');
    await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Pulleys' }).waitFor();
    await page.locator('.joint-name', { hasText: 'Q3' }).waitFor();
    await page.locator('.pull-panel th button:has-text("tail")').waitFor();
    await page.keyboard.press('Control+z');
    await goTo(page, 'Belts!A4');
    await page.locator('button:has-text("List its pulleys")').waitFor();
  });
});

describe('the room of the panels', () => {
  it('is shared otherwise by keys and by dragging, and remembered', async () => {
    const width = async (): Promise<number> => (await page.locator('.panels').boundingBox())?.width ?? 0;
    const usual = await width();
    await page.locator('.grip-upright').focus();
    await page.keyboard.press('ArrowLeft');
    await page.waitForFunction(
      (before) => (document.querySelector('.panels')?.getBoundingClientRect().width ?? 0) > before,
      usual,
    );
    const grip = await page.locator('.grip-upright').boundingBox();
    if (grip === null) throw new Error('no grip');
    await page.mouse.move(grip.x + 3, grip.y + 200);
    await page.mouse.down();
    await page.mouse.move(grip.x - 97, grip.y + 200, { steps: 4 });
    await page.mouse.up();
    await page.waitForFunction(
      (least) => (document.querySelector('.panels')?.getBoundingClientRect().width ?? 0) > least,
      usual + 100,
    );
    const drawn = await width();
    await page.reload();
    await page.waitForSelector('.ht_master td');
    expect(await width()).toBe(drawn);
    await page.locator('.grip-upright').focus();
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (before) => document.querySelector('.panels')?.getBoundingClientRect().width === before,
      usual,
    );
  });
});
