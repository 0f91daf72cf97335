import { define, Refusal } from '../formula/define.ts';
import { radians } from './geometry.ts';
import { skew } from './parameters.ts';

/**
 * How near the outer plates and their holes come to the belt's edge, square to that edge.
 *
 * On a skew joint the clear edge along the cut says little: a corner or a hole that lies away from the cut lies nearer
 * to the edge on the acute side. A point s along the cut and t square to it lies s cos(skew) - t sin(skew) from the
 * near edge. A joint is the same turned by half a turn, so the acute corner of the other belt end, at the other edge,
 * is as near; the obtuse sides are farther away.
 */

const edgeLeft = {
  kind: 'length',
  min: 0,
  doc: "clear distance from the outer plate to the belt's edge, along the cut (PLATEEDGE)",
} as const;

/**
 * Belt between the rim of the outermost hole and the belt's edge, square to the edge; below 0 where the hole is cut.
 *
 * The hole lies half a plate, less half of what its holes span, beyond the clear edge. Holds for a straight cut in a
 * belt that lies flat, plates and holes on their places.
 */
export const rimDistance = define({
  name: 'RIMDISTANCE',
  summary: "belt between the outermost hole's rim and the belt's edge, square to the edge",
  parameters: {
    edgeLeft,
    skew,
    plate: { kind: 'length', above: 0, doc: "the plate's width along the cut" },
    holeBack: { kind: 'length', above: 0, doc: 'from the cut to the holes, square to the cut' },
    holeGap: {
      kind: 'length',
      min: 0,
      doc: 'between holes of one plate and belt end, along the cut, centre to centre',
    },
    perSide: { kind: 'count', min: 1, whole: true, doc: 'holes per plate in each belt end' },
    punch: { kind: 'length', above: 0, doc: 'diameter of the holes' },
  },
  result: { kind: 'length', doc: "from the rim to the belt's edge" },
  source: 'rotation of the axes by the skew',
  example: ['=RIMDISTANCE(18,0,52,25.5,23,2,9.6)', 27.7],
  calculate({ edgeLeft: left, skew: angle, plate, holeBack, holeGap, perSide, punch }) {
    if (perSide > 1 && holeGap === 0)
      throw new Refusal('holeGap', `must be more than 0 between ${perSide} holes of one plate, or they coincide`);
    const along = left + plate / 2 - ((perSide - 1) * holeGap) / 2;
    return along * Math.cos(radians(angle)) - holeBack * Math.sin(radians(angle)) - punch / 2;
  },
  formula:
    'IF(AND({perSide}>1,{holeGap}=0),{refused},({edgeLeft}+{plate}/2-({perSide}-1)*{holeGap}/2)*' +
    'COS(RADIANS({skew}))-{holeBack}*SIN(RADIANS({skew}))-{punch}/2)',
});

/**
 * From the outer plate's sharpest corner to the belt's edge, square to the edge; below 0 where it stands over.
 *
 * The corner lies half the plate's length off the cut. Corners are taken as sharp: rounded or cut-off ones stand less
 * far out.
 */
export const cornerDistance = define({
  name: 'CORNERDISTANCE',
  summary: "from the outer plate's corner to the belt's edge, square to the edge; negative if it projects over it",
  parameters: { edgeLeft, skew, plateLength: { kind: 'length', above: 0, doc: 'of the plate, square to the cut' } },
  result: { kind: 'length', doc: "from the corner to the belt's edge" },
  source: 'rotation of the axes by the skew',
  example: ['=CORNERDISTANCE(18,0,70)', 18],
  calculate({ edgeLeft: left, skew: angle, plateLength }) {
    return left * Math.cos(radians(angle)) - (plateLength / 2) * Math.sin(radians(angle));
  },
  formula: '{edgeLeft}*COS(RADIANS({skew}))-{plateLength}/2*SIN(RADIANS({skew}))',
});
