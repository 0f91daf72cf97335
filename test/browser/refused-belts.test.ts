import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { CheckHeader } from '../../sheets/belts/check-columns.ts';
import { findings } from '../../src/checks/findings.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { misjudged, refusedBook, trials } from '../checks/refused-belts.ts';
import { goTo, TestBrowser } from './opened-page.ts';

/** Belts made to be refused for one thing each, imported into the page: it refuses them, and lets their twins pass. */

let browser: TestBrowser;
const folder = mkdtempSync(join(tmpdir(), 'skewbook-refused-'));

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(async () => {
  await browser.stop();
  rmSync(folder, { recursive: true });
});

/** What a book that the page wrote says of each belt, by the position of a column. */
function verdictsIn(file: string): (belt: string, check: CheckHeader) => unknown {
  const rows = readBook(readFileSync(file)).sheets.find(({ name }) => name === 'Belts')?.rows;
  const belts = new Map(
    [...(rows?.values() ?? [])].map((cells) => {
      const at = (place: number): unknown => cells.find(({ column }) => column === place + 1)?.value;
      return [String(at(headerPosition('Belts', 'Belt'))), at] as const;
    }),
  );
  return (belt, check) => belts.get(belt)?.(headerPosition('Belts', check));
}

test('the page refuses each of them, in either unit system', async () => {
  const book = refusedBook('metric');
  const list = join(folder, 'refused.xlsx');
  writeFileSync(list, (await exportedBook(book, findings(book))).bytes);
  const { page, context, complaints } = await browser.open();
  await page.keyboard.press('Control+o');
  await page.setInputFiles('input[type=file]', list);
  await page.click('.import-dialog .button.primary:has-text("Import"):not([disabled])', { timeout: 50_000 });
  await page.locator('.count', { hasText: `${2 * trials.length} rows` }).waitFor();
  for (const units of ['metric', 'us']) {
    await page.selectOption('select[aria-label="Units of the book"]', units);
    await goTo(page, 'A2');
    const kept = join(folder, `${units}.xlsx`);
    const download = page.waitForEvent('download', { timeout: 50_000 });
    await page.keyboard.press('Control+s');
    await (await download).saveAs(kept);
    expect(misjudged(verdictsIn(kept)), units).toEqual([]);
  }
  expect(complaints).toEqual([]);
  await context.close();
});
