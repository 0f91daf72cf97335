import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import { letters } from '../workbook/books.ts';
import { onePage, typeInto } from './one-page.ts';
import { drawn, formula, goTo, told } from './opened-page.ts';

/** A planner's ways through the page, by keyboard and by mouse. */

const width = letters('Width');
const cut = letters('Cut length');
const verdict = letters('Verdict');

let page: Page;
onePage((opened) => ({ page } = opened), 'take back');

const folder = mkdtempSync(join(tmpdir(), 'skewbook-page-'));
afterAll(() => rmSync(folder, { recursive: true }));

const type = (cell: string, text: string): Promise<void> => typeInto(page, cell, text);

async function value(cell: string): Promise<string> {
  await goTo(page, cell);
  return page.locator('.told .value').innerText();
}

const listed = (text: string): Promise<void> => page.locator('.finding', { hasText: text }).first().waitFor();

describe('editing', () => {
  it('computes a belt anew as soon as an input is entered, in its own unit or another', async () => {
    await type(`${width}2`, '650');
    expect(Number.parseFloat(await value(`${cut}2`))).toBeCloseTo(650 * Math.SQRT2, 9);
    await type(`${width}2`, '18 in');
    expect(await value(`${width}2`)).toBe('457.2 mm');
    await type(`${width}2`, '457,2 mm');
    expect(await value(`${width}2`)).toBe('457.2 mm');
  });

  it('turns the verdict when a pulley is entered that is too small, lists why, and goes there', async () => {
    const pulley = `${letters('Smallest pulley')}8`;
    await type(pulley, '40');
    await goTo(page, `${verdict}8`);
    expect(await page.locator('.ht_master td.current').innerText()).toBe('✕ fails');
    await listed('40 mm');
    await page.locator('.finding', { hasText: '40 mm' }).first().click();
    expect(await page.inputValue('#cell-name')).toBe(pulley);
    await page.keyboard.press('Control+z');
    await goTo(page, pulley);
    expect(await formula(page)).not.toBe('40');
  });

  it('undoes and redoes from the keyboard and by button', async () => {
    await goTo(page, `${width}3`);
    const before = await formula(page);
    await type(`${width}3`, '777');
    await page.keyboard.press('Control+z');
    await goTo(page, `${width}3`);
    expect(await formula(page)).toBe(before);
    await page.click('.top > button:has-text("Redo")');
    await goTo(page, `${width}3`);
    expect(await formula(page)).toBe('777');
    await page.click('.top > button:has-text("Undo")');
    await goTo(page, `${width}3`);
    expect(await formula(page)).toBe(before);
  });

  it('takes a formula, completes a function and shows its arguments', async () => {
    await goTo(page, `${width}4`);
    await page.keyboard.type('=SKEWOF');
    await page.locator('.hint-name', { hasText: 'SKEWOFFSET' }).waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.type('800,');
    expect(await page.locator('.hint-call b').innerText()).toBe('skew');
    await page.keyboard.type('45)');
    await page.keyboard.press('Enter');
    expect(await value(`${width}4`)).toMatch(/^(?:800|799\.9999999999999|800\.0000000000001) mm$/);
    expect(await formula(page)).toBe('=SKEWOFFSET(800,45)');
  });

  it('overrides a computed cell, says so, and goes back', async () => {
    await goTo(page, `${cut}2`);
    const own = await formula(page);
    await type(`${cut}2`, '1234');
    await goTo(page, `${cut}2`);
    expect(await told(page)).toContain("overrides the sheet's formula");
    await page.click('.told button');
    await goTo(page, `${cut}2`);
    expect(await formula(page)).toBe(own);
  });

  it('does not override a computed cell that was only opened and left', async () => {
    await goTo(page, `${cut}2`);
    await page.keyboard.press('F2');
    await page.keyboard.press('Enter');
    await goTo(page, `${cut}2`);
    expect(await told(page)).not.toContain('overrides');
    expect(await page.locator('.top > button:has-text("Undo")').isDisabled()).toBe(true);
  });

  it('keeps a text that is no number, marks it and says what is allowed', async () => {
    await type(`${width}5`, 'about so wide');
    await goTo(page, `${width}5`);
    expect(await told(page)).toContain('was not understood');
    expect(await page.locator('.ht_master td.cell-marked').count()).toBe(1);
  });

  it('offers the words that a cell may hold, all of them at first, and takes the one that is chosen', async () => {
    const series = `${letters('Plate series')}3`;
    await goTo(page, series);
    const before = await formula(page);
    await page.keyboard.press('F2');
    const words = page.locator('.handsontableEditor.listbox td');
    await words.nth(5).waitFor();
    await words.filter({ hasText: 'Heron' }).click();
    await goTo(page, series);
    expect(await formula(page)).toBe('Heron');
    expect(before).not.toBe('Heron');
  });

  it('leaves a cell as it was on Escape', async () => {
    await goTo(page, `${width}2`);
    const before = await formula(page);
    await page.keyboard.type('99');
    await page.keyboard.press('Escape');
    expect(await formula(page)).toBe(before);
  });

  it('adds a belt below the last and removes it again', async () => {
    const { length } = (await page.locator('.count').innerText()).match(/\d+/) ?? [];
    expect(length).toBe(1);
    await goTo(page, 'A38');
    // Along the row past the verdict, which the sheet works out.
    for (const text of ['New one', 'Quay']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Tab');
    }
    await page.locator('.count', { hasText: '37 rows' }).waitFor();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#cell-name')?.value === 'D38');
    await goTo(page, 'B38');
    expect(await formula(page)).toBe('Quay');
    await goTo(page, 'A38');
    await page.keyboard.press('Alt+Shift+D');
    await page.locator('.count', { hasText: '36 rows' }).waitFor();
  });

  it('pastes a block from a spreadsheet, and one undo takes it back', async () => {
    await goTo(page, `${width}2`);
    const before = await formula(page);
    await page.evaluate(() => navigator.clipboard.writeText('24 in\tEP 400/3 4+2\n600\tEP 500/4 5+2'));
    await page.keyboard.press('Control+v');
    expect(await value(`${width}2`)).toBe('609.6 mm');
    await goTo(page, `${letters('Construction')}3`);
    expect(await formula(page)).toBe('EP 500/4 5+2');
    await page.keyboard.press('Control+z');
    await goTo(page, `${width}2`);
    expect(await formula(page)).toBe(before);
  });

  it('moves a copied formula with its cell', async () => {
    await type(`${width}2`, `=${letters('Thickness')}2*50`);
    await goTo(page, `${width}2`);
    await page.keyboard.press('Control+c');
    await goTo(page, `${width}6`);
    await page.keyboard.press('Control+v');
    await goTo(page, `${width}6`);
    expect(await formula(page)).toBe(`=${letters('Thickness')}6*50`);
  });
});

describe('filling', () => {
  it('drags a cell down over others, formulas moving along, as one step', async () => {
    await type(`${width}2`, `=${letters('Thickness')}2*60`);
    await goTo(page, `${width}3`);
    const before = await formula(page);
    await goTo(page, `${width}2`);
    const corner = await page.locator('.ht_master .wtBorder.current.corner').first().boundingBox();
    const cell = await page.locator('.ht_master td.current').first().boundingBox();
    if (corner === null || cell === null) throw new Error('no handle to drag');
    await page.mouse.move(corner.x + 3, corner.y + 3);
    await page.mouse.down();
    await page.mouse.move(cell.x + 10, cell.y + 2 * cell.height + 10, { steps: 5 });
    await page.mouse.up();
    await goTo(page, `${width}4`);
    expect(await formula(page)).toBe(`=${letters('Thickness')}4*60`);
    await page.keyboard.press('Control+z');
    await goTo(page, `${width}3`);
    expect(await formula(page)).toBe(before);
  });

  it('fills down from the keyboard', async () => {
    await goTo(page, `${width}2`);
    const first = await formula(page);
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+d');
    await goTo(page, `${width}4`);
    expect(await formula(page)).toBe(first);
  });
});

describe('the formula bar', () => {
  it('enters what was typed into the cell it was typed for, even when another is clicked', async () => {
    await goTo(page, `${width}2`);
    await page.click('#formula');
    await page.fill('#formula', '=600+50');
    await page.locator('.ht_master tbody tr').nth(4).locator('td').nth(3).click();
    await goTo(page, `${width}2`);
    expect(await formula(page)).toBe('=600+50');
    await goTo(page, `${width}6`);
    expect(await formula(page)).not.toBe('=600+50');
  });

  it('goes to a cell of another sheet by its name', async () => {
    await goTo(page, "'Plate series'!B3");
    expect(await page.locator('.tab[aria-selected=true]').innerText()).toBe('Plate series');
  });
});

describe('the book', () => {
  it('survives a reload and says when it was saved', async () => {
    await type(`${width}2`, '612');
    await page.locator('.saved', { hasText: /^Saved \d\d:\d\d:\d\d$/ }).waitFor();
    await page.reload();
    await page.waitForSelector('.ht_master td');
    expect(await value(`${width}2`)).toBe('612 mm');
  });

  it('keeps the colours that were chosen', async () => {
    await page.click('.menu-button:has-text("View")');
    await page.click('.menu-list button:has-text("Dark")');
    await page.waitForFunction(() => document.documentElement.dataset['scheme'] === 'dark');
    await page.reload();
    await page.waitForSelector('.ht_master td');
    expect(await page.evaluate(() => document.documentElement.dataset['scheme'])).toBe('dark');
  });

  it('turns to US units and back by one undo', async () => {
    await type(`${width}2`, '508');
    await page.selectOption('select[aria-label="Units of the book"]', 'us');
    expect(await value(`${width}2`)).toBe('20 in');
    await page.keyboard.press('Control+z');
    expect(await value(`${width}2`)).toBe('508 mm');
    expect(await page.inputValue('select[aria-label="Units of the book"]')).toBe('metric');
  });

  it("reads another program's list, shows what it takes for what, and is undone in one step", async () => {
    await page.keyboard.press('Control+o');
    await page.setInputFiles('input[type=file]', 'test/xlsx/files/belts-tern-quay.xlsx');
    await page.locator('.import-table tr', { hasText: 'Fitted on' }).waitFor({ timeout: 50_000 });
    expect(await page.locator('select[aria-label="Column B is"]').inputValue()).toBe('Width');
    await page.selectOption('select[aria-label="Column G is"]', 'ignore');
    await page.locator('.import-table tr', { hasText: 'you chose it' }).waitFor();
    await page.click('.import-dialog .button.primary:has-text("Import"):not([disabled])');
    await page.locator('.count', { hasText: '5 rows' }).waitFor();
    await page.keyboard.press('Control+z');
    await page.locator('.count', { hasText: '36 rows' }).waitFor();
  });

  it('refuses what is no workbook, says why with its name, and stays usable', async () => {
    const file = join(folder, 'letter.xlsx');
    writeFileSync(file, 'Dear planner, this is no workbook.');
    await page.keyboard.press('Control+o');
    await page.setInputFiles('input[type=file]', file);
    const problem = page.locator('.import-problem');
    await problem.waitFor({ timeout: 50_000 });
    expect(await problem.innerText()).toMatch(/^letter\.xlsx could not be used: /);
    await page.keyboard.press('Escape');
    await problem.waitFor({ state: 'detached' });
    await type(`${width}2`, '650');
    expect(await value(`${width}2`)).toBe('650 mm');
  });
});

describe('the keyboard', () => {
  it('reaches every area in turn', async () => {
    const areas: (string | null)[] = [];
    for (let step = 0; step < 8; step += 1) {
      await page.keyboard.press('F6');
      areas.push(
        await page.evaluate(() => document.activeElement?.closest('[data-area]')?.getAttribute('data-area') ?? null),
      );
    }
    expect(new Set(areas)).toEqual(new Set(['top', 'welcome', 'formula', 'view', 'grid', 'joint', 'findings', 'tabs']));
  });

  it('opens help and closes it, and gives the focus back to the grid', async () => {
    await page.keyboard.press('F1');
    await page.locator('.help-dialog summary').first().waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.help-dialog').waitFor({ state: 'detached' });
    await page.keyboard.press('ArrowDown');
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#cell-name')?.value === 'A3');
  });

  it('walks the findings with arrows and goes to the cell with Enter', async () => {
    await page.locator('.finding').first().waitFor();
    await page.locator('.finding').first().focus();
    await page.keyboard.press('ArrowDown');
    const cell = await page.locator('.finding:focus .finding-cell').innerText();
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (wanted) => document.querySelector<HTMLInputElement>('#cell-name')?.value === wanted,
      cell.split('!')[1],
    );
  });

  it('changes sheets', async () => {
    await page.keyboard.press('Alt+PageDown');
    await page.locator('.tab[aria-selected=true]', { hasText: 'Pulleys' }).waitFor();
    await page.keyboard.press('Alt+PageUp');
    await page.locator('.tab[aria-selected=true]', { hasText: 'Belts' }).waitFor();
  });

  it('goes on along the tabs by arrows, and into a sheet by Enter on its tab', async () => {
    const tabs = page.locator('.tabs [role=tab]');
    await tabs.filter({ hasText: 'Belts' }).first().focus();
    for (const [key, at] of [
      ['ArrowRight', 1],
      ['ArrowRight', 2],
      ['ArrowLeft', 1],
      ['ArrowLeft', 0],
    ] as const) {
      await page.keyboard.press(key);
      await drawn(page);
      await page.locator(`.tabs [role=tab][aria-selected=true]:nth-of-type(${at + 1}):focus`).waitFor();
    }
    await page.keyboard.press('Enter');
    await page.locator('.grid-sheet:not([hidden]) td:focus').waitFor();
  });
});

describe('the view', () => {
  it('sorts without moving rows in the book', async () => {
    await goTo(page, `${width}2`);
    const first = await formula(page);
    await page.keyboard.press('Alt+Shift+ArrowDown');
    await page.locator('.htDropdownMenu td', { hasText: 'Sort: smallest or A first' }).click();
    // The first of the two narrowest belts.
    const top = page.locator('.grid-sheet:not([hidden]) .ht_clone_inline_start tbody tr:first-child td').first();
    await expect.poll(() => top.innerText()).toBe('G7');
    await goTo(page, `${width}2`);
    expect(await formula(page)).toBe(first);
    await page.keyboard.press('Alt+Shift+O');
    await expect.poll(() => top.innerText()).toBe('Q1');
  });
});

describe('menus', () => {
  it('open, are walked and do things by keyboard alone', async () => {
    await page.locator('.top .menu-button', { hasText: 'View' }).focus();
    await page.keyboard.press('ArrowDown');
    await page.locator('.menu-list [role=menuitem]:focus', { hasText: 'Hide joint drawing' }).waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.joint-panel').waitFor({ state: 'detached' });
    await page.keyboard.press('Alt+Shift+J');
    await page.locator('.joint-panel').waitFor();
  });

  it('close on Escape and when the focus leaves', async () => {
    await page.locator('.menu-button', { hasText: 'Edit' }).focus();
    await page.keyboard.press('ArrowDown');
    await page.locator('.menu-list [role=menuitem]').first().waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.menu-list [role=menuitem]').first().waitFor({ state: 'detached' });
    await page.waitForFunction(() => document.activeElement?.textContent?.trim().startsWith('Edit'));
  });
});

describe('a screen reader', () => {
  it('calls a cell by its header with unit, its value, where that comes from, and what is wrong with it', async () => {
    const cell = (name: RegExp): Promise<void> => page.getByRole('gridcell', { name }).first().waitFor();
    await cell(/^Belt: Q1, entered, verdict \w/);
    await cell(/^Width \(mm\): \d+, entered$/);
    await cell(/^Verdict: [a-z ]+, computed$/);
    await goTo(page, `${width}2`);
    await page.keyboard.type('about so wide');
    await page.keyboard.press('Enter');
    await cell(/^Width \(mm\): about so wide, entered, .*was not understood/);
  });
});
