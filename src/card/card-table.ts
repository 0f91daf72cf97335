import { fittingLines } from './card-lines.ts';
import type { Cell, TableColumn } from './section.ts';

/** A card's tables in lines of type: how wide their columns are, and how high their rows. */

/** Millimetres. */
export const size = { text: 3, small: 2.6, title: 4.2, belt: 7.5 };
export const leading = 1.28;
export const pad = { x: 1.2, y: 1 };
const least = { sign: 11, value: 6.4, tick: 5.6 };

export interface LaidLine {
  readonly text: string;
  readonly bold: boolean;
}

export type LaidRow = readonly (readonly LaidLine[] | 'tick' | 'sign' | 'value')[];

export interface Place {
  readonly x: number;
  readonly width: number;
  readonly align: 'end' | undefined;
}

/** A table's columns on the paper, its head and its rows in lines. */
export interface LaidTable {
  readonly places: readonly Place[];
  readonly heads: readonly (readonly string[])[];
  readonly headHeight: number;
  readonly rows: readonly LaidRow[];
  readonly height: number;
}

export const textLine = size.text * leading;

export const rowHeight = (row: LaidRow): number =>
  Math.max(
    textLine + 2 * pad.y,
    ...row.map((cell) => (typeof cell === 'string' ? least[cell] : cell.length * textLine + 2 * pad.y)),
  );

/** A table over a width, its first column at `from`. */
export function laidTable(
  columns: readonly TableColumn[],
  rows: readonly (readonly Cell[])[],
  from: number,
  whole: number,
): LaidTable {
  const all = columns.reduce((sum, { width }) => sum + width, 0);
  let left = from;
  const places = columns.map(({ width, align }): Place => {
    const breadth = (width / all) * whole;
    left += breadth;
    return { x: left - breadth, width: breadth, align };
  });
  const inner = (index: number): number => (places[index]?.width ?? 0) - 2 * pad.x;
  const heads = columns.map(({ title }, index) => fittingLines(title, size.small, inner(index), true));
  const headHeight = Math.max(...heads.map(({ length }) => length)) * size.small * leading + 2 * pad.y;
  const laid = rows.map((row): LaidRow =>
    row.map((cell, index) =>
      'blank' in cell
        ? cell.blank
        : cell.flatMap(({ text, bold = false }) =>
            fittingLines(text, size.text, inner(index), bold).map((part): LaidLine => ({ text: part, bold })),
          ),
    ),
  );
  return {
    places,
    heads,
    headHeight,
    rows: laid,
    height: laid.reduce((sum, row) => sum + rowHeight(row), headHeight + 0.5),
  };
}
