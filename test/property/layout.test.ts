import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { close, named, number, refusal, rowsOf, valueOf } from '../evaluation.ts';
import { decimals } from './arguments.ts';
import { isFault } from '../../src/formula/values.ts';

const width = decimals(100, 2400);
const skew = fc.oneof(decimals(0, 60), fc.constantFrom(0, 30, 45, 60));

/** Rows of plates that have at least one plate: the edge takes what is left beside it. */
const rows = fc
  .record({ width, skew, plate: decimals(20, 60), gap: decimals(0, 30), edgeShare: decimals(0, 1) })
  .map(({ width, skew, plate, gap, edgeShare }) => {
    const spare = width - plate;
    return [width, skew, plate + gap, plate, Math.floor((spare / 2) * edgeShare)] as const;
  });

/**
 * Belt between the cuts of two new ends at a skew that leave nothing of the strip that was cut out of the old joint:
 * the strip's corners are moved along the new cut to the centre line.
 */
function leftOut(width: number, old: number, skew: number, breadth: number): number {
  const [was, is] = [old, skew].map((degrees) => Math.tan((degrees * Math.PI) / 180));
  const half = breadth / Math.cos((old * Math.PI) / 180) / 2;
  const onCentreLine = [-half, half].flatMap((side) =>
    [-width / 2, width / 2].map((across) => side + across * (was ?? 0) - across * (is ?? 0)),
  );
  return Math.max(...onCentreLine) - Math.min(...onCentreLine);
}

describe('the cut', () => {
  test('its offset gives its skew back', () => {
    fc.assert(
      fc.property(width, skew, (width, skew) =>
        close(number('SKEWANGLE', width, number('SKEWOFFSET', width, skew)), skew, 1e-12, 1),
      ),
    );
  });
  test('with its offset and the width it makes a right triangle', () => {
    fc.assert(
      fc.property(width, skew, (width, skew) =>
        close(
          number('SQUAREDIAGONAL', width, number('SKEWOFFSET', width, skew)),
          number('SKEWLENGTH', width, skew),
          1e-12,
        ),
      ),
    );
  });
  test('grows with the skew and with the width', () => {
    fc.assert(
      fc.property(width, decimals(0, 59), decimals(0.01, 1), (width, skew, more) => {
        for (const name of ['SKEWLENGTH', 'SKEWOFFSET', 'SKEWLOSS']) {
          expect(number(name, width, skew + more)).toBeGreaterThan(number(name, width, skew));
        }
        expect(number('SKEWLENGTH', width + more, skew)).toBeGreaterThan(number('SKEWLENGTH', width, skew));
      }),
    );
  });
  test('a joint takes what its cuts, laid beside the old strip, leave out of the belt', () => {
    fc.assert(
      fc.property(width, skew, decimals(0, 200), decimals(0, 150), (width, skew, cutOut, trim) => {
        const taken = (old: number): number => leftOut(width, old, skew, cutOut);
        const of = (replaces: string): number => number('JOINTTAKES', width, skew, replaces, cutOut, trim);
        expect(close(of('same skew'), taken(skew), 1e-9, 1)).toBe(true);
        expect(close(of('square joint'), taken(0) + 2 * trim, 1e-9, 1)).toBe(true);
        for (const old of [0, 22, 45, 60])
          expect(
            close(number('JOINTTAKES', width, skew, 'other skew', cutOut, trim, old), taken(old) + 2 * trim, 1e-9, 1),
          ).toBe(true);
        for (const old of [0, 5, 17, 22, 30, 37, 45])
          expect(of('other skew')).toBeGreaterThanOrEqual((taken(old) + 2 * trim) * (1 - 1e-12));
        expect(close(of('other skew'), Math.max(taken(0), taken(45)) + 2 * trim, 1e-9, 1)).toBe(true);
        expect(of('new belt')).toBe(0);
      }),
    );
  });
  test('a cut measured beyond 60 degrees is still told', () => {
    expect(number('SKEWANGLE', 100, 1000)).toBeCloseTo(84.2894068625, 9);
  });
  test('strip is one piece unless more are asked for, and a blank cell asks for none', () => {
    fc.assert(
      fc.property(width, skew, decimals(0, 100), fc.integer({ min: 1, max: 5 }), (width, skew, overhang, pieces) => {
        const one = number('STRIPLENGTH', width, skew, overhang);
        expect(number('STRIPLENGTH', width, skew, overhang, null)).toBe(one);
        expect(close(number('STRIPLENGTH', width, skew, overhang, pieces), pieces * one, 1e-12)).toBe(true);
      }),
    );
  });
});

describe('plates', () => {
  test('as many as fit: one more would not', () => {
    fc.assert(
      fc.property(rows, ([width, skew, pitch, plate, edge]) => {
        const count = number('PLATECOUNT', width, skew, pitch, plate, edge);
        const cut = number('SKEWLENGTH', width, skew);
        const taken = (plates: number): number => plate + (plates - 1) * pitch + 2 * edge;
        expect(taken(count)).toBeLessThanOrEqual(cut + pitch * 1e-9);
        expect(taken(count + 1)).toBeGreaterThan(cut);
      }),
    );
  });
  test('keep the edge distance, and less than half a pitch more', () => {
    fc.assert(
      fc.property(rows, ([width, skew, pitch, plate, edge]) => {
        const left = number('PLATEEDGE', width, skew, pitch, plate, edge);
        expect(left).toBeGreaterThanOrEqual(edge - pitch * 1e-9);
        expect(left).toBeLessThan(edge + pitch / 2 + pitch * 1e-9);
      }),
    );
  });
  test('lie a pitch apart, symmetric about the middle of the cut', () => {
    fc.assert(
      fc.property(rows, (row) => {
        const [width, skew, pitch, plate] = row;
        const spots = rowsOf('PLATESPOTS', row).map(([spot = Number.NaN]) => spot);
        const cut = number('SKEWLENGTH', width, skew);
        expect(spots.length).toBe(number('PLATECOUNT', ...row));
        expect(close(spots[0] ?? Number.NaN, number('PLATEEDGE', ...row) + plate / 2, 1e-9, cut)).toBe(true);
        spots.forEach((spot, index) => {
          expect(close(spot + (spots.at(-1 - index) ?? Number.NaN), cut, 1e-12)).toBe(true);
          if (index > 0) expect(close(spot - (spots[index - 1] ?? Number.NaN), pitch, 1e-9, cut)).toBe(true);
        });
      }),
    );
  });
  test('count the same in millimetres and in inches, also where they fit exactly', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        decimals(20, 60, 1),
        decimals(0, 30, 1),
        decimals(0, 40, 1),
        fc.constantFrom(0, 45, 60),
        (count, plate, gap, edge, skew) => {
          const pitch = plate + gap;
          const width = (plate + (count - 1) * pitch + 2 * edge) * Math.cos((skew * Math.PI) / 180);
          expect(number('PLATECOUNT', width, skew, pitch, plate, edge)).toBe(count);
          expect(number('PLATECOUNT', width / 25.4, skew, pitch / 25.4, plate / 25.4, edge / 25.4)).toBe(count);
        },
      ),
    );
  });
  test('that overlap or do not fit are refused by all that lay them out', () => {
    for (const name of ['PLATECOUNT', 'PLATEEDGE', 'PLATESPOTS']) {
      expect(String(refusal(`=${name}(650,0,30,38,10)`))).toBe(
        `#NUM! ${name}: pitch must be at least the plate (38), or the plates overlap; 30 was given`,
      );
      expect(String(refusal(`=${name}(50,0,42,38,10)`))).toBe(
        `#NUM! ${name}: plate must fit on the cut: with the minimum edge on both sides one plate takes 58, the cut ` +
          `is 50; 38 was given`,
      );
    }
  });
  test('share the pull', () => {
    fc.assert(
      fc.property(decimals(0, 100), width, fc.integer({ min: 1, max: 60 }), (tension, width, count) =>
        close(number('PLATEFORCE', tension, width, count) * count, tension * width, 1e-12),
      ),
    );
  });
});

describe('holes', () => {
  const joints = fc.tuple(rows, decimals(5, 40), decimals(0.5, 20), fc.integer({ min: 1, max: 4 }));

  test('worked by hand: one plate in a belt 100 wide, at 60 degrees', () => {
    // The cut is 200 long, its middle at (86.6025, 50); 10 back from the cut is (5, -8.6603), half a gap of 20 along it
    // (8.6603, 5).
    const holes = rowsOf('HOLESPOTS', [100, 60, 150, 120, 0, 10, 20, 2]);
    const root = Math.sqrt(3);
    const wanted = [
      [45 * root - 5, 45 + 5 * root],
      [55 * root - 5, 55 + 5 * root],
      [45 * root + 5, 45 - 5 * root],
      [55 * root + 5, 55 - 5 * root],
    ];
    holes.forEach((hole, index) =>
      hole.forEach((place, axis) => expect(place).toBeCloseTo(wanted[index]?.[axis] ?? Number.NaN, 9)),
    );
    expect(holes.length).toBe(4);
  });
  test('are twice the plates times the holes per side', () => {
    fc.assert(
      fc.property(joints, ([row, back, gap, perSide]) => {
        expect(rowsOf('HOLESPOTS', [...row, back, gap, perSide]).length).toBe(
          number('PLATECOUNT', ...row) * perSide * 2,
        );
      }),
    );
  });
  test('lie point-symmetric about the middle of the cut', () => {
    fc.assert(
      fc.property(joints, ([row, back, gap, perSide]) => {
        const [width, skew] = row;
        const holes = rowsOf('HOLESPOTS', [...row, back, gap, perSide]);
        const middle = [number('SKEWOFFSET', width, skew), width];
        holes.forEach((hole, index) => {
          const opposite = holes.at(-1 - index);
          hole.forEach((place, axis) =>
            expect(close(place + (opposite?.[axis] ?? Number.NaN), middle[axis] ?? Number.NaN, 1e-9, width)).toBe(true),
          );
        });
      }),
    );
  });
  test('stand back from the cut, gap by gap about the plate, in the stated order', () => {
    fc.assert(
      fc.property(joints, ([row, back, gap, perSide]) => {
        const [width, skew] = row;
        const sine = Math.sin((skew * Math.PI) / 180);
        const cosine = Math.cos((skew * Math.PI) / 180);
        const spots = rowsOf('PLATESPOTS', row).map(([spot = Number.NaN]) => spot);
        const holes = rowsOf('HOLESPOTS', [...row, back, gap, perSide]).map(
          ([along = Number.NaN, across = Number.NaN]) => ({
            s: along * sine + across * cosine,
            off: along * cosine - across * sine,
          }),
        );
        let at = 0;
        for (const spot of spots) {
          for (const side of [-1, 1]) {
            for (let hole = 0; hole < perSide; hole += 1, at += 1) {
              expect(close(holes[at]?.off ?? Number.NaN, side * back, 1e-9, width)).toBe(true);
              expect(close(holes[at]?.s ?? Number.NaN, spot + (hole - (perSide - 1) / 2) * gap, 1e-9, width)).toBe(
                true,
              );
            }
          }
        }
      }),
    );
  });
  test('of one plate and side must not coincide, but a single one needs no gap', () => {
    expect(String(refusal('=HOLESPOTS(650,0,42,38,10,15,0,2)'))).toBe(
      '#NUM! HOLESPOTS: holeGap must be more than 0 between 2 holes of one plate, or they coincide; 0 was given',
    );
    expect(isFault(valueOf('=HOLESPOTS(650,0,42,38,10,15,0,1)'))).toBe(false);
  });
});

describe('tightening', () => {
  test('takes every plate once', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 80 }), (count) => {
        const turns = Array.from({ length: count }, (_, index) => number('TIGHTENTURN', count, index + 1));
        expect(turns.toSorted((one, other) => one - other)).toEqual(
          Array.from({ length: count }, (_, index) => index + 1),
        );
      }),
    );
  });
  test('goes inward from plate 1 to the middle, then inward from plate n', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 80 }), (count) => {
        const order = Array.from({ length: count }, (_, index) => index + 1).toSorted(
          (one, other) => number('TIGHTENTURN', count, one) - number('TIGHTENTURN', count, other),
        );
        const half = Math.ceil(count / 2);
        expect(order.slice(0, half)).toEqual(Array.from({ length: half }, (_, index) => index + 1));
        expect(order.slice(half)).toEqual(Array.from({ length: count - half }, (_, index) => count - index));
      }),
    );
  });
  test('knows no plate beyond the last', () => {
    expect(String(named('TIGHTENTURN').evaluate([5, 6]))).toBe(
      '#NUM! TIGHTENTURN: i must be at most the number of plates (5); 6 was given',
    );
  });
});
