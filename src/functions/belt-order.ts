import { define, Refusal } from '../formula/define.ts';
import type { Parameter } from '../formula/parameter.ts';
import { settled } from './rounding.ts';

/** Belt to buy: for a new belt, for an insert, from rolls; and the take-up's travel that it needs. */

const joints = { kind: 'count', min: 0, whole: true, doc: 'bolted joints that are made' } as const satisfies Parameter;
const consumption = {
  kind: 'length',
  min: 0,
  doc: 'belt lost to one joint from two square ends, see SKEWLOSS',
} as const satisfies Parameter;
const trim = { kind: 'length', min: 0, doc: 'cut off each end to square it' } as const satisfies Parameter;
const loop = {
  kind: 'length',
  above: 0,
  doc: 'length of the endless belt, with the take-up where the new belt begins',
} as const satisfies Parameter;
const stretch = { kind: 'number', min: 0, max: 0.1, advice: 'A stretch of 1 per cent is 0.01' } as const;
const perJoint = '({consumption}+2*{trim})';

/**
 * Belt to order for a whole new belt.
 *
 * On the centre line every joint takes its consumption and the trim of two ends, which the loop must have on top. Belt
 * that is longer under its tension is ordered shorter by that share; leave it out (0) to be safe, since too long can be
 * cut and too short cannot. The allowance is belt for what else is wanted: a take-up further out, a spare end.
 */
export const beltToOrder = define({
  name: 'BELTTOORDER',
  summary: 'belt to order for a new belt',
  parameters: {
    loop,
    joints,
    consumption,
    trim,
    stretch: { ...stretch, default: 0, doc: 'share by which tension lengthens the belt when it is closed' },
    allowance: { kind: 'length', min: 0, default: 0, doc: 'belt on top' },
  },
  result: { kind: 'length', doc: 'belt to order, all pieces together' },
  source: 'geometry of the joint; squaring trim: common practice, no source',
  example: ['=BELTTOORDER(300000,2,1000,150)', 302600],
  calculate({ loop, joints, consumption, trim, stretch, allowance }) {
    return loop / (1 + stretch) + joints * (consumption + 2 * trim) + allowance;
  },
  formula: `{loop}/(1+{stretch})+{joints}*${perJoint}+{allowance}`,
});

/**
 * Belt to order for an insert between two ends of a belt that stays.
 *
 * `removed` is what is cut out, square, on the centre line. At each of the two joints the old end and the insert's end
 * lose half the consumption and the trim each, and all of it must come from the insert. `longer` is what the belt is to
 * gain, to bring a take-up back that has come to its end; negative shortens it.
 */
export const insertToOrder = define({
  name: 'INSERTTOORDER',
  summary: 'belt to order for an insert with its two joints',
  parameters: {
    removed: { kind: 'length', min: 0, doc: 'belt cut out, on the centre line' },
    consumption,
    trim,
    longer: { kind: 'length', default: 0, doc: 'length by which the whole belt becomes longer' },
  },
  result: { kind: 'length', doc: 'length of the insert as ordered' },
  source: 'geometry of the joint; squaring trim: common practice, no source',
  example: ['=INSERTTOORDER(6000,1000,150,500)', 9100],
  calculate({ removed, consumption, trim, longer }) {
    const insert = removed + longer + 2 * (consumption + 2 * trim);
    if (insert <= 0)
      throw new Refusal(
        'longer',
        `must leave an insert to order: ${-(removed + 2 * (consumption + 2 * trim))} or less takes all of it`,
      );
    return insert;
  },
  formula: `IF({removed}+{longer}+2*${perJoint}<=0,{refused},{removed}+{longer}+2*${perJoint})`,
});

const roll = { kind: 'length', above: 0, doc: 'belt on one roll' } as const satisfies Parameter;

/** Rolls that hold a length of belt. Joints between the rolls are not in it: see JOINTSFORROLLS. */
export const rolls = define({
  name: 'ROLLS',
  summary: 'whole rolls that hold a length of belt',
  parameters: { length: { kind: 'length', min: 0, doc: 'length of belt needed' }, roll },
  result: { kind: 'count', doc: 'rolls' },
  source: 'counting',
  example: ['=ROLLS(302600,100000)', 4],
  calculate({ length, roll }) {
    return Math.ceil(settled(length / roll));
  },
  formula: 'ROUNDUP(ROUND({length}/{roll},9),0)',
});

/**
 * Joints of a belt that is made of whole rolls: as many as there are rolls, since the last end meets the first.
 *
 * Every roll brings its length and takes what one joint needs, so the loop is divided by the difference.
 */
export const jointsForRolls = define({
  name: 'JOINTSFORROLLS',
  summary: 'joints, and rolls, of a loop made of whole rolls',
  parameters: {
    loop,
    roll,
    joint: { kind: 'length', min: 0, doc: 'belt lost to one joint: skew and the trim of two ends' },
  },
  result: { kind: 'count', doc: 'joints, and as many rolls' },
  source: 'counting',
  example: ['=JOINTSFORROLLS(299000,100000,1300)', 4],
  calculate({ loop, roll, joint }) {
    if (joint >= roll) throw new Refusal('joint', `must be less than a roll (${roll})`);
    return Math.ceil(settled(loop / (roll - joint)));
  },
  formula: 'IF({joint}>={roll},{refused},ROUNDUP(ROUND({loop}/({roll}-{joint}),9),0))',
});

/**
 * Travel of the take-up that the belt's stretch will use up.
 *
 * Elastic and lasting stretch together: about 1.5 % textile and 0.2 % steel cord; EP 1 to 2 %, NN 2 to 4 %. All
 * from memory. A pulley that the belt runs to and from gives twice its travel.
 */
export const takeUpTravel = define({
  name: 'TAKEUPTRAVEL',
  summary: "take-up travel needed for the belt's stretch",
  parameters: {
    loop,
    stretch: { ...stretch, doc: 'elastic and lasting stretch as a share of the length' },
    share: {
      kind: 'number',
      above: 0,
      max: 2,
      default: 2,
      doc: 'belt that one unit of travel gives: 2 if the belt runs to and from the moving pulley',
    },
  },
  result: { kind: 'length', doc: 'travel of the take-up' },
  source: 'geometry of the take-up',
  example: ['=TAKEUPTRAVEL(300000,0.015)', 2250],
  calculate({ loop, stretch, share }) {
    return (loop * stretch) / share;
  },
  formula: '{loop}*{stretch}/{share}',
});
