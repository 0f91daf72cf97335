import { define, Refusal } from '../formula/define.ts';
import type { Parameter } from '../formula/parameter.ts';
import { radians } from './geometry.ts';
import { type Circle, closedPath, overlapping, type PathFault, tangent, wrapBetween } from './tangents.ts';

/** The belt's way around any number of pulleys that stand at coordinates. */

const degrees = (angle: number): number => (angle * 180) / Math.PI;

const turnDoc = '1 if the belt turns left on it (counter-clockwise), -1 if it turns right';
const turn = { kind: 'count', min: -1, max: 1, whole: true, doc: turnDoc } as const satisfies Parameter;
const place = (axis: string, which: string) =>
  ({ kind: 'length', doc: `${axis} of the ${which} pulley's centre` }) as const satisfies Parameter;
const across = (which: string) =>
  ({
    kind: 'length',
    above: 0,
    doc: `diameter of the ${which} pulley at the belt's neutral line`,
  }) as const satisfies Parameter;

const twoPulleys = {
  x1: place('x', 'first'),
  y1: place('y', 'first'),
  d1: across('first'),
  turn1: turn,
  x2: place('x', 'second'),
  y2: place('y', 'second'),
  d2: across('second'),
  turn2: turn,
} as const;

/** A turn as 1 or -1. Throws a Refusal of the argument for 0. */
function turned(argument: string, value: number): 1 | -1 {
  if (value === 1 || value === -1) return value;
  throw new Refusal(argument, 'must be 1 or -1');
}

type Pair = { readonly [Name in keyof typeof twoPulleys]: number };

function twoCircles({ x1, y1, d1, turn1, x2, y2, d2, turn2 }: Pair): readonly [Circle, Circle] {
  const first = { x: x1, y: y1, diameter: d1, turn: turned('turn1', turn1) };
  const second = { x: x2, y: y2, diameter: d2, turn: turned('turn2', turn2) };
  if (overlapping(first, second))
    throw new Refusal(
      'd2',
      `must be so small that the pulleys do not overlap: their centres are ${Math.hypot(x2 - x1, y2 - y1)} apart, ` +
        `the first is ${d1} across`,
    );
  return [first, second];
}

const centres = '({x2}-{x1})^2+({y2}-{y1})^2';
const offset = '({turn1}*{d1}-{turn2}*{d2})/2';
const straight = `SQRT(MAX(0,${centres}-(${offset})^2))`;
const unlessImpossible = (value: string): string =>
  `IF({turn1}*{turn2}=0,{refused},IF(ROUND(2*SQRT(${centres})/({d1}+{d2}),9)<1,{refused},${value}))`;

/**
 * Straight belt from one pulley to the next, between the points where it touches them.
 *
 * Outside both, or crossing the line of centres when the turns differ. Exact for a run without sag.
 */
export const tangentLength = define({
  name: 'TANGENTLENGTH',
  summary: 'straight belt between two pulleys',
  parameters: twoPulleys,
  result: { kind: 'length', doc: 'from the point where the belt leaves the first to where it meets the second' },
  source: 'geometry of two circles and their tangents',
  example: ['=TANGENTLENGTH(0,0,6,1,13,0,4,-1)', 12],
  calculate(given) {
    return tangent(...twoCircles(given)).length;
  },
  formula: unlessImpossible(straight),
});

/**
 * Direction of the straight belt from one pulley to the next, in degrees from the x axis, counter-clockwise.
 *
 * Between -270 and 270: a whole turn more or less is the same direction.
 */
export const tangentAngle = define({
  name: 'TANGENTANGLE',
  summary: 'direction of the straight belt between two pulleys',
  parameters: twoPulleys,
  result: { kind: 'angle', doc: 'degrees from the x axis' },
  source: 'geometry of two circles and their tangents',
  example: ['=TANGENTANGLE(0,0,6,1,13,0,4,-1)', 22.61986494804043],
  calculate(given) {
    return degrees(tangent(...twoCircles(given)).direction);
  },
  formula: unlessImpossible(`DEGREES(ATAN2({x2}-{x1},{y2}-{y1})+ATAN2(${straight},${offset}))`),
});

const turnedText = 'MOD({turn}*({leaving}-{entering}),360)';

/**
 * Wrap of the belt on a pulley, from its directions before and after it.
 *
 * How far the belt turns to the pulley's side, less whole turns; a wrap that falls short of a full turn by less than
 * the 9th decimal is none.
 */
export const wrapAngle = define({
  name: 'WRAPANGLE',
  summary: 'wrap on a pulley from the directions of the belt before and after it',
  parameters: {
    entering: { kind: 'angle', doc: 'direction of the belt that arrives, degrees, see TANGENTANGLE' },
    leaving: { kind: 'angle', doc: 'direction of the belt that leaves' },
    turn,
  },
  result: { kind: 'angle', doc: 'arc of contact, degrees' },
  source: 'geometry',
  example: ['=WRAPANGLE(170,20,1)', 210],
  calculate({ entering, leaving, turn }) {
    return degrees(wrapBetween(radians(entering), radians(leaving), turned('turn', turn)));
  },
  formula: `IF({turn}=0,{refused},IF(${turnedText}>360-10^-9,0,${turnedText}))`,
});

/** Why a belt can't go round, in words that name the pulleys by their place in the ranges. */
function faultInWords(fault: PathFault, count: number): string {
  const pulley = (place: number): string => `pulley ${(place % count) + 1}`;
  const run = (place: number): string => `the run from ${pulley(place)} to ${pulley(place + 1)}`;
  switch (fault.fault) {
    case 'few':
      return 'must hold at least two pulleys';
    case 'overlap':
      return `must keep the pulleys apart: ${fault.pulleys.map(pulley).join(' and ')} overlap`;
    case 'through':
      return `must leave room for the belt: ${run(fault.run)} goes through ${pulley(fault.pulley)}`;
    case 'around':
      return (
        `must let the belt touch every pulley on its side: it would loop around ${pulley(fault.pulley)}; turn ` +
        `it the other way, or move or leave out the pulley`
      );
    case 'crossing':
      return (
        `must not make the belt cross itself: ${run(fault.runs[0])} and ${run(fault.runs[1])} cross; check the ` +
        `turns and the order`
      );
  }
}

/**
 * Length of a belt around any number of pulleys, in the order of its travel.
 *
 * Straight runs that touch two pulleys, and arcs. With the belt's thickness the neutral line is taken half of it off
 * the bare pulleys, on either face (for a carcass in the belt's middle, from memory); without it the diameters count at
 * the neutral line. Pulleys may not overlap and the belt may not cross itself. Sag is not in it. For two pulleys it is
 * BELTLOOP.
 */
export const beltPath = define({
  name: 'BELTPATH',
  summary: 'length of a belt around any number of pulleys at coordinates',
  parameters: {
    x: { kind: 'numbers', doc: "x of the pulleys' centres, in the order of travel, in one row or column" },
    y: { kind: 'numbers', doc: 'y of the centres, laid out like x' },
    diameters: { kind: 'numbers', above: 0, doc: 'diameters of the pulleys, laid out like x' },
    turns: { kind: 'numbers', min: -1, max: 1, doc: `${turnDoc}; laid out like x` },
    thickness: {
      kind: 'number',
      min: 0,
      default: 0,
      doc: "the belt's thickness in the unit of the ranges, if the diameters are of the bare pulleys",
    },
  },
  result: { kind: 'number', doc: 'length of the endless belt, in the unit of the ranges' },
  source: 'geometry of circles and their tangents',
  example: ['=BELTPATH({0;12},{0;0},{1.6;0.5},{1;1})', 27.323885035303434],
  calculate({ x, y, diameters, turns, thickness }) {
    const pulleys = x.map((centre, place) => ({
      x: centre,
      y: y[place] ?? Number.NaN,
      diameter: (diameters[place] ?? Number.NaN) + thickness,
      turn: turned('turns', turns[place] ?? 0),
    }));
    const path = closedPath(pulleys);
    if ('fault' in path)
      throw new Refusal(
        path.fault === 'overlap' ? 'diameters' : path.fault === 'few' ? 'x' : 'turns',
        faultInWords(path, pulleys.length),
      );
    return path.length;
  },
  formula: null,
});
