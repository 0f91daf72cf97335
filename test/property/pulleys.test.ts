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

/**
 * A rigid plate on a pulley, in space: its breadth along the cut, its length square to it. The pulley's axis is y, the
 * plate lies on the line x = 0 of its top, and turns about the pulley's radius there. Mean of how far points of the
 * plate's end stand off the pulley.
 */
function meanHeight(pulley: number, skew: number, length: number, breadth: number): number {
  const radius = pulley / 2;
  const turn = (skew * Math.PI) / 180;
  const points = 2000;
  let sum = 0;
  for (let index = 0; index < points; index++) {
    const across = breadth * ((index + 0.5) / points - 0.5);
    const x = (length / 2) * Math.cos(turn) + across * Math.sin(turn);
    sum += Math.hypot(x, radius) - radius;
  }
  return sum / points;
}

describe("a rigid plate on the joint's pulley", () => {
  const skews = [0, 5, 15, 22, 30, 40, 45, 50, 60];

  test('the end of a plate up to 1.22 times as broad as long stands no higher than the square joint', () => {
    for (const skew of skews)
      for (const breadth of [0.01, 0.5, 0.6, 1, 1.22])
        for (const length of [10, 60, 250]) {
          const square = 400;
          const height = meanHeight(number('JOINTPULLEY', square, skew), skew, length, breadth * length);
          expect(height).toBeLessThanOrEqual(meanHeight(square, 0, length, breadth * length) * (1 + 1e-6));
        }
    expect(meanHeight(number('JOINTPULLEY', 400, 45), 45, 60, 1.4 * 60)).toBeGreaterThan(meanHeight(400, 0, 60, 84));
  });

  test('a rating at 45 that keeps the height there keeps it at every skew below', () => {
    const [square, length, breadth] = [400, 20, 12];
    const wanted = meanHeight(square, 0, length, breadth);
    let [small, large] = [100, square];
    while (large - small > 1e-9) {
      const middle = (small + large) / 2;
      if (meanHeight(middle, 45, length, breadth) > wanted) small = middle;
      else large = middle;
    }
    for (const skew of skews.filter((angle) => angle <= 45)) {
      const height = meanHeight(number('JOINTPULLEY', square, skew, large), skew, length, breadth);
      // Points are taken as near to the line on which the plate lies; a plate of 20 mm on 400 is off by a thousandth.
      expect(close(height, wanted, 2e-3)).toBe(true);
    }
  });
});

describe("the joint's minimum pulley", () => {
  const series = fc.record({ square: decimals(50, 2000), share: decimals(0.2, 1) });

  test('falls from the square one to that at 45 degrees and stays there', () => {
    fc.assert(
      fc.property(series, decimals(0, 60), decimals(0, 10), fc.boolean(), ({ square, share }, skew, more, rated) => {
        const at45 = rated ? square * share : null;
        const of = (angle: number): number => number('JOINTPULLEY', square, angle, at45);
        const next = Math.min(60, skew + more);
        expect(of(next)).toBeLessThanOrEqual(of(skew) * (1 + 1e-12));
        expect(of(0)).toBe(square);
        expect(of(45)).toBe(at45 ?? 0.75 * square);
        expect(of(45 + more)).toBe(of(45));
        // No leap at 45: a cut that is measured by its offset is never 45 to the last digit.
        expect(close(of(44.999), of(45), 2e-4)).toBe(true);
      }),
    );
  });

  test('without a rating it is more cautious than the bend at the middle of the edge', () => {
    for (const skew of [10, 22, 30, 45, 60])
      expect(number('JOINTPULLEY', 450, skew)).toBeGreaterThan(number('MINPULLEY', 450, skew));
  });

  test('from one rated skew to the next it is the line that one rating fixes, and meets both', () => {
    fc.assert(
      fc.property(series, decimals(0, 60), decimals(0, 45), ({ square, share }, skew, from) => {
        const at45 = square * share;
        const of = (angle: number): number => number('JOINTPULLEY', square, angle, at45);
        if (from < 44 && skew >= from && skew <= 45)
          expect(close(number('RATEDPULLEY', square, skew, from, of(from), 45, at45), of(skew), 1e-9)).toBe(true);
        expect(close(number('RATEDPULLEY', square, Math.min(skew, 45), 0, square, 45, at45), of(skew), 1e-12)).toBe(
          true,
        );
      }),
    );
    expect(number('RATEDPULLEY', 315, 22, 22, 300, 45, 225)).toBe(300);
    expect(close(number('RATEDPULLEY', 315, 45, 22, 300, 45, 225), 225, 1e-12)).toBe(true);
    expect(refusal('=RATEDPULLEY(315,50,0,300,45,225)').message).toContain(
      'skew must be between the rated skews, 0 and 45',
    );
    expect(refusal('=RATEDPULLEY(315,30,22,300,45,320)').message).toContain(
      'pulley2 must be at most the minimum pulley of a square joint (315)',
    );
    expect(refusal('=RATEDPULLEY(315,30,45,300,45,225)').message).toContain('skew2 must be more than skew1');
  });

  test('a rating at a skew above the square one is refused', () => {
    expect(refusal('=JOINTPULLEY(710,0,900)').message).toContain(
      'at45 must be at most the minimum pulley of a square joint (710)',
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
