import { afterAll, beforeAll, expect, test } from 'vitest';
import { letters } from '../workbook/books.ts';
import { formula, goTo, TestBrowser } from './opened-page.ts';

/** A pasted list with habits of its own: what the user says of it holds for the next one with these headers. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

const month = (last: string): string =>
  ['Conveyor\tWidth (mm)\tLagging', `C1\t800\tRUBBER`, 'C2\t1000\tRUBBER', 'Spare\t0\t', last].join('\n');

test('rows are pasted, a text gets its meaning, a row is left out, and next month all of it is known', async () => {
  const { page, complaints } = await browser.open();
  const paste = async (text: string): Promise<void> => {
    await page.keyboard.press('Control+o');
    await page.locator('.import-dialog textarea').fill(text);
    await page.click('button:has-text("Read the pasted rows")');
  };
  await paste(month('C3\t1200\tceramic'));
  const wrong = page.locator('.import-dialog section', { hasText: 'Cells that could not be understood: 2' });
  await wrong.locator('tbody tr').first().waitFor();
  expect(await wrong.locator('tbody tr').count()).toBe(1);
  await page.getByLabel('What RUBBER means in Drive pulley surface').selectOption('bare steel');
  await page.getByText('Cells that could not be understood: 0').waitFor();
  await page.getByLabel('Name or first text of the row').fill('spare');
  await page.keyboard.press('Enter');
  await page.getByText('3 rows of Belts from "Text"').waitFor();
  await page.getByRole('button', { name: 'Fill Wrap angle with 180' }).click();
  await page.getByText('Wrap angle: 3 blank cells filled with 180, as you chose').waitFor();
  await page.click('button.primary:has-text("Import")');
  await goTo(page, `${letters('Drive pulley surface')}2`);
  expect(await formula(page)).toBe('bare steel');

  await paste(month('C4\t1400\tRUBBER'));
  await page.getByText('Read as you chose for the last list with these headers').waitFor();
  await page.getByText('3 rows of Belts from "Text"').waitFor();
  await page.getByText('Cells that could not be understood: 0').waitFor();
  await page.click('button:has-text("Forget those choices")');
  await page.getByText('Cells that could not be understood: 3').waitFor();
  await page.keyboard.press('Escape');
  // While a dialog is open nothing is taken.
  await page.locator('.import-dialog').waitFor({ state: 'detached' });

  // A file that misses the dialog is no reason to leave the page for it.
  await page.evaluate(() => {
    const files = new DataTransfer();
    files.items.add(new File(['Conveyor,Belt width (mm)\nD1,650\nD2,800\n'], 'dropped.csv'));
    for (const type of ['dragover', 'drop'])
      document
        .querySelector('.grids')
        ?.dispatchEvent(new DragEvent(type, { dataTransfer: files, bubbles: true, cancelable: true }));
  });
  await page.locator('.import-summary', { hasText: 'dropped.csv: 2 rows of Belts' }).waitFor();
  expect(complaints).toEqual([]);
});
