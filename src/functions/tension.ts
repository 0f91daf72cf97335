import { define, Refusal } from '../formula/define.ts';
import { radians } from './geometry.ts';
import { lengthFigure } from './figure-names.ts';
import { lengthFactors, lineAt, lineText } from './tables.ts';

/** What pulls on the belt: resistance along the conveyor, and the slack side that keeps the drive from slipping. */

/** Friction times wrap in radians below which the slack side would be a million times the pull: chosen, no source. */
const leastGrip = 0.000001;

/**
 * Slack-side tension as a multiple of the drive's pull.
 *
 * At the limit of slip the tight side is exp(friction wrap) times the slack side, and their difference is the pull.
 * For dry flat belts at working speed; the belt's own centrifugal tension, small in conveyors, is to be added.
 */
export const wrapFactor = define({
  name: 'WRAPFACTOR',
  summary: 'slack-side tension per unit of effective tension',
  parameters: {
    wrap: { kind: 'angle', above: 0, doc: 'degrees of wrap on the drive pulley, of several pulleys together' },
    friction: { kind: 'number', above: 0, doc: 'friction between belt and drive pulley' },
  },
  result: { kind: 'number', doc: 'slack-side tension over effective tension' },
  source: 'Euler-Eytelwein; DIN 22101, ISO 5048',
  example: ['=WRAPFACTOR(210,0.35)', 0.3836141892918402],
  calculate({ wrap, friction }) {
    const grip = friction * radians(wrap);
    if (grip < leastGrip)
      throw new Refusal('friction', 'times the wrap is so small that the belt has no grip on the pulley');
    return 1 / Math.expm1(grip);
  },
  formula:
    `IF({friction}*RADIANS({wrap})<${leastGrip},{refused},` +
    `EXP(-{friction}*RADIANS({wrap}))/(1-EXP(-{friction}*RADIANS({wrap}))))`,
});

const lengths = lengthFactors.map(({ length }) => length);
const lengthNames = lengthFactors.map(({ length }) => lengthFigure(length));

/**
 * Factor for the secondary resistances by the conveyor's length, linear between the table's entries.
 *
 * Scrapers, pulleys and the feeding point hardly grow with length, so their share shrinks in a long conveyor. Below the
 * table's first length they are as large as the main resistances and no factor can stand for them: the function
 * refuses. Beyond its last length the last factor holds.
 */
export const lengthFactor = define({
  name: 'LENGTHFACTOR',
  summary: "factor for secondary resistances by the conveyor's length",
  parameters: {
    length: {
      kind: 'metres',
      min: lengthFactors[0].length,
      doc: "the conveyor's length, m",
      advice: "For a shorter conveyor enter the belt's tension or the motor's power instead",
    },
  },
  result: { kind: 'number', doc: 'factor on the main resistances' },
  source: 'DIN 22101, ISO 5048, from memory',
  example: ['=LENGTHFACTOR(250)', 1.38],
  figures: Object.fromEntries(lengthFactors.map(({ length, factor }) => [lengthFigure(length), factor])),
  calculate: ({ length }, figure) => lineAt(length, lengths, (index) => figure(lengthNames[index] ?? '')),
  formula: (_given, figure) => lineText('{length}', lengths, lengthNames.map(figure)),
});

/**
 * Pull at the drive in steady running.
 *
 * Main resistances of carrying and return run, enlarged by the length factor for the secondary ones, and the lift of
 * the load; the belt's own weight lifts and lowers itself. Special resistances (skirts, tilted rollers, scrapers beyond
 * the usual) and start-up are not in it. A downhill conveyor may give a negative pull: that belt is braked.
 * With masses in lb/ft and lengths in ft the gravity is 1 lbf per lb and the pull is in lbf.
 */
export const beltPull = define({
  name: 'BELTPULL',
  summary: 'effective tension at the drive in steady running',
  parameters: {
    length: { kind: 'length', above: 0, doc: "the conveyor's length" },
    lift: { kind: 'length', doc: 'height gained by the load, negative downhill' },
    carryRollers: { kind: 'lineMass', min: 0, doc: 'rotating mass of the carrying idlers, per unit length' },
    returnRollers: { kind: 'lineMass', min: 0, doc: 'rotating mass of the return idlers, per unit length' },
    beltMass: { kind: 'lineMass', min: 0, doc: 'belt, per unit length' },
    loadMass: { kind: 'lineMass', min: 0, doc: 'load, per unit length' },
    friction: { kind: 'number', above: 0, doc: 'friction of the idlers and of belt and load over them' },
    factor: { kind: 'number', above: 0, doc: 'factor for secondary resistances, see LENGTHFACTOR' },
    gravity: { kind: 'gravity', above: 0, default: 9.81, doc: 'weight per unit mass: 9.81 N/kg, 1 lbf/lb' },
  },
  result: { kind: 'force', doc: 'effective tension at the drive' },
  source: 'ISO 5048, DIN 22101',
  example: ['=BELTPULL(300,15,14.8,6.5,15,111.11111111111111,0.022,1.31,9.81)', 30110.295253529657],
  calculate({ length, lift, carryRollers, returnRollers, beltMass, loadMass, friction, factor, gravity }) {
    if (Math.abs(lift) > length)
      throw new Refusal('lift', `must be between -${length} and ${length}, the conveyor's length`);
    const slopeCosine = Math.sqrt(1 - (lift / length) ** 2);
    const masses = carryRollers + returnRollers + (2 * beltMass + loadMass) * slopeCosine;
    return factor * friction * length * gravity * masses + loadMass * lift * gravity;
  },
  formula:
    'IF(ABS({lift})>{length},{refused},{factor}*{friction}*{length}*{gravity}' +
    '*({carryRollers}+{returnRollers}+(2*{beltMass}+{loadMass})*SQRT(1-({lift}/{length})^2))+{loadMass}*{lift}*' +
    '{gravity})',
});

/**
 * Pull that one run of belt takes: what its tension grows by from its beginning to its end.
 *
 * Main resistance, enlarged by the length factor, and the lift of all that lies on it. Both runs of a conveyor together
 * are BELTPULL, since the belt's own weight lifts and lowers itself. Negative where the belt runs down steeper than its
 * friction.
 */
export const runPull = define({
  name: 'RUNPULL',
  summary: 'effective tension of one run of belt: its tension at the end less that at the beginning',
  parameters: {
    length: { kind: 'length', above: 0, doc: 'length of the run' },
    lift: { kind: 'length', doc: 'height gained in the direction of travel, negative downhill' },
    rollers: { kind: 'lineMass', min: 0, doc: 'rotating mass of its idlers, per unit length' },
    mass: { kind: 'lineMass', min: 0, doc: 'belt, and load on the carrying side, per unit length' },
    friction: { kind: 'number', min: 0, doc: 'friction of the idlers and of belt and load over them; 0 at rest' },
    factor: { kind: 'number', above: 0, doc: 'factor for secondary resistances, see LENGTHFACTOR' },
    gravity: { kind: 'gravity', above: 0, default: 9.81, doc: 'weight per unit mass: 9.81 N/kg, 1 lbf/lb' },
  },
  result: { kind: 'force', doc: 'tension gained along the run' },
  source: 'ISO 5048, DIN 22101',
  example: ['=RUNPULL(300,-15,6.5,15,0.022,1.31,9.81)', -385.2702288216508],
  calculate({ length, lift, rollers, mass, friction, factor, gravity }) {
    if (Math.abs(lift) > length)
      throw new Refusal('lift', `must be between -${length} and ${length}, the length of the run`);
    return (
      factor * friction * length * gravity * (rollers + mass * Math.sqrt(1 - (lift / length) ** 2)) +
      mass * lift * gravity
    );
  },
  formula:
    'IF(ABS({lift})>{length},{refused},{factor}*{friction}*{length}*{gravity}*({rollers}+{mass}*' +
    'SQRT(1-({lift}/{length})^2))+{mass}*{lift}*{gravity})',
});
