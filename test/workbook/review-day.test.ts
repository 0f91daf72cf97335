import { afterEach, expect, test, vi } from 'vitest';
import { serialOf } from '../../src/units/dates.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { assumption, reviewDate, reviewedToday } from '../../src/workbook/lent-sheets.ts';

afterEach(() => {
  vi.useRealTimers();
});

test('a list that is read later counts its ages to a later day', () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  for (const [year, month, day] of [
    [2027, 3, 1],
    [2028, 2, 29],
  ] as const) {
    vi.setSystemTime(new Date(year, month - 1, day, 12));
    expect(assumption(reviewedToday(emptyBook('metric')), reviewDate)).toBe(serialOf(year, month, day));
  }
});
