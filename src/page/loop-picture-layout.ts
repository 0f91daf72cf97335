import { type BeltPath, beltPath, ImpossiblePath, type PathPulley } from '../advice/belt-path.ts';
import { spread } from './label-places.ts';

/**
 * A belt's loop as a picture, in its own pixels: x to the right, y down.
 *
 * A conveyor is a hundred times as long as its pulleys are thick, so long stretches without a pulley are shortened, and
 * a slope is drawn flatter; what stands near a pulley stays as it is. Angles told beside the pulleys are those of the
 * places given, not of the picture.
 */

interface Spot {
  readonly x: number;
  readonly y: number;
}

interface PicturePulley {
  readonly name: string;
  readonly centre: Spot;
  readonly radius: number;
  readonly wrap: number;
  readonly reverse: boolean;
  /** Its label's lines stand here, on the picture's upper or lower edge. */
  readonly label: Spot;
  readonly above: boolean;
}

interface LoopPicture {
  readonly width: number;
  readonly height: number;
  readonly pulleys: readonly PicturePulley[];
  /** The belt around the loop as a path of straight runs and arcs. */
  readonly belt: string;
  /** Where the belt is seen to move, and which way in degrees. */
  readonly arrows: readonly (Spot & { readonly turned: number })[];
  /** Where a run is drawn shorter than it is, and which way it goes in degrees. */
  readonly breaks: readonly (Spot & { readonly turned: number })[];
  readonly shortened: boolean;
  /** The true path, for its lengths and angles. */
  readonly path: BeltPath;
}

/** Stretches without a pulley are drawn at most so many times as long as the largest pulley is thick. */
const longest = 4;
/** Slope of the picture at most, rise over length. */
const steepest = 0.12;
const labelHeight = 34;
const labelWidth = 74;
const edge = 12;

/** Places with long gaps between them shortened. */
function closer(values: readonly number[], most: number): (value: number) => number {
  const sorted = [...new Set(values)].toSorted((one, other) => one - other);
  const drawn = new Map<number, number>();
  let at = 0;
  for (const [index, value] of sorted.entries()) {
    at += index === 0 ? 0 : Math.min(value - (sorted[index - 1] ?? value), most);
    drawn.set(value, at);
  }
  return (value) => drawn.get(value) ?? 0;
}

/**
 * The pulleys as they are drawn: nearer together, on a gentler slope, each as far off the line from end to end as it
 * is.
 */
function drawnPulleys(pulleys: readonly PathPulley[]): PathPulley[] {
  const place = closer(
    pulleys.map(({ x }) => x),
    longest * Math.max(...pulleys.map(({ diameter }) => diameter)),
  );
  const ends = pulleys.toSorted((one, other) => one.x - other.x);
  const [first, last] = [ends[0], ends.at(-1)];
  if (first === undefined || last === undefined || last.x <= first.x) return pulleys.map((pulley) => ({ ...pulley }));
  const slope = (last.y - first.y) / (last.x - first.x);
  const drawn = Math.min(steepest, Math.max(-steepest, slope));
  return pulleys.map((pulley) => ({
    ...pulley,
    x: place(pulley.x),
    y: pulley.y - first.y - slope * (pulley.x - first.x) + drawn * place(pulley.x),
  }));
}

const short = (value: number): string => String(Number(value.toFixed(1)));
const degrees = (from: Spot, to: Spot): number => (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
const between = (from: Spot, to: Spot, share: number): Spot => ({
  x: from.x + (to.x - from.x) * share,
  y: from.y + (to.y - from.y) * share,
});

/** Whether each pulley stands on or above the line from the leftmost to the rightmost: its label then goes above. */
function aboveLine(pulleys: readonly PathPulley[]): boolean[] {
  const ends = pulleys.toSorted((one, other) => one.x - other.x);
  const [first, last] = [ends[0], ends.at(-1)];
  if (first === undefined || last === undefined || last.x <= first.x) return pulleys.map(() => true);
  return pulleys.map(({ x, y }) => y >= first.y + ((last.y - first.y) * (x - first.x)) / (last.x - first.x) - 1e-9);
}

/**
 * The path of the drawn pulleys; as they really stand when drawing them nearer together would make the belt cross
 * itself.
 */
function pathOf(pulleys: readonly PathPulley[]): { readonly shown: readonly PathPulley[]; readonly path: BeltPath } {
  const shown = drawnPulleys(pulleys);
  try {
    return { shown, path: beltPath(shown) };
  } catch (error) {
    if (!(error instanceof ImpossiblePath)) throw error;
    return { shown: pulleys, path: beltPath(pulleys) };
  }
}

/** Where the loop lies in the picture, and how large. */
class Scene {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly #left: number;
  readonly #box: Readonly<Record<'left' | 'right' | 'low' | 'high', number>>;

  constructor(shown: readonly PathPulley[], width: number) {
    const box = {
      left: Math.min(...shown.map(({ x, diameter }) => x - diameter / 2)),
      right: Math.max(...shown.map(({ x, diameter }) => x + diameter / 2)),
      low: Math.min(...shown.map(({ y, diameter }) => y - diameter / 2)),
      high: Math.max(...shown.map(({ y, diameter }) => y + diameter / 2)),
    };
    this.#box = box;
    this.width = width;
    this.scale = Math.min((width - 2 * edge) / (box.right - box.left), 200 / (box.high - box.low));
    this.#left = (width - (box.right - box.left) * this.scale) / 2;
    this.height = edge + labelHeight + (box.high - box.low) * this.scale + labelHeight + edge;
  }

  spot({ x, y }: Spot): Spot {
    return {
      x: this.#left + (x - this.#box.left) * this.scale,
      y: edge + labelHeight + (this.#box.high - y) * this.scale,
    };
  }
}

/** How far to the right each pulley's label stands, above the loop or below it. */
function labelPlaces(shown: readonly PathPulley[], sides: readonly boolean[], scene: Scene): number[] {
  const places: number[] = [];
  for (const above of [true, false]) {
    const own = shown.flatMap((pulley, index) => (sides[index] === above ? [{ x: scene.spot(pulley).x, index }] : []));
    const apart = Math.min(labelWidth, scene.width / own.length);
    const xs = spread(
      own.map(({ x }) => x),
      apart,
      apart / 2,
      scene.width - apart / 2,
    );
    for (const [place, { index }] of own.entries()) places[index] = xs[place] ?? 0;
  }
  return places;
}

/** The belt around the loop, as path data. */
function beltLine({ pulleys }: BeltPath, shown: readonly PathPulley[], scene: Scene): string {
  const parts = pulleys.map(({ diameter, wrap, run }, index) => {
    const [to, next] = [scene.spot(run.from), scene.spot(run.to)];
    const radius = short((diameter / 2) * scene.scale);
    // A left turn is counter-clockwise on the page too, which is the arc's sweep 0.
    const sweep = (shown[index]?.turn ?? 1) > 0 ? 0 : 1;
    return (
      `A${radius} ${radius} 0 ${wrap > 180 ? 1 : 0} ${sweep} ${short(to.x)} ${short(to.y)}` +
      `L${short(next.x)} ${short(next.y)}`
    );
  });
  const last = pulleys.at(-1);
  const start = last === undefined ? { x: 0, y: 0 } : scene.spot(last.run.to);
  return `M${short(start.x)} ${short(start.y)}${parts.join('')}Z`;
}

/** A belt's loop; throws ImpossiblePath, which names the pulleys, when the belt cannot go round as they stand. */
export function loopPicture(pulleys: readonly PathPulley[], width: number): LoopPicture {
  const path = beltPath(pulleys);
  const { shown, path: drawn } = pathOf(pulleys);
  const scene = new Scene(shown, width);
  const sides = aboveLine(shown);
  const labels = labelPlaces(shown, sides, scene);
  const runs = drawn.pulleys.map(({ run }, index) => ({
    to: scene.spot(run.from),
    next: scene.spot(run.to),
    drawn: run.length,
    real: path.pulleys[index]?.run.length ?? 0,
  }));
  const cut = runs.filter((run) => run.real > run.drawn * 1.5);
  return {
    width,
    height: scene.height,
    path,
    shortened: cut.length > 0,
    belt: beltLine(drawn, shown, scene),
    pulleys: shown.map((pulley, index) => {
      const above = sides[index] === true;
      const contact = path.pulleys[index];
      return {
        name: pulley.name,
        centre: scene.spot(pulley),
        radius: (pulley.diameter / 2) * scene.scale,
        wrap: contact?.wrap ?? 0,
        reverse: contact?.reverse ?? false,
        above,
        label: { x: labels[index] ?? 0, y: above ? edge : scene.height - labelHeight },
      };
    }),
    arrows: runs
      .filter(({ to, next }) => Math.hypot(next.x - to.x, next.y - to.y) > 44)
      .map(({ to, next }) => ({ ...between(to, next, 0.3), turned: degrees(to, next) })),
    breaks: cut.map(({ to, next }) => ({ ...between(to, next, 0.55), turned: degrees(to, next) })),
  };
}
