import { beforeAll, describe, expect, test } from 'vitest';
import { Workbook } from '../../../src/workbook/workbook.ts';
import type { RawBook, RawCell } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { bookOf, loopOf, soundBelt } from '../../workbook/books.ts';
import { stamp } from './exported-book.ts';

/** Formulas of an exported book are short enough to be read: no longer than a person would have typed them. */

let file: RawBook;
beforeAll(async () => {
  const book = new Workbook(bookOf({ belts: [soundBelt], pulleys: loopOf(String(soundBelt['Belt'])) }));
  file = readBook((await exportedBook(book, [], { stamp })).bytes, readLimits, true);
});

const rowOf = (sheet: string, row: number): readonly RawCell[] =>
  file.sheets.find(({ name }) => name === sheet)?.rows.get(row) ?? [];
const formulasOf = (sheet: string): string[] => rowOf(sheet, 2).flatMap(({ formula }) => formula ?? []);
const median = (numbers: readonly number[]): number =>
  numbers.toSorted((one, other) => one - other)[Math.floor(numbers.length / 2)] ?? Number.NaN;

describe.each([
  ['Belts', 56, 27_450],
  ['Pulleys', 135, 9_000],
  ['Plate series', 80, 4_500],
])('%s', (sheet, most, whole) => {
  test('no formula has more than 255 characters', () => {
    expect(formulasOf(sheet).filter(({ length }) => length > 255)).toEqual([]);
  });

  test('half of them are short, and so is a row', () => {
    const lengths = formulasOf(sheet).map(({ length }) => length);
    expect(lengths.length).toBeGreaterThan(40);
    expect(median(lengths)).toBeLessThanOrEqual(most);
    expect(lengths.reduce((sum, length) => sum + length, 0)).toBeLessThanOrEqual(whole);
  });

  test('every column has a heading of its own', () => {
    const headings = rowOf(sheet, 1).map(({ value }) => String(value));
    expect(headings).toHaveLength(rowOf(sheet, 2).at(-1)?.column ?? 0);
    expect(headings.filter((heading, index) => heading === '' || headings.indexOf(heading) < index)).toEqual([]);
  });
});
