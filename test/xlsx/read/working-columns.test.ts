import { expect, test } from 'vitest';
import { findings } from '../../../src/checks/findings.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { bookOf, soundBelt } from '../../workbook/books.ts';
import { withColumnAdded } from '../../../src/workbook/state-changes.ts';
import { KeptTexts } from '../../../src/xlsx/read/kept-texts.ts';

/** What is not read of this program's own books. */

test('working columns have only their headings, and an own column of such a name keeps its cells', async () => {
  const plain = new Workbook(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'B2' }] }));
  const all = readBook((await exportedBook(plain, [])).bytes, readLimits, true).sheets[0];
  const named = withColumnAdded(plain.state, 'Belts', { header: 'Width, checked', kind: 'text' });
  const own = plain.columns('Belts').length;
  const book = new Workbook({
    ...named,
    sheets: named.sheets.map((sheet) =>
      sheet.name === 'Belts'
        ? { ...sheet, rows: sheet.rows.map(({ cells }) => ({ cells: [...cells.slice(0, own), 'mine'] })) }
        : sheet,
    ),
  });
  const { bytes } = await exportedBook(book, []);
  const read = readBook(bytes).sheets[0];
  const whole = readBook(bytes, readLimits, true).sheets[0];
  expect(all?.rows.get(1)?.some(({ value }) => value === 'Width, checked')).toBe(true);
  expect(read?.rows.get(1)).toHaveLength(whole?.rows.get(1)?.length ?? 0);
  for (const row of [2, 3]) {
    expect(read?.rows.get(row)?.length).toBeLessThan((whole?.rows.get(row)?.length ?? 0) - 100);
    expect(read?.rows.get(row)?.find(({ column }) => column === own + 1)?.value).toBe('mine');
    expect(Math.max(...(read?.rows.get(row) ?? []).map(({ column }) => column))).toBe(own + 1);
  }
});

test('sheets that every export writes anew have no cells', async () => {
  const book = new Workbook(bookOf({ belts: [soundBelt] }));
  const { bytes } = await exportedBook(book, findings(book));
  const filled = (all: boolean): string[] =>
    readBook(bytes, readLimits, all).sheets.flatMap(({ name, rows }) => (rows.size === 0 ? [] : [name]));
  expect(filled(true)).toEqual(expect.arrayContaining(['Belts', 'Findings', 'Functions', 'About']));
  expect(filled(false)).toEqual(filled(true).filter((name) => name !== 'Findings' && name !== 'Functions'));
});

test('texts are kept as they are, alike ones once', () => {
  const texts = new KeptTexts();
  for (const text of ['', 'fits', 'a'.repeat(500), ' x ', '\u{1F600}']) expect(texts.kept(text)).toBe(text);
});
