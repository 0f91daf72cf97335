import { type Corner, goneReference, withReferences } from '../formula/reference-text.ts';
import { type Content, isFormula } from '../formula/values.ts';
import { bookColumn, type BookColumn, bookColumns, compiledSheets } from './declared.ts';
import type { BookRow, SheetState } from './state.ts';

/**
 * Columns in which every record holds the same formula, each about its own row: a record that is added gets it too, as
 * it does in a table of any spreadsheet program.
 */

/** Records below which one formula may stand in a column by chance. */
const fewestRecords = 2;

/** A formula as it reads so many rows further down. */
export function formulaBelow(formula: string, rows: number): string {
  if (rows === 0) return formula;
  const below = (corner: Corner): Corner =>
    corner.row === undefined || corner.rowFixed ? corner : { ...corner, row: corner.row + rows };
  return withReferences(formula, ({ from, to, ...reference }) => {
    const moved = { ...reference, from: below(from), to: to === undefined ? undefined : below(to) };
    return (moved.from.row ?? 0) < 0 || (moved.to?.row ?? 0) < 0 ? goneReference : moved;
  });
}

/** The formula that all records have in a column, as the first one has it; undefined when they have not. */
function sharedFormula(rows: readonly BookRow[], column: number): string | undefined {
  const first = rows[0]?.cells[column] ?? null;
  return rows.length >= fewestRecords &&
    isFormula(first) &&
    rows.every(({ cells }, record) => cells[column] === formulaBelow(first, record))
    ? first
    : undefined;
}

/**
 * The formula of a column as the first record has it: the one that the user gave it, else the one that all records
 * of a declared sheet share.
 *
 * One that no record has any more, as after a merge with a book in which the columns stand elsewhere, gives way to that
 * of the first record that has one.
 */
export function columnFormula(sheet: SheetState, column: number): string | undefined {
  const { rows, name } = sheet;
  const own = sheet.userColumns[column - bookColumns(sheet).length + sheet.userColumns.length]?.formula;
  if (own === undefined)
    return compiledSheets.has(name) && bookColumn(sheet, column)?.computed === false
      ? sharedFormula(rows, column)
      : undefined;
  const holds = (record: number, formula: string): boolean =>
    rows[record]?.cells[column] === formulaBelow(formula, record);
  if (rows.some((_, record) => holds(record, own))) return own;
  const record = rows.findIndex(({ cells }) => isFormula(cells[column] ?? null));
  return record < 0 ? own : formulaBelow(String(rows[record]?.cells[column]), -record);
}

/** What a cell would hold by the formula that the user gave its column; undefined in a column without one. */
export const ruledContent = (column: BookColumn | undefined, record: number): string | undefined =>
  column?.formula === undefined ? undefined : formulaBelow(column.formula, record);

/**
 * A sheet to which so many records have been added at a place, with the formulas of its columns in those of their cells
 * that are empty. `before` is the sheet without them.
 */
export function withColumnFormulas(before: SheetState, after: SheetState, at: number, added: number): SheetState {
  if (added === 0) return after;
  const formulas = bookColumns(before).flatMap((_, column) => {
    // What moved with the records stands in the cells of those around; a sheet without any has the column's own.
    const here = columnFormula(before, column) === undefined ? undefined : presentFormula(after, column, at, added);
    return here === undefined ? [] : [{ column, formula: here }];
  });
  if (formulas.length === 0) return after;
  const rows = [...after.rows];
  for (let record = at; record < at + added; record += 1) {
    const row = rows[record];
    if (row === undefined) continue;
    const cells: Content[] = [...row.cells];
    for (const { column, formula } of formulas)
      if ((cells[column] ?? null) === null) cells[column] = formulaBelow(formula, record);
    rows[record] = { ...row, cells };
  }
  return { ...after, rows };
}

/** A column's formula, as the first record would have it, after records have been added. */
function presentFormula(after: SheetState, column: number, at: number, added: number): string | undefined {
  const own = after.userColumns[column - bookColumns(after).length + after.userColumns.length]?.formula;
  if (own !== undefined) return columnFormula(after, column);
  const neighbour = at > 0 ? at - 1 : at + added;
  const formula = after.rows[neighbour]?.cells[column] ?? null;
  return isFormula(formula) ? formulaBelow(formula, -neighbour) : undefined;
}
