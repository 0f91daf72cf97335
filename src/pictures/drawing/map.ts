import * as Plot from '@observablehq/plot';
import type { PictureOf } from '../picture.ts';
import { verdictMarks } from '../verdict-marks.ts';
import { nameRoom, shortened, textWidth, thinned } from './axes.ts';
import { ink, toneInk } from './colours.ts';
import { all, asParts, base, bottomRoom, labelRoom, legendRoom, sideRoom, type Size } from './plot-frame.ts';

/** Cells over two lists of values. */

/** Cells from this size on bear the mark of their verdict. */
const markedCell = 11;

function cells({ parts, present }: PictureOf<'map'>, inset: number, marked: boolean): Plot.Markish[] {
  return [
    Plot.cell(parts, {
      x: 'x',
      y: 'y',
      fill: parts.map(({ verdict }) => toneInk(verdict)),
      inset,
      render: asParts(all(parts)),
    }),
    ...(marked
      ? [
          Plot.text(parts, {
            x: 'x',
            y: 'y',
            text: parts.map(({ verdict }) => verdictMarks[verdict]),
            fill: ink('surface'),
            fontSize: 10,
          }),
        ]
      : []),
    ...(present === undefined
      ? []
      : [
          Plot.cell([present], {
            x: ([place]: readonly number[]) => place,
            y: ([, place]: readonly number[]) => place,
            fill: 'none',
            stroke: ink('ink'),
            strokeWidth: 3,
          }),
        ]),
  ];
}

export function map(picture: PictureOf<'map'>, size: Size): Plot.PlotOptions {
  const { x, y } = picture;
  const [across, upward] = [x.names ?? [], y.names ?? []];
  const left = nameRoom(upward, 140);
  const [wide, high] = [
    (size.width - left - sideRoom) / Math.max(1, across.length),
    (size.height - labelRoom - legendRoom - bottomRoom) / Math.max(1, upward.length),
  ];
  const marked = Math.min(wide, high) >= markedCell;
  const inset = wide > 6 && high > 6 ? 0.5 : 0;
  return {
    ...base(size, true),
    marginLeft: left,
    x: {
      type: 'band',
      domain: [...across.keys()],
      ticks: thinned(across, size.width - left, Math.max(20, ...across.map(textWidth)) + 8),
      tickFormat: (place: number) => shortened(across[place] ?? '', 160),
      label: x.label,
      labelAnchor: 'right',
      padding: 0,
    },
    y: {
      type: 'band',
      domain: [...upward.keys()].toReversed(),
      ticks: thinned(upward, size.height - 90, 15),
      tickFormat: (place: number) => shortened(upward[place] ?? '', left),
      label: y.label,
      labelAnchor: 'top',
      padding: 0,
    },
    marks: cells(picture, inset, marked),
  };
}
