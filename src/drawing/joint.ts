import { type Hand, mirrored, type Spot } from './belt-axes.ts';

/**
 * A joint seen from above, in the belt's own axes and the book's lengths.
 *
 * Of a right-hand joint the origin is where the cut meets the near edge, as HOLESPOTS has it; a left-hand joint is its
 * mirror image in the same axes (belt-axes.ts says which is which). Everything here is geometry: how it is drawn is
 * another file's matter.
 */
export type { Spot } from './belt-axes.ts';
export { spotOnCut } from './belt-axes.ts';

export interface PlateData {
  readonly pitch: number;
  readonly plate: number;
  readonly leastEdge: number;
  readonly holeBack: number;
  readonly holeGap: number;
  readonly perSide: number;
  /** Diameter of the holes; absent when it is not known. */
  readonly punch?: number;
  /** Length of the plate square to the cut; absent when it is not known. */
  readonly plateLength?: number;
}

/** 'trailing' has the smaller along. */
export type BeltEnd = 'trailing' | 'leading';

export interface Plate {
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
export interface SquareMark {
  /** From the edge of the marked corner to the other edge. */
  readonly line: readonly [Spot, Spot];
  /** Corners in order round the rectangle, the line's two first. */
  readonly corners: readonly [Spot, Spot, Spot, Spot];
}

export interface Strip {
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

const mapped = (corners: SquareMark['corners'], change: (spot: Spot) => Spot): SquareMark['corners'] => {
  const [one, two, three, four] = corners;
  return [change(one), change(two), change(three), change(four)];
};

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
