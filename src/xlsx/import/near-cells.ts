import { positionName } from '../read/cell-address.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { grouped, readLimits } from '../read/read-limits.ts';

/** Rows times columns of a sheet of the user's: the book has a place for each, filled or not. Ours. */
export const mostPlaces = 400_000;

interface NearCells {
  readonly sheet: RawSheet;
  /** What was left out, in words; undefined when nothing was. */
  readonly told?: string;
}

/**
 * A sheet cut down to a size that the book can hold, with as many of its cells as may be.
 *
 * One cell at the sheet's last row or column makes a million rows of it, or gigabytes. So the last row or the last
 * column goes, whichever frees more places for a cell that it loses, until what is left is small enough.
 */
export function nearCells(
  sheet: RawSheet,
  places = mostPlaces,
  bound = `they are so far from the others that the sheet would have more than ${grouped(places)} cells`,
): NearCells {
  // The formula engine's sheets have an end of their own, a little beyond this.
  const mostRows = readLimits.filledRows;
  if (sheet.lastRow * sheet.lastColumn <= places && sheet.lastRow <= mostRows) return { sheet };
  const columnCounts = new Map<number, number>();
  for (const cells of sheet.rows.values())
    for (const { column } of cells) columnCounts.set(column, (columnCounts.get(column) ?? 0) + 1);
  const rows = [...sheet.rows.keys()].toSorted((one, other) => one - other);
  const columns = [...columnCounts.keys()].toSorted((one, other) => one - other);
  let [row, column] = [rows.pop() ?? 0, columns.pop() ?? 0];
  while (row * column > places || row > mostRows) {
    const here = (sheet.rows.get(row) ?? []).filter((cell) => cell.column <= column);
    const [rowBefore, columnBefore] = [rows.at(-1) ?? 0, columns.at(-1) ?? 0];
    const byRow = ((row - rowBefore) * column) / Math.max(1, here.length);
    const byColumn = ((column - columnBefore) * row) / Math.max(1, columnCounts.get(column) ?? 0);
    if (row > mostRows || byRow >= byColumn) {
      for (const cell of here) columnCounts.set(cell.column, (columnCounts.get(cell.column) ?? 0) - 1);
      row = rows.pop() ?? 0;
    } else column = columns.pop() ?? 0;
  }
  const left: RawCell[] = [];
  const kept = new Map<number, readonly RawCell[]>();
  for (const [at, cells] of sheet.rows) {
    const near = at > row ? [] : cells.filter((cell) => cell.column <= column);
    if (near.length > 0) kept.set(at, near);
    if (near.length < cells.length) left.push(...cells.filter((cell) => at > row || cell.column > column));
  }
  const [first] = left;
  const where = first === undefined ? '' : ` (${positionName(first)}${left.length > 1 ? ' and others' : ''})`;
  return {
    sheet: { ...sheet, rows: kept, lastRow: row, lastColumn: column },
    told:
      `${sheet.name}: ${grouped(left.length)} ${left.length === 1 ? 'cell was' : 'cells were'} left out${where}, ` +
      `because ${
        row * column < places && sheet.lastRow > mostRows
          ? `they are so far from the others that the sheet would have more than ${grouped(mostRows)} rows`
          : bound
      }`,
  };
}
