import fc from 'fast-check';
import polygonClipping, { type MultiPolygon, type Polygon } from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { besideCut, fromCorner, onCut, type Spot } from '../../src/drawing/belt-axes.ts';
import { beltEnd, otherHand } from '../../src/drawing/joint.ts';
import { jointGeometry } from '../../src/drawing/joint-geometry.ts';
import { answer, named, rowsOf } from '../evaluation.ts';
import { drawn, joints, large, near, small, strips } from './joints.ts';

/**
 * Distance along the cut of a spot's foot on it, and its distance square to the cut, worked out from the axes alone.
 */
function byTheCut({ along, across }: Spot, skew: number): { readonly s: number; readonly ahead: number } {
  const turn = (skew * Math.PI) / 180;
  return {
    s: along * Math.sin(turn) + across * Math.cos(turn),
    ahead: along * Math.cos(turn) - across * Math.sin(turn),
  };
}

const polygon = (corners: readonly Spot[]): Polygon => [
  [...corners, ...corners.slice(0, 1)].map(({ along, across }): [number, number] => [along, across]),
];

/** By the surveyor's formula: rings less their holes. */
const area = (polygons: MultiPolygon): number =>
  polygons
    .flatMap((rings) =>
      rings.map((ring, place) => {
        const twice = ring.reduce((sum, [x, y], corner) => {
          const [nextX, nextY] = ring[(corner + 1) % ring.length] ?? [x, y];
          return sum + x * nextY - nextX * y;
        }, 0);
        return (Math.abs(twice) / 2) * (place === 0 ? 1 : -1);
      }),
    )
    .reduce((sum, one) => sum + one, 0);

describe('the joint as drawn', () => {
  it('has its holes where HOLESPOTS has them, of a left-hand joint mirrored across the centre line', () => {
    fc.assert(
      fc.property(joints, ({ inputs }) => {
        const {
          width,
          skew,
          hand,
          series: { pitch, plate, leastEdge, holeBack, holeGap, perSide },
        } = inputs;
        const { holes } = drawn(inputs);
        const rows = rowsOf('HOLESPOTS', [width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide]);
        expect(holes.map(({ number }) => number)).toEqual(rows.map((_, index) => index + 1));
        const wrong = holes.filter(({ at, end }, index) => {
          const [along, across] = rows[index] ?? [];
          const mine = hand === 'left' ? { along: at.along, across: width - at.across } : at;
          return !(
            near(mine.along, along) &&
            near(mine.across, across) &&
            near(byTheCut(mine, skew).ahead, end === 'leading' ? holeBack : -holeBack)
          );
        });
        expect(wrong).toEqual([]);
      }),
    );
  });

  it('keeps its plates on the cut, the edge distance clear at both ends and no two over each other', () => {
    fc.assert(
      fc.property(joints, ({ inputs }) => {
        const {
          width,
          skew,
          series: { plate, leastEdge },
        } = inputs;
        const joint = drawn({ ...inputs, hand: 'right' });
        const { plates, cutLength, edgeLeft = Number.NaN } = joint;
        const spans = plates.map(({ corners }) => {
          const feet = corners.map((corner) => byTheCut(corner, skew).s);
          return { from: Math.min(...feet), to: Math.max(...feet) };
        });
        const [first, last] = [spans[0], spans.at(-1)];
        expect(cutLength).toBeCloseTo(width / Math.cos((skew * Math.PI) / 180), 6);
        expect(first?.from).toBeCloseTo(edgeLeft, 6);
        expect(cutLength - (last?.to ?? 0)).toBeCloseTo(edgeLeft, 6);
        expect(edgeLeft).toBeGreaterThanOrEqual(leastEdge - 1e-6);
        spans.forEach(({ from, to }, index) => {
          expect(to - from).toBeCloseTo(plate, 6);
          if (index > 0) expect(from).toBeGreaterThanOrEqual((spans[index - 1]?.to ?? 0) - 1e-6);
        });
      }),
    );
  });

  it('has the square line, the cut and its offset of a worked example', () => {
    const { farEnd, offset, cutLength, plates, edgeLeft } = drawn({
      width: 650,
      skew: 45,
      series: { pitch: 42, plate: 38, leastEdge: 12, holeBack: 20, holeGap: 18, perSide: 2 },
    });
    expect(offset).toBeCloseTo(650, 9);
    expect(farEnd.along).toBeCloseTo(650, 9);
    expect(farEnd.across).toBe(650);
    expect(cutLength).toBeCloseTo(650 * Math.SQRT2, 9);
    expect(plates).toHaveLength(answer('=PLATECOUNT(650,45,42,38,12)'));
    expect(edgeLeft).toBeCloseTo(20.61940777125589, 9);
  });

  it('starts a right-hand cut at the right edge and a left-hand one at the left, seen along the travel', () => {
    const [right, left] = [drawn({ width: 800, skew: 30 }), drawn({ width: 800, skew: 30, hand: 'left' })];
    expect([right.nearEnd, left.nearEnd]).toEqual([
      { along: 0, across: 0 },
      { along: 0, across: 800 },
    ]);
    expect(right.farEnd.along).toBe(left.farEnd.along);
    expect([right.farEnd.across, left.farEnd.across]).toEqual([800, 0]);
    expect(otherHand(left)).toEqual(right);
  });

  it('turns between the belt and the cut without a loss, whatever the hand', () => {
    fc.assert(
      fc.property(
        joints,
        fc.double({ min: -500, max: 3000, noNaN: true }),
        fc.double({ min: -300, max: 300, noNaN: true }),
        ({ inputs }, run, ahead) => {
          const back = onCut(besideCut({ run, ahead }, inputs), inputs);
          expect(Math.abs(back.run - run)).toBeLessThan(1e-9);
          expect(Math.abs(back.ahead - ahead)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('proves its square lines by rectangles whose diagonals are SQUAREDIAGONAL, before the cut and behind it', () => {
    fc.assert(
      fc.property(joints, fc.double({ min: 200, max: 3000, noNaN: true }), ({ inputs }, back) => {
        const { squares, diagonal, nearEnd, farEnd, width } = drawn({ ...inputs, back });
        expect(diagonal).toBeCloseTo(answer(`=SQUAREDIAGONAL(${width},${back})`), 9);
        for (const end of ['trailing', 'leading'] as const) {
          const {
            line,
            corners: [one, two, three, four],
          } = squares[end];
          expect(Math.hypot(three.along - one.along, three.across - one.across)).toBeCloseTo(diagonal, 9);
          expect(Math.hypot(four.along - two.along, four.across - two.across)).toBeCloseTo(diagonal, 9);
          expect(line).toContainEqual(end === 'trailing' ? nearEnd : farEnd);
          expect(Math.sign(four.along - one.along)).toBe(end === 'trailing' ? -1 : 1);
        }
      }),
    );
    expect(drawn({ width: 900, skew: 0 }).diagonal).toBeCloseTo(900 * Math.SQRT2, 9);
  });

  it('has strips that lie along the cut, as long together as STRIPLENGTH says, one below and the others above', () => {
    fc.assert(
      fc.property(joints, fc.integer({ min: 1, max: 5 }), ({ inputs }, pieces) => {
        const { width, skew } = inputs;
        const joint = drawn({
          ...inputs,
          strips: {
            overhang: inputs.strips?.overhang ?? 0,
            below: Math.min(1, pieces),
            above: Math.max(0, pieces - 1),
          },
        });
        const total = joint.strips.reduce((sum, { length }) => sum + length, 0);
        expect(total).toBeCloseTo(
          Number(named('STRIPLENGTH').evaluate([width, skew, inputs.strips?.overhang ?? 0, pieces])),
          6,
        );
        expect(joint.strips.map(({ side }) => side)).toEqual(
          Array.from({ length: pieces }, (_, index) => (index === 0 ? 'below' : 'above')),
        );
        for (const { from, to, length } of joint.strips) {
          expect(Math.hypot(to.along - from.along, to.across - from.across)).toBeCloseTo(length, 6);
          expect(onCut(from, joint).ahead).toBeCloseTo(0, 6);
          expect(onCut(from, joint).run).toBeCloseTo(-(inputs.strips?.overhang ?? 0) / 2, 6);
          expect(onCut(to, joint).ahead).toBeCloseTo(0, 6);
        }
      }),
    );
  });

  it('tightens each plate once, in the order of TIGHTENTURN', () => {
    const { plates } = drawn({ width: 650, skew: 45, series: small });
    expect(plates.map(({ turn }) => turn).toSorted((one, other) => one - other)).toEqual(
      plates.map(({ number }) => number),
    );
    for (const { number, turn } of plates) expect(turn).toBe(answer(`=TIGHTENTURN(${plates.length},${number})`));
  });
});

describe('areas and counts, by a polygon library', () => {
  it('has belt ends of the trapezoids that the skew leaves, which meet without a gap', () => {
    fc.assert(
      fc.property(joints, fc.double({ min: 10, max: 3000, noNaN: true }), ({ inputs }, length) => {
        const joint = drawn(inputs);
        const { width, offset } = joint;
        const [trailing, leading] = [
          polygon(beltEnd(joint, 'trailing', length)),
          polygon(beltEnd(joint, 'leading', length)),
        ];
        for (const end of [trailing, leading])
          expect(area(polygonClipping.union(end)) / (width * (length + offset / 2))).toBeCloseTo(1, 9);
        expect(area(polygonClipping.union(trailing, leading)) / (width * (2 * length + offset))).toBeCloseTo(1, 6);
        expect(area(polygonClipping.intersection(trailing, leading)) / width ** 2).toBeCloseTo(0, 9);
      }),
      { numRuns: 50 },
    );
  });

  it('has plates of their size, none over another, halved by the cut', () => {
    fc.assert(
      fc.property(joints, ({ inputs }) => {
        const joint = drawn(inputs);
        const { plates, reach, cutLength } = joint;
        const one = inputs.series.plate * 2 * reach;
        const [first, ...others] = plates.map(({ corners }) => polygon(corners));
        if (first === undefined) throw new Error('no plates');
        expect(area(polygonClipping.union(first, ...others)) / (one * plates.length)).toBeCloseTo(1, 9);
        const ahead = polygon(
          [
            { run: -cutLength, ahead: 0 },
            { run: 2 * cutLength, ahead: 0 },
            { run: 2 * cutLength, ahead: 2 * reach },
            { run: -cutLength, ahead: 2 * reach },
          ].map((place) => besideCut(place, joint)),
        );
        expect(area(polygonClipping.intersection([first, ...others], ahead)) / (one * plates.length)).toBeCloseTo(
          0.5,
          9,
        );
      }),
      { numRuns: 30 },
    );
  });

  it('has strips that cover as much belt as the cut is long, when their ends reach over the edges', () => {
    fc.assert(
      fc.property(joints, fc.double({ min: 2, max: 40, noNaN: true }), ({ inputs }, breadth) => {
        const { width, skew } = inputs;
        const overhang = breadth * Math.tan((skew * Math.PI) / 180) + 1;
        const joint = drawn({ ...inputs, strips: { overhang, below: 1, above: 0 } });
        const [strip] = joint.strips;
        if (strip === undefined) throw new Error('no strip');
        const [from, to] = [onCut(strip.from, joint).run, onCut(strip.to, joint).run];
        const laid = polygon(
          [
            [from, -1],
            [to, -1],
            [to, 1],
            [from, 1],
          ].map(([run = 0, side = 0]) => besideCut({ run, ahead: (side * breadth) / 2 }, joint)),
        );
        const belt = polygon([
          { along: -1e5, across: 0 },
          { along: 1e5, across: 0 },
          { along: 1e5, across: width },
          { along: -1e5, across: width },
        ]);
        expect(area(polygonClipping.intersection(laid, belt)) / (breadth * joint.cutLength)).toBeCloseTo(1, 9);
        expect(area(polygonClipping.union(laid)) / (breadth * (joint.cutLength + overhang))).toBeCloseTo(1, 9);
      }),
      { numRuns: 50 },
    );
  });

  it('counts the holes in the belt as the remarks do', () => {
    const joint = drawn({ width: 400, skew: 60, series: large });
    const belt = polygon([
      { along: -1e4, across: 0 },
      { along: 1e4, across: 0 },
      { along: 1e4, across: 400 },
      { along: -1e4, across: 400 },
    ]);
    const radius = large.punch / 2;
    const whole = joint.holes.filter(({ at }) => {
      const square = polygon(
        [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ].map(([x = 0, y = 0]) => ({ along: at.along + x * radius, across: at.across + y * radius })),
      );
      return Math.abs(area(polygonClipping.intersection(square, belt)) - large.punch ** 2) < 1e-6;
    });
    expect(joint.holes).toHaveLength(40);
    expect(whole).toHaveLength(38);
    expect(joint.patternFaults).toEqual([expect.stringMatching(/^2 holes lie on or beyond the belt's edge/)]);
  });
});

describe('a joint that cannot be drawn whole', () => {
  it('says why there are no plates, and has the cut all the same', () => {
    const { plates, farEnd, remarks, series } = drawn({
      width: 30,
      skew: 0,
      series: { pitch: 60, plate: 50, leastEdge: 10, holeBack: 20, holeGap: 30, perSide: 2 },
    });
    expect(plates).toHaveLength(0);
    expect(series).toBeUndefined();
    expect(farEnd).toEqual({ along: 0, across: 30 });
    expect(remarks.join(' ')).toMatch(/No plates are drawn: plate must fit on the cut/);
  });

  it('says when outer holes would lie beyond the edge of the belt', () => {
    const { remarks } = drawn({
      width: 500,
      skew: 60,
      series: { pitch: 60, plate: 50, leastEdge: 1, holeBack: 60, holeGap: 0, perSide: 1 },
    });
    expect(remarks.join(' ')).toMatch(/hole.* beyond the belt's edge/);
  });

  it('says why holes are not drawn where the plates are', () => {
    const { plates, holes, remarks } = drawn({ width: 650, skew: 0, series: { ...large, holeGap: 0 } });
    expect(plates.length).toBeGreaterThan(0);
    expect(holes).toEqual([]);
    expect(remarks.join(' ')).toMatch(/No holes are drawn: holeGap must be more than 0/);
  });

  it('refuses what has no cut, or no marked rectangle, with the reason', () => {
    expect(jointGeometry({ width: 650, skew: 90 })).toMatch(/skew must be from 0 to 60; 90 was given/);
    expect(jointGeometry({ width: 0, skew: 45 })).toMatch(/width must be more than 0; 0 was given/);
    expect(jointGeometry({ width: 650, skew: 45, back: -1 })).toMatch(/back must be at least 0; -1 was given/);
  });

  it('draws the joint without its strips when those make no sense, and says so', () => {
    const joint = drawn({ width: 650, skew: 45, series: small, strips: { ...strips, below: 1, above: 2.5 } });
    expect([joint.strips.length, joint.plates.length, joint.patternFaults]).toEqual([0, 32, []]);
    expect(joint.remarks).toEqual([expect.stringMatching(/^No strips are drawn: pieces must be a whole number/)]);
    expect(drawn({ width: 650, skew: 45, strips: { overhang: 60, below: 0, above: 0 } })).toMatchObject({
      strips: [],
      remarks: [],
    });
  });

  it('does not take a likely hole for a given one', () => {
    const { series, drawnPunch } = drawn({
      width: 650,
      skew: 45,
      series: { pitch: 42, plate: 38, leastEdge: 12, holeBack: 20, holeGap: 18, perSide: 2 },
    });
    expect(series?.punch).toBeUndefined();
    expect(drawnPunch).toBeGreaterThan(0);
    expect(drawn({ width: 650, skew: 45, series: { ...small, punch: 0 } }).remarks.join(' ')).toMatch(
      /punch size must be more than 0/,
    );
  });

  it('measures a left-hand joint from the corner on the left edge', () => {
    expect(fromCorner({ along: 3, across: 790 }, { width: 800, skew: 30, hand: 'left' })).toEqual({
      along: 3,
      across: 10,
    });
  });
});

describe('a joint of more than can be seen', () => {
  it('is drawn without plates, and says so', () => {
    const joint = drawn({ width: 1e8, skew: 0, series: small });
    expect([joint.plates, joint.holes]).toEqual([[], []]);
    expect(joint.patternFaults.join(' ')).toMatch(/No plates are drawn: the cut takes \d+ plates .* at most/);
  });

  it('is drawn without strips when they are too many', () => {
    const joint = drawn({ width: 800, skew: 0, strips: { overhang: 60, below: 0, above: 1e7 } });
    expect(joint.strips).toEqual([]);
    expect(joint.remarks.join(' ')).toContain('at most 100 pieces');
  });
});
