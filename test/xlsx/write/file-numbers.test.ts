import ExcelJS from 'exceljs';
import { expect, test } from 'vitest';
import { OwnNumbers } from '../../../src/xlsx/write/file-numbers.ts';

test('a file says so many texts once, and all others stand in their cells', () => {
  const numbers = new OwnNumbers(new ExcelJS.Workbook());
  const first = numbers.text('text 0');
  const numbered = Array.from({ length: 150_000 }, (_, index) => numbers.text(`text ${index}`));
  expect(new Set(numbered.slice(0, 100_000)).size).toBe(100_000);
  expect(numbered.indexOf(undefined)).toBe(100_000);
  expect(new Set(numbered.slice(100_000))).toEqual(new Set([undefined]));
  expect([numbers.text('text 0'), numbers.text('text 99999'), numbers.text('text 100000')]).toEqual([
    first,
    numbered[99_999],
    undefined,
  ]);
});
