import { define, Refusal } from '../formula/define.ts';
import { radians } from './geometry.ts';

/** What lies on a troughed belt. */

/** Belts up to this width, mm, carry on nine tenths of it less a strip; wider ones on all but a strip. ISO 5048. */
const widestByShare = 2000;
const usable = { share: 0.9, less: 50, wideLess: 250 } as const;
/** Centre roller over belt width for three equal rollers, 0.37 to 0.40 by width: from memory. */
const centreShare = 0.38;

/** What a slope leaves of the heap above the trough. */
function upperShare(slope: number, surcharge: number): number {
  if (slope === 0) return 1;
  const [along, across] = [Math.cos(radians(slope)) ** 2, Math.cos(radians(surcharge)) ** 2];
  return Math.sqrt(Math.max(0, along - across) / (1 - across));
}

const carryingText = `IF({width}>${widestByShare},{width}-${usable.wideLess},${usable.share}*{width}-${usable.less})`;
const centreText = `MIN(${carryingText},${centreShare}*{width})`;
const topText = `(${centreText}+(${carryingText}-${centreText})*COS(RADIANS({trough})))`;

/**
 * Section of the load on three equal rollers, in m2.
 *
 * The belt's usable width lies on the centre roller and, half of the rest each, on the wings at the troughing angle.
 * They hold a trapezium; on it lies a heap whose sides rise by the surcharge angle, the angle that the load keeps while
 * the belt runs. On a slope only the heap shrinks. Times speed, bulk density and running time it is what the belt can
 * carry; feed that comes in lumps or off the middle carries less.
 */
export const loadArea = define({
  name: 'LOADAREA',
  summary: 'section of the load on a troughed belt, m2',
  parameters: {
    width: { kind: 'millimetres', above: 100, doc: "the belt's width, mm" },
    trough: { kind: 'angle', min: 0, max: 60, doc: 'trough angle of the wing idlers, degrees; 0 is a flat belt' },
    surcharge: {
      kind: 'angle',
      min: 0,
      max: 45,
      doc: 'degrees at which the load lies on the running belt: 10 free-flowing, 20 usual, 25 lumpy',
    },
    slope: { kind: 'angle', min: 0, max: 45, default: 0, doc: 'degrees that the belt rises or falls' },
  },
  result: { kind: 'number', doc: 'section, m2' },
  source: 'ISO 5048, from memory; centre idler 0.38 of the width: from memory',
  example: ['=LOADAREA(1000,30,20)', 0.10613815618718943],
  calculate({ width, trough, surcharge, slope }) {
    if (slope > surcharge)
      throw new Refusal('slope', `must be at most the surcharge angle (${surcharge}), or the load slides back`);
    const carrying = width > widestByShare ? width - usable.wideLess : usable.share * width - usable.less;
    const centre = Math.min(carrying, centreShare * width);
    const wings = carrying - centre;
    const top = centre + wings * Math.cos(radians(trough));
    const heap = (top ** 2 * Math.tan(radians(surcharge))) / 6;
    const trapezium = ((centre + top) / 2) * (wings / 2) * Math.sin(radians(trough));
    return (heap * upperShare(slope, surcharge) + trapezium) / 1e6;
  },
  formula:
    `IF({slope}>{surcharge},{refused},(${topText}^2*TAN(RADIANS({surcharge}))/6*IF({slope}=0,1,` +
    'SQRT(MAX(0,COS(RADIANS({slope}))^2-COS(RADIANS({surcharge}))^2)/(1-COS(RADIANS({surcharge}))^2)))+' +
    `(${centreText}+${topText})/2*(${carryingText}-${centreText})/2*SIN(RADIANS({trough})))/10^6)`,
});

/** Slope of a conveyor, up or down: its lift is the sine's share of its length. */
export const slopeAngle = define({
  name: 'SLOPEANGLE',
  summary: 'slope of a conveyor, up or down',
  parameters: {
    length: { kind: 'length', above: 0, doc: "the conveyor's length" },
    lift: { kind: 'length', doc: 'height gained by the load, negative downhill' },
  },
  result: { kind: 'angle', doc: 'degrees, 0 and more' },
  source: 'trigonometry of the right triangle',
  example: ['=SLOPEANGLE(200,-100)', 30.000000000000004],
  calculate({ length, lift }) {
    if (Math.abs(lift) > length)
      throw new Refusal('lift', `must be between -${length} and ${length}, the conveyor's length`);
    return (Math.asin(Math.abs(lift) / length) * 180) / Math.PI;
  },
  formula: 'IF(ABS({lift})>{length},{refused},DEGREES(ASIN(ABS({lift})/{length})))',
});
