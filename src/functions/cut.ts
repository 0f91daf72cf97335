import { define } from '../formula/define.ts';
import { cutLength, radians } from './geometry.ts';
import { replacedJoints, skew, width } from './parameters.ts';

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
 * What a joint takes that replaces another is JOINTTAKES.
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

/** The skew that a joint of another one is taken to have at most: common practice, no source. */
const otherSkew = 45;

/**
 * Belt that a joint takes from the loop, on the centre line, by what it replaces.
 *
 * The old joint is cut out with a strip on either side of its cut. Between parallel cuts that is the strip's breadth
 * over cos(skew). Where old and new cut stand at different skews, the new cuts pass the old strip's far corners, which
 * takes the difference of both offsets on top, and each end is trimmed square to be marked anew. A joint of another
 * skew, cut to the same hand, whose skew is not told, lies between 0 and 45 degrees: the worse end of that range
 * counts. A new belt is ordered with what its joints take (BELTTOORDER), so that nothing is left for the loop to give.
 *
 * An insert has two joints: each takes this.
 */
export const jointTakes = define({
  name: 'JOINTTAKES',
  summary: 'belt that a joint takes from the loop, by what it replaces',
  parameters: {
    width,
    skew,
    replaces: { kind: 'text', choices: replacedJoints, doc: 'what the joint replaces' },
    cutOut: {
      kind: 'length',
      min: 0,
      doc: 'breadth of what is cut out with the old joint, both ends together, square to its cut',
    },
    trim: { kind: 'length', min: 0, doc: 'cut off each end to square it' },
    replacedSkew: {
      kind: 'angle',
      min: 0,
      max: skew.max,
      optional: true,
      doc: 'degrees of the joint of another skew that is replaced; default: 45 or less, as the new skew',
    },
  },
  result: { kind: 'length', doc: 'belt, on the centre line' },
  source: 'geometry of the cuts; trim and the skew of another joint: common practice, no source',
  example: ['=JOINTTAKES(1000,45,"same skew",120,100)', 169.70562748477138],
  calculate({ width, skew: angle, replaces, cutOut, trim, replacedSkew }) {
    if (replaces === 'new belt') return 0;
    const turn = radians(angle);
    if (replaces === 'same skew') return cutOut / Math.cos(turn);
    const fromSquare = cutOut + 2 * trim + width * Math.tan(turn);
    if (replaces === 'square joint') return fromSquare;
    const other = radians(replacedSkew ?? otherSkew);
    const fromOther = cutOut / Math.cos(other) + 2 * trim + width * Math.abs(Math.tan(other) - Math.tan(turn));
    return replacedSkew === undefined ? Math.max(fromSquare, fromOther) : fromOther;
  },
  formula(given) {
    const fromSquare = '{cutOut}+2*{trim}+{width}*TAN(RADIANS({skew}))';
    const from = (other: string): string =>
      `{cutOut}/COS(RADIANS(${other}))+2*{trim}+{width}*ABS(TAN(RADIANS(${other}))-TAN(RADIANS({skew})))`;
    const untold = `MAX(${fromSquare},${from(String(otherSkew))})`;
    return (
      'IF(TRIM({replaces})="new belt",0,IF(TRIM({replaces})="same skew",{cutOut}/COS(RADIANS({skew})),' +
      `IF(TRIM({replaces})="square joint",${fromSquare},` +
      `${given.has('replacedSkew') ? `IF(ISBLANK({replacedSkew}),${untold},${from('{replacedSkew}')})` : untold})))`
    );
  },
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
