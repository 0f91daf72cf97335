import { settled } from './rounding.ts';

/**
 * The geometry of a belt around pulleys in one plane: straight runs that touch two circles, and arcs between them.
 *
 * A pulley's turn is 1 where the belt turns left on it, seen along its travel (counter-clockwise), and -1 where it
 * turns right. On a belt that goes round counter-clockwise, -1 is a pulley on the outside of the loop: a reverse bend.
 */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly turn: 1 | -1;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A straight run from one pulley to the next. */
export interface Tangent {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
  /** Direction of travel, in radians from the x axis. */
  readonly direction: number;
}

/** What keeps a belt from going round: pulleys by their place in the list, from 0; run i leaves pulley i. */
export type PathFault =
  | { readonly fault: 'few' }
  | { readonly fault: 'overlap'; readonly pulleys: readonly [number, number] }
  | { readonly fault: 'through'; readonly run: number; readonly pulley: number }
  | { readonly fault: 'around'; readonly pulley: number }
  | { readonly fault: 'crossing'; readonly runs: readonly [number, number] };

interface Path {
  /** Run i goes from pulley i to the next, the last one to the first. */
  readonly runs: readonly Tangent[];
  /** Arc of contact on each pulley, in radians, never negative. */
  readonly wraps: readonly number[];
  readonly length: number;
}

/** Whether two pulleys overlap; that they touch, but for the 9th decimal, is allowed. */
export function overlapping(one: Circle, other: Circle): boolean {
  return settled(Math.hypot(other.x - one.x, other.y - one.y) / ((one.diameter + other.diameter) / 2)) < 1;
}

/**
 * The run between two pulleys that do not overlap.
 *
 * In the frame of the direction of travel and of its right hand, the step from centre to centre is the run's length
 * along and the difference of the signed radii across; so Pythagoras gives the length, and the arc tangent by how much
 * the run is turned from the line of centres.
 */
export function tangent(from: Circle, to: Circle): Tangent {
  const across = (from.turn * from.diameter - to.turn * to.diameter) / 2;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.sqrt(Math.max(0, dx ** 2 + dy ** 2 - across ** 2));
  const direction = Math.atan2(dy, dx) + Math.atan2(across, length);
  const touching = ({ x, y, diameter, turn }: Circle): Point => ({
    x: x + (turn * diameter * Math.sin(direction)) / 2,
    y: y - (turn * diameter * Math.cos(direction)) / 2,
  });
  return { from: touching(from), to: touching(to), length, direction };
}

const fullTurn = 2 * Math.PI;

/** Arc of contact between two directions of travel, in radians; so little short of a full turn is none at all. */
export function wrapBetween(entering: number, leaving: number, turn: 1 | -1): number {
  const turned = (turn * (leaving - entering)) % fullTurn;
  const wrap = turned < 0 ? turned + fullTurn : turned;
  return wrap > fullTurn - 1e-11 ? 0 : wrap;
}

/** On which side of the line a point lies: positive on the left. */
const side = (from: Point, to: Point, point: Point): number =>
  (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);

function crossing(one: Tangent, other: Tangent): boolean {
  return (
    side(one.from, one.to, other.from) * side(one.from, one.to, other.to) < 0 &&
    side(other.from, other.to, one.from) * side(other.from, other.to, one.to) < 0
  );
}

/** Distance of a pulley's centre from a run. */
function distance({ from, length, direction }: Tangent, centre: Point): number {
  const [x, y] = [centre.x - from.x, centre.y - from.y];
  const along = Math.min(length, Math.max(0, x * Math.cos(direction) + y * Math.sin(direction)));
  return Math.hypot(x - along * Math.cos(direction), y - along * Math.sin(direction));
}

/** Every pair of places, each once, the earlier first. */
function* pairs(count: number): Generator<readonly [number, number]> {
  for (let one = 0; one < count; one += 1) for (let other = one + 1; other < count; other += 1) yield [one, other];
}

/** What a list of runs does that no belt can, undefined when nothing. */
function impossible(pulleys: readonly Circle[], runs: readonly Tangent[]): PathFault | undefined {
  for (const [run, line] of runs.entries()) {
    for (const [place, pulley] of pulleys.entries()) {
      if (place === run || place === (run + 1) % pulleys.length) continue;
      if (distance(line, pulley) < (pulley.diameter / 2) * (1 - 1e-9)) return { fault: 'through', run, pulley: place };
    }
  }
  for (const [one, other] of pairs(runs.length)) {
    const [first, second] = [runs[one], runs[other]];
    if (first === undefined || second === undefined || !crossing(first, second)) continue;
    if (runs.length > 2 && other === one + 1) return { fault: 'around', pulley: other };
    if (runs.length > 2 && one === 0 && other === runs.length - 1) return { fault: 'around', pulley: 0 };
    return { fault: 'crossing', runs: [one, other] };
  }
  return undefined;
}

/**
 * The closed way of a belt around its pulleys, in the order of its travel; or why there is none.
 *
 * Refused: pulleys that overlap, a run through a third pulley, runs that cross each other (the turns are wrong, or the
 * pulley does not reach the belt on that side). What is left is a curve that meets itself nowhere, so its wraps,
 * counted with their turns, add up to one full turn.
 */
export function closedPath(pulleys: readonly Circle[]): Path | PathFault {
  const { length: count } = pulleys;
  if (count < 2) return { fault: 'few' };
  for (const [one, other] of pairs(count)) {
    const [first, second] = [pulleys[one], pulleys[other]];
    if (first !== undefined && second !== undefined && overlapping(first, second))
      return { fault: 'overlap', pulleys: [one, other] };
  }
  const runs = pulleys.map((pulley, place) => tangent(pulley, pulleys[(place + 1) % count] ?? pulley));
  const fault = impossible(pulleys, runs);
  if (fault !== undefined) return fault;
  const wraps = pulleys.map(({ turn }, place) => {
    const [entering, leaving] = [runs[(place + count - 1) % count], runs[place]];
    return wrapBetween(entering?.direction ?? 0, leaving?.direction ?? 0, turn);
  });
  // A pulley that misses the belt by a hair loops it round by nearly a full turn, too little for a crossing to show.
  const turned = pulleys.reduce((sum, { turn }, place) => sum + turn * (wraps[place] ?? 0), 0);
  if (Math.abs(Math.round(turned / fullTurn)) !== 1)
    return { fault: 'around', pulley: wraps.indexOf(Math.max(...wraps)) };
  const arcs = pulleys.reduce((sum, { diameter }, place) => sum + ((wraps[place] ?? 0) * diameter) / 2, 0);
  return { runs, wraps, length: arcs + runs.reduce((sum, { length }) => sum + length, 0) };
}
