import { define, Refusal } from '../formula/define.ts';
import { core, thickness } from './parameters.ts';

/** How long a belt is: around its pulleys, and on a roll. */

/**
 * Belt around two pulleys, not crossed.
 *
 * Two tangents and two arcs, exact. Diameters count at the belt's neutral line: bare pulley plus one belt thickness,
 * for a belt whose carcass lies in its middle (from memory). Sag, snubs and take-up bends are not in it.
 */
export const beltLoop = define({
  name: 'BELTLOOP',
  summary: 'length of an open belt around two pulleys',
  parameters: {
    centres: { kind: 'length', above: 0, doc: "distance between the pulleys' axes" },
    d1: { kind: 'length', above: 0, doc: 'one diameter' },
    d2: { kind: 'length', above: 0, doc: 'the other diameter' },
  },
  result: { kind: 'length', doc: 'length of the endless belt' },
  source: 'geometry of two circles and their outer tangents',
  example: ['=BELTLOOP(12,1.6,0.5)', 27.323885035303434],
  calculate({ centres, d1, d2 }) {
    const half = (d1 - d2) / 2;
    if (centres < Math.abs(half))
      throw new Refusal('centres', `must be at least half the difference of the diameters (${Math.abs(half)})`);
    return 2 * Math.sqrt(centres ** 2 - half ** 2) + (Math.PI * (d1 + d2)) / 2 + 2 * half * Math.asin(half / centres);
  },
  formula:
    'IF({centres}<ABS({d1}-{d2})/2,{refused},2*SQRT({centres}^2-(({d1}-{d2})/2)^2)+PI()*({d1}+{d2})/2+({d1}-{d2})*' +
    'ASIN(({d1}-{d2})/(2*{centres})))',
});

/**
 * Belt left on a roll, from what a tape can reach.
 *
 * Seen from the side the belt fills the ring between core and outside, so length times thickness is the ring's area.
 * Adding up whole turns at their mean diameters gives the same. Real rolls have air between turns: calibrate the
 * thickness on a roll of known length.
 */
export const rollBelt = define({
  name: 'ROLLBELT',
  summary: 'length of belt on a roll',
  parameters: { outer: { kind: 'length', above: 0, doc: 'outer diameter' }, core, thickness },
  result: { kind: 'length', doc: 'length of belt, laid flat' },
  source: 'area of a ring; calibration advised by mathforum.org, Dr. Math 67031',
  example: ['=ROLLBELT(900,300,12)', 47123.8898038469],
  calculate({ outer, core, thickness }) {
    if (outer < core) throw new Refusal('outer', `must be at least the core (${core})`);
    return (Math.PI * (outer ** 2 - core ** 2)) / (4 * thickness);
  },
  formula: 'IF({outer}<{core},{refused},PI()*({outer}^2-{core}^2)/(4*{thickness}))',
});

/**
 * Outer diameter of a roll of a given length: the inverse of ROLLBELT, with the same limits.
 */
export const rollOuter = define({
  name: 'ROLLOUTER',
  summary: 'outer diameter of a roll of belt',
  parameters: { length: { kind: 'length', min: 0, doc: 'length of belt, laid flat' }, core, thickness },
  result: { kind: 'length', doc: 'outer diameter' },
  source: 'area of a ring',
  example: ['=ROLLOUTER(100000,300,12)', 1271.9620488372266],
  calculate({ length, core, thickness }) {
    return Math.sqrt(core ** 2 + (4 * length * thickness) / Math.PI);
  },
  formula: 'SQRT({core}^2+4*{length}*{thickness}/PI())',
});
