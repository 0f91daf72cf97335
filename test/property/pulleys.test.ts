import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Value } from '../../src/formula/values.ts';
import { carcassFactors, lengthFactors, standardPulleys } from '../../src/functions/tables.ts';
import { close, named, number, refusal } from '../evaluation.ts';
import { decimals } from './arguments.ts';

describe('the joint and its pulley', () => {
  test('a skew joint needs a smaller pulley, never under half of the square one', () => {
    fc.assert(
      fc.property(decimals(50, 2000), decimals(0, 59), decimals(0.01, 1), (square, skew, more) => {
        const least = number('MINPULLEY', square, skew);
        expect(number('MINPULLEY', square, skew + more)).toBeLessThan(least);
        expect(least).toBeLessThanOrEqual(square);
        expect(least).toBeGreaterThan(square / 2);
      }),
    );
  });
  test('bends the belt by the same angle at the edge of the plate', () => {
    fc.assert(
      fc.property(decimals(50, 2000), decimals(0, 60), decimals(0.01, 0.99), (square, skew, share) => {
        const half = (share * square) / 2;
        const bend = (pulley: number, turned: number): number =>
          Math.asin((half * Math.cos((turned * Math.PI) / 180)) / (pulley / 2));
        return close(bend(number('MINPULLEY', square, skew), skew), bend(square, 0), 1e-9);
      }),
    );
  });
});

describe('the carcass and its pulley', () => {
  const code = fc.constantFrom(...carcassFactors.map((entry) => entry.code));

  test('the next standard diameter up is in the series, not smaller, and the least such', () => {
    fc.assert(
      fc.property(decimals(0.1, 2000), (diameter) => {
        const standard = number('STANDARDPULLEY', diameter);
        expect(standardPulleys).toContain(standard);
        expect(standard).toBeGreaterThanOrEqual(diameter);
        expect(standardPulleys.filter((other) => other >= diameter && other < standard)).toEqual([]);
        expect(number('STANDARDPULLEY', standard)).toBe(standard);
      }),
    );
  });
  test('with neither use nor group the answer is the bare product, however the two are left out', () => {
    fc.assert(
      fc.property(code, decimals(0.5, 30), (material, carcass) => {
        const bare = carcass * (carcassFactors.find((entry) => entry.code === material)?.factor ?? Number.NaN);
        const none: readonly (readonly Value[])[] = [[], [null], [null, null]];
        for (const left of none) expect(number('CARCASSPULLEY', material, carcass, ...left)).toBe(bare);
        expect(number('CARCASSPULLEY', ` ${material.toLowerCase()} `, carcass)).toBe(bare);
      }),
    );
  });
  test('either alone takes the other at 100 per cent, or as group A', () => {
    fc.assert(
      fc.property(
        code,
        decimals(0.5, 12),
        decimals(1, 100),
        fc.constantFrom('A', 'b', 'C'),
        (material, carcass, use, group) => {
          expect(number('CARCASSPULLEY', material, carcass, use)).toBe(
            number('CARCASSPULLEY', material, carcass, use, 'A'),
          );
          expect(number('CARCASSPULLEY', material, carcass, null, group)).toBe(
            number('CARCASSPULLEY', material, carcass, 100, group),
          );
        },
      ),
    );
  });
  test('a standard diameter that grows with carcass and use, and shrinks from group A to C', () => {
    fc.assert(
      fc.property(
        code,
        decimals(0.5, 10),
        decimals(0, 2),
        decimals(1, 150),
        decimals(0, 60),
        (material, carcass, thicker, use, harder) => {
          const of = (thickness: number, share: number, group: string): number =>
            number('CARCASSPULLEY', material, thickness, share, group);
          expect(standardPulleys).toContain(of(carcass, use, 'A'));
          expect(of(carcass + thicker, use, 'A')).toBeGreaterThanOrEqual(of(carcass, use, 'A'));
          expect(of(carcass, use + harder, 'B')).toBeGreaterThanOrEqual(of(carcass, use, 'B'));
          expect(of(carcass, use, 'A')).toBeGreaterThanOrEqual(of(carcass, use, 'B'));
          expect(of(carcass, use, 'B')).toBeGreaterThanOrEqual(of(carcass, use, 'C'));
        },
      ),
    );
  });
  test('beyond the end of the series there is no answer, before steps or after', () => {
    expect(refusal('=STANDARDPULLEY(2000.1)').message).toContain(
      'diameter must be more than 0 and at most 2000; 2000.1 was given. The series ends there',
    );
    for (const call of [
      '=CARCASSPULLEY("EP",19,20,"C")',
      '=CARCASSPULLEY("EP",18,110,"A")',
      '=CARCASSPULLEY("St",14,110,"A")',
    ]) {
      const fault = refusal(call);
      expect(fault.code).toBe('#NUM!');
      expect(fault.message).toContain('carcass must give a pulley within the standard series, which ends at 2000 mm');
    }
    expect(number('CARCASSPULLEY', 'EP', 18, 100, 'A')).toBe(2000);
  });
});

describe('tension', () => {
  test('more wrap or more friction needs less on the slack side', () => {
    fc.assert(
      fc.property(
        decimals(10, 400),
        decimals(0.05, 0.6),
        decimals(1, 100),
        decimals(0.01, 0.3),
        (wrap, friction, wider, rougher) => {
          const factor = number('WRAPFACTOR', wrap, friction);
          expect(number('WRAPFACTOR', wrap + wider, friction)).toBeLessThan(factor);
          expect(number('WRAPFACTOR', wrap, friction + rougher)).toBeLessThan(factor);
        },
      ),
    );
  });
  test('tight over slack side is exp(friction wrap)', () => {
    fc.assert(
      fc.property(decimals(10, 400), decimals(0.05, 0.6), decimals(1, 1e5), (wrap, friction, pull) => {
        const slack = pull * number('WRAPFACTOR', wrap, friction);
        return close((slack + pull) / slack, Math.exp((friction * wrap * Math.PI) / 180), 1e-9);
      }),
    );
  });
  test('the length factor is the table at its entries, falls between them and stays at its last', () => {
    for (const { length, factor } of lengthFactors)
      expect(close(number('LENGTHFACTOR', length), factor, 1e-12)).toBe(true);
    fc.assert(
      fc.property(decimals(80, 5000), decimals(0.1, 500), (length, further) => {
        const factor = number('LENGTHFACTOR', length);
        expect(number('LENGTHFACTOR', length + further)).toBeLessThanOrEqual(factor + 1e-12);
        expect(factor).toBeGreaterThanOrEqual(1.05);
        const next = lengthFactors.find((entry) => entry.length > length);
        const last = lengthFactors.findLast((entry) => entry.length <= length);
        if (next !== undefined && last !== undefined) {
          const share = (length - last.length) / (next.length - last.length);
          expect(close(factor, last.factor * (1 - share) + next.factor * share, 1e-12)).toBe(true);
        }
      }),
    );
  });
  test('a short conveyor is refused with advice', () => {
    expect(String(refusal('=LENGTHFACTOR(79.9)'))).toBe(
      "#NUM! LENGTHFACTOR: length must be at least 80; 79.9 was given. For a shorter conveyor enter the belt's " +
        "tension or the motor's power instead",
    );
  });
  test('the pull is what climbing and rolling take: up and down differ by twice the lift', () => {
    const conveyor = fc.tuple(
      decimals(20, 2000),
      decimals(0, 0.5),
      decimals(0, 200),
      decimals(0, 200),
      decimals(0, 200),
      decimals(0, 200),
      decimals(0.01, 0.05),
      decimals(1, 1.9),
    );
    fc.assert(
      fc.property(conveyor, ([length, grade, carry, back, belt, load, friction, factor]) => {
        const lift = length * grade;
        const at = (rise: number): number =>
          number('BELTPULL', length, rise, carry, back, belt, load, friction, factor);
        const scale = Math.abs(at(lift));
        expect(close(at(lift) - at(-lift), 2 * load * lift * 9.81, 1e-9, scale)).toBe(true);
        expect(
          close(at(lift), number('BELTPULL', length, lift, carry, back, belt, load, friction, factor, 1) * 9.81, 1e-9),
        ).toBe(true);
      }),
    );
  });
  test('a steep loaded descent is a braked belt, not an error', () => {
    expect(number('BELTPULL', 300, -60, 14, 6, 15, 111, 0.022, 1.3)).toBeLessThan(0);
  });
  test('a lift longer than the conveyor is refused, either way', () => {
    expect(String(named('BELTPULL').evaluate([100, 101, 1, 1, 1, 1, 0.02, 1.3]))).toBe(
      "#NUM! BELTPULL: lift must be between -100 and 100, the conveyor's length; 101 was given",
    );
    expect(refusal('=BELTPULL(100,-101,1,1,1,1,0.02,1.3)').code).toBe('#NUM!');
  });
});
