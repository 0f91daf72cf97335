import { afterAll, expect, test } from 'vitest';
import { emptyBook } from '../../src/workbook/declared.ts';
import { markedReferences } from '../../src/workbook/formula-references.ts';
import { cellBeyond } from '../../src/workbook/destinations.ts';
import { explained } from '../../src/workbook/explanation.ts';
import { withColumnNames } from '../../src/workbook/column-references.ts';
import { entryText } from '../../src/page/cell-text.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** What a formula refers to while it is typed, and how columns are spelt in it. */

const book = new Workbook(emptyBook('metric'));
afterAll(() => book.destroy());
book.addRecords('Belts', 0, [[], [], []]);
book.addSheet('Mine', 3, 3);
const width = book.column('Belts', 'Width');
const at = { sheet: 'Belts', record: 1, column: 0 };

const marks = (formula: string): unknown[] =>
  markedReferences(formula, at, book.state).map(({ start, end, number, cells }) => [
    formula.slice(start, end),
    number,
    `${cells.sheet} ${cells.top}-${cells.bottom} ${cells.left}-${cells.right}`,
  ]);

test('cells, ranges, columns by name and named values, the same ones with the same number', () => {
  expect(marks('=[Width]+D3*SUM(Belts[Width],Mine!A2:B3)+TightMargin+$D$3')).toEqual([
    ['[Width]', 0, `Belts 1-1 ${width}-${width}`],
    ['D3', 0, `Belts 1-1 ${width}-${width}`],
    ['Belts[Width]', 1, `Belts 0-2 ${width}-${width}`],
    ['Mine!A2:B3', 2, 'Mine 0-1 0-1'],
    ['TightMargin', 3, 'Assumptions 0-0 1-1'],
    ['$D$3', 0, `Belts 1-1 ${width}-${width}`],
  ]);
});

test('half a formula has its references, texts and functions have none', () => {
  expect(marks('=SUM(D2:D4,"D3 TightMargin",')).toEqual([['D2:D4', 0, `Belts 0-2 ${width}-${width}`]]);
  expect(marks('=LOG10(2)+NoSuch+Nowhere!A1')).toEqual([]);
  expect(marks('=D:D')).toEqual([['D:D', 0, `Belts 0-Infinity ${width}-${width}`]]);
});

test('a column is spelt as it is typed: in the bar, in Working and by explain', () => {
  const column = book.column('Belts', 'Cut length');
  const place = { sheet: 'Belts', record: 1, column };
  const { words = '' } = explained(book, place);
  expect(words).toContain('[Width]');
  expect(words).not.toMatch(/[{}]/);
  const bar = entryText(book, place);
  expect(bar).toBe(words);
});

test('what only looks like a name stays a reference', () => {
  const spelt = (formula: string): string => withColumnNames(formula, at, book.state);
  expect(spelt('=$D3+D3+$D2+$D$3')).toBe('=[Width]+D3+$D2+$D$3');
  expect(spelt('=SUM(Belts!$D$2:$D$4)+SUM($D$2:$D$3)')).toBe('=SUM(Belts[Width])+SUM($D$2:$D$3)');
  expect(spelt('="$D3"')).toBe('="$D3"');
});

test('a free sheet grows to where one goes, the book’s own do not', () => {
  const here = { sheet: 'Mine', record: 0, column: 0 };
  expect(cellBeyond('Z60', book.state, here)).toEqual({ sheet: 'Mine', record: 58, column: 25 });
  expect(cellBeyond('ZZ99999', book.state, here)).toBeUndefined();
  expect(cellBeyond('A60', book.state, at)).toBeUndefined();
  expect(cellBeyond('Z:Z', book.state, here)).toBeUndefined();
});
