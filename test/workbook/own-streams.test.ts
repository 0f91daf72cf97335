import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import type { Column } from '../../src/sheet/declaration.ts';
import { type Cells, extremes, inputsOf, randomParts, randomRow } from './books.ts';
import { ownStreams } from './own-streams.ts';

const likely = (): fc.Arbitrary<Content> => fc.integer({ min: 1, max: 1_000_000 });
const rowsOf = (columns: readonly Column[], seed = 5): Cells[] =>
  fc.sample(randomRow('Belts', columns, likely, 20), { seed, numRuns: 40 });
const without = (cells: Cells, header: string): Cells =>
  Object.fromEntries(Object.entries(cells).filter(([name]) => name !== header));

describe('columns of random rows', () => {
  const columns = inputsOf('Belts');

  test.each(['first', 'middle', 'last'] as const)('a column more, %s, moves no other', (where) => {
    const place = { first: 0, middle: Math.floor(columns.length / 2), last: columns.length - 1 }[where];
    const header = columns[place]?.header ?? '';
    expect(rowsOf(columns).map((cells) => without(cells, header))).toEqual(rowsOf(columns.toSpliced(place, 1)));
  });

  test('differ from row to row, from column to column and from seed to seed', () => {
    const [rows, others] = [rowsOf(columns), rowsOf(columns, 6)];
    expect(new Set(rows.map(({ Width }) => Width)).size).toBeGreaterThan(25);
    expect(rows.filter(({ Width, Lift }) => Width === Lift).length).toBeLessThan(10);
    expect(rows.filter(({ Width }, row) => Width === others[row]?.['Width']).length).toBeLessThan(10);
  });

  test('a name that is as likely anything is spread evenly', () => {
    const words = ['a', 'b', 'c', 'd'] as const;
    const drawn = fc.sample(ownStreams('Any', { one: fc.constantFrom(...words) }), { seed: 1, numRuns: 4000 });
    for (const word of words) {
      // 1000 on the average, with a standard deviation of sqrt(4000 * 0.25 * 0.75) = 27.4: five of them either side.
      const count = drawn.filter(({ one }) => one === word).length;
      expect(Math.abs(count - 1000), word).toBeLessThan(137);
    }
  });

  test('are made simpler one by one when a property fails', () => {
    const pair = ownStreams('Any', { one: fc.nat(1000), other: fc.nat(1000) });
    const { counterexample } = fc.check(
      fc.property(pair, ({ one }) => one < 10),
      { seed: 1 },
    );
    expect(counterexample).toEqual([{ one: 10, other: 0 }]);
  });

  test('hold extremes unless these are left out', () => {
    const found = (options: { readonly extremes?: boolean }): boolean =>
      fc
        .sample(randomParts({ belts: 50, series: 50, named: 50, ...options }), { seed: 1, numRuns: 20 })
        .some(({ belts, series = [], named = {} }) =>
          [...belts, ...series, named].some((cells) =>
            Object.values(cells).some((content) => typeof content === 'number' && extremes.includes(content)),
          ),
        );
    expect(found({})).toBe(true);
    expect(found({ extremes: false })).toBe(false);
  });
});
