import { define } from '../formula/define.ts';
import { cutLength, radians } from './geometry.ts';
import { skew, width } from './parameters.ts';

/** Where the cut of a joint lies, how it is marked out on the belt, and what it takes of belt and strip. */

/**
 * Length of the cut, edge to edge.
 *
 * The cut is the hypotenuse of the right triangle whose legs are the belt's width and the skew's offset.
 * Holds for a belt that lies flat and straight.
 */
export const skewLength = define({
  name: 'SKEWLENGTH',
  summary: 'length of the cut, edge to edge',
  parameters: { width, skew },
  result: { kind: 'length', doc: 'length of the cut' },
  source: 'trigonometry of the right triangle',
  example: ['=SKEWLENGTH(650,45)', 919.2388155425118],
  calculate({ width, skew }) {
    return cutLength(width, skew);
  },
  formula: '{width}/COS(RADIANS({skew}))',
});

/**
 * How far to measure along the edge from the square line to where the cut meets that edge.
 *
 * The leg of the same triangle that lies along the belt; at 45 degrees it equals the width.
 * Shops that vulcanise name a skew by this offset as a share of the width: 0.3 W is 16.699 degrees, 0.4 W 21.801.
 */
export const skewOffset = define({
  name: 'SKEWOFFSET',
  summary: 'distance along the edge from the square line to the cut',
  parameters: { width, skew },
  result: { kind: 'length', doc: 'distance along the edge' },
  source: 'trigonometry of the right triangle; at 45 degrees the width itself: common practice, no source',
  example: ['=SKEWOFFSET(800,30)', 461.8802153517006],
  calculate({ width, skew }) {
    return width * Math.tan(radians(skew));
  },
  formula: '{width}*TAN(RADIANS({skew}))',
});

/**
 * Skew of a cut that was measured on the belt: the inverse of SKEWOFFSET.
 *
 * A negative offset is a cut that leans the other way and gives a negative skew. The answer may exceed the 60 degrees
 * that the other functions take: it states what was measured.
 */
export const skewAngle = define({
  name: 'SKEWANGLE',
  summary: 'skew of a cut from its measured offset',
  parameters: { width, offset: { kind: 'length', doc: 'distance along the edge from the square line to the cut' } },
  result: { kind: 'angle', doc: 'degrees from the square cut' },
  source: 'trigonometry of the right triangle',
  example: ['=SKEWANGLE(1000,300)', 16.69924423399362],
  calculate({ width, offset }) {
    return (Math.atan(offset / width) * 180) / Math.PI;
  },
  formula: 'DEGREES(ATAN({offset}/{width}))',
});

/**
 * Belt lost to skew on the centre line when two square ends are cut to one skew joint.
 *
 * The cut crosses the centre line halfway along its offset, so each end loses half of it and both together all of it.
 * Replacing a skew joint by another of the same skew loses no more than what is cut away beside the old one.
 */
export const skewLoss = define({
  name: 'SKEWLOSS',
  summary: 'belt lost to skew on the centre line when two square ends become one skew joint',
  parameters: { width, skew },
  result: { kind: 'length', doc: 'belt lost to skew' },
  source: 'trigonometry of the right triangle',
  example: ['=SKEWLOSS(1200,22)', 484.8314710021882],
  calculate({ width, skew }) {
    return width * Math.tan(radians(skew));
  },
  formula: '{width}*TAN(RADIANS({skew}))',
});

/**
 * The diagonal that proves a square line.
 *
 * Measure `back` along both edges from the line: the marked rectangle is square when both its diagonals are this long.
 * Two equal diagonals of another length prove only that the figure is symmetric: a belt that narrows gives them too.
 */
export const squareDiagonal = define({
  name: 'SQUAREDIAGONAL',
  summary: 'length of both diagonals when a line across the belt is square',
  parameters: { width, back: { kind: 'length', min: 0, doc: 'distance measured along both edges from the line' } },
  result: { kind: 'length', doc: 'length of each diagonal' },
  source: 'theorem of Pythagoras',
  example: ['=SQUAREDIAGONAL(900,1200)', 1500],
  calculate({ width, back }) {
    return Math.sqrt(width ** 2 + back ** 2);
  },
  formula: 'SQRT({width}^2+{back}^2)',
});

/**
 * Strip for one joint.
 *
 * The strip lies along the cut, so each piece is as long as the cut and a little more, which is trimmed when the plates
 * are down. One piece unless told otherwise; common practice is three per joint, one below and two above.
 */
export const stripLength = define({
  name: 'STRIPLENGTH',
  summary: 'strip for one joint',
  parameters: {
    width,
    skew,
    overhang: { kind: 'length', min: 0, doc: 'overhang of each piece over the cut, both ends together' },
    pieces: { kind: 'count', min: 1, whole: true, default: 1, doc: 'pieces per joint' },
  },
  result: { kind: 'length', doc: 'length of all pieces together' },
  source: 'three pieces a little longer than the cut: common practice, no source',
  example: ['=STRIPLENGTH(650,45,50,3)', 2907.7164466275353],
  calculate({ width, skew, overhang, pieces }) {
    return pieces * (cutLength(width, skew) + overhang);
  },
  formula: '{pieces}*({width}/COS(RADIANS({skew}))+{overhang})',
});
