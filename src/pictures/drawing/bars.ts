import * as Plot from '@observablehq/plot';
import type { PictureOf, Tone } from '../picture.ts';
import { verdictMarks } from '../verdict-marks.ts';
import { measured, nameRoom, shortened } from './axes.ts';
import { ink, toneInk } from './colours.ts';
import { all, asParts, base, bottomRoom, gridX, gridY, legendRoom, numbersRoom, type Size } from './plot-frame.ts';

/** Bars over names: side by side and standing up, or one below the other and made of several parts. */

/** Pixels of a bar that lies, with its distance to the next, at most; and above and below all. */
const [fatBar, besideBars] = [48, 70];

export function bars(picture: PictureOf<'bars'>, size: Size): Plot.PlotOptions {
  const { names, values, upright, tones, parts } = picture;
  const ends = parts.map(({ to }) => to);
  const share = (size.width - 120) / Math.max(1, ...ends);
  const mark = ({ tone, from, to }: { tone: Tone; from: number; to: number }): string =>
    tone === 'plain' || tone === 'over' ? '' : (to - from) * share < 26 ? '' : `${verdictMarks[tone]} ${to - from}`;
  const middle = parts.map(({ from, to }) => (from + to) / 2);
  const fills = parts.map(({ tone }) => toneInk(tone));
  if (upright) {
    const scale = measured(values, ends, { room: size.height - 90, upright: true, fromZero: true });
    const rotated = (size.width - numbersRoom) / Math.max(1, names.length) < 56;
    return {
      ...base(size, tones.length > 0),
      marginLeft: numbersRoom,
      marginBottom: rotated ? 62 : bottomRoom,
      x: {
        type: 'band',
        domain: [...names.keys()],
        tickFormat: (place: number) => names[place] ?? '',
        tickRotate: rotated ? -50 : 0,
        label: null,
        padding: 0.15,
      },
      y: scale,
      marks: [
        gridY(scale),
        Plot.barY(parts, { x: 'name', y1: 'from', y2: 'to', fill: fills, render: asParts(all(parts)) }),
        Plot.ruleY([0], { stroke: ink('ink') }),
      ],
    };
  }
  const room = nameRoom(names, size.width / 3);
  const scale = measured(values, ends, { room: size.width - room, upright: false, fromZero: true });
  return {
    ...base(size, tones.length > 0),
    // Few bars are no fatter than many.
    height: Math.min(size.height, besideBars + fatBar * names.length),
    marginTop: 12 + (tones.length > 0 ? legendRoom : 0),
    marginLeft: room,
    x: scale,
    y: {
      type: 'band',
      domain: [...names.keys()],
      tickFormat: (place: number) => shortened(names[place] ?? '', room),
      label: null,
      padding: 0.18,
    },
    marks: [
      gridX(scale),
      Plot.barX(parts, { y: 'name', x1: 'from', x2: 'to', fill: fills, insetRight: 0.5, render: asParts(all(parts)) }),
      Plot.text(parts, { y: 'name', x: middle, text: parts.map(mark), fill: ink('surface'), fontWeight: 600 }),
      Plot.ruleX([0], { stroke: ink('ink') }),
    ],
  };
}
