import { expect, test } from 'vitest';
import { countToToday, dayNote } from '../../src/page/later-opening.ts';
import { serialOf } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { reviewDate, reviewedToday, withAssumption } from '../../src/workbook/lent-sheets.ts';
import { today } from '../../src/workbook/present-day.ts';
import type { Content } from '../../src/formula/values.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, soundBelt } from '../workbook/books.ts';

/** A book that is opened later says to which day it counts and what became due since. */

const day = (year: number, month: number, date: number): number => serialOf(year, month, date) ?? 0;
const installed = (...days: readonly Content[]) =>
  bookOf({
    belts: days.map((Installed, at) => ({
      ...soundBelt,
      Belt: `B${at + 1}`,
      Installed,
      'Hours per year': 5000,
      'Joint life': 10_000,
      'Life in passes': null,
    })),
  });

// A life of 10,000 h at 5,000 h a year is two years (731 days with the leap day of 2024).
const state = installed(day(2024, 1, 10), day(2024, 3, 10), day(2024, 9, 10));

test('a book that counts to today names the joints that became due since it was changed last', () => {
  const book = new Workbook(reviewedToday(state));
  const note = dayNote(book, day(2026, 2, 1), day(2026, 4, 1));
  expect(note?.text).toBe(
    'This book was last changed on 2026-02-01. Joint ages count to today, 2026-04-01. One joint has reached the ' +
      'expected life since then:',
  );
  expect(note?.belts).toEqual([{ name: 'B2', record: 1 }]);
  expect(dayNote(book, day(2026, 4, 1), day(2026, 4, 1))).toBeUndefined();
  expect(dayNote(book, day(2026, 4, 1), day(2026, 4, 2))?.text).toContain('No joint has reached');
  expect(dayNote(book, undefined, day(2026, 4, 1))).toBeUndefined();
});

test('a joint whose due date nobody knows is never passed over', () => {
  const note = dayNote(new Workbook(reviewedToday(installed(null, day(2025, 1, 1)))), day(2026, 2, 1), day(2026, 4, 1));
  expect(note?.text).toMatch(/The due date of 1 joint is not known\. No other joint has reached/);
  expect(note?.belts).toEqual([]);
});

test('a book with a day that is set says so, and counts to today when asked, in one step', () => {
  const set = day(2026, 2, 1);
  const book = new Workbook(withAssumption(state, reviewDate, set));
  const note = dayNote(book, undefined, day(2026, 4, 1));
  expect([note?.set, note?.belts.map(({ name }) => name)]).toEqual([true, ['B2']]);
  expect(note?.text).toContain('Joint ages count to 2026-02-01, which is set as ReviewDate; today is 2026-04-01.');
  expect(dayNote(book, undefined, set)).toBeUndefined();
  countToToday(book);
  expect(book.named(reviewDate)).toBe(today());
  book.undo();
  expect(book.named(reviewDate)).toBe(set);
});

test('nothing is said of an invented book, whose days are invented too', () => {
  expect(dayNote(new Workbook(demoBook('metric')), undefined, day(2030, 1, 1))).toBeUndefined();
});
