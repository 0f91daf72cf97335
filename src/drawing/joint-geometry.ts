import type { EngineeringFunction } from '../formula/define.ts';
import { isFault, type Matrix } from '../formula/values.ts';
import { skewLength, skewOffset, squareDiagonal, stripLength } from '../functions/cut.ts';
import { holeSpots, plateCount, plateSpots, tightenTurn } from '../functions/plates.ts';
import { listed, rounded, withUnit } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import { type Hand, type Spot, spotOnCut } from './belt-axes.ts';
import {
  type BeltEnd,
  type Hole,
  type JointGeometry,
  otherHand,
  type Plate,
  type PlateData,
  type SquareMark,
  type Strip,
} from './joint.ts';

/** A joint worked out from its belt and its plate series, or why it can't be drawn. */

export interface JointInputs {
  readonly width: number;
  readonly skew: number;
  /** 'right' by default. */
  readonly hand?: Hand;
  /** Distance marked along both edges to prove the square line; the belt's width by default. */
  readonly back?: number;
  /**
   * Strips of one joint: how many lie under and over the belt, and what each is longer than the cut, both ends
   * together. None are shown without.
   */
  readonly strips?: { readonly overhang: number; readonly below: number; readonly above: number };
  readonly series?: PlateData;
  /** Unit of the lengths, for sentences about what can't be drawn. */
  readonly unit?: string;
}

/** How far a plate goes on beyond its holes, in hole diameters, where its series gives no Plate length. */
const beyondHoles = 1;
/** A hole diameter for drawing where none is given, as a share of the distance to the cut. */
const shareOfHoleBack = 0.4;

/** More than can be told apart in any drawing; the widest belts have some two hundred plates. */
const mostPlates = 1000;
const mostHoles = 10_000;
const mostStrips = 100;

class Undrawable extends Error {}

function scalar(definition: EngineeringFunction, ...args: number[]): number {
  const value = definition.evaluate(args);
  if (typeof value === 'number') return value;
  throw new Undrawable(isFault(value) ? bare(value.message) : String(value));
}

const rows = (definition: EngineeringFunction, ...args: number[]): readonly (readonly number[])[] | string => {
  const value = definition.evaluate(args);
  if (isFault(value)) return bare(value.message);
  return (value as Matrix).map((row) => row.map(Number));
};

/** A function's message without its name: the drawing says what it is about. */
const bare = (message: string): string => message.replace(/^[A-Z]+: /, '');

/** A square line at `along` and the rectangle `back` from it. */
function squareMark(width: number, along: number, back: number): SquareMark {
  const [first, second]: [Spot, Spot] = [
    { along, across: 0 },
    { along, across: width },
  ];
  return {
    line: [first, second],
    corners: [first, second, { along: along + back, across: width }, { along: along + back, across: 0 }],
  };
}

/** The strips, or why there are none. */
function stripsOf({ width, skew, strips }: JointInputs, cutLength: number): readonly Strip[] | string {
  if (strips === undefined || strips.below + strips.above === 0) return [];
  const { overhang, below } = strips;
  const pieces = below + strips.above;
  if (pieces > mostStrips) return `a drawing shows at most ${mostStrips} pieces; ${pieces} were given`;
  const total = stripLength.evaluate([width, skew, overhang, pieces]);
  if (typeof total !== 'number') return isFault(total) ? bare(total.message) : String(total);
  return Array.from({ length: pieces }, (_, index): Strip => ({
    number: index + 1,
    side: index < below ? 'below' : 'above',
    length: total / pieces,
    from: spotOnCut(skew, -overhang / 2, 0),
    to: spotOnCut(skew, cutLength + overhang / 2, 0),
  }));
}

/** Everything but plates and holes, right-hand. */
function bareJoint(inputs: JointInputs): JointGeometry {
  const { width, skew, back = width } = inputs;
  const cutLength = scalar(skewLength, width, skew);
  const offset = scalar(skewOffset, width, skew);
  const strips = stripsOf(inputs, cutLength);
  return {
    width,
    skew,
    cutLength,
    offset,
    back,
    hand: 'right',
    nearEnd: { along: 0, across: 0 },
    farEnd: { along: offset, across: width },
    diagonal: scalar(squareDiagonal, width, back),
    squares: { trailing: squareMark(width, 0, -back), leading: squareMark(width, offset, back) },
    strips: typeof strips === 'string' ? [] : strips,
    plates: [],
    holes: [],
    series: undefined,
    drawnPunch: 0,
    edgeLeft: undefined,
    reach: 0,
    patternFaults: [],
    remarks: typeof strips === 'string' ? [`No strips are drawn: ${strips}.`] : [],
  };
}

/** Holes that are not wholly in the belt, in a sentence. */
function edgeFaults(holes: readonly Hole[], width: number, punch: number): string[] {
  const radius = punch / 2;
  const outside = holes.filter(({ at }) => at.across < radius || at.across > width - radius).length;
  return outside === 0
    ? []
    : [
        `${counted(outside, 'hole lies', 'holes lie')} on or beyond the belt's edge. Increase the minimum edge of ` +
          `the plate series, or change the skew.`,
      ];
}

/** How far a plate may project over the edge by rounding alone. */
const touching = 1e-9;

/** Plates' corners that project over the belt's edge, in a sentence: where they are, and by how much. */
function cornerRemarks(plates: readonly Plate[], width: number, unit = ''): string[] {
  const over = plates.flatMap(({ number, corners }) =>
    corners.flatMap(({ across }, place) => {
      const by = Math.max(-across, across - width);
      const end: BeltEnd = place < 2 ? 'trailing' : 'leading';
      return by > touching ? [{ number, end, by }] : [];
    }),
  );
  if (over.length === 0) return [];
  const most = Math.max(...over.map(({ by }) => by));
  const where = over.map(({ number, end }) => `plate ${number} on the ${end} end`);
  return [
    `${counted(over.length, 'acute corner projects', 'acute corners project')} over the belt's edge, by up to ` +
      `${withUnit(rounded(most, unit === 'in' ? 3 : 1), unit)}: ${listed(where)}.`,
  ];
}

const faulty = (joint: JointGeometry, faults: readonly string[]): JointGeometry => ({
  ...joint,
  patternFaults: faults,
  remarks: [...faults, ...joint.remarks],
});

function platedJoint(joint: JointGeometry, series: PlateData, unit: string | undefined): JointGeometry {
  const { width, skew } = joint;
  const { pitch, plate, leastEdge, holeBack, holeGap, perSide, punch, plateLength } = series;
  const lengths = unit === undefined ? '' : ` (lengths in ${unit})`;
  const count = plateCount.evaluate([width, skew, pitch, plate, leastEdge]);
  if (typeof count === 'number' && (count > mostPlates || 2 * count * perSide > mostHoles))
    return faulty(joint, [
      `No plates are drawn: the cut takes ${count} plates with ${2 * count * perSide} holes, and a drawing shows at ` +
        `most ` +
        `${mostPlates} plates and ${mostHoles} holes. Check the width of the belt and the pitch.`,
    ]);
  const spots = rows(plateSpots, width, skew, pitch, plate, leastEdge);
  if (typeof spots === 'string')
    return faulty(joint, [
      `No plates are drawn: ${spots}${lengths}. Check the width of the belt, or choose another plate series.`,
    ]);
  const punched = rows(holeSpots, width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide);
  if (punch !== undefined && !(punch > 0))
    return faulty(joint, [`No plates are drawn: the punch size must be more than 0; ${punch} was given${lengths}.`]);
  const drawnPunch = punch ?? holeBack * shareOfHoleBack;
  const reach = plateLength === undefined ? holeBack + drawnPunch / 2 + beyondHoles * drawnPunch : plateLength / 2;
  const plates = spots.flatMap(([run], index): Plate[] => {
    if (run === undefined) return [];
    const corner = (side: number, ahead: number): Spot => spotOnCut(skew, run + (side * plate) / 2, ahead);
    return [
      {
        number: index + 1,
        turn: scalar(tightenTurn, spots.length, index + 1),
        centre: spotOnCut(skew, run, 0),
        corners: [corner(-1, -reach), corner(1, -reach), corner(1, reach), corner(-1, reach)],
      },
    ];
  });
  const holes =
    typeof punched === 'string'
      ? []
      : punched.flatMap(([along, across], index): Hole[] =>
          along === undefined || across === undefined
            ? []
            : [
                {
                  number: index + 1,
                  plate: 1 + Math.floor(index / (2 * perSide)),
                  at: { along, across },
                  end: Math.floor(index / perSide) % 2 === 0 ? 'trailing' : 'leading',
                },
              ],
        );
  const first = spots[0]?.[0] ?? 0;
  const remarks = [...cornerRemarks(plates, width, unit), ...joint.remarks];
  return faulty({ ...joint, plates, holes, series, drawnPunch, reach, edgeLeft: first - plate / 2, remarks }, [
    ...(typeof punched === 'string'
      ? [`No holes are drawn: ${punched}${lengths}. Check the figures of the plate series.`]
      : []),
    ...edgeFaults(holes, width, punch ?? 0),
  ]);
}

/** The joint of the inputs; a sentence when not even the cut can be drawn. */
export function jointGeometry(inputs: JointInputs): JointGeometry | string {
  try {
    const bareOne = bareJoint(inputs);
    const joint = inputs.series === undefined ? bareOne : platedJoint(bareOne, inputs.series, inputs.unit);
    return inputs.hand === 'left' ? otherHand(joint) : joint;
  } catch (error) {
    if (error instanceof Undrawable) return error.message;
    throw error;
  }
}
