import type { FilledCell } from './cell-value.ts';
import type { RawSheet } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';

/** What all sheets of a file hold together, as far as it is limited. */
export interface SheetTally {
  cells: number;
  merges: number;
  characters: number;
  /** Of the texts and formulas of cells. */
  texts: number;
  /** Cells that lead outside the file. */
  links: number;
}

interface FilledRows {
  add(cell: FilledCell): void;
  /** The rows in order, each with its cells in order; where the file gives a cell twice, the last one counts. */
  taken(): Pick<RawSheet, 'rows' | 'lastRow' | 'lastColumn'>;
}

const shorten = 'Delete rows and sheets that the list of belts does not need, and save it again as .xlsx.';

/** In column order, with only the last of the cells that claim one column. */
function tidy(cells: readonly FilledCell[]): FilledCell[] {
  const sorted = cells.toSorted((one, other) => one.column - other.column);
  return sorted.filter((cell, index) => sorted[index + 1]?.column !== cell.column);
}

/** Gathers the filled cells of a sheet, in whatever order its file gives them. */
export function filledRows(sheet: string, limits: ReadLimits, tally: SheetTally): FilledRows {
  const rows = new Map<number, FilledCell[]>();
  const untidy = new Set<number>();
  let current: FilledCell[] = [];
  let currentRow = 0;
  let inOrder = true;
  return {
    add(cell) {
      if (cell.row !== currentRow) {
        const known = rows.get(cell.row);
        if (!known && rows.size === limits.filledRows) {
          throw new UnreadableFile(
            'too much content',
            `Sheet "${sheet}" has more than ${grouped(limits.filledRows)} filled rows, the maximum that can be read. ` +
              `${shorten}`,
          );
        }
        if (cell.row < currentRow) inOrder = false;
        current = known ?? [];
        currentRow = cell.row;
        if (!known) rows.set(cell.row, current);
      }
      if (++tally.cells > limits.cells) {
        throw new UnreadableFile(
          'too much content',
          `The file has more than ${grouped(limits.cells)} filled cells, the maximum that can be read; ` +
            `sheet "${sheet}" exceeds that at row ${grouped(cell.row)}. ${shorten}`,
        );
      }
      // Formulas that cells share are counted where they are written out, which asking for one would do.
      const formula = cell.shared === undefined ? (cell.formula?.length ?? 0) : 0;
      tally.texts += (typeof cell.value === 'string' ? cell.value.length : 0) + formula;
      if (tally.texts > limits.cellCharacters) {
        throw new UnreadableFile(
          'too much content',
          `The texts of the file's cells come to more than ${grouped(limits.cellCharacters)} characters, the maximum ` +
            `that can be read; sheet "${sheet}" exceeds that at row ${grouped(cell.row)}. ${shorten}`,
        );
      }
      const last = current[current.length - 1];
      if (last && last.column >= cell.column) untidy.add(cell.row);
      current.push(cell);
    },
    taken() {
      for (const row of untidy) rows.set(row, tidy(rows.get(row) ?? []));
      const ordered = inOrder ? rows : new Map([...rows].sort(([one], [other]) => one - other));
      let lastRow = 0;
      let lastColumn = 0;
      for (const [row, cells] of ordered) {
        lastRow = row;
        lastColumn = Math.max(lastColumn, cells[cells.length - 1]?.column ?? 0);
      }
      return { rows: ordered, lastRow, lastColumn };
    },
  };
}
