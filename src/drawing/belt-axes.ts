/**
 * The axes that a joint is described in, and the cut's own.
 *
 * The belt is seen from above, its carrying side up. `along` runs with the travel; `across` from the near edge, on the
 * right of one who looks the way the belt travels, to the far edge on the left. Drawn with the travel to the right,
 * `across` points upwards.
 */
export interface Spot {
  readonly along: number;
  readonly across: number;
}

/**
 * Which way a skew joint leans: the edge on which its marked corner lies, the hindmost point of the cut.
 *
 * Looking from above in the direction of travel, the cut of a right-hand joint starts at the right edge and runs
 * forward to the left one; that is what HOLESPOTS answers. A left-hand joint is its mirror image across the belt's
 * centre line: it starts at the left edge and runs forward to the right one. A square joint has no hand; the hand then
 * only says from which edge it is measured.
 */
export type Hand = 'right' | 'left';

/** What the axes of a cut hang on. */
export interface CutLine {
  readonly width: number;
  readonly skew: number;
  readonly hand: Hand;
}

/**
 * A place by the cut: `run` along it from the marked corner, `ahead` square to it, positive towards the leading belt
 * end.
 */
export interface CutSpot {
  readonly run: number;
  readonly ahead: number;
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A point of a right-hand joint from its distance along the cut and square to it, positive towards the leading end. */
export function spotOnCut(skew: number, run: number, ahead: number): Spot {
  const [sine, cosine] = [Math.sin(radians(skew)), Math.cos(radians(skew))];
  return { along: run * sine + ahead * cosine, across: run * cosine - ahead * sine };
}

/** A spot across the centre line. */
export const mirrored = ({ along, across }: Spot, width: number): Spot => ({ along, across: width - across });

/** A spot by its distances from the marked corner: along the belt, and across it away from the corner's edge. */
export const fromCorner = (spot: Spot, { width, hand }: CutLine): Spot =>
  hand === 'right' ? spot : mirrored(spot, width);

/** Where a spot lies by the cut. */
export function onCut(spot: Spot, cut: CutLine): CutSpot {
  const { along, across } = fromCorner(spot, cut);
  const [sine, cosine] = [Math.sin(radians(cut.skew)), Math.cos(radians(cut.skew))];
  return { run: along * sine + across * cosine, ahead: along * cosine - across * sine };
}

/** The spot at a place by the cut. */
export function besideCut({ run, ahead }: CutSpot, cut: CutLine): Spot {
  return fromCorner(spotOnCut(cut.skew, run, ahead), cut);
}
