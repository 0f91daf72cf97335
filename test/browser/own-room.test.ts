import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { onePage, typeInto } from './one-page.ts';
import { formula, goTo, shot, told } from './opened-page.ts';

/** Room of one's own: columns, named values, sheets and formats of the user's, by mouse and by keyboard. */

let page: Page;
onePage((opened) => ({ page } = opened));

const field = (name: string): ReturnType<Page['locator']> => page.locator(`dialog [name=${name}]`);
const closed = (): Promise<void> => page.locator('dialog').waitFor({ state: 'detached' });
const editMenu = async (item: string): Promise<void> => {
  await page.locator('.menu-button', { hasText: 'Edit' }).click();
  await page.getByRole('menuitem', { name: item }).click();
};
/** Goes to a column by its name, wherever it stands. */
async function goToColumn(header: string): Promise<void> {
  await page.keyboard.press('Control+g');
  await page.keyboard.type(header);
  await page.keyboard.press('Enter');
  await expect.poll(() => told(page)).toContain(header);
}
const type = (cell: string, text: string): Promise<void> => typeInto(page, cell, text);

test('a column with kind, place, meaning and one formula, by keyboard; a new belt gets the formula', async () => {
  await goTo(page, 'D2');
  await page.keyboard.press('Alt+Shift+A');
  await field('header').fill('Twice');
  await field('kind').selectOption('length');
  await field('digits').selectOption('1');
  await field('doc').fill('twice the width');
  await field('after').selectOption('Belt');
  await field('formula').fill('=[Widht]*2');
  await page.keyboard.press('Enter');
  await page.locator('dialog .why', { hasText: 'Belts has no column Widht' }).waitFor();
  await shot(page, 'own-column-light');
  await field('formula').fill('=[Width]*2');
  await page.keyboard.press('Enter');
  await closed();
  expect(await formula(page)).toBe('=[Width]*2');
  expect(await told(page)).toContain('mm');
  await page.keyboard.press('Alt+Shift+I');
  await expect.poll(() => formula(page)).toBe('=[Width]*2');
  await page.keyboard.press('Control+z');
  const header = page.locator('.ht_clone_top th.header-own', { hasText: 'Twice' }).first();
  await expect.poll(() => header.getAttribute('title')).toBe('Twice (mm): twice the width.');
});

test('the dialog opens on what the column says, renames it, and removes it, by mouse', async () => {
  await goToColumn('Twice');
  await editMenu('Change this column …');
  expect(await field('formula').inputValue()).toBe('=[Width]*2');
  await field('header').fill('Double');
  await page.locator('dialog .primary').click();
  await closed();
  await page.locator('.ht_clone_top th.header-own', { hasText: 'Double' }).waitFor();
  await goToColumn('Double');
  await editMenu('Change this column …');
  await page.getByRole('button', { name: 'Remove column' }).click();
  await closed();
  await page.locator('th.header-own', { hasText: 'Double' }).first().waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
});

test('a named value with a unit, used in a formula by its name', async () => {
  await page.keyboard.press('Alt+Shift+S');
  await field('name').fill('EdgeGap');
  await field('value').fill('1 in');
  await field('unit').fill('mm');
  await field('meaning').fill('room at the edge');
  await field('source').fill('our own drawing');
  await shot(page, 'own-name-light');
  await page.keyboard.press('Enter');
  await closed();
  expect(await formula(page)).toBe('25.4');
  // Unit, meaning and source are changed in their cells, too.
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.type('left at the edge');
  await page.keyboard.press('Tab');
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => formula(page)).toBe('left at the edge');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.type('in');
  await page.keyboard.press('Enter');
  await page.locator('.notice', { hasText: 'This book writes it in mm' }).first().waitFor();
  // No row follows the last named value: the selection stays.
  expect(await formula(page)).toBe('mm');
  await page.getByRole('button', { name: 'Add a blank sheet' }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Sheet 1' }).waitFor();
  await type('C2', '=EdgeGap*10');
  await goTo(page, 'C2');
  expect(await told(page)).toContain('254');
});

test('shares, prices, days and thousands as they are typed; what may mean two things is asked once', async () => {
  await type('A2', '10%');
  await type('A3', '1,250.00 €');
  await type('A4', '2026-03-04');
  await type('A5', 'a word');
  await type('A6', '1,250');
  await page.locator('dialog button', { hasText: 'decimal point' }).waitFor();
  await shot(page, 'own-habit-light');
  await page.locator('dialog button', { hasText: 'decimal point' }).click();
  await closed();
  await type('A7', '2,500');
  const cell = (row: number): ReturnType<Page['locator']> =>
    page.locator(`.grid-sheet:not([hidden]) .ht_master tbody tr:nth-child(${row}) td`).first();
  await expect
    .poll(async () => (await Promise.all([1, 2, 3, 4, 5, 6].map((row) => cell(row).innerText()))).join('|'))
    .toBe('10\u202f%|1250.00|2026-03-04|a word|1250|2500');
  expect(await page.locator('.grid-sheet:not([hidden]) td.cell-marked').count()).toBe(0);
  await goTo(page, 'A2');
  expect(await formula(page)).toBe('10%');
});

test('a sheet is renamed and copied, and its formulas follow', async () => {
  await type('D2', "=Belts!A2&'Sheet 1'!A5");
  await page.keyboard.press('Alt+Shift+R');
  await page.locator('dialog input').fill('My notes');
  await page.keyboard.press('Enter');
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'My notes' }).waitFor();
  await goTo(page, 'D2');
  expect(await formula(page)).toBe("=Belts!A2&'My notes'!A5");
  await page.locator('.menu-button', { hasText: 'Book' }).click();
  await page.getByRole('menuitem', { name: 'Copy this sheet' }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'My notes (2)' }).waitFor();
});

test('references are framed while a formula is typed, and arrows point', async () => {
  await goTo(page, 'F5');
  await page.keyboard.type('=A2+SUM(');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Shift+ArrowUp');
  const editor = page.locator('.grid-sheet:not([hidden]) textarea.handsontableInput');
  expect(await editor.inputValue()).toBe('=A2+SUM(E3:E4');
  await page.locator('td.cell-referred.referred-1').first().waitFor();
  expect(await page.locator('.ht_master td.cell-referred.referred-2').count()).toBe(2);
  expect(await page.locator('.formula-colours .referred-2').innerText()).toBe('E3:E4');
  await shot(page, 'own-references-light');
  await page.keyboard.type(')');
  await page.keyboard.press('Enter');
  await page.locator('td.cell-referred').first().waitFor({ state: 'detached' });
  await goTo(page, 'F5');
  expect(await formula(page)).toBe('=A2+SUM(E3:E4)');
});

test('the same in the formula bar, in the dark and on a smaller screen', async () => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.setViewportSize({ width: 1024, height: 768 });
  await page.getByRole('tab', { name: 'Belts', exact: true }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Belts' }).waitFor();
  await goToColumn('Double');
  await page.locator('#formula').click();
  await page.locator('#formula').fill('=[Width]/MAX(Belts[Width])+EdgeGap+J2');
  await page.locator('.formula-colours .referred-4').waitFor();
  await shot(page, 'own-references-dark');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Alt+Shift+M');
  await field('header').waitFor();
  await shot(page, 'own-column-dark');
  await page.keyboard.press('Escape');
  await page.keyboard.press('F1');
  await page.getByRole('tab', { name: 'Formulas' }).click();
  await shot(page, 'help-formulas-dark');
  await page.keyboard.press('Escape');
});

test('typing along a row: Tab goes right, Enter back below the first cell, and the sheet grows', async () => {
  const name = (): Promise<string> => page.inputValue('#cell-name');
  await page.getByRole('button', { name: 'Add a blank sheet' }).click();
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Sheet' }).waitFor();
  await goTo(page, 'K2');
  for (const text of ['1', '2', '3']) {
    await page.keyboard.type(text);
    await page.keyboard.press('Tab');
  }
  await expect.poll(name).toBe('N2');
  await page.keyboard.type('4');
  await page.keyboard.press('Enter');
  await goTo(page, 'M2');
  expect(await formula(page)).toBe('3');
  await goTo(page, 'B2');
  await page.keyboard.type('1');
  await page.keyboard.press('Tab');
  await page.keyboard.type('2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('3');
  await page.keyboard.press('Enter');
  await expect.poll(name).toBe('B3');
});

test('a computed cell shows its formula as people type it, and one typed over it keeps to its inputs', async () => {
  await page.locator('.foot .tab', { hasText: 'Belts' }).click();
  await goToColumn('Cut length');
  const own = await formula(page);
  expect(own).toContain('[Width]');
  expect(own).not.toContain('ISNUMBER');
  await page.keyboard.type('=[Width]*2');
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowUp');
  await expect.poll(() => formula(page)).toBe('=[Width]*2');
  await expect.poll(() => told(page)).toContain('overrides');
  await page.keyboard.press('Control+z');
  await expect.poll(() => formula(page)).toBe(own);
});

test('with a decimal comma, numbers are shown, told, copied and pasted back with it', async () => {
  await page.keyboard.press('Control+g');
  await page.keyboard.type('DecimalMark');
  await page.keyboard.press('Enter');
  await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Assumptions' }).waitFor();
  await page.keyboard.type('comma');
  await page.keyboard.press('Enter');
  await page.locator('.foot .tab', { hasText: 'My notes' }).first().click();
  await type('C9', '12,5');
  await goTo(page, 'C9');
  expect(await formula(page)).toBe('12,5');
  expect(await told(page)).toContain('12,5');
  await page.keyboard.press('Control+c');
  await goTo(page, 'C10');
  await page.keyboard.press('Control+v');
  await goTo(page, 'C10');
  await expect.poll(() => formula(page)).toBe('12,5');
  await type('C11', '=C9+C10');
  await goTo(page, 'C11');
  expect(await told(page)).toContain('25');
  await page.locator('.foot .tab', { hasText: 'Belts' }).click();
  await goToColumn('Thickness');
  await shot(page, 'own-comma-light');
  const thickness = page.locator('.grid-sheet:not([hidden]) .ht_master td', { hasText: /^\d+,\d$/ });
  expect(await thickness.count()).toBeGreaterThan(3);
  expect(await page.locator('.grid-sheet:not([hidden]) .ht_master td', { hasText: /^\d+\.\d+$/ }).count()).toBe(0);
  // Panels and pictures write numbers so, and draw as before.
  await page.keyboard.press('Alt+Shift+K');
  await page.locator('.skew-plot, .skew-number').first().waitFor();
  await page.keyboard.press('Alt+Shift+X');
  await page.locator('dialog svg').first().waitFor();
  await page.keyboard.press('Escape');
});
