import type { Spot } from './belt-axes.ts';

/**
 * What stands on a sheet of paper, before it is SVG or PDF.
 *
 * The paper's millimetres count from its upper left corner, x to the right and y downwards. The joint itself stays in
 * the belt's own axes and lengths: a view says by its matrix where it lies on the paper, so that whoever reads a
 * drawing finds the numbers of the geometry in it, unrounded, and at 1:1 the matrix is nothing but a turn and a shift.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** x = a along + c across + e, y = b along + d across + f. */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** Line widths and dashes in millimetres; all black or grey, to be told apart without colour. */
export const pens = {
  edge: { width: 0.35, grey: 0 },
  cut: { width: 0.7, grey: 0 },
  plate: { width: 0.2, grey: 0 },
  hole: { width: 0.2, grey: 0 },
  square: { width: 0.25, grey: 0, dash: [2.4, 1] },
  centre: { width: 0.18, grey: 0.25, dash: [5, 0.8, 0.8, 0.8] },
  strip: { width: 0.3, grey: 0, dash: [0.9, 0.9] },
  thin: { width: 0.18, grey: 0.3 },
  template: { width: 0.15, grey: 0 },
  thick: { width: 0.6, grey: 0 },
  mark: { width: 0.25, grey: 0 },
  faint: { width: 0.15, grey: 0.6 },
  travel: { width: 0.5, grey: 0 },
} as const satisfies Readonly<Record<string, Pen>>;

interface Pen {
  readonly width: number;
  /** 0 is black, 1 white. */
  readonly grey: number;
  readonly dash?: readonly number[];
}

export type PenName = keyof typeof pens;

/** Part of a view, in the belt's axes. */
export type Outline =
  | { readonly type: 'line'; readonly pen: PenName; readonly points: readonly Spot[]; readonly name?: string }
  /** `fill` is a grey. */
  | {
      readonly type: 'area';
      readonly pen: PenName;
      readonly corners: readonly Spot[];
      readonly fill?: number;
      readonly name?: string;
    }
  | {
      readonly type: 'circle';
      readonly pen: PenName;
      readonly centre: Spot;
      readonly diameter: number;
      readonly fill?: number;
      readonly name?: string;
    };

export interface TextMark {
  readonly type: 'text';
  /** Middle of the text's height; its start, middle or end by the anchor. */
  readonly at: Point;
  readonly text: string;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Degrees anticlockwise. */
  readonly turned: number;
  readonly bold?: boolean;
}

export type Mark =
  | { readonly type: 'view'; readonly matrix: Matrix; readonly outlines: readonly Outline[]; readonly clip?: Box }
  | { readonly type: 'line'; readonly pen: PenName; readonly points: readonly Point[] }
  | { readonly type: 'box'; readonly box: Box; readonly pen?: PenName; readonly fill?: number }
  /** A line with heads at both ends, or at `to` alone. */
  | {
      readonly type: 'arrow';
      readonly pen: PenName;
      readonly from: Point;
      readonly to: Point;
      readonly heads: 'both' | 'to';
    }
  | TextMark;

export interface Paper {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** An arrow's head, for a measure and for one that points somewhere. */
const measureHead = { length: 2.2, halfWidth: 0.45 };
const pointingHead = { length: 4, halfWidth: 1.2 };

/** Where a spot of a view lies on the paper. */
export const onPaper = ({ a, b, c, d, e, f }: Matrix, { along, across }: Spot): Point => ({
  x: a * along + c * across + e,
  y: b * along + d * across + f,
});

/** Paper millimetres per belt length. */
export const scaleOf = ({ a, b, c, d }: Matrix): number => Math.sqrt(Math.abs(a * d - b * c));

function arrowHead(tip: Point, from: Point, { length, halfWidth }: typeof measureHead): readonly [Point, Point, Point] {
  const distance = Math.hypot(tip.x - from.x, tip.y - from.y);
  const [x, y] = distance === 0 ? [1, 0] : [(tip.x - from.x) / distance, (tip.y - from.y) / distance];
  const base = { x: tip.x - x * length, y: tip.y - y * length };
  return [
    tip,
    { x: base.x - y * halfWidth, y: base.y + x * halfWidth },
    { x: base.x + y * halfWidth, y: base.y - x * halfWidth },
  ];
}

/** The heads of an arrow, three corners each: none at the ends of a measure too short to hold them. */
export function arrowHeads({
  from,
  to,
  heads,
}: Extract<Mark, { readonly type: 'arrow' }>): readonly (readonly [Point, Point, Point])[] {
  if (heads === 'to') return [arrowHead(to, from, pointingHead)];
  return Math.hypot(to.x - from.x, to.y - from.y) < 2.5 * measureHead.length
    ? []
    : [arrowHead(to, from, measureHead), arrowHead(from, to, measureHead)];
}
