import * as Plot from '@observablehq/plot';
import type { PictureOf } from '../picture.ts';
import { measured, placed } from './axes.ts';
import { ink, toneInk } from './colours.ts';
import { all, asParts, base, gridY, labelRoom, numbersRoom, type Size } from './plot-frame.ts';

/** Counts in bins, with lines across at quantiles or a limit. */

export function bins(picture: PictureOf<'bins'>, size: Size): Plot.PlotOptions {
  const { x, counts, marks, parts } = picture;
  const edges = [...parts.flatMap(({ from, to }) => [from, to]), ...marks.map(({ at }) => at)];
  const top = Math.max(1, ...parts.map(({ count }) => count));
  // A line's name stands beside it, on the side that has room.
  const [low, high] = [Math.min(...edges), Math.max(...edges)];
  const leftSide = marks.map(({ at }) => at > low + 0.75 * (high - low));
  const y = measured(counts, [top], { room: size.height - 90, upright: true, fromZero: true });
  return {
    ...base(size, false),
    // Names of lines stand one below the other, above the bins.
    marginTop: labelRoom + 13 * marks.length,
    marginLeft: numbersRoom,
    x: measured(x, edges, { room: size.width - numbersRoom, upright: false }),
    y,
    marks: [
      gridY(y),
      Plot.rectY(parts, {
        x1: parts.map(({ from }) => placed(x, from)),
        x2: parts.map(({ to }) => placed(x, to)),
        y: 'count',
        fill: parts.map(({ tone }) => toneInk(tone)),
        inset: 0.5,
        render: asParts(all(parts)),
      }),
      Plot.ruleY([0], { stroke: ink('ink') }),
      ...marks.flatMap(({ at, name }, place) => [
        // A light line below the dark one, so that it is seen over bins too.
        ...[
          { stroke: ink('surface'), strokeWidth: 3 },
          { stroke: ink('ink'), strokeDasharray: '4 3' },
        ].map((look) => Plot.ruleX([placed(x, at)], { ...look, insetTop: -13 * (marks.length - place) + 2 })),
        Plot.text([placed(x, at)], {
          x: (value: number | Date) => value,
          frameAnchor: 'top',
          dy: -13 * (marks.length - place) + 2,
          dx: leftSide[place] === true ? -4 : 4,
          textAnchor: leftSide[place] === true ? 'end' : 'start',
          text: [name],
          fill: ink('ink'),
        }),
      ]),
    ],
  };
}
