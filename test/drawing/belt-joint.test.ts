import { describe, expect, it } from 'vitest';
import { beltJoint } from '../../src/drawing/belt-joint.ts';
import { jointDrawing } from '../../src/drawing/joint-drawing.ts';
import { svgText } from '../../src/drawing/svg.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

describe('the drawing of a belt in the book', () => {
  const book = new Workbook(demoBook('metric'));
  const skew = book.column('Belts', 'Skew');

  it('shows as many plates as the sheet counts', () => {
    const counts = book
      .sheet('Belts')
      .rows.map(
        (_, record) =>
          [beltJoint(book, record).geometry?.plates.length ?? 0, book.read('Belts', record, 'Plates')] as const,
      );
    const known = counts.filter(([, plates]) => typeof plates === 'number');
    expect(known.length).toBeGreaterThan(20);
    for (const [shown, counted] of known) expect(shown).toBe(counted);
  });

  it('has the strips of the assumptions, as long as the sheet says, and the hand of the belt', () => {
    const { geometry } = beltJoint(book, 0);
    expect(geometry?.strips).toHaveLength(Number(book.named('StripPieces')));
    expect(geometry?.strips[0]?.length).toBeCloseTo(Number(book.read('Belts', 0, 'Strip length each')), 9);
    expect(geometry?.hand).toBe('right');
    const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Skew hand') };
    const before = book.content(place);
    book.edit([{ ...place, content: 'left' }]);
    const left = beltJoint(book, 0).geometry;
    book.edit([{ ...place, content: before }]);
    expect(left?.hand).toBe('left');
    expect(left?.nearEnd.across).toBe(left?.width);
  });

  it('names the inputs that are missing', () => {
    const before = book.content({ sheet: 'Belts', record: 0, column: skew });
    book.edit([{ sheet: 'Belts', record: 0, column: skew, content: null }]);
    const joint = beltJoint(book, 0);
    book.edit([{ sheet: 'Belts', record: 0, column: skew, content: before }]);
    expect(joint.geometry).toBeUndefined();
    expect(joint.remarks.join(' ')).toMatch(/enter Skew as a number/);
    expect(jointDrawing(joint)).toBeUndefined();
  });

  it('is one SVG with every plate and hole in it, to scale', () => {
    const joint = beltJoint(book, 0);
    const drawing = jointDrawing(joint);
    if (drawing === undefined || joint.geometry === undefined)
      throw new Error('the first belt of the demo has no drawing');
    const text = svgText(drawing, { width: 320, height: 240, textSize: 11 });
    expect(text.match(/class="plate"/g)).toHaveLength(joint.geometry.plates.length);
    expect(text.match(/<circle/g)).toHaveLength(joint.geometry.holes.length);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    const scale = Math.min(
      320 / (drawing.to.along - drawing.from.along),
      240 / (drawing.to.across - drawing.from.across),
    );
    const circles = [...text.matchAll(/<circle class="hole" cx="([-\d.]+)" cy="([-\d.]+)"/g)].map(
      ([, x, y]) => [Number(x), Number(y)] as const,
    );
    const [one, other] = [circles[0] ?? [0, 0], circles.at(-1) ?? [0, 0]];
    const [from, to] = [joint.geometry.holes[0]?.at, joint.geometry.holes.at(-1)?.at];
    if (from === undefined || to === undefined) throw new Error('no holes');
    expect(other[0] - one[0]).toBeCloseTo((to.along - from.along) * scale, 1);
    expect(one[1] - other[1]).toBeCloseTo((to.across - from.across) * scale, 1);
  });

  it('keeps a belt name from being read as markup', () => {
    const joint = { ...beltJoint(book, 0), belt: '<script>"&' };
    const drawing = jointDrawing(joint);
    expect(drawing === undefined ? '' : svgText(drawing, { width: 300, height: 200, textSize: 11 })).toContain(
      'Joint of belt &lt;script&gt;&quot;&amp;',
    );
  });
});
