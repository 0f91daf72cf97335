import { declarationOf } from '../../workbook/declared.ts';
import type { ImportReport, TableReport } from './import-model.ts';

/** The declared columns that one table of a list fills. */
const filledBy = ({ columns, areaFrom, derived = [] }: TableReport): readonly string[] => [
  ...columns.map(({ target }) => target),
  ...derived,
  ...(areaFrom === undefined ? [] : ['Area']),
];

/**
 * The declared columns that a list has, by the sheet of the book that it was read into: of others it says nothing.
 * Undefined for an export of this program, which is a whole book.
 *
 * Of several tables of one sheet, the columns that all have: what one lacks would read as emptied there. Sheets that
 * the book keeps as free ones have own columns only.
 */
export function coveredColumns({ ours, tables }: ImportReport): ReadonlyMap<string, ReadonlySet<string>> | undefined {
  if (ours) return undefined;
  const covered = new Map<string, ReadonlySet<string>>();
  for (const table of tables) {
    const sheet = table.kept ?? table.target;
    if (table.kept === undefined && (declarationOf(sheet) === undefined || table.headerRow === 0)) continue;
    const filled = new Set(table.kept === undefined ? filledBy(table) : []);
    const known = covered.get(sheet);
    covered.set(sheet, known === undefined ? filled : new Set([...known].filter((header) => filled.has(header))));
  }
  return covered;
}
