import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { isDay, isFilled } from '../read/raw-cells.ts';
import type { TableProposal } from './import-model.ts';

/** Which rows of a sheet are records of its list, and what they show together. */

/** The rows of a list that are records. */
export function recordRows(sheet: RawSheet, table: TableProposal): number[] {
  const skipped = new Set(table.skipped.map(({ row }) => row));
  const first = (table.unitsRow ?? table.headerRow) + 1;
  return [...sheet.rows]
    .flatMap(([row, cells]) =>
      row >= first && row <= table.lastRow && !skipped.has(row) && cells.some(isFilled) ? [row] : [],
    )
    .toSorted((a, b) => a - b);
}

/** Of each column whether all its cells are days. */
export function dayColumns(rows: readonly (readonly RawCell[])[]): Map<number, boolean> {
  const dates = new Map<number, boolean>();
  for (const cells of rows)
    for (const cell of cells) dates.set(cell.column, (dates.get(cell.column) ?? true) && isDay(cell));
  return dates;
}
