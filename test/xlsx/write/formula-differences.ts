import { columnName } from '../../../src/xlsx/read/cell-address.ts';
import type { RawBook, RawCell } from '../../../src/xlsx/read/raw-book.ts';

/** Two readings of one file's formulas, ours and that of a program which worked them out anew. */

const shown = (cell: RawCell | undefined): unknown =>
  cell?.error ?? (cell?.value === '' ? null : (cell?.value ?? null));
const near = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));

/** What a row's cell in a column says, as a name for its record or column. */
const headed = (cells: readonly RawCell[] | undefined, column: number, otherwise: string): string =>
  String(cells?.find((cell) => cell.column === column)?.value ?? otherwise);

/** How many formulas our file holds, and those whose values differ. */
export function formulaDifferences(
  ours: RawBook,
  theirs: RawBook,
): { readonly formulas: number; readonly differing: readonly string[] } {
  const differing: string[] = [];
  let formulas = 0;
  for (const { name, rows } of ours.sheets) {
    for (const [row, cells] of rows) {
      for (const one of cells) {
        if (one.formula === undefined) continue;
        formulas += 1;
        const there = theirs.sheets
          .find((sheet) => sheet.name === name)
          ?.rows.get(row)
          ?.find(({ column }) => column === one.column);
        const [mine, other] = [shown(one), shown(there)];
        if (!(typeof mine === 'number' && typeof other === 'number' ? near(mine, other) : mine === other))
          differing.push(
            `${name}, ${headed(cells, 1, `row ${row}`)}, ${headed(rows.get(1), one.column, columnName(one.column))}: ` +
              `${String(mine)} here, ${String(other)} there; ${one.formula}`,
          );
      }
    }
  }
  return { formulas, differing };
}
