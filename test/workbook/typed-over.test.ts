import { afterAll, expect, test } from 'vitest';
import { entryText } from '../../src/page/cell-text.ts';
import { understood } from '../../src/records/typed-entry.ts';
import { isFault } from '../../src/formula/values.ts';
import { compiledSheets } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { ownFormulaWords } from '../../src/workbook/formula-words.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Sheets' own formulas as the bar shows them, typed over themselves. */

const book = new Workbook(demoBook());
afterAll(() => book.destroy());

test('what the bar shows of a computed cell gives the same figure when it is typed', () => {
  const other: string[] = [];
  let tried = 0;
  for (const [sheet, plan] of compiledSheets) {
    const record = Math.min(2, book.sheet(sheet).rows.length - 1);
    if (record < 0) continue;
    const places = [...plan.trees.keys()].map((column) => ({ sheet, record, column }));
    const before = places.map((place) => book.value(place));
    // A blank in front: the same text would bring the sheet's own formula back.
    const edits = places.map((place) => {
      const { content } = understood(book, place, `=IF(TRUE(),${entryText(book, place).slice(1)})`);
      return { ...place, content };
    });
    book.edit(edits);
    places.forEach((place, at) => {
      const [was, now] = [before[at], book.value(place)];
      const alike =
        was === now ||
        (typeof was === 'number' && typeof now === 'number' && Math.abs(was - now) <= 1e-9 * Math.abs(was)) ||
        isFault(was);
      if (!isFault(was)) tried += 1;
      if (!alike) other.push(`${sheet}.${plan.columns[place.column]?.header}: ${String(was)} ${String(now)}`);
    });
    book.edit(places.map((place) => ({ ...place, content: null })));
  }
  expect(other).toEqual([]);
  expect(tried).toBeGreaterThan(150);
});

test('the very formula typed is no override, and one typed over it is told of', () => {
  const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Cut length') };
  const words = entryText(book, place);
  expect(words).toBe(ownFormulaWords('Belts', place.column, 'metric'));
  expect(words).not.toContain('ISNUMBER');
  expect(understood(book, place, words)).toEqual({ content: null });
  expect(understood(book, place, '=[Width]*2').told).toContain('an empty cell counts as 0');
});

test('places in columns count from the first record, as in columns that are typed', () => {
  const words = (header: 'Series row' | 'Plates'): string | undefined =>
    ownFormulaWords('Belts', book.column('Belts', header), 'metric');
  expect(words('Series row')).toContain("MATCH([Plate series],'Plate series'[Series],0)+1");
  expect(words('Plates')).toContain("INDEX('Plate series'[Pitch],[Series row]-1)");
});
