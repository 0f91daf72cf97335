import { counted } from '../units/phrases.ts';
import { isFault, type Matrix } from '../formula/values.ts';
import { holeSpots, plateSpots, tightenTurn } from '../functions/plates.ts';
import { skewLength, skewOffset, squareDiagonal, stripLength } from '../functions/cut.ts';
import type { EngineeringFunction } from '../formula/define.ts';
import { type Hand, mirrored, type Spot, spotOnCut } from './belt-axes.ts';

/**
 * A joint seen from above, in the belt's own axes and the book's lengths.
 *
 * Of a right-hand joint the origin is where the cut meets the near edge, as HOLESPOTS has it; a left-hand joint is its
 * mirror image in the same axes (belt-axes.ts says which is which). Everything here is geometry: how it is drawn is
 * another file's matter.
 */
export type { Spot } from './belt-axes.ts';
export { spotOnCut } from './belt-axes.ts';

interface PlateData {
  readonly pitch: number;
  readonly plate: number;
  readonly leastEdge: number;
  readonly holeBack: number;
  readonly holeGap: number;
  readonly perSide: number;
  /** Diameter of the holes; absent when it is not known. */
  readonly punch?: number;
}

export interface JointInputs {
  readonly width: number;
  readonly skew: number;
  /** 'right' unless told otherwise. */
  readonly hand?: Hand;
  /** Distance marked along both edges to prove the square line; the belt's width unless told otherwise. */
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

/** 'trailing' has the smaller along. */
export type BeltEnd = 'trailing' | 'leading';

interface Plate {
  /** Counted from 1 at the edge of the marked corner. */
  readonly number: number;
  /** The turn at which it is tightened, as TIGHTENTURN has it. */
  readonly turn: number;
  readonly centre: Spot;
  /** Corners in order round the plate. */
  readonly corners: readonly [Spot, Spot, Spot, Spot];
}

export interface Hole {
  /** Counted from 1 in the order of HOLESPOTS. */
  readonly number: number;
  /** Number of its plate. */
  readonly plate: number;
  readonly at: Spot;
  /** The belt end it is punched in. */
  readonly end: BeltEnd;
}

/** A square line and the rectangle that proves it: both its diagonals have the same, known length. */
interface SquareMark {
  /** From the edge of the marked corner to the other edge. */
  readonly line: readonly [Spot, Spot];
  /** Corners in order round the rectangle, the line's two first. */
  readonly corners: readonly [Spot, Spot, Spot, Spot];
}

interface Strip {
  readonly number: number;
  /** Which side of the belt it lies on. */
  readonly side: 'below' | 'above';
  readonly length: number;
  readonly from: Spot;
  readonly to: Spot;
}

export interface JointGeometry {
  readonly width: number;
  readonly skew: number;
  readonly hand: Hand;
  readonly cutLength: number;
  /** From the square line through the cut's near end to where the cut meets the other edge. */
  readonly offset: number;
  /** The marked corner: where the cut meets the edge that the hand names. */
  readonly nearEnd: Spot;
  readonly farEnd: Spot;
  /** Distance marked along both edges from either square line. */
  readonly back: number;
  /** Length of both diagonals of the rectangle so marked. */
  readonly diagonal: number;
  /** Square lines, through the marked corner on the trailing end and through the cut's other end on the leading one. */
  readonly squares: Readonly<Record<BeltEnd, SquareMark>>;
  readonly plates: readonly Plate[];
  readonly holes: readonly Hole[];
  readonly strips: readonly Strip[];
  /** The series' figures, when plates are drawn. */
  readonly series: PlateData | undefined;
  /** Diameter that holes are drawn with: the punch size, or a likely one where none is given. */
  readonly drawnPunch: number;
  /** Clear distance at each end of the cut, the plates centred. */
  readonly edgeLeft: number | undefined;
  /** Greatest distance of a plate's side from the cut. */
  readonly reach: number;
  /**
   * Why no one may drill by this joint: plates or holes that cannot be drawn, or lie where they should not, in
   * sentences.
   */
  readonly patternFaults: readonly string[];
  /** All that cannot be drawn, or lies where it should not, in sentences; the pattern's faults first. */
  readonly remarks: readonly string[];
}

/** How far a plate goes on beyond its holes, in hole diameters: the series' data give no size square to the cut. */
const beyondHoles = 1;
/** A hole diameter for drawing where none is given, as a share of the distance to the cut. */
const shareOfHoleBack = 0.4;

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

const mapped = (corners: SquareMark['corners'], change: (spot: Spot) => Spot): SquareMark['corners'] => {
  const [one, two, three, four] = corners;
  return [change(one), change(two), change(three), change(four)];
};

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
        `${counted(outside, 'hole lies', 'holes lie')} on or beyond the belt's edge: the outer plates ` +
          `need more edge distance at this skew.`,
      ];
}

const faulty = (joint: JointGeometry, faults: readonly string[]): JointGeometry => ({
  ...joint,
  patternFaults: faults,
  remarks: [...faults, ...joint.remarks],
});

function platedJoint(joint: JointGeometry, series: PlateData, unit: string | undefined): JointGeometry {
  const { width, skew } = joint;
  const { pitch, plate, leastEdge, holeBack, holeGap, perSide, punch } = series;
  const lengths = unit === undefined ? '' : ` (lengths in ${unit})`;
  const spots = rows(plateSpots, width, skew, pitch, plate, leastEdge);
  if (typeof spots === 'string')
    return faulty(joint, [
      `No plates are drawn: ${spots}${lengths}. Check the width of the belt, or choose another plate series.`,
    ]);
  const punched = rows(holeSpots, width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide);
  if (punch !== undefined && !(punch > 0))
    return faulty(joint, [`No plates are drawn: the punch size must be more than 0; ${punch} was given${lengths}.`]);
  const drawnPunch = punch ?? holeBack * shareOfHoleBack;
  const reach = holeBack + drawnPunch / 2 + beyondHoles * drawnPunch;
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
  return faulty({ ...joint, plates, holes, series, drawnPunch, reach, edgeLeft: first - plate / 2 }, [
    ...(typeof punched === 'string'
      ? [`No holes are drawn: ${punched}${lengths}. Check the figures of the plate series.`]
      : []),
    ...edgeFaults(holes, width, punch ?? 0),
  ]);
}

/** The same joint with the other hand: mirrored across the belt's centre line. */
export function otherHand(joint: JointGeometry): JointGeometry {
  const over = (spot: Spot): Spot => mirrored(spot, joint.width);
  const square = ({ line: [from, to], corners }: SquareMark): SquareMark => ({
    line: [over(from), over(to)],
    corners: mapped(corners, over),
  });
  return {
    ...joint,
    hand: joint.hand === 'right' ? 'left' : 'right',
    nearEnd: over(joint.nearEnd),
    farEnd: over(joint.farEnd),
    squares: { trailing: square(joint.squares.trailing), leading: square(joint.squares.leading) },
    plates: joint.plates.map((plate) => ({
      ...plate,
      centre: over(plate.centre),
      corners: mapped(plate.corners, over),
    })),
    holes: joint.holes.map((hole) => ({ ...hole, at: over(hole.at) })),
    strips: joint.strips.map((strip) => ({ ...strip, from: over(strip.from), to: over(strip.to) })),
  };
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

/**
 * Outline of one belt end as far as `length` from its square line, in order round it from the marked corner's side of
 * the cut.
 */
export function beltEnd(
  { nearEnd, farEnd, offset }: JointGeometry,
  end: BeltEnd,
  length: number,
): readonly [Spot, Spot, Spot, Spot] {
  const along = end === 'trailing' ? -length : offset + length;
  return [nearEnd, farEnd, { along, across: farEnd.across }, { along, across: nearEnd.across }];
}
