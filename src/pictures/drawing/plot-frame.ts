import * as Plot from '@observablehq/plot';
import { textSize } from './axes.ts';
import { ink } from './colours.ts';
import { SmallElement } from './small-document.ts';

/** What all pictures share: the room around them, and how their parts are told from all else that is drawn. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Room above for the label of the upright axis, and for the explanation of colours above that. */
export const [labelRoom, legendRoom] = [26, 20];
export const bottomRoom = 38;
export const sideRoom = 16;

/** The class of what can be chosen; its place in the picture's list stands beside it. */
export const partClass = 'picture-part';

/** Marks the elements of a plot as the picture's parts, by their places. */
export const asParts =
  (places: readonly number[]): Plot.RenderFunction =>
  (index, scales, values, dimensions, context, next) => {
    const group = next?.(index, scales, values, dimensions, context) ?? null;
    // All that is drawn stands in the small document.
    const drawn: unknown = group;
    if (drawn instanceof SmallElement)
      for (const child of drawn.children) {
        const place = places[Number(child.__data__)];
        if (place === undefined) continue;
        child.setAttribute('class', partClass);
        child.setAttribute('data-part', place);
      }
    return group;
  };

export const all = (parts: readonly unknown[]): number[] => [...parts.keys()];

/** Lines across at the marks of a scale. */
const line = { stroke: ink('line'), strokeOpacity: 1 } as const;
const marksOf = ({ ticks }: Plot.ScaleOptions): Pick<Plot.GridXOptions, 'ticks'> =>
  ticks === undefined ? {} : { ticks };

export const gridX = (scale: Plot.ScaleOptions): Plot.Markish => Plot.gridX({ ...line, ...marksOf(scale) });
export const gridY = (scale: Plot.ScaleOptions): Plot.Markish => Plot.gridY({ ...line, ...marksOf(scale) });

export const base = ({ width, height }: Size, legend: boolean): Plot.PlotOptions => ({
  width,
  height,
  className: 'picture-svg',
  marginTop: labelRoom + (legend ? legendRoom : 0),
  marginRight: sideRoom,
  marginBottom: bottomRoom,
  style: { fontSize: `${textSize}px`, color: ink('ink'), overflow: 'visible' },
});

/** The letters of an upright axis of numbers need so much room. */
export const numbersRoom = 56;
