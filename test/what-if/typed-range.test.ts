import { expect, test } from 'vitest';
import { factorNamed } from '../../src/what-if/known-factors.ts';
import { typedRange } from '../../src/what-if/typed-range.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A range and its steps as people type them. */

const book = new Workbook(demoBook('metric'));
const range = (by: string, typed: Parameters<typeof typedRange>[2]): ReturnType<typeof typedRange> =>
  typedRange(factorNamed(book, by), book, typed, (end) => end);

test('ends and steps read in any unit, and blanks say nothing', () => {
  expect(range('Width', { from: '80 cm', to: '1.2 m', step: ' ' })).toEqual({ from: 800, to: 1200 });
  expect(range('Skew', { from: '', to: undefined, step: '0.5°' })).toEqual({ step: 0.5 });
});

test('what cannot be read, and a range that is none, is refused by name', () => {
  expect(() => range('Width', { from: 'wide' })).toThrow(/^from: "wide" was not understood/);
  expect(() => range('Width', { step: '0' })).toThrow(/^step must be more than 0/);
  expect(() => range('Width', { from: '1 m', to: '900' })).toThrow(/^from must not be above to/);
});
