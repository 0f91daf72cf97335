import { type Corner, goneReference, withReferences } from '../formula/reference-text.ts';
import { type Content, isFormula } from '../formula/values.ts';
import { bookColumns } from './declared.ts';
import type { BookRow, SheetState } from './state.ts';

/**
 * Columns in which every record holds the same formula, each about its own row: a record that is added gets it too, as
 * it does in a table of any spreadsheet program.
 */

/** Records below which one formula may stand in a column by chance. */
const fewestRecords = 2;

/** A formula as it reads so many rows further down. */
function formulaBelow(formula: string, rows: number): string {
  if (rows === 0) return formula;
  const below = (corner: Corner): Corner =>
    corner.row === undefined || corner.rowFixed ? corner : { ...corner, row: corner.row + rows };
  return withReferences(formula, ({ from, to, ...reference }) => {
    const moved = { ...reference, from: below(from), to: to === undefined ? undefined : below(to) };
    return (moved.from.row ?? 0) < 0 || (moved.to?.row ?? 0) < 0 ? goneReference : moved;
  });
}

/** Whether all records have the same formula in a column. */
function isShared(rows: readonly BookRow[], column: number): boolean {
  const first = rows[0]?.cells[column] ?? null;
  return (
    rows.length >= fewestRecords &&
    isFormula(first) &&
    rows.every(({ cells }, record) => cells[column] === formulaBelow(first, record))
  );
}

/**
 * A sheet to which so many records have been added at a place, with the formulas of its columns in those of their cells
 * that are empty. `before` is the sheet without them.
 */
export function withColumnFormulas(before: SheetState, after: SheetState, at: number, added: number): SheetState {
  const columns = bookColumns(before).flatMap(({ computed }, column) =>
    !computed && isShared(before.rows, column) ? [column] : [],
  );
  if (columns.length === 0 || added === 0) return after;
  const neighbour = at > 0 ? at - 1 : at + added;
  const rows = [...after.rows];
  for (let record = at; record < at + added; record += 1) {
    const row = rows[record];
    if (row === undefined) continue;
    const cells: Content[] = [...row.cells];
    for (const column of columns) {
      const formula = rows[neighbour]?.cells[column] ?? null;
      if ((cells[column] ?? null) === null && isFormula(formula))
        cells[column] = formulaBelow(formula, record - neighbour);
    }
    rows[record] = { ...row, cells };
  }
  return { ...after, rows };
}
