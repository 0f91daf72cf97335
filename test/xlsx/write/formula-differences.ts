import type { RawBook, RawCell } from '../../../src/xlsx/read/raw-book.ts';

/** Two readings of one file's formulas, ours and that of a program which worked them out anew. */

const shown = (cell: RawCell | undefined): unknown =>
  cell?.error ?? (cell?.value === '' ? null : (cell?.value ?? null));
const near = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));

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
            `${name} row ${row}, column ${one.column}: ${String(mine)} or ${String(other)}: ${one.formula}`,
          );
      }
    }
  }
  return { formulas, differing };
}
