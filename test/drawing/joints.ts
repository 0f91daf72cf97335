import fc from 'fast-check';
import { type JointGeometry } from '../../src/drawing/joint.ts';
import { jointGeometry, type JointInputs } from '../../src/drawing/joint-geometry.ts';
import type { LengthUnit } from '../../src/drawing/tape.ts';

/** Joints that the tests of drawings draw. */

/** The geometry; a joint that is refused fails the test. */
export function drawn(inputs: JointInputs): JointGeometry {
  const geometry = jointGeometry(inputs);
  if (typeof geometry === 'string') throw new Error(geometry);
  return geometry;
}

/** Invented figures in millimetres, of a small and of a large plate. */
export const small = {
  pitch: 27.5,
  plate: 24.5,
  leastEdge: 8,
  holeBack: 11.5,
  holeGap: 0,
  perSide: 1,
  punch: 6.3,
} as const;
export const large = {
  pitch: 71,
  plate: 63.5,
  leastEdge: 19,
  holeBack: 32.5,
  holeGap: 28.5,
  perSide: 2,
  punch: 11.8,
} as const;
export const strips = { overhang: 60, below: 1, above: 2 } as const;

export type SizedSeries = NonNullable<JointInputs['series']> & { readonly punch: number };

/** Lengths of millimetres in the unit. */
export const inUnit = (unit: LengthUnit, millimetres: number): number =>
  unit === 'mm' ? millimetres : millimetres / 25.4;

export const seriesIn = (unit: LengthUnit, series: SizedSeries): SizedSeries => ({
  pitch: inUnit(unit, series.pitch),
  plate: inUnit(unit, series.plate),
  leastEdge: inUnit(unit, series.leastEdge),
  holeBack: inUnit(unit, series.holeBack),
  holeGap: inUnit(unit, series.holeGap),
  perSide: series.perSide,
  punch: inUnit(unit, series.punch),
});

export interface AnyJoint {
  readonly unit: LengthUnit;
  readonly inputs: JointInputs & { readonly series: SizedSeries; readonly hand: 'right' | 'left' };
}

/** Joints of any width and skew that belts have, of either hand, in either unit. */
export const joints: fc.Arbitrary<AnyJoint> = fc
  .record({
    unit: fc.constantFrom('mm' as const, 'in' as const),
    hand: fc.constantFrom('right' as const, 'left' as const),
    width: fc.double({ min: 400, max: 2000, noNaN: true }),
    skew: fc.oneof(fc.constantFrom(0, 22, 45, 60), fc.double({ min: 0, max: 60, noNaN: true })),
    plate: fc.double({ min: 20, max: 90, noNaN: true }),
    clear: fc.double({ min: 1, max: 15, noNaN: true }),
    leastEdge: fc.double({ min: 5, max: 40, noNaN: true }),
    holeBack: fc.double({ min: 10, max: 40, noNaN: true }),
    perSide: fc.integer({ min: 1, max: 3 }),
    overhang: fc.double({ min: 0, max: 80, noNaN: true }),
  })
  .map(({ unit, hand, width, skew, plate, clear, leastEdge, holeBack, perSide, overhang }) => ({
    unit,
    inputs: {
      width: inUnit(unit, width),
      skew,
      hand,
      strips: { overhang: inUnit(unit, overhang), below: 1, above: 2 },
      series: seriesIn(unit, {
        pitch: plate + clear,
        plate,
        leastEdge,
        holeBack,
        holeGap: plate / 4,
        perSide,
        punch: Math.min(holeBack, plate / 4) * 0.6,
      }),
    },
  }));

/** Within 1e-9 of each other; a number that is missing is near nothing. */
export const near = (one: number | undefined, other: number | undefined): boolean =>
  one !== undefined && other !== undefined && Math.abs(one - other) <= 1e-9;

/** A joint that fits, with real figures: its drawing needs no warning. */
export const sound = { worst: 'fits', invented: false } as const;
