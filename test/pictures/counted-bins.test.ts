import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countedBins } from '../../src/pictures/counted-bins.ts';
import { stepped, type Way } from '../../src/pictures/part-steps.ts';

const number = fc.oneof(
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  fc.integer({ min: -50, max: 50 }),
  fc.integer({ min: 0, max: 30 }).map((tenths) => tenths / 10),
);

describe('bins', () => {
  test('have every number once, in the one whose ends it lies between', () => {
    fc.assert(
      fc.property(fc.array(number, { minLength: 1, maxLength: 60 }), fc.boolean(), (values, whole) => {
        const bins = countedBins(values, { about: 12, whole });
        expect(bins.flatMap(({ members }) => members).toSorted((one, other) => one - other)).toEqual([
          ...values.keys(),
        ]);
        expect(bins.length).toBeLessThan(30);
        for (const [place, { from, to, members }] of bins.entries()) {
          const slack = 1e-9 * Math.max(Math.abs(from), Math.abs(to));
          if (place > 0) expect(from).toBe(bins[place - 1]?.to);
          if (whole) expect(Number.isInteger(from)).toBe(true);
          for (const member of members) {
            const value = values[member] ?? NaN;
            expect(value).toBeGreaterThanOrEqual(from - slack);
            if (place < bins.length - 1) expect(value).toBeLessThan(to);
            else expect(value).toBeLessThanOrEqual(to + slack);
          }
        }
      }),
    );
  });

  test('of a given width begin at its multiples', () => {
    expect(
      countedBins([0.05, 0.3, 0.35, 0.99, 1], { about: 9, width: 0.1 }).map(({ from, members }) => [
        from,
        members.length,
      ]),
    ).toEqual([
      [0, 1],
      [0.1, 0],
      [0.2, 0],
      [0.3, 2],
      [0.4, 0],
      [0.5, 0],
      [0.6, 0],
      [0.7, 0],
      [0.8, 0],
      [0.9, 2],
    ]);
    expect(countedBins([], { about: 9 })).toEqual([]);
    expect(countedBins([7, 7, 7], { about: 9 }).map(({ members }) => members.length)).toEqual([3]);
  });
});

test('arrow keys reach every part from every other', () => {
  const ways: readonly Way[] = ['left', 'right', 'up', 'down'];
  const places = fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })), {
    minLength: 1,
    maxLength: 25,
    selector: ([column, row]) => `${column},${row}`,
  });
  fc.assert(
    fc.property(places, (all) => {
      const parts = all.map((at) => ({ at }));
      for (const start of parts.keys()) {
        const seen = new Set([start]);
        for (const here of seen) for (const way of ways) seen.add(stepped(parts, here, way));
        expect(seen.size).toBe(parts.length);
      }
    }),
  );
  expect(stepped([{ at: [0, 0] }, { at: [1, 0] }], 0, 'last')).toBe(1);
  expect(stepped([{ at: [0, 0] }, { at: [1, 0] }], 1, 'right')).toBe(1);
});
