import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { checkHeader } from '../../sheets/belts/check-columns.ts';
import { verdicts, type Verdict, verdictOf } from '../../src/functions/checks.ts';
import { beltJoint } from '../../src/drawing/belt-joint.ts';
import { findings } from '../../src/checks/findings.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { number } from '../evaluation.ts';
import { type Cells, bookOf, plover } from '../workbook/books.ts';

/** Plates and holes beside the belt's edge, by outlines in the plane that are turned point by point. */

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Laid {
  readonly width: number;
  readonly skew: number;
  readonly pitch: number;
  readonly plate: number;
  readonly edge: number;
  readonly holeBack: number;
  readonly holeGap: number;
  readonly perSide: number;
  readonly punch: number;
  readonly plateLength: number;
}

const roundPoints = 720;

/** Nearest approach of the plates' outlines and of the holes' rims to either edge of a belt between y = 0 and width. */
function nearest(joint: Laid): { readonly corner: number; readonly rim: number } {
  const { width, skew, pitch, plate, edge, holeBack, holeGap, perSide, punch, plateLength } = joint;
  const turn = (-skew * Math.PI) / 180;
  // The square joint's cut runs along y through the belt's middle; the whole pattern is turned about that middle.
  const turned = ({ x, y }: Point): Point => ({
    x: x * Math.cos(turn) - y * Math.sin(turn),
    y: width / 2 + x * Math.sin(turn) + y * Math.cos(turn),
  });
  const cut = width / Math.cos(turn);
  let count = 1;
  while (plate + count * pitch + 2 * edge <= cut + 1e-9 * pitch) count += 1;
  const [corners, rims]: [Point[], Point[]] = [[], []];
  for (let place = 0; place < count; place += 1) {
    const middle = (place - (count - 1) / 2) * pitch;
    for (const end of [-1, 1]) {
      for (const side of [-1, 1]) corners.push({ x: (end * plateLength) / 2, y: middle + (side * plate) / 2 });
      for (let hole = 0; hole < perSide; hole += 1) {
        const centre = turned({ x: end * holeBack, y: middle + (hole - (perSide - 1) / 2) * holeGap });
        for (let step = 0; step < roundPoints; step += 1) {
          const angle = (2 * Math.PI * step) / roundPoints;
          rims.push({ x: centre.x + (Math.cos(angle) * punch) / 2, y: centre.y + (Math.sin(angle) * punch) / 2 });
        }
      }
    }
  }
  const toEdge = ({ y }: Point): number => Math.min(y, width - y);
  return {
    corner: Math.min(...corners.map(turned).map(toEdge)),
    rim: rims.reduce((least, point) => Math.min(least, toEdge(point)), Infinity),
  };
}

const widths = [400, 500, 650, 800, 1000, 1200, 1400, 1600, 2000];
const demo = new Workbook(demoBook('metric'));
const record = demo.sheet('Belts').rows.findIndex((_, place) => demo.read('Belts', place, 'Verdict') === 'fits');
const ofSeries = (place: number) => (header: Parameters<typeof demo.read<'Plate series'>>[2]) =>
  Number(demo.read('Plate series', place, header));

describe.each(
  [...demo.sheet('Plate series').rows.keys()].map(
    (place) => [String(demo.read('Plate series', place, 'Series')), place] as const,
  ),
)('series %s on nine widths at skews of 0 to 60 degrees', (name, place) => {
  const figure = ofSeries(place);
  const trials = widths.flatMap((width) =>
    Array.from({ length: 61 }, (_, skew) => {
      const row = demo.whatIf('Belts', record, { Width: width, Skew: skew, 'Plate series': name });
      const cell = (header: Parameters<typeof demo.read<'Belts'>>[2]) => row[demo.column('Belts', header)];
      const laid = nearest({
        width,
        skew,
        pitch: figure('Pitch'),
        plate: figure('Plate width'),
        edge: figure('Minimum edge'),
        holeBack: figure('Hole setback'),
        holeGap: figure('Hole spacing'),
        perSide: figure('Holes per side'),
        punch: figure('Punch size'),
        plateLength: figure('Plate length'),
      });
      return { width, skew, cell, laid };
    }),
  );

  it('has the distances of the outlines', () => {
    const wrong = trials.filter(
      ({ cell, laid }) =>
        Math.abs(Number(cell('Corner left')) - laid.corner) > 1e-9 ||
        // The rim is walked in steps: an outline's point lies short of its lowest by at most this.
        Math.abs(Number(cell('Rim left')) - laid.rim) >
          (figure('Punch size') / 2) * (1 - Math.cos(Math.PI / roundPoints)) + 1e-9,
    );
    expect(wrong.map(({ width, skew }) => `${width} at ${skew}`)).toEqual([]);
  });

  it('lets no hole or corner outside its limits pass', () => {
    const passing = trials.filter(({ cell }) =>
      ['Hole rim check', 'Plate corner check'].every((header) => cell(header as 'Hole rim check') !== 'fails'),
    );
    const outside = passing.filter(
      ({ cell, laid }) => laid.corner < -1e-9 || laid.rim < Number(cell('Rim needed')) - 1e-9,
    );
    expect(passing.length).toBeGreaterThan(0);
    expect(outside.map(({ width, skew }) => `${width} at ${skew}`)).toEqual([]);
  });
});

const belt: Cells = { Belt: 'One', Width: 800, Skew: 45, 'Plate series': 'Plover' };
const bookWith = (cells: Cells, series: Cells = {}, named: Cells = {}): Workbook =>
  new Workbook(bookOf({ belts: [{ ...belt, ...cells }], series: [{ ...plover, ...series }], named }));

type EdgeCheck = 'hole rim' | 'plate corner';
interface Refused {
  readonly why: string;
  readonly check: EdgeCheck;
  readonly cells?: Cells;
  readonly series?: Cells;
  readonly named?: Cells;
  /** What makes it pass. */
  readonly twin: { readonly cells?: Cells; readonly series?: Cells; readonly named?: Cells };
}

const refused: readonly Refused[] = [
  {
    why: 'a longer plate',
    check: 'plate corner',
    series: { 'Plate length': 60 },
    twin: { series: { 'Plate length': 41 } },
  },
  { why: 'a steeper skew', check: 'plate corner', cells: { Skew: 60, Width: 812 }, twin: { cells: { Skew: 45 } } },
  {
    why: 'too little edge',
    check: 'plate corner',
    series: { 'Minimum edge': 2 },
    twin: { series: { 'Minimum edge': 21 } },
  },
  {
    why: 'a minimum of its own',
    check: 'plate corner',
    named: { CornerDistance: 20 },
    twin: { named: { CornerDistance: 0 } },
  },
  {
    why: 'the length taken from holes and punch',
    check: 'plate corner',
    series: { 'Plate length': null, 'Punch size': 14 },
    twin: { series: { 'Plate length': null, 'Punch size': 2 } },
  },
  {
    why: 'holes far from the cut',
    check: 'hole rim',
    series: { 'Hole setback': 40 },
    twin: { series: { 'Hole setback': 13.5 } },
  },
  { why: 'a large punch', check: 'hole rim', series: { 'Punch size': 40 }, twin: { series: { 'Punch size': 7.2 } } },
  {
    why: 'a minimum of the series',
    check: 'hole rim',
    series: { 'Minimum rim': 30 },
    twin: { series: { 'Minimum rim': 5 } },
  },
  {
    why: 'the minimum of the book',
    check: 'hole rim',
    named: { RimDistance: 30 },
    twin: { named: { RimDistance: 5 } },
  },
  {
    why: 'a steeper skew',
    check: 'hole rim',
    cells: { Skew: 60 },
    series: { 'Minimum rim': 12 },
    twin: { cells: { Skew: 30 } },
  },
  {
    why: 'holes wide apart',
    check: 'hole rim',
    series: { 'Holes per side': 2, 'Hole spacing': 34, 'Minimum rim': 9 },
    twin: { series: { 'Hole spacing': 12 } },
  },
];

test.each(refused)(
  '$check refuses $why, and passes its twin',
  ({ check, cells = {}, series = {}, named = {}, twin }) => {
    const first = bookWith(cells, series, named);
    const second = bookWith({ ...cells, ...twin.cells }, { ...series, ...twin.series }, { ...named, ...twin.named });
    expect(first.read('Belts', 0, checkHeader(check))).toBe('fails');
    expect(second.read('Belts', 0, checkHeader(check))).not.toBe('fails');
    expect(verdictOf(second.read('Belts', 0, checkHeader(check)))).not.toBe('not known');
    const finding = findings(first).find((item) => item.check === check);
    expect(finding?.given?.value).toBeLessThan(Number(finding?.limit?.value));
    expect(finding?.message).toMatch(/ mm, is below .* mm\./);
    for (const [, skew] of (finding?.cures.join(' ') ?? '').matchAll(/a skew of ([\d.]+)°/g)) {
      const cured = bookWith({ ...cells, Skew: Number(skew) }, series, named);
      expect(cured.read('Belts', 0, checkHeader(check))).not.toBe('fails');
    }
  },
);

const rank = (verdict: unknown): number => verdicts.indexOf(verdictOf(verdict) satisfies Verdict);

test.each([
  ['plate corner', 'Plate length'],
  ['hole rim', 'Punch size'],
  ['hole rim', 'Hole setback'],
  ['hole rim', 'Minimum rim'],
] as const)('%s: a larger %s never makes it better', (check, header) => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 1, max: 80, noNaN: true }),
      fc.double({ min: 0, max: 60, noNaN: true }),
      (skew, size, more) => {
        const at = (value: number): number =>
          rank(bookWith({ Skew: skew }, { [header]: value }).read('Belts', 0, checkHeader(check)));
        expect(at(size + more)).toBeGreaterThanOrEqual(at(size));
      },
    ),
    { numRuns: 60 },
  );
});

test('at the same clear edge a steeper skew brings a corner nearer, and a square joint has all of it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 1, max: 90, noNaN: true }),
      fc.double({ min: 1, max: 90, noNaN: true }),
      (one, other, edge, length) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        const corner = (skew: number): number => number('CORNERDISTANCE', edge, skew, length);
        expect(corner(more)).toBeLessThanOrEqual(corner(less) + 1e-9);
        expect(corner(0)).toBe(edge);
      },
    ),
  );
});

test('the drawing names the acute corner of either belt end that projects over the edge, and by how much', () => {
  const { geometry } = beltJoint(bookWith({}, { 'Plate length': 60 }), 0);
  const over = geometry?.remarks.find((text) => text.includes('corners project over'));
  const book = bookWith({}, { 'Plate length': 60 });
  expect(over).toContain(`by up to ${(-Number(book.read('Belts', 0, 'Corner left'))).toFixed(1)} mm`);
  expect(over).toMatch(/^2 acute corners.*plate 1 on the leading end and plate \d+ on the trailing end\.$/);
  expect(beltJoint(bookWith({}), 0).remarks.join(' ')).not.toContain('corners project over');
});
