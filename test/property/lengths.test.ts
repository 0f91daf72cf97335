import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { close, number, refusal } from '../evaluation.ts';
import { decimals } from './arguments.ts';

describe('a belt around two pulleys', () => {
  const drives = fc
    .tuple(decimals(1, 2000), decimals(1, 2000), decimals(0, 50000))
    .map(([d1, d2, apart]) => [Math.abs(d1 - d2) / 2 + apart, d1, d2] as const);

  test('does not care which pulley is which', () => {
    fc.assert(
      fc.property(
        drives,
        ([centres, d1, d2]) =>
          fc.pre(centres > 0) === undefined &&
          close(number('BELTLOOP', centres, d1, d2), number('BELTLOOP', centres, d2, d1), 1e-12),
      ),
    );
  });
  test('is at least twice the centres and half of each pulley, and at most the way around both in a box', () => {
    fc.assert(
      fc.property(drives, ([centres, d1, d2]) => {
        fc.pre(centres > 0);
        const loop = number('BELTLOOP', centres, d1, d2);
        expect(loop).toBeGreaterThanOrEqual((2 * centres + Math.PI * Math.min(d1, d2)) * (1 - 1e-12));
        expect(loop).toBeLessThanOrEqual((2 * centres + Math.PI * Math.max(d1, d2)) * (1 + 1e-12));
      }),
    );
  });
  test('grows as the pulleys move apart', () => {
    fc.assert(
      fc.property(drives, decimals(0.1, 1000), ([centres, d1, d2], more) => {
        fc.pre(centres > 0);
        expect(number('BELTLOOP', centres + more, d1, d2)).toBeGreaterThan(number('BELTLOOP', centres, d1, d2));
      }),
    );
  });
  test('equals the path drawn around both circles in small steps', () => {
    fc.assert(
      fc.property(drives, ([centres, d1, d2]) => {
        fc.pre(centres > Math.max(d1, d2) / 2);
        // The hull of two circles is as long as its support function's integral over all directions.
        const steps = 4000;
        const support = (angle: number): number => Math.max(d1 / 2, centres * Math.cos(angle) + d2 / 2);
        const path = Array.from({ length: steps }, (_, index) => support((2 * Math.PI * (index + 0.5)) / steps)).reduce(
          (sum, value) => sum + value,
          0,
        );
        return close((path * 2 * Math.PI) / steps, number('BELTLOOP', centres, d1, d2), 1e-5);
      }),
      { numRuns: 40 },
    );
  });
  test('cannot go around a pulley that lies inside the other', () => {
    expect(String(refusal('=BELTLOOP(1,5,2)'))).toBe(
      '#NUM! BELTLOOP: centres must be at least half the difference of the diameters (1.5); 1 was given',
    );
  });
});

describe('a roll', () => {
  const rolls = fc.tuple(decimals(1, 100000), decimals(0, 1000), decimals(0.1, 40));

  test('its diameter gives its length back', () => {
    fc.assert(
      fc.property(rolls, ([length, core, thickness]) => {
        const outer = number('ROLLOUTER', length, core, thickness);
        return close(number('ROLLBELT', outer, core, thickness), length, 1e-9, outer ** 2 / thickness);
      }),
    );
  });
  test('holds what its whole turns add up to', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), decimals(0, 1000), decimals(0.1, 40), (turns, core, thickness) => {
        let belt = 0;
        for (let turn = 0; turn < turns; turn += 1) belt += Math.PI * (core + (2 * turn + 1) * thickness);
        return close(number('ROLLBELT', core + 2 * turns * thickness, core, thickness), belt, 1e-9);
      }),
    );
  });
  test('holds less when the belt is thicker or the core larger', () => {
    fc.assert(
      fc.property(
        decimals(500, 2000),
        decimals(1, 400),
        decimals(1, 40),
        decimals(0.1, 50),
        (outer, core, thickness, more) => {
          const belt = number('ROLLBELT', outer, core, thickness);
          expect(number('ROLLBELT', outer, core, thickness + more)).toBeLessThan(belt);
          expect(number('ROLLBELT', outer, core + more, thickness)).toBeLessThan(belt);
        },
      ),
    );
  });
  test('is not smaller than its core', () => {
    expect(String(refusal('=ROLLBELT(299,300,10)'))).toBe(
      '#NUM! ROLLBELT: outer must be at least the core (300); 299 was given',
    );
  });
});
