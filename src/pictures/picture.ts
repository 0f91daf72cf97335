import type { Verdict } from '../functions/checks.ts';
import type { Table } from '../sheet/table.ts';

/**
 * What a picture shows, before anything is drawn: axes, parts and the same as a table.
 *
 * Whatever is drawn is a part with a sentence of its own, so that what is seen can be read out and reached by keys, and
 * names the belts that it stands for.
 */

export interface Axis {
  /** With its unit: "Width (mm)". */
  readonly label: string;
  /** Dates are day numbers; of names, values are their places in the list. */
  readonly scale: 'number' | 'percent' | 'date' | 'names';
  readonly names?: readonly string[];
  /** Only whole numbers are marked on it. */
  readonly whole?: true;
}

/** What a part's colour means. */
export type Tone = Verdict | 'plain' | 'over';

export interface Part {
  /** As it is read out: "North, fails: 3 belts". */
  readonly says: string;
  /** Records of Belts that it stands for. */
  readonly records: readonly number[];
  /** Where it stands among the others, to the right and upwards, so that arrow keys go from one to the next. */
  readonly at: readonly [column: number, row: number];
  /** Inputs and named values of its belt that would have to be entered for it to be so. */
  readonly entered?: readonly { readonly name: string; readonly value: number | string; readonly words: string }[];
}

export interface Bar extends Part {
  /** Place of its name in the picture's list. */
  readonly name: number;
  /** Where it begins and ends on the axis of values. */
  readonly from: number;
  readonly to: number;
  readonly tone: Tone;
}

export interface Bin extends Part {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly tone: Tone;
}

export interface Dot extends Part {
  readonly x: number;
  readonly y: number;
  readonly tone: Tone;
}

/** A point of a line; a gap stands between points of two different runs. */
export interface LinePoint extends Part {
  readonly x: number;
  readonly y: number;
  readonly line: number;
  readonly run: number;
}

export interface MapCell extends Part {
  /** Places of its values in the lists of the axes. */
  readonly x: number;
  readonly y: number;
  readonly verdict: Verdict;
}

interface Shown {
  /** Names the picture among those beside it, and its file. */
  readonly id: string;
  readonly title: string;
  /** What it shows, in a sentence. */
  readonly says: string;
  /** What is not in it, and why; '' when all is. */
  readonly leftOut: string;
  readonly table: Table;
}

export type Picture = Shown &
  (
    | {
        readonly of: 'bars';
        readonly names: readonly string[];
        readonly values: Axis;
        /** Bars lie side by side and stand up, as over months. */
        readonly upright: boolean;
        /** Whose colours are explained. */
        readonly tones: readonly Verdict[];
        readonly parts: readonly Bar[];
      }
    | {
        readonly of: 'bins';
        readonly x: Axis;
        readonly counts: Axis;
        /** Lines across: quantiles, a limit. */
        readonly marks: readonly { readonly at: number; readonly name: string }[];
        readonly parts: readonly Bin[];
      }
    | {
        readonly of: 'dots';
        readonly x: Axis;
        readonly y: Axis;
        readonly tones: readonly Verdict[];
        readonly parts: readonly Dot[];
      }
    | {
        readonly of: 'lines';
        readonly x: Axis;
        readonly y: Axis;
        readonly names: readonly string[];
        /** The present value of what is varied. */
        readonly present: number | undefined;
        readonly parts: readonly LinePoint[];
      }
    | {
        readonly of: 'map';
        /** Both are lists of names: values in words, one a step. */
        readonly x: Axis;
        readonly y: Axis;
        /** The step nearest to the present values. */
        readonly present: readonly [x: number, y: number] | undefined;
        readonly tones: readonly Verdict[];
        readonly parts: readonly MapCell[];
      }
  );

export type PictureOf<Kind extends Picture['of']> = Extract<Picture, { readonly of: Kind }>;
