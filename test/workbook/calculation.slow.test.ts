import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bookOf, randomBooks, soundBelt } from './books.ts';
import { differences } from './differences.ts';

/**
 * The compiled rows against the engine: two evaluators of the same formulas, which must agree on every value and error.
 */

test.each([
  ['hardly any strange cell', { belts: 1, series: 0, named: 0 }, 10],
  ['some strange cells', { belts: 8, series: 4, named: 3 }, 14],
  ['strange cells everywhere', { belts: 40, series: 30, named: 25 }, 10],
] as const)(
  'rows and cells agree: %s',
  (_, oddities, numRuns) => {
    fc.assert(
      fc.property(randomBooks(oddities), (state) => {
        expect(differences(state)).toEqual([]);
      }),
      { numRuns },
    );
  },
  120_000,
);

test('the comparison sees one formula that differs', () => {
  expect(differences(bookOf({ belts: [soundBelt] }))).toEqual([]);
  const found = differences(bookOf({ belts: [soundBelt] }), (formula) => formula.replace('SKEWLOSS', 'SKEWLENGTH'));
  expect(found.map((line) => line.split(':')[0])).toEqual(['Belts, B1, Belt lost to skew', 'Belts, B1, Belt to order']);
});
