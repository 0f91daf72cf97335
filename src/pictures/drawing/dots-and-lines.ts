import * as Plot from '@observablehq/plot';
import type { Axis, PictureOf, Tone } from '../picture.ts';
import { measured, nameRoom, placed, shortened, textWidth, thinned } from './axes.ts';
import { ink, lineLooks, toneInk } from './colours.ts';
import { all, asParts, base, gridX, gridY, labelRoom, legendRoom, numbersRoom, type Size } from './plot-frame.ts';

/** Dots and lines over two axes, of which each may hold names. */

const symbols: Readonly<Record<Tone, Plot.SymbolType>> = {
  fits: 'circle',
  tight: 'diamond',
  fails: 'times',
  'not known': 'square',
  plain: 'circle',
  over: 'times',
};

/** An axis of dots or lines; names stand at equal distances. */
function pointScale(axis: Axis, values: readonly number[], room: number, upward: boolean): Plot.ScaleOptions {
  if (axis.scale !== 'names') return measured(axis, values, { room, upright: upward });
  const names = axis.names ?? [];
  const each = upward ? 15 : Math.max(24, ...names.map(textWidth)) + 8;
  return {
    type: 'point',
    domain: [...names.keys()],
    ticks: thinned(names, room, each),
    tickFormat: (place: number) => shortened(names[place] ?? '', upward ? 150 : 200),
    label: axis.label,
    labelAnchor: upward ? 'top' : 'right',
    padding: 0.6,
  };
}

const leftRoom = ({ scale, names = [] }: Axis): number => (scale === 'names' ? nameRoom(names, 150) : numbersRoom);

export function dots(picture: PictureOf<'dots'>, size: Size): Plot.PlotOptions {
  const { x, y, tones, parts } = picture;
  const left = leftRoom(y);
  const across = pointScale(
    x,
    parts.map((one) => one.x),
    size.width - left,
    false,
  );
  const upward = pointScale(
    y,
    parts.map((one) => one.y),
    size.height - 90,
    true,
  );
  return {
    ...base(size, tones.length > 0),
    marginLeft: left,
    x: across,
    y: upward,
    marks: [
      gridX(across),
      gridY(upward),
      // Those that fail lie over those that fit.
      ...tones.toReversed().map((tone) => {
        const places = all(parts).filter((place) => parts[place]?.tone === tone);
        const own = parts.filter((one) => one.tone === tone);
        return Plot.dot(own, {
          x: own.map((one) => placed(x, one.x)),
          y: own.map((one) => placed(y, one.y)),
          r: 4.5,
          symbol: symbols[tone],
          stroke: toneInk(tone),
          fill: tone === 'fails' ? 'none' : toneInk(tone),
          fillOpacity: 0.35,
          strokeWidth: tone === 'fails' ? 2 : 1.3,
          render: asParts(places),
        });
      }),
    ],
  };
}

export const lookOf = (line: number): (typeof lineLooks)[number] =>
  lineLooks[line % lineLooks.length] ?? { ink: 'ink', dash: undefined };

export function lines(picture: PictureOf<'lines'>, size: Size): Plot.PlotOptions {
  const { x, y, names, present, parts } = picture;
  const left = leftRoom(y);
  const several = names.length > 1;
  const xs = [...parts.map((one) => one.x), ...(present === undefined || x.scale === 'names' ? [] : [present])];
  const across = pointScale(x, xs, size.width - left, false);
  const upward = pointScale(
    y,
    parts.map((one) => one.y),
    size.height - 90,
    true,
  );
  return {
    ...base(size, several),
    marginTop: labelRoom + 12 + (several ? legendRoom : 0),
    marginLeft: left,
    x: across,
    y: upward,
    marks: [
      gridX(across),
      gridY(upward),
      ...(present === undefined
        ? []
        : [
            Plot.ruleX([placed(x, present)], { stroke: ink('soft'), strokeDasharray: '4 3' }),
            Plot.text([placed(x, present)], {
              x: (value: number | Date) => value,
              frameAnchor: 'top',
              dy: -13,
              text: ['now'],
              fill: ink('ink'),
            }),
          ]),
      ...names.flatMap((_, line) => {
        const places = all(parts).filter((place) => parts[place]?.line === line);
        const own = parts.filter((one) => one.line === line);
        const at = { x: own.map((one) => placed(x, one.x)), y: own.map((one) => placed(y, one.y)) };
        const { ink: name, dash } = lookOf(line);
        return [
          Plot.line(own, {
            ...at,
            z: own.map(({ run }) => run),
            stroke: x.scale === 'names' ? 'none' : ink(name),
            // The book as it is shows below a variant that changes nothing of the figure.
            strokeWidth: line === 0 && names.length > 1 ? 4 : 1.8,
            ...(dash === undefined ? {} : { strokeDasharray: dash }),
          }),
          Plot.dot(own, { ...at, r: x.scale === 'names' ? 5 : 2.4, fill: ink(name), render: asParts(places) }),
        ];
      }),
    ],
  };
}
