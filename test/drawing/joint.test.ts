import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jointDrawing } from '../../src/drawing/joint-drawing.ts';
import { beltJoint } from '../../src/drawing/belt-joint.ts';
import { type JointGeometry, jointGeometry, type JointInputs, type Spot } from '../../src/drawing/joint.ts';
import { svgText } from '../../src/drawing/svg.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { answer, rowsOf } from '../evaluation.ts';

function drawn(inputs: JointInputs): JointGeometry {
  const geometry = jointGeometry(inputs);
  if (typeof geometry === 'string') throw new Error(geometry);
  return geometry;
}

/** Distance along the cut of a spot's foot on it, and its distance square to the cut, worked out from the axes alone. */
function onCut({ along, across }: Spot, skew: number): { readonly s: number; readonly ahead: number } {
  const turn = (skew * Math.PI) / 180;
  return { s: along * Math.sin(turn) + across * Math.cos(turn), ahead: along * Math.cos(turn) - across * Math.sin(turn) };
}

const joints = fc.record({
  width: fc.double({ min: 300, max: 2400, noNaN: true }),
  skew: fc.double({ min: 0, max: 60, noNaN: true }),
  plate: fc.double({ min: 20, max: 90, noNaN: true }),
  gap: fc.double({ min: 0, max: 15, noNaN: true }),
  leastEdge: fc.double({ min: 5, max: 40, noNaN: true }),
  holeBack: fc.double({ min: 10, max: 40, noNaN: true }),
  perSide: fc.integer({ min: 1, max: 3 }),
});

describe('the joint as drawn', () => {
  it('has its holes where HOLESPOTS has them', () => {
    fc.assert(
      fc.property(joints, ({ width, skew, plate, gap, leastEdge, holeBack, perSide }) => {
        const pitch = plate + gap;
        const holeGap = plate / 4;
        const { holes } = drawn({ width, skew, series: { pitch, plate, leastEdge, holeBack, holeGap, perSide, punch: 8 } });
        const rows = rowsOf('HOLESPOTS', [width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide]);
        expect(holes).toHaveLength(rows.length);
        holes.forEach(({ at, end }, index) => {
          const [along = Number.NaN, across = Number.NaN] = rows[index] ?? [];
          expect(Math.abs(at.along - along)).toBeLessThanOrEqual(1e-9 * width);
          expect(Math.abs(at.across - across)).toBeLessThanOrEqual(1e-9 * width);
          expect(onCut(at, skew).ahead).toBeCloseTo(end === 'leading' ? holeBack : -holeBack, 6);
        });
      }),
    );
  });

  it('keeps its plates on the cut, the edge distance clear at both ends and no two over each other', () => {
    fc.assert(
      fc.property(joints, ({ width, skew, plate, gap, leastEdge, holeBack, perSide }) => {
        const { plates, cutLength, edgeLeft = Number.NaN } = drawn({ width, skew, series: { pitch: plate + gap, plate, leastEdge, holeBack, holeGap: 5, perSide } });
        const spans = plates.map(({ corners }) => {
          const feet = corners.map((corner) => onCut(corner, skew).s);
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
    const { farEnd, offset, cutLength, plates, edgeLeft } = drawn({ width: 650, skew: 45, series: { pitch: 42, plate: 38, leastEdge: 12, holeBack: 20, holeGap: 18, perSide: 2 } });
    expect(offset).toBeCloseTo(650, 9);
    expect(farEnd.along).toBeCloseTo(650, 9);
    expect(farEnd.across).toBe(650);
    expect(cutLength).toBeCloseTo(650 * Math.SQRT2, 9);
    expect(plates).toHaveLength(answer('=PLATECOUNT(650,45,42,38,12)'));
    expect(edgeLeft).toBeCloseTo(20.61940777125589, 9);
  });

  it('says why there are no plates, and draws the cut all the same', () => {
    const { plates, farEnd, remarks } = drawn({ width: 30, skew: 0, series: { pitch: 60, plate: 50, leastEdge: 10, holeBack: 20, holeGap: 30, perSide: 2 } });
    expect(plates).toHaveLength(0);
    expect(farEnd).toEqual({ along: 0, across: 30 });
    expect(remarks.join(' ')).toMatch(/No plates are drawn: plate must fit on the cut/);
  });

  it('says when outer holes would lie beyond the edge of the belt', () => {
    const { remarks } = drawn({ width: 500, skew: 60, series: { pitch: 60, plate: 50, leastEdge: 1, holeBack: 60, holeGap: 0, perSide: 1 } });
    expect(remarks.join(' ')).toMatch(/hole.* beyond the belt's edge/);
  });

  it('refuses what has no cut with the reason', () => {
    expect(jointGeometry({ width: 650, skew: 90 })).toMatch(/skew must be from 0 to 60; 90 was given/);
  });
});

describe('the drawing of a belt in the book', () => {
  const book = new Workbook(demoBook('metric'));
  const skew = book.column('Belts', 'Skew');

  it('shows as many plates as the sheet counts', () => {
    const counts = book.sheet('Belts').rows.map((_, record) => [beltJoint(book, record).geometry?.plates.length ?? 0, book.read('Belts', record, 'Plates')] as const);
    const known = counts.filter(([, plates]) => typeof plates === 'number');
    expect(known.length).toBeGreaterThan(20);
    for (const [shown, counted] of known) expect(shown).toBe(counted);
  });

  it('names the inputs that are missing', () => {
    const before = book.content({ sheet: 'Belts', record: 0, column: skew });
    book.edit([{ sheet: 'Belts', record: 0, column: skew, content: null }]);
    const joint = beltJoint(book, 0);
    book.edit([{ sheet: 'Belts', record: 0, column: skew, content: before }]);
    expect(joint.geometry).toBeUndefined();
    expect(joint.remarks.join(' ')).toMatch(/before Skew is entered/);
    expect(jointDrawing(joint)).toBeUndefined();
  });

  it('is one SVG with every plate and hole in it, to scale', () => {
    const joint = beltJoint(book, 0);
    const drawing = jointDrawing(joint);
    if (drawing === undefined || joint.geometry === undefined) throw new Error('the first belt of the demo has no drawing');
    const text = svgText(drawing, { width: 320, height: 240, textSize: 11 });
    expect(text.match(/class="plate"/g)).toHaveLength(joint.geometry.plates.length);
    expect(text.match(/<circle/g)).toHaveLength(joint.geometry.holes.length);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    const scale = Math.min(320 / (drawing.to.along - drawing.from.along), 240 / (drawing.to.across - drawing.from.across));
    const circles = [...text.matchAll(/<circle class="hole" cx="([-\d.]+)" cy="([-\d.]+)"/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
    const [one, other] = [circles[0] ?? [0, 0], circles.at(-1) ?? [0, 0]];
    const [from, to] = [joint.geometry.holes[0]?.at, joint.geometry.holes.at(-1)?.at];
    if (from === undefined || to === undefined) throw new Error('no holes');
    expect(other[0] - one[0]).toBeCloseTo((to.along - from.along) * scale, 1);
    expect(one[1] - other[1]).toBeCloseTo((to.across - from.across) * scale, 1);
  });

  it('keeps a belt name from being read as markup', () => {
    const joint = { ...beltJoint(book, 0), belt: '<script>"&' };
    const drawing = jointDrawing(joint);
    expect(drawing === undefined ? '' : svgText(drawing, { width: 300, height: 200, textSize: 11 })).toContain('Joint of belt &lt;script&gt;&quot;&amp;');
  });
});
