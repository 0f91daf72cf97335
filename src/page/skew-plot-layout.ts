import type { ReachedPulley } from '../advice/belt-skews.ts';
import { roundTicks } from '../pictures/round-ticks.ts';
import { spread } from './label-places.ts';

/** Where the parts of the plot of minimum pulley against skew stand, in its own pixels. */

export interface PlotLine {
  readonly series: string;
  readonly curve: readonly { readonly skew: number; readonly pulley: number }[];
  readonly chosen: boolean;
  /** Whether the joint passes every check at some skew. */
  readonly passes: boolean;
}

interface PlotWanted {
  readonly width: number;
  readonly height: number;
  readonly greatestSkew: number;
  readonly lines: readonly PlotLine[];
  readonly marks: readonly ReachedPulley[];
}

interface Label {
  readonly text: string;
  readonly x: number;
  /** Where it stands. */
  readonly y: number;
  /** What it belongs to. */
  readonly at: number;
}

interface PlacedPlot {
  readonly frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly ticksX: readonly { readonly at: number; readonly value: number }[];
  readonly ticksY: readonly { readonly at: number; readonly value: number }[];
  readonly lines: readonly { readonly line: PlotLine; readonly path: string; readonly label: Label }[];
  readonly marks: readonly { readonly mark: ReachedPulley; readonly y: number; readonly label: Label }[];
  readonly x: (skew: number) => number;
  readonly y: (pulley: number) => number;
  /** The skew at a place across the plot. */
  readonly skewAt: (x: number) => number;
}

const margin = { left: 46, top: 34, bottom: 38 };
const lineHeight = 13;
const letterWidth = 6.4;

const short = (value: number): string => String(Number(value.toFixed(1)));

/** The plot's parts; undefined when no series has a minimum pulley to draw. */
export function placedPlot({ width, height, greatestSkew, lines, marks }: PlotWanted): PlacedPlot | undefined {
  const drawn = lines.filter(({ curve }) => curve.length > 1);
  if (drawn.length === 0) return undefined;
  const sizes = [
    ...drawn.flatMap(({ curve }) => curve.map(({ pulley }) => pulley)),
    ...marks.map(({ diameter }) => diameter),
  ];
  const gutter = Math.max(...drawn.map(({ series }) => series.length)) * letterWidth + 18;
  const frame = {
    left: margin.left,
    right: width - Math.min(gutter, width / 3),
    top: margin.top,
    bottom: height - margin.bottom,
  };
  const levels = roundTicks(Math.min(...sizes), Math.max(...sizes), 5);
  const [low, high] = [levels[0] ?? 0, levels.at(-1) ?? 1];
  const x = (skew: number): number => frame.left + ((frame.right - frame.left) * skew) / greatestSkew;
  const y = (pulley: number): number => frame.bottom - ((frame.bottom - frame.top) * (pulley - low)) / (high - low);
  const ends = drawn.map(({ curve }) => y(curve.at(-1)?.pulley ?? low));
  const names = spread(ends, lineHeight, frame.top - 6, frame.bottom);
  const heights = marks.map(({ diameter }) => y(diameter));
  const written = spread(
    heights.map((at) => at - 5),
    lineHeight,
    frame.top + 4,
    frame.bottom - 4,
  );
  return {
    frame,
    x,
    y,
    skewAt: (place) =>
      Math.min(greatestSkew, Math.max(0, ((place - frame.left) / (frame.right - frame.left)) * greatestSkew)),
    ticksX: roundTicks(0, greatestSkew, width < 380 ? 4 : 6)
      .filter((value) => value <= greatestSkew)
      .map((value) => ({ at: x(value), value })),
    ticksY: levels.map((value) => ({ at: y(value), value })),
    lines: drawn.map((line, index) => ({
      line,
      path: line.curve
        .map(({ skew, pulley }, place) => `${place === 0 ? 'M' : 'L'}${short(x(skew))} ${short(y(pulley))}`)
        .join(''),
      label: { text: line.series, x: frame.right + 14, y: names[index] ?? 0, at: ends[index] ?? 0 },
    })),
    marks: marks.map((mark, index) => ({
      mark,
      y: heights[index] ?? 0,
      label: { text: mark.name, x: frame.left + 6, y: written[index] ?? 0, at: heights[index] ?? 0 },
    })),
  };
}
