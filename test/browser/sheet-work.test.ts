import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { onePage, typeInto } from './one-page.ts';
import { formula, goTo, told } from './opened-page.ts';

/** A sheet worked on as in any spreadsheet: moved, filled, pointed at, put right, found. */

let page: Page;
onePage((opened) => ({ page } = opened));

beforeAll(async () => {
  await page.getByRole('button', { name: 'Add a blank sheet' }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Sheet 1' }).waitFor();
});

const type = (cell: string, text: string): Promise<void> => typeInto(page, cell, text);

async function content(cell: string): Promise<string> {
  await goTo(page, cell);
  return formula(page);
}
/** Puts a sheet on show and waits until its grid has the selection: keys pressed before are the old one's. */
async function show(sheet: string): Promise<void> {
  await page.getByRole('tab', { name: sheet, exact: true }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: sheet }).waitFor();
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 100))));
}
const editor = (): ReturnType<Page['locator']> => page.locator('.grid-sheet:not([hidden]) textarea.handsontableInput');

test('cutting a formula and pasting it moves it, and what names it follows', async () => {
  await type('A2', '5');
  await type('B2', '=A2*2');
  await type('C2', '=B2+1');
  await goTo(page, 'B2');
  await page.keyboard.press('Control+x');
  await page.locator('td.cell-cut').waitFor();
  await goTo(page, 'B5');
  await page.keyboard.press('Control+v');
  await expect.poll(() => content('C2')).toBe('=B5+1');
  expect(await content('B5')).toBe('=A2*2');
  expect(await content('B2')).toBe('');
  expect(await told(page)).toContain('empty');
  await page.keyboard.press('Control+z');
  expect(await content('C2')).toBe('=B2+1');
});

test('Escape leaves what was cut where it is', async () => {
  await goTo(page, 'B2');
  await page.keyboard.press('Control+x');
  await page.locator('td.cell-cut').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('td.cell-cut').waitFor({ state: 'detached' });
  expect(await content('B2')).toBe('=A2*2');
});

test('the menu on a cell has room for the names of its commands', async () => {
  await goTo(page, 'B2');
  await page.keyboard.press('Shift+F10');
  await page.locator('.htContextMenu td', { hasText: 'Insert a column of your own before this one' }).waitFor();
  const cut = await page.locator('.htContextMenu .ht_master td').evaluateAll((cells) =>
    cells.flatMap((cell) => {
      const text = document.createRange();
      text.selectNodeContents(cell);
      return text.getBoundingClientRect().right > cell.getBoundingClientRect().right ? [cell.textContent] : [];
    }),
  );
  expect(cut).toEqual([]);
  await page.keyboard.press('Escape');
});

test('a wrong formula keeps the editor open and offers the fix', async () => {
  await goTo(page, 'D2');
  await page.keyboard.type('=SUM(A2;B2');
  await page.keyboard.press('Enter');
  await page.locator('.hint-fault', { hasText: 'commas, not semicolons' }).waitFor();
  expect(await editor().inputValue()).toBe('=SUM(A2;B2');
  await page.keyboard.press('Tab');
  expect(await editor().inputValue()).toBe('=SUM(A2,B2)');
  await page.keyboard.press('Enter');
  expect(await content('D2')).toBe('=SUM(A2,B2)');
});

test('the same in the formula bar, by mouse; entered twice it stays as it is', async () => {
  await goTo(page, 'D3');
  await page.locator('#formula').click();
  await page.keyboard.type('=SUMME(A2,B2)');
  await page.keyboard.press('Enter');
  await page.locator('.hint-fix', { hasText: '=SUM(A2,B2)' }).click();
  await page.keyboard.press('Enter');
  expect(await content('D3')).toBe('=SUM(A2,B2)');
  await goTo(page, 'D4');
  await page.keyboard.type('=NOSUCH(1)');
  await page.keyboard.press('Enter');
  await page.locator('.hint-fault').waitFor();
  await page.keyboard.press('Enter');
  expect(await content('D4')).toBe('=NOSUCH(1)');
});

test('a click puts a reference into the formula, drawing over cells a range', async () => {
  await goTo(page, 'E2');
  await page.keyboard.type('=2*');
  const cell = (name: string): ReturnType<Page['locator']> => {
    const column = name.charCodeAt(0) - 65;
    const row = Number(name.slice(1)) - 2;
    return page.locator(`.grid-sheet:not([hidden]) .ht_master tbody tr:nth-child(${row + 1}) td`).nth(column);
  };
  await cell('A2').click();
  expect(await editor().inputValue()).toBe('=2*A2');
  await cell('B2').click();
  expect(await editor().inputValue()).toBe('=2*B2');
  await page.keyboard.type('+SUM(');
  const [from, to] = [await cell('A2').boundingBox(), await cell('C2').boundingBox()];
  if (from === null || to === null) throw new Error('the cells are not on show');
  await page.mouse.move(from.x + 9, from.y + 9);
  await page.mouse.down();
  await page.mouse.move(to.x + 9, to.y + 9, { steps: 3 });
  await page.mouse.up();
  expect(await editor().inputValue()).toBe('=2*B2+SUM(A2:C2');
  await page.keyboard.type(')');
  await page.keyboard.press('F4');
  await page.keyboard.press('Enter');
  expect(await content('E2')).toBe('=2*B2+SUM(A2:C2)');
});

test('F4 fixes the reference at the caret', async () => {
  await goTo(page, 'E3');
  await page.keyboard.type('=A2');
  await page.keyboard.press('F4');
  expect(await editor().inputValue()).toBe('=$A$2');
  await page.keyboard.press('F4');
  expect(await editor().inputValue()).toBe('=A$2');
  await page.keyboard.press('Enter');
  expect(await content('E3')).toBe('=A$2');
});

test('from the formula bar a cell of another sheet is pointed at', async () => {
  await goTo(page, 'E4');
  await page.locator('#formula').click();
  await page.keyboard.type('=');
  await show('Strips');
  await page.locator('.grid-sheet:not([hidden]) .ht_master tbody tr:nth-child(1) td').nth(2).click();
  expect(await page.inputValue('#formula')).toBe('=Strips!C2');
  await page.keyboard.press('Enter');
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Sheet 1' }).waitFor();
  expect(await content('E4')).toBe('=Strips!C2');
});

test('columns are named between brackets, completed as they are typed', async () => {
  await goTo(page, 'E5');
  await page.keyboard.type('=MAX(Belts[Wid');
  await page.locator('.hint-name', { hasText: 'Width' }).first().waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.type(')');
  await page.keyboard.press('Enter');
  expect(await content('E5')).toBe('=MAX(Belts[Width])');
});

test('a line more in the bar, fill right, and the day', async () => {
  await goTo(page, 'F2');
  await page.locator('#formula').click();
  await page.keyboard.type('=1+');
  await page.keyboard.press('Alt+Enter');
  await page.keyboard.type('2');
  await page.keyboard.press('Tab');
  expect(await content('F2')).toBe('=1+\n2');
  await type('F3', '=A2');
  await goTo(page, 'F3');
  await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Control+r');
  expect(await content('G3')).toBe('=B2');
  await goTo(page, 'F4');
  await page.keyboard.press('Control+;');
  expect(await content('F4')).toMatch(/^\d{4}-\d\d-\d\d$/);
});

test('a belt, a column and a named value are gone to by name', async () => {
  await show('Belts');
  const jump = async (text: string, wanted: RegExp): Promise<void> => {
    await page.keyboard.press('Control+g');
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
    await page.locator('.told b', { hasText: wanted }).waitFor();
  };
  await jump('working tension', /^Working tension/);
  await jump('belt Q4', /^Belt$/);
  expect(await formula(page)).toBe('Q4');
  await jump('RollingFriction', /^Value/);
  await show('Belts');
  await page.keyboard.press('Control+g');
  await page.keyboard.type('Widht');
  await page.keyboard.press('Enter');
  await page.locator('.notice', { hasText: 'Nearest: Width' }).waitFor();
});

test('the verdict stands by the name of the belt, as a sign with its word', async () => {
  const name = page.locator('.grid-sheet:not([hidden]) .ht_clone_inline_start tbody tr:nth-child(1) td').first();
  await name.waitFor();
  const content = await name.evaluate((cell) => getComputedStyle(cell, '::before').content);
  expect(content).toMatch(/^"[✓≈✕?]" \/ "(?:fits|tight|fails|verdict not known): "$/);
});

test('the selection is added up, and a filter says how many it leaves', async () => {
  await goTo(page, 'D2');
  await page.keyboard.press('Shift+ArrowDown');
  await page.keyboard.press('Shift+ArrowDown');
  await page.locator('.count', { hasText: /^3 × 1 cells · sum .* mm · mean .* mm · count 3$/ }).waitFor();
});

test('a text is found, counted, replaced as one step', async () => {
  await show('Sheet 1');
  for (const [cell, text] of [
    ['H2', 'north one'],
    ['H3', 'North two'],
    ['H4', '="north"&1'],
  ] as const)
    await type(cell, text);
  await page.keyboard.press('Control+h');
  await page.locator('#find-text:focus').waitFor();
  await page.keyboard.type('north');
  await page.locator('.find-count', { hasText: '– of 3' }).waitFor();
  await page.locator('#find-text').press('Enter');
  await page.locator('.find-count', { hasText: '1 of 3' }).waitFor();
  await page.locator('#replace-text').fill('south');
  await page.getByRole('button', { name: 'Replace all' }).click();
  await page.locator('.notice', { hasText: '3 cells replaced.' }).waitFor();
  expect(await content('H4')).toBe('="south"&1');
  await page.keyboard.press('Control+z');
  expect(await content('H2')).toBe('north one');
  expect(await content('H4')).toBe('="north"&1');
  await page.getByRole('button', { name: 'Close find and replace' }).click();
  await page.locator('.find-bar').waitFor({ state: 'detached' });
});

test('an unusual width is asked about, and a number without room is not cut', async () => {
  await show('Belts');
  await type('D2', '123456789012');
  await goTo(page, 'D2');
  expect(await told(page)).toContain('is this meant?');
  const cell = page.locator('.grid-sheet:not([hidden]) .ht_master tbody tr:nth-child(1) td.cell-unusual').first();
  expect(await cell.innerText()).toBe('###');
  expect(await cell.getAttribute('title')).toContain('is this meant?');
  await page.keyboard.press('Control+z');
});

test('groups of columns fold, and open for what is gone to', async () => {
  const header = page.locator('.grid-sheet:not([hidden]) .ht_clone_top .header-name', { hasText: /^Width$/ });
  await goTo(page, 'B2');
  await header.waitFor();
  await page.getByRole('button', { name: /^View: / }).click();
  await page.getByRole('menuitemcheckbox', { name: 'Group Belt', exact: true, checked: true }).click();
  await header.waitFor({ state: 'detached' });
  await page.keyboard.press('Control+g');
  await page.keyboard.type('Width');
  await page.keyboard.press('Enter');
  await header.waitFor();
  await page.getByRole('button', { name: /^View: / }).click();
  await page.getByRole('menuitemcheckbox', { name: 'Group Belt', exact: true, checked: true }).waitFor();
  await page.keyboard.press('Escape');
});
