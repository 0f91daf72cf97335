import { besideCut, type CutLine, type CutSpot, type Spot } from './belt-axes.ts';
import {
  type Mark,
  type Matrix,
  onPaper,
  type Outline,
  type PenName,
  type Point,
  scaleOf,
  type TextMark,
} from './paper.ts';
import { textWidth } from './text-width.ts';

/** Parts that the views of a shop drawing are put together from. */
export const labelSize = 2.6;
export const smallSize = 2.3;

export const text = (
  at: Point,
  words: string,
  anchor: TextMark['anchor'] = 'middle',
  turned = 0,
  size = labelSize,
): TextMark => ({ type: 'text', at, text: words, size, anchor, turned });

export const arrow = (from: Point, to: Point): Mark => ({ type: 'arrow', pen: 'thin', from, to, heads: 'both' });
export const rule = (pen: PenName, ...points: Point[]): Mark => ({ type: 'line', pen, points });
export const middle = (one: Point, other: Point): Point => ({ x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 });
export const shifted = ({ x, y }: Point, right: number, down: number): Point => ({ x: x + right, y: y + down });

/** The angle of a line on paper at which text along it is read from below or from the right. */
export function readable(from: Point, to: Point): number {
  const angle = (Math.atan2(from.y - to.y, to.x - from.x) * 180) / Math.PI;
  return angle > 90 + 1e-9 ? angle - 180 : angle <= -90 + 1e-9 ? angle + 180 : angle;
}

/** A level measure: its label over the middle where it is wide enough, otherwise beyond the end that has room. */
export function levelMeasure(from: Point, to: Point, words: string, room: 'left' | 'right', up: 1 | -1 = 1): Mark[] {
  const fits = textWidth(words, labelSize) + 1 <= Math.abs(to.x - from.x);
  const beyond =
    room === 'right'
      ? text(shifted(from.x > to.x ? from : to, 2, 0), words, 'start')
      : text(shifted(from.x > to.x ? to : from, -2, 0), words, 'end');
  return [
    ...[from, to].map((end) => rule('thin', shifted(end, 0, -1.2), shifted(end, 0, 1.2))),
    arrow(from, to),
    fits ? text(shifted(middle(from, to), 0, -2.2 * up), words) : beyond,
  ];
}

/** Plates, then the cut over them, then the holes: the order in which each stays visible. */
export function jointOutlines(
  joint: {
    readonly plates: readonly { readonly corners: readonly Spot[] }[];
    readonly holes: readonly { readonly at: Spot }[];
    readonly drawnPunch: number;
  },
  cut: readonly Spot[],
): Outline[] {
  return [
    ...joint.plates.map(({ corners }): Outline => ({ type: 'area', pen: 'plate', corners, fill: 0.84, name: 'plate' })),
    { type: 'line', pen: 'cut', points: cut, name: 'cut' },
    ...joint.holes.map(({ at }): Outline => ({
      type: 'circle',
      pen: 'hole',
      centre: at,
      diameter: joint.drawnPunch,
      fill: 1,
      name: 'hole',
    })),
  ];
}

/** Places by the cut on paper, with a distance on paper added along it and square to it. */
export function cutPlacer(
  cut: CutLine,
  matrix: Matrix,
): (place: CutSpot, runMore?: number, aheadMore?: number) => Point {
  const scale = scaleOf(matrix);
  return ({ run, ahead }, runMore = 0, aheadMore = 0) =>
    onPaper(matrix, besideCut({ run: run + runMore / scale, ahead: ahead + aheadMore / scale }, cut));
}
