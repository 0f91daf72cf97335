import { describe, expect, test } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import { readDate } from '../../src/units/dates.ts';
import { filledSeries } from '../../src/workbook/fill-series.ts';

const day = (text: string): number => {
  const read = readDate(text);
  if (!('serial' in read)) throw new Error(`${text} is no day`);
  return read.serial;
};
const next = (contents: Content[], count: number, filling = { days: false, counting: true }): Content[] | undefined => {
  const series = filledSeries(contents, filling);
  return series === undefined
    ? undefined
    : Array.from({ length: count }, (_, index) => series(contents.length + index));
};
const days = { days: true, counting: false };

describe('a series goes on', () => {
  test.each<[string, Content[], Content[]]>([
    ['numbers with a step', [1, 2], [3, 4]],
    ['falling', [10, 7, 4], [1, -2]],
    ['of tenths, without the noise of binary fractions', [0.1, 0.2], [0.3, 0.4, 0.5, 0.6, 0.7]],
    ['a name with a number', ['CV-107'], ['CV-108', 'CV-109']],
    ['two names with a step', ['CV-100', 'CV-110'], ['CV-120']],
    ['leading zeros stay', ['T 008', 'T 009'], ['T 010', 'T 011']],
    ['days that are texts', ['2026-02-27', '2026-02-28'], ['2026-03-01']],
    ['a number before the end', ['Line 9 north'], ['Line 10 north']],
  ])('%s', (_, contents, wanted) => {
    expect(next(contents, wanted.length)).toEqual(wanted);
  });

  test('one day alone, day by day, over the end of a month', () => {
    expect(next([day('2026-02-27')], 3, days)).toEqual(['2026-02-28', '2026-03-01', '2026-03-02'].map(day));
  });

  test('two days a week apart, weekly', () => {
    expect(next([day('2026-03-02'), day('2026-03-09')], 1, days)).toEqual([day('2026-03-16')]);
  });

  test("a day a month, the month's last where it is shorter", () => {
    expect(next([day('2026-01-31'), day('2026-02-28')], 3, days)).toEqual(
      ['2026-03-31', '2026-04-30', '2026-05-31'].map(day),
    );
    expect(next([day('2024-02-29'), day('2025-02-28')], 1, days)).toEqual([day('2026-02-28')]);
  });

  test('backwards', () => {
    expect(filledSeries([5, 7], { days: false, counting: false })?.(-1)).toBe(3);
    expect(filledSeries(['CV-2'], { days: false, counting: true })?.(-1)).toBe('CV-1');
  });
});

describe('what is no series is repeated', () => {
  test.each<[string, Content[]]>([
    ['one number', [1200]],
    ['numbers with steps that differ', [1, 2, 4]],
    ['words', ['Monday', 'Tuesday']],
    ['numbers and words', [1, 'two']],
    ['formulas', ['=A1', '=A2']],
    ['an empty cell', [null]],
    ['a cell left empty', [1, null]],
    ['truths', [true, true]],
    ['nothing', []],
  ])('%s', (_, contents) => {
    expect(next(contents, 1)).toBeUndefined();
  });

  test('one text with a number, where texts are no names', () => {
    expect(next(['EP 630/4'], 1, { days: false, counting: false })).toBeUndefined();
  });
});
