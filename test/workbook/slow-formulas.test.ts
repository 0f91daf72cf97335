import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { isFault } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { RefusedChange } from '../../src/workbook/refused-change.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, soundBelt } from './books.ts';

/** Formulas that take long end in an error that says so, and too many of them in a refusal; the book goes on. */

/** Milliseconds by which each call of SKEWLENGTH moves the clock. */
let pace = 0;
let calls = 0;
beforeEach(() => {
  let now = 0;
  [pace, calls] = [0, 0];
  vi.spyOn(performance, 'now').mockImplementation(() => now);
  const slow = functions.find(({ name }) => name === 'SKEWLENGTH');
  if (slow === undefined) throw new Error('there is no function SKEWLENGTH any more');
  vi.spyOn(slow, 'evaluate').mockImplementation(() => {
    now += pace;
    calls += 1;
    return 900;
  });
});
afterEach(() => {
  vi.restoreAllMocks();
});

const belts = Array.from({ length: 30 }, (_, index) => ({ ...soundBelt, Belt: `B${index}` }));
const started = (): Workbook => new Workbook(bookOf({ belts }));
const width = (book: Workbook, record: number): { sheet: string; record: number; column: number } => ({
  sheet: 'Belts',
  record,
  column: book.column('Belts', 'Width'),
});
const shown = (book: Workbook, record: number): string => String(book.read('Belts', record, 'Width'));
const sum = (count: number): string => `SUM(${Array<string>(count).fill('SKEWLENGTH(1,2)').join(',')})`;

test('a formula that takes long is an error that says so, and is taken out like any other', () => {
  const book = started();
  pace = 1_000;
  book.edit([{ ...width(book, 0), content: `=IFERROR(${sum(6)},1)` }]);
  const value = book.read('Belts', 0, 'Width');
  expect(isFault(value) ? [value.code, value.message] : value).toEqual([
    '#NUM!',
    expect.stringContaining('the formula takes more than 5 s to calculate'),
  ]);
  book.edit([{ ...width(book, 1), content: '=1000-100' }]);
  expect(shown(book, 1)).toBe('900');
  book.edit([{ ...width(book, 0), content: 700 }]);
  expect(shown(book, 0)).toBe('700');
});

test('the parts of a formula that are left when its time is over are not begun', () => {
  const book = started();
  book.edit([{ ...width(book, 1), content: `=${sum(1)}` }]);
  [pace, calls] = [1_000, 0];
  book.edit([{ ...width(book, 0), content: `=${sum(200)}` }]);
  expect(shown(book, 0)).toContain('more than 5 s');
  expect(calls).toBeLessThan(20);
});

test('a formula that takes less is calculated', () => {
  const book = started();
  pace = 1_000;
  book.edit([{ ...width(book, 0), content: `=${sum(5)}` }]);
  expect(shown(book, 0)).toBe('4500');
});

test('too many slow formulas are refused in a sentence, and the book is as before', () => {
  const book = started();
  const { state } = book;
  const edits = belts.map((_, record) => ({ ...width(book, record), content: `=${sum(1)}` }));
  pace = 1_000;
  expect(() => book.edit(edits)).toThrow(RefusedChange);
  expect(() => book.edit(edits)).toThrow(
    'was refused, and the book is unchanged: its slow formulas take more than 20 s to calculate',
  );
  expect([book.state, book.undoable]).toEqual([state, undefined]);
  // Each change has the time to itself.
  for (const edit of edits.slice(0, 8)) book.edit([edit]);
  expect(shown(book, 7)).toBe('900');
});

test('any number of quick formulas is calculated', () => {
  const book = started();
  pace = 400;
  book.edit(belts.map((_, record) => ({ ...width(book, record), content: `=${sum(1)}` })));
  book.edit(belts.map((_, record) => ({ ...width(book, record), content: `=${sum(1)}+${record}` })));
  expect([calls * pace > 20_000, shown(book, 11)]).toEqual([true, '911']);
});
