import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';

/**
 * Marks that repeat the cell above, as `"`, `″`, "ditto", "do.".
 *
 * The cell of the nearest row above in the same column counts, a mark there included. Names are never repeated: two
 * belts of one name are a slip, not a habit. Common practice, no source.
 */
const signs = /^(?:["″”〃„]|''|’’|-+\s*(?:["″”„]|''|\/\/)\s*-+|,,)$/;
const words = /^(?:ditto|dito|dto\.?|do\.|idem|id\.|(?:same )?as above|see above|wie oben|s\. ?o\.|voir ci-dessus)$/i;

/** Whether a cell repeats the one above. */
export const isDitto = ({ value, formula }: RawCell): boolean =>
  typeof value === 'string' && formula === undefined && (signs.test(value.trim()) || words.test(value.trim()));

/** The sheet with the cells that marks stand for, in rows that are records; `repeats` keeps what was written. */
export function withoutDittos(sheet: RawSheet, records: readonly number[], key: number): RawSheet {
  const last = new Map<number, RawCell>();
  let rows: Map<number, readonly RawCell[]> | undefined;
  for (const row of records) {
    const cells = sheet.rows.get(row) ?? [];
    let changed = false;
    const read = cells.map((cell) => {
      const above = last.get(cell.column);
      if (!isDitto(cell) || cell.column === key || above === undefined) {
        last.set(cell.column, cell);
        return cell;
      }
      changed = true;
      // A formula of the row above is about that row: its value is what is repeated.
      const { formula: _, ...value } = above;
      return { ...value, row: cell.row, repeats: cellText(cell).trim() };
    });
    if (!changed) continue;
    rows ??= new Map(sheet.rows);
    rows.set(row, read);
  }
  return rows === undefined ? sheet : { ...sheet, rows };
}
