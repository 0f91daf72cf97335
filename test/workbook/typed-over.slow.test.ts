import { afterAll, expect, test } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { entryText } from '../../src/page/cell-text.ts';
import { understood } from '../../src/records/typed-entry.ts';
import { isFault } from '../../src/formula/values.ts';
import { compiledSheets } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { ownFormulaWords } from '../../src/workbook/formula-words.ts';
import { namedSheets } from '../../sheets/index.ts';
import { functions } from '../../src/functions/index.ts';
import { standardGroups } from '../../src/formula/standard-functions.ts';
import { typedFault } from '../../src/workbook/typed-formula.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Sheets' own formulas as the bar shows them, typed over themselves. */

const book = new Workbook(demoBook('metric'));
const knownNames = {
  functions: [...functions, ...standardGroups.flatMap((group) => group.functions)].map(({ name }) => name),
  values: namedSheets.flatMap(({ values }) => values.map(({ name }) => name)),
};
afterAll(() => book.destroy());

test('what the bar shows of a computed cell gives the same figure when it is typed', () => {
  const other: string[] = [];
  const [typedTexts, shown]: [string[], string[]] = [[], []];
  let tried = 0;
  for (const [sheet, plan] of compiledSheets) {
    const record = Math.min(2, book.sheet(sheet).rows.length - 1);
    if (record < 0) continue;
    const places = [...plan.trees.keys()].map((column) => ({ sheet, record, column }));
    const before = places.map((place) => book.value(place));
    // The same text would bring the sheet's own formula back.
    const edits = places.map((place) => {
      const typed = `=IF(TRUE(),${entryText(book, place).slice(1)})`;
      expect(typedFault(typed, place, book.state, knownNames)).toBeUndefined();
      const { content } = understood(book, place, typed);
      typedTexts.push(typed);
      return { ...place, content };
    });
    book.edit(edits);
    shown.push(...places.map((place) => entryText(book, place)));
    places.forEach((place, at) => {
      const [was, now] = [before[at], book.value(place)];
      const alike =
        was === now ||
        (typeof was === 'number' && typeof now === 'number' && Math.abs(was - now) <= 1e-9 * Math.abs(was)) ||
        (isFault(was) && isFault(now) && was.code === now.code);
      tried += 1;
      if (!alike) other.push(`${sheet}.${plan.columns[place.column]?.header}: ${String(was)} ${String(now)}`);
    });
    book.edit(places.map((place) => ({ ...place, content: null })));
  }
  expect(other).toEqual([]);
  // ISWRONG, which only the sheets' own formulas know, is spelt out where it was typed.
  const comparable = (texts: readonly string[]) =>
    texts.filter((_, at) => typedTexts[at]?.includes('ISWRONG') !== true);
  expect(comparable(shown)).toEqual(comparable(typedTexts));
  expect(tried).toBeGreaterThan(150);
});

test('the very formula typed is no override, and shows no guard', () => {
  const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Cut length') };
  const words = entryText(book, place);
  expect(words).toBe(ownFormulaWords('Belts', place.column, 'metric'));
  expect(words).not.toContain('ISNUMBER');
  expect(understood(book, place, words)).toEqual({ content: null });
});

test('places in columns count from the first record, as in columns that are typed', () => {
  const words = (header: 'Series row' | 'Plates'): string | undefined =>
    ownFormulaWords('Belts', book.column('Belts', header), 'metric');
  expect(words('Series row')).toContain("MATCH([Plate series],'Plate series'[Series],0)+1");
  expect(words('Plates')).toContain("INDEX('Plate series'[Pitch],[Series row]-1)");
});

test('a formula typed over another refuses a missing input as the sheet does, and shows as it was typed', () => {
  const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Cut length') };
  const width = { ...place, column: book.column('Belts', 'Width') };
  const was = book.content(width);
  for (const typed of ['=[Width]*2', `=${columnLetters(width.column)}2*2`]) {
    book.edit([{ ...place, content: understood(book, place, typed).content }]);
    expect(book.value(place)).toBe(Number(was) * 2);
    expect(entryText(book, place)).toBe(typed);
    expect(understood(book, place, String(book.content(place))).content).toBe(book.content(place));
    book.edit([{ ...width, content: null }]);
    expect(isFault(book.value(place))).toBe(true);
    book.edit([
      { ...width, content: was },
      { ...place, content: null },
    ]);
  }
});
