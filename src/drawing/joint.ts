import { isFault, type Matrix } from '../formula/values.ts';
import { holeSpots, plateSpots } from '../functions/plates.ts';
import { skewLength, skewOffset } from '../functions/layout.ts';
import type { EngineeringFunction } from '../formula/define.ts';

/**
 * A joint seen from above, in the belt's own axes and the book's lengths.
 *
 * `along` runs with the belt's travel, `across` from the near edge to the far one; the origin is where the cut meets the
 * near edge, as HOLESPOTS has it. Everything here is geometry: how it is drawn is another file's matter.
 */
export interface Spot {
  readonly along: number;
  readonly across: number;
}

export interface JointInputs {
  readonly width: number;
  readonly skew: number;
  readonly series?: {
    readonly pitch: number;
    readonly plate: number;
    readonly leastEdge: number;
    readonly holeBack: number;
    readonly holeGap: number;
    readonly perSide: number;
    /** Diameter of the holes; absent when it is not known. */
    readonly punch?: number;
  };
}

export interface Plate {
  /** Counted from 1 at the near edge. */
  readonly number: number;
  readonly centre: Spot;
  /** Corners in order round the plate. */
  readonly corners: readonly [Spot, Spot, Spot, Spot];
}

export interface Hole {
  readonly at: Spot;
  /** The belt end it is punched in: 'trailing' has the smaller along. */
  readonly end: 'trailing' | 'leading';
}

export interface JointGeometry {
  readonly width: number;
  readonly skew: number;
  readonly cutLength: number;
  /** From the square line through the cut's near end to where the cut meets the far edge. */
  readonly offset: number;
  readonly nearEnd: Spot;
  readonly farEnd: Spot;
  readonly plates: readonly Plate[];
  readonly holes: readonly Hole[];
  readonly punch: number | undefined;
  readonly pitch: number | undefined;
  /** Clear distance at each end of the cut, the plates centred. */
  readonly edgeLeft: number | undefined;
  /** Greatest distance of a plate's side from the cut. */
  readonly reach: number;
  /** What cannot be drawn, or lies where it should not, in sentences. */
  readonly remarks: readonly string[];
}

/** How far a plate goes on beyond its holes, in hole diameters: the series' data give no size square to the cut. */
const beyondHoles = 1;
/** A hole diameter for drawing where none is given, as a share of the distance to the cut. */
const shareOfHoleBack = 0.4;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A point of the joint from its distance along the cut and square to it, positive towards the leading end. */
export function spotOnCut(skew: number, s: number, ahead: number): Spot {
  const [sine, cosine] = [Math.sin(radians(skew)), Math.cos(radians(skew))];
  return { along: s * sine + ahead * cosine, across: s * cosine - ahead * sine };
}

const scalar = (definition: EngineeringFunction, ...args: number[]): number | string => {
  const value = definition.evaluate(args);
  return typeof value === 'number' ? value : isFault(value) ? value.message : String(value);
};

const rows = (definition: EngineeringFunction, ...args: number[]): readonly (readonly number[])[] | string => {
  const value = definition.evaluate(args);
  if (isFault(value)) return value.message;
  return (value as Matrix).map((row) => row.map(Number));
};

/** A function's message without its name: the drawing says what it is about. */
const bare = (message: string): string => message.replace(/^[A-Z]+: /, '');

function empty(width: number, skew: number, cutLength: number, offset: number, remarks: readonly string[]): JointGeometry {
  return {
    width, skew, cutLength, offset,
    nearEnd: { along: 0, across: 0 },
    farEnd: { along: offset, across: width },
    plates: [], holes: [], punch: undefined, pitch: undefined, edgeLeft: undefined, reach: 0, remarks,
  };
}

/** The joint of the inputs; a sentence when not even the cut can be drawn. */
export function jointGeometry({ width, skew, series }: JointInputs): JointGeometry | string {
  const cutLength = scalar(skewLength, width, skew);
  const offset = scalar(skewOffset, width, skew);
  if (typeof cutLength === 'string' || typeof offset === 'string') return bare(String(typeof cutLength === 'string' ? cutLength : offset));
  if (series === undefined) return empty(width, skew, cutLength, offset, []);
  const { pitch, plate, leastEdge, holeBack, holeGap, perSide } = series;
  const spots = rows(plateSpots, width, skew, pitch, plate, leastEdge);
  if (typeof spots === 'string') return empty(width, skew, cutLength, offset, [`No plates are drawn: ${bare(spots)}.`]);
  const punched = rows(holeSpots, width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide);
  const punch = series.punch ?? holeBack * shareOfHoleBack;
  const reach = holeBack + punch / 2 + beyondHoles * punch;
  const plates = spots.flatMap(([s], index): Plate[] => {
    if (s === undefined) return [];
    const corner = (side: number, ahead: number): Spot => spotOnCut(skew, s + (side * plate) / 2, ahead);
    return [{ number: index + 1, centre: spotOnCut(skew, s, 0), corners: [corner(-1, -reach), corner(1, -reach), corner(1, reach), corner(-1, reach)] }];
  });
  const holes = typeof punched === 'string' ? [] : punched.flatMap(([along, across], index): Hole[] =>
    along === undefined || across === undefined ? [] : [{ at: { along, across }, end: Math.floor(index / perSide) % 2 === 0 ? 'trailing' : 'leading' }],
  );
  const first = spots[0]?.[0] ?? 0;
  const outside = holes.filter(({ at }) => at.across < 0 || at.across > width).length;
  return {
    ...empty(width, skew, cutLength, offset, [
      ...(typeof punched === 'string' ? [`No holes are drawn: ${bare(punched)}.`] : []),
      ...(outside > 0 ? [`${outside === 1 ? '1 hole lies' : `${outside} holes lie`} beyond the belt's edge: the outer plates need more edge distance at this skew.`] : []),
    ]),
    plates, holes, punch, pitch, reach,
    edgeLeft: first - plate / 2,
  };
}
