import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { headerPosition } from '../../src/workbook/declared.ts';
import { listFile, type Row } from '../cli/lists.ts';
import { letters } from '../workbook/books.ts';
import { edited } from '../xlsx/libreoffice.ts';
import { typeInto } from './one-page.ts';
import { drawn, formula, goTo, TestBrowser, told } from './opened-page.ts';

/** A planner's months with one book: the site's list, a colleague's copy, next month's list, versions, other books. */

let browser: TestBrowser;
const folder = mkdtempSync(join(tmpdir(), 'skewbook-months-'));
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(async () => {
  await browser.stop();
  rmSync(folder, { recursive: true });
});

const width = letters('Width');
const skew = letters('Skew');
const heads: Row = ['Belt', 'Where', 'Belt width (mm)', 'Thickness (mm)', 'Belt speed (m/s)', 'Fitted on', 'Job no'];
const names = Array.from({ length: 10 }, (_, at) => `CV-${101 + at}`);
const firstWidth = (at: number): number => 600 + 50 * at;

/** The site's list of a month; each month is a file of the same name in a folder of its own. */
async function month(name: string, changed: Readonly<Record<number, number>> = {}): Promise<string> {
  // A test that is tried again finds the folder of its first try.
  mkdirSync(join(folder, name), { recursive: true });
  const rows = names.map((belt, at): Row => [
    belt,
    at < 5 ? 'North' : 'South',
    changed[at] ?? firstWidth(at),
    10,
    2.5,
    '2024-03-01',
    `W${at}`,
  ]);
  return await listFile(join(folder, name, 'site belts.xlsx'), { Belts: [heads, ...rows] });
}

async function held(page: Page, cell: string): Promise<string> {
  await goTo(page, cell);
  return await formula(page);
}

async function widths(page: Page, ...records: readonly number[]): Promise<string[]> {
  const found: string[] = [];
  for (const record of records) found.push(await held(page, `${width}${record + 2}`));
  return found;
}

async function choose(page: Page, menu: string, item: string): Promise<void> {
  await page.click(`.menu-button:has-text("${menu}")`);
  await page.click(`.menu-list button:has-text("${item}")`);
}

async function importFile(page: Page, file: string): Promise<void> {
  await page.keyboard.press('Control+o');
  await page.setInputFiles('input[type=file]', file);
}

async function compared(page: Page, file: string): Promise<void> {
  await importFile(page, file);
  await page.click('.import-dialog .button.primary:has-text("Compare with this book")', { timeout: 50_000 });
}

const saved = (page: Page): Promise<void> => page.locator('.saved', { hasText: /^Saved/ }).waitFor();
const summary = (page: Page, hasText: string | RegExp): Promise<void> =>
  page.locator('.import-summary', { hasText }).waitFor();

test('list and copy come back, and nothing of the book is lost', { timeout: 240_000 }, async () => {
  const { page, context, complaints } = await browser.open();
  page.setDefaultTimeout(15_000);

  // The first list, with one column corrected; nothing of the demo comes with it.
  await importFile(page, await month('october'));
  const fitted = page.getByLabel('Column B is');
  await fitted.waitFor({ timeout: 50_000 });
  await fitted.selectOption('Area');
  await page.locator('.import-table tr', { hasText: 'you chose it' }).waitFor();
  await page.click('.import-dialog .button.primary:has-text("Import"):not([disabled])');
  await page.locator('.count', { hasText: '10 rows' }).waitFor();
  expect(await page.locator('.invented').count()).toBe(0);
  expect(await held(page, `${letters('Area')}2`)).toBe('North');

  // Two edits: an input by the keyboard, a width of the planner's own by the bar.
  await typeInto(page, `${skew}2`, '22');
  await goTo(page, `${width}4`);
  await page.locator('#formula').fill('705');
  await page.keyboard.press('Enter');

  // Sent out, changed by a colleague in another program, and meanwhile here.
  const offered = page.waitForEvent('download', { timeout: 50_000 });
  await page.keyboard.press('Control+s');
  const bytes = readFileSync(await (await offered).path());
  await page.locator('.notice', { hasText: 'was written' }).waitFor();
  const at = (header: 'Belt' | 'Width' | 'Skew' | 'Speed'): number => headerPosition('Belts', header);
  const back = await edited(bytes, [
    'belts = book.Sheets.getByName("Belts")',
    `belts.getCellByPosition(${at('Width')}, 1).Value = 1111`,
    `belts.getCellByPosition(${at('Speed')}, 2).Value = 3.25`,
    `belts.getCellByPosition(${at('Belt')}, 11).String = "CV-900"`,
    `belts.getCellByPosition(${at('Width')}, 11).Value = 900`,
  ]);
  writeFileSync(join(folder, 'from my colleague.xlsx'), back);
  await typeInto(page, `${width}2`, '1222');
  await compared(page, join(folder, 'from my colleague.xlsx'));
  await summary(page, /3 differences, 2 taken, 1 conflict to decide/);
  const body = page.locator('.import-dialog .dialog-body');
  expect(await body.innerText()).toMatch(
    /Both come from what this book last wrote to site belts\.xlsx, \d{4}-\d\d-\d\d/,
  );
  expect(await body.locator('.conflicts tbody tr').innerText()).toMatch(
    /CV-101[\s\S]*600 mm[\s\S]*1222 mm[\s\S]*1111 mm/,
  );
  const take = page.locator('button:has-text("Take into this book")');
  expect(await take.isDisabled()).toBe(true);
  // By keyboard: the first radio button, and the next one.
  await page.getByRole('radio', { name: /CV-101.*mine/ }).focus();
  await page.keyboard.press('Space');
  await page.keyboard.press('ArrowRight');
  await summary(page, '3 differences, 3 taken.');
  await take.click();
  await page.locator('.count', { hasText: '11 rows' }).waitFor();
  expect([await held(page, `${width}2`), await held(page, `${letters('Speed')}3`)]).toEqual(['1111', '3.25']);
  expect([await held(page, `${skew}2`), await held(page, `${width}4`)]).toEqual(['22', '705']);

  // Next month six belts are others; five are taken, one is refused.
  const november = { 3: 1003, 4: 1004, 5: 1005, 6: 1006, 7: 1007, 8: 1008 };
  await compared(page, await month('november', november));
  await summary(page, '6 differences, 6 taken');
  expect(await body.innerText()).toContain('Both come from what this book last read from site belts.xlsx');
  await page.click('button:has-text("Take none")');
  await summary(page, '6 differences, 0 taken');
  await page.getByLabel('Take all of Belts, Width').check();
  await summary(page, '6 differences, 6 taken');
  await page.getByLabel('Take CV-107, Width').uncheck();
  await summary(page, '6 differences, 5 taken');
  await take.click();
  await page.locator('dialog').waitFor({ state: 'detached' });
  const merged = ['1003', '1004', '1005', '900', '1007', '1008'];
  expect(await widths(page, 3, 4, 5, 6, 7, 8)).toEqual(merged);
  // What is the planner's own, and the belt that only this book has, are as they were.
  expect([await held(page, `${skew}2`), await held(page, `${width}4`), await held(page, 'A12')]).toEqual([
    '22',
    '705',
    'CV-900',
  ]);
  await page.keyboard.press('Control+z');
  expect(await widths(page, 3, 6)).toEqual(['750', '900']);
  await page.keyboard.press('Control+y');
  expect(await widths(page, 3, 6)).toEqual(['1003', '900']);
  // What was refused once is not asked again.
  await compared(page, join(folder, 'november', 'site belts.xlsx'));
  await summary(page, 'brings nothing new');
  // Without what both come from, it is one of the things that differ.
  await page.getByLabel('What both come from').selectOption('something that nobody knows');
  await summary(page, /\d+ differences, \d+ taken/);
  expect(await body.innerText()).toContain('a difference may be a change of yours or one of the file');
  await page.getByLabel('Take CV-107, Width').waitFor();
  await page.keyboard.press('Escape');

  // Versions: looked at, compared with, brought back, undone.
  await page.keyboard.press('Alt+Shift+H');
  const version = (why: string): string => `.versions-dialog tr:has(td:text-is("${why}"))`;
  await page.locator(version('merge of site belts.xlsx')).waitFor();
  for (const why of ['import of site belts.xlsx', 'merge of from my colleague.xlsx', 'merge of site belts.xlsx'])
    expect([why, await page.locator(version(why)).count()]).toEqual([why, 1]);
  const opening = context.waitForEvent('page');
  await page.click(`${version('import of site belts.xlsx')} >> text=Look`);
  const earlier = await opening;
  await earlier.locator('.saved', { hasText: 'This is the book of' }).waitFor({ timeout: 50_000 });
  expect(await held(earlier, `${width}2`)).toBe('600');
  await typeInto(earlier, `${width}2`, '1');
  await earlier.locator('.notice', { hasText: 'was refused' }).waitFor();
  await earlier.close();
  await page.bringToFront();
  await page.click(`${version('merge of from my colleague.xlsx')} >> text=Compare`);
  await summary(page, '5 differences, 5 taken');
  // Any two of them side by side, only to be looked at; here the import and the merge after it.
  const other = page.getByLabel('Compared with');
  const label = await other.locator('option', { hasText: /, import of site belts\.xlsx$/ }).getAttribute('value');
  await other.selectOption(label);
  await summary(page, /^the version of .*: \d+ differences\.$/);
  const table = page.locator('.compare-table', { hasText: 'CV-101' }).first();
  expect(await table.innerText()).toMatch(/CV-101\s+600 mm\s+1111 mm/);
  expect(await page.locator('.import-dialog input[type=checkbox]').count()).toBe(0);
  await page.click('.import-dialog button:has-text("Back")');
  await page.click(`${version('import of site belts.xlsx')} >> text=Bring back`);
  await page.locator('.count', { hasText: '10 rows' }).waitFor();
  expect(await widths(page, 0, 3)).toEqual(['600', '750']);
  await page.keyboard.press('Control+z');
  await page.locator('.count', { hasText: '11 rows' }).waitFor();
  expect(await widths(page, 0, 3)).toEqual(['1111', '1003']);

  // Another window on the same book only reads, and sees what is done here.
  await saved(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await second.locator('.saved', { hasText: 'another window of this browser has the book open' }).waitFor();
  expect(await widths(second, 0, 3)).toEqual(['1111', '1003']);
  await second.close();
  await page.bringToFront();

  // Other books: the demo beside this one, a copy, the bin, and back.
  await choose(page, 'Book', 'Open the demo, metric');
  await page.locator('.title', { hasText: 'Tern Quay' }).waitFor({ timeout: 50_000 });
  await page.locator('.count', { hasText: '36 rows' }).waitFor();
  await page.keyboard.press('Alt+Shift+Y');
  const dialog = page.locator('.books-dialog');
  await dialog.getByLabel('Duplicate site belts').click();
  await dialog.getByLabel('Open site belts copy').waitFor();
  await dialog.getByLabel('Rename site belts copy').click();
  await page.locator('.ask-dialog input').fill('Quarry');
  await page.keyboard.press('Enter');
  await dialog.getByLabel('Delete Tern Quay').click();
  // The one that was changed last is opened in its place.
  await page.locator('.title', { hasText: 'Quarry' }).waitFor({ timeout: 50_000 });
  await page.keyboard.press('Alt+Shift+Y');
  await dialog.getByLabel('Bring back Tern Quay').click();
  await dialog.getByLabel('Open Tern Quay').waitFor();
  // Emptied by hand, and only when the question is answered.
  await dialog.getByLabel('Delete site belts', { exact: true }).click();
  await dialog.locator('h3', { hasText: /^Bin1 book, \d+(?:\.\d+)? [kM]B/ }).waitFor();
  await dialog.getByText('Empty the bin').click();
  const asked = page.locator('.ask-dialog');
  expect(await asked.innerText()).toMatch(/Empty the bin: 1 book, [\s\S]* go for good: site belts/);
  await asked.locator('input').fill('yes');
  await page.keyboard.press('Enter');
  await asked.locator('.why', { hasText: 'nothing was deleted' }).waitFor();
  await asked.locator('input').fill('empty');
  await page.keyboard.press('Enter');
  await dialog.locator('h3').waitFor({ state: 'detached' });
  await expect.poll(() => dialog.locator('tbody tr').count()).toBe(2);
  await page.keyboard.press('Escape');
  await page.locator('dialog').waitFor({ state: 'detached' });
  expect(await widths(page, 0, 3)).toEqual(['1111', '1003']);

  // A quarter later the ages count to that day, and the page says so.
  await typeInto(page, `${width}3`, '655');
  // What is said of saving follows with the next drawing; a book that is saved after the clock was set is of that day.
  await drawn(page);
  await saved(page);
  await page.clock.setFixedTime(new Date(Date.now() + 90 * 86_400_000));
  await page.reload();
  await page.locator('.day-banner', { hasText: 'Joint ages count to today' }).waitFor({ timeout: 50_000 });
  await goTo(page, 'Assumptions!B3');
  expect(await formula(page)).toBe('=TODAY()');
  // What is kept of how the book is looked at is sound.
  expect(await page.locator('.notice', { hasText: 'damaged' }).count()).toBe(0);
  expect(await told(page)).toContain(new Date(Date.now() + 90 * 86_400_000).toISOString().slice(0, 4));
  expect(complaints).toEqual([]);
});

test('an inspection round comes back as changes of what was sent', async () => {
  const { page, complaints } = await browser.open();
  const offered = page.waitForEvent('download', { timeout: 50_000 });
  await choose(page, 'Book', 'Inspection round sheet');
  const file = new ExcelJS.Workbook();
  await file.xlsx.readFile(await (await offered).path());
  await page.locator('.notice', { hasText: 'inspection round.xlsx was written' }).waitFor();
  const sheet = file.worksheets[0];
  if (sheet === undefined) throw new Error('the round has no sheet');
  let top = 1;
  while (sheet.getCell(top, 1).value !== 'Belt') top += 1;
  const heads = sheet.getRow(top).values as readonly unknown[];
  const at = (header: string): number => heads.findIndex((text) => String(text).startsWith(header));
  sheet.getCell(top + 2, at('Thickness')).value = 9.5;
  sheet.getCell(top + 1, at('Inspection remark')).value = 'edge worn';
  const path = join(folder, 'Tern Quay inspection round (2).xlsx');
  await file.xlsx.writeFile(path);
  // Meanwhile here: the round says nothing of it, since it was sent before.
  await typeInto(page, `${letters('Thickness')}4`, '12.5');
  await compared(page, path);
  // The changed thickness, and the three columns in which a round says who saw what.
  await summary(page, /4 differences, 4 taken\. 1 change made only here stays\./);
  expect(await page.locator('.import-dialog .dialog-body').innerText()).toContain(
    'Both come from what this book last wrote to Tern Quay inspection round.xlsx',
  );
  await page.click('button:has-text("Take into this book")');
  await page.locator('dialog').waitFor({ state: 'detached' });
  expect([await held(page, `${letters('Thickness')}3`), await held(page, `${letters('Thickness')}4`)]).toEqual([
    '9.5',
    '12.5',
  ]);
  expect(complaints).toEqual([]);
});

/** A page whose choices of files on disk are answered with files of its own store, which are of the same kind. */
async function withDisk(page: Page): Promise<void> {
  await page.evaluate(() => {
    const chosen = async (): Promise<FileSystemFileHandle> =>
      (await navigator.storage.getDirectory()).getFileHandle('Quay.xlsx', { create: true });
    Object.assign(window, { showSaveFilePicker: chosen, showOpenFilePicker: async () => [await chosen()] });
  });
}

test('a book is saved to its file on disk, but not over what another program wrote there', async () => {
  const { page, complaints } = await browser.open();
  await withDisk(page);
  const size = (): Promise<number> =>
    page.evaluate(async () => {
      const file = await (await navigator.storage.getDirectory()).getFileHandle('Quay.xlsx');
      return (await file.getFile()).size;
    });
  await typeInto(page, `${width}2`, '611');
  await page.keyboard.press('Control+Shift+s');
  await page.locator('.notice', { hasText: 'Quay.xlsx was written' }).waitFor({ timeout: 50_000 });
  expect(await size()).toBeGreaterThan(10_000);
  const written = page.locator('.notice', { hasText: 'Quay.xlsx was written' });
  // Else it would be taken for the answer to the next one.
  await written.getByRole('button').click();
  await written.waitFor({ state: 'detached' });
  await typeInto(page, `${width}2`, '612');
  await page.keyboard.press('Control+Shift+s');
  await written.waitFor({ timeout: 50_000 });
  await choose(page, 'Book', 'Open a file on disk');
  await page.click('.import-dialog .button.primary:has-text("Compare with this book")', { timeout: 50_000 });
  await summary(page, 'brings nothing new');
  await page.keyboard.press('Escape');
  await page.evaluate(async () => {
    const file = await (await navigator.storage.getDirectory()).getFileHandle('Quay.xlsx');
    const writing = await file.createWritable();
    await writing.write('changed by another program');
    await writing.close();
  });
  await page.keyboard.press('Control+Shift+s');
  await page.locator('.notice', { hasText: 'was not saved: it was changed on disk' }).waitFor();
  expect(await size()).toBe('changed by another program'.length);
  expect(complaints).toEqual([]);
});
