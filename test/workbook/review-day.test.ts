import { afterEach, expect, test, vi } from 'vitest';
import { serialOf } from '../../src/units/dates.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { reviewDate, reviewedToday, withAssumption } from '../../src/workbook/lent-sheets.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

afterEach(() => {
  vi.useRealTimers();
});

const at = (year: number, month: number, day: number): void => {
  vi.setSystemTime(new Date(year, month - 1, day, 12));
};

test('a book that counts to today counts to another day when it is opened later', () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  const state = reviewedToday(emptyBook('metric'));
  for (const [year, month, day] of [
    [2027, 3, 1],
    [2028, 2, 29],
  ] as const) {
    at(year, month, day);
    const book = new Workbook(state);
    expect(book.named(reviewDate)).toBe(serialOf(year, month, day));
    // A user's formula that leads there sees the same day.
    expect(book.evaluate('=ReviewDate')).toBe(serialOf(year, month, day));
    book.destroy();
  }
});

test('a day that is set stays, and may be given up and set again in an open book', () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  at(2027, 3, 1);
  const book = new Workbook(withAssumption(emptyBook('metric'), reviewDate, 46_000));
  expect(book.named(reviewDate)).toBe(46_000);
  const record = book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === reviewDate);
  const place = { sheet: 'Assumptions', record, column: 1 };
  book.edit([{ ...place, content: '=today( )' }]);
  expect(book.named(reviewDate)).toBe(serialOf(2027, 3, 1));
  book.edit([{ ...place, content: 46_001 }]);
  expect([book.named(reviewDate), book.value(place)]).toEqual([46_001, 46_001]);
  book.undo();
  expect(book.named(reviewDate)).toBe(serialOf(2027, 3, 1));
});
