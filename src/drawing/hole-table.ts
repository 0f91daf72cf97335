import { fromCorner, onCut } from './belt-axes.ts';
import type { BeltEnd, Hole, JointGeometry } from './joint.ts';
import { type LengthUnit, onTape } from './tape.ts';

/** A distance as it is and as a tape shows it. */
interface TapeLength {
  readonly exact: number;
  readonly tape: number;
}

/**
 * One hole, as it is laid out on the belt.
 *
 * Two ways to the same spot: `along` the edge and `across` the belt from the marked corner, negative along lying behind
 * it; or `run` along the cut from the marked corner and `back` from the cut, square to it, into the hole's own belt
 * end.
 */
export interface HoleRow {
  readonly number: number;
  readonly plate: number;
  readonly end: BeltEnd;
  readonly along: TapeLength;
  readonly across: TapeLength;
  readonly run: TapeLength;
  readonly back: TapeLength;
  /**
   * On the tape, from the hole before it in the same belt end, from the marked corner for the first: the difference of
   * their rounded runs.
   */
  readonly step: number;
}

/**
 * The holes of a joint, numbered as HOLESPOTS gives them.
 *
 * Runs are rounded each from the exact distance to the marked corner, and steps are differences of rounded runs. So the
 * steps of a belt end sum to its last run, and no hole is off by more than half a mark of the tape however many come
 * before it.
 */
export function holeTable(joint: JointGeometry, unit: LengthUnit): readonly HoleRow[] {
  const taped = (exact: number): TapeLength => ({ exact, tape: onTape(exact, unit) });
  const placed = joint.holes.map((hole) => ({ hole, place: onCut(hole.at, joint) }));
  const steps = new Map<Hole, number>();
  for (const end of ['trailing', 'leading'] as const) {
    let before = 0;
    for (const { hole, place } of placed
      .filter((one) => one.hole.end === end)
      .toSorted((one, other) => one.place.run - other.place.run)) {
      const run = onTape(place.run, unit);
      steps.set(hole, run - before);
      before = run;
    }
  }
  return placed.map(({ hole, place }) => {
    const { along, across } = fromCorner(hole.at, joint);
    return {
      number: hole.number,
      plate: hole.plate,
      end: hole.end,
      along: taped(along),
      across: taped(across),
      run: taped(place.run),
      back: taped(Math.abs(place.ahead)),
      step: steps.get(hole) ?? 0,
    };
  });
}
