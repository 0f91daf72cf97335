import { expect, test } from 'vitest';
import { readFirstLook } from '../../src/page/first-look.ts';
import { enteredLook, firstLookAt } from '../../src/page/first-texts.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { sheetOf } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** What there is to read of a large book while it is opened. */

const state = demoBook('us');
const book = new Workbook(state);
const cell = (look: ReturnType<typeof enteredLook> | undefined, row: number, header: string): string | undefined =>
  look?.rows[row]?.cells[look.headers.findIndex((one) => one.startsWith(header))];

test('the look that is kept has the records as they are seen, with what they show', () => {
  const look = firstLookAt(book, [5, 2]);
  expect(look?.rows.map(({ row }) => row)).toEqual([7, 4]);
  expect(cell(look, 1, 'Verdict')).toBe(book.read('Belts', 2, 'Verdict'));
  expect(cell(look, 0, 'Belt')).toBe(book.read('Belts', 5, 'Belt'));
  expect(readFirstLook(structuredClone(look))).toEqual(look);
});

test('without one the rows stand as they were entered, and what is worked out is left open', () => {
  const look = enteredLook(sheetOf(state, 'Belts'), state);
  expect(look.headers).toEqual(firstLookAt(book, [0])?.headers);
  expect(cell(look, 0, 'Verdict')).toBe('…');
  expect(cell(look, 3, 'Belt')).toBe(book.read('Belts', 3, 'Belt'));
});

test.each([
  [undefined],
  [null],
  ['look'],
  [{ sheet: 'Belts', headers: [1], rows: [] }],
  [{ sheet: 'Belts', headers: [] }],
])('a damaged look is none: %j', (stored) => expect(readFirstLook(stored)).toBeUndefined());

test('damaged rows of a look are left out', () => {
  const rows = [null, { row: '1', cells: [] }, { row: 2, cells: ['C1', 3] }, { row: 3, cells: ['C2'] }];
  expect(readFirstLook({ sheet: 'Belts', headers: ['Belt'], rows })?.rows).toEqual([{ row: 3, cells: ['C2'] }]);
});
