import { expect, test } from 'vitest';
import { adaptedBook, presentColumns } from '../../src/workbook/adapted-book.ts';
import { columnLetters } from '../../src/formula/address.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { columnOf, bookOf, letters, soundBelt } from './books.ts';

/**
 * Books stored by another version: columns by header, formulas along with them, sheets that came since as in an empty
 * book.
 */

const book = bookOf({
  belts: [soundBelt, { ...soundBelt, Belt: 'B2', 'Skive depth': `=${letters('Cut length')}2/1000` }],
});

test('a book of this version comes back as it is', () => {
  expect(adaptedBook(book, presentColumns())).toEqual({ state: book, told: [] });
});

test('columns that stood elsewhere, or not at all, are found by their headers; formulas follow', () => {
  const now = presentColumns()['Belts'] ?? [];
  const before = now
    .filter((header) => !['Belt mass', 'Pulleys listed', 'Belt strength'].includes(header))
    .toReversed();
  const stored: BookState = {
    ...book,
    sheets: book.sheets.flatMap((sheet) => {
      if (sheet.name === 'Pulleys' || sheet.name === 'Tables') return [];
      if (sheet.name === 'Assumptions') return [{ ...sheet, rows: sheet.rows.slice(2) }];
      if (sheet.name !== 'Belts') return [sheet];
      const own = 'Cleaner reach';
      return [
        {
          ...sheet,
          userColumns: [{ header: own, kind: 'length' as const }],
          rows: sheet.rows.map((row, index) => ({
            cells: [
              ...before.map((header) =>
                header === 'Skive depth' && index === 1 ? '=A2&"x"' : (row.cells[now.indexOf(header)] ?? null),
              ),
              7 + index,
            ],
          })),
        },
      ];
    }),
  };
  const { state: adapted } = adaptedBook(stored, { Belts: before });
  const anew = new Workbook(adapted);
  expect(anew.read('Belts', 0, 'Verdict')).toBe(new Workbook(book).read('Belts', 0, 'Verdict'));
  expect(anew.value({ sheet: 'Belts', record: 1, column: columnOf(anew, 'Belts', 'Cleaner reach') })).toBe(8);
  expect(anew.content({ sheet: 'Belts', record: 1, column: anew.column('Belts', 'Skive depth') })).toBe(
    `=${columnLetters(columnOf(anew, 'Belts', before[0] ?? ''))}2&"x"`,
  );
  expect(adapted.sheets.map(({ name }) => name)).toEqual(book.sheets.map(({ name }) => name));
  expect(anew.named('TightMargin')).toBe(0.05);
  expect(anew.named('FrictionCeramicWet')).toBe(0.35);
});
