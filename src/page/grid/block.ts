import type Handsontable from 'handsontable/base';

/** Records and columns of a rectangle as it is seen; records need not follow each other when the view is sorted. */
export interface Block {
  readonly sheet: string;
  readonly records: readonly number[];
  readonly columns: readonly number[];
}

/** A rectangle of the grid by its corners, in rows and columns on the screen. */
export interface GridRange {
  readonly from: { readonly row: number | null; readonly col: number | null };
  readonly to: { readonly row: number | null; readonly col: number | null };
}

const span = (one: number, other: number): number[] =>
  Array.from({ length: Math.abs(other - one) + 1 }, (_, index) => Math.min(one, other) + index);

/** The records and columns of a rectangle of the grid. */
export const blockOf = (
  sheet: string,
  { from, to }: GridRange,
  recordOf: (row: number) => number,
  columnOf: (column: number) => number,
): Block => ({
  sheet,
  records: span(from.row ?? 0, to.row ?? 0).map(recordOf),
  columns: span(from.col ?? 0, to.col ?? 0).map(columnOf),
});

/** Selects the rectangle that holds two, without moving the view. */
export function selectBoth(hot: Handsontable, { from, to }: GridRange, other: GridRange): void {
  hot.selectCell(
    Math.min(from.row ?? 0, other.from.row ?? 0),
    Math.min(from.col ?? 0, other.from.col ?? 0),
    Math.max(to.row ?? 0, other.to.row ?? 0),
    Math.max(to.col ?? 0, other.to.col ?? 0),
    false,
  );
}
