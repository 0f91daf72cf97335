import { type ColumnReader, verbatim } from './cell-reading.ts';
import { type TableProposal } from './import-model.ts';
import { type RawSheet } from '../read/raw-book.ts';
import { isFilled } from '../read/raw-cells.ts';

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

/** Records of one sheet of a book: twice as many take more than 4 GB to compute and write. Ours. */
export const mostRecords = 20_000;

export const verbatimReader = (asDates: boolean): ColumnReader => ({
  unchanged: true,
  read: (cell) => (asDates && typeof cell.value === 'number' ? { content: cell.value } : { content: verbatim(cell) }),
});
