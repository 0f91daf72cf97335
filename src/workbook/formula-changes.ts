import { type Content, isFormula } from '../formula/values.ts';
import type { BookRow, BookState, CellFormat, SheetState } from './state.ts';

/** Changes of all formulas that users have typed into a book: into its cells, and for whole columns. */

/** A row that says nothing of its cells where there is nothing to say. */
export function rowOf(
  cells: readonly Content[],
  notes: Readonly<Record<number, string>> = {},
  formats: Readonly<Record<number, CellFormat>> = {},
): BookRow {
  return {
    cells,
    ...(Object.keys(notes).length === 0 ? {} : { notes }),
    ...(Object.keys(formats).length === 0 ? {} : { formats }),
  };
}

/** A state whose users' formulas are as `change` makes them; rows without a changed one are shared with the old one. */
export function withFormulas(state: BookState, change: (formula: string, sheet: string) => string): BookState {
  const inRow = (row: BookRow, sheet: string): BookRow => {
    let cells: Content[] | undefined;
    row.cells.forEach((content, column) => {
      if (!isFormula(content)) return;
      const changed = change(content, sheet);
      if (changed !== content) (cells ??= [...row.cells])[column] = changed;
    });
    return cells === undefined ? row : { ...row, cells };
  };
  return {
    ...state,
    sheets: state.sheets.map((sheet) => {
      const rows = sheet.rows.map((row) => inRow(row, sheet.name));
      return rows.every((row, record) => row === sheet.rows[record]) ? sheet : { ...sheet, rows };
    }),
  };
}

/** A state whose columns' own formulas are as `change` makes them. */
export function withColumnsOwnFormulas(
  state: BookState,
  change: (formula: string, sheet: SheetState) => string,
): BookState {
  if (state.sheets.every(({ userColumns }) => userColumns.every(({ formula }) => formula === undefined))) return state;
  return {
    ...state,
    sheets: state.sheets.map((sheet) => ({
      ...sheet,
      userColumns: sheet.userColumns.map((column) =>
        column.formula === undefined ? column : { ...column, formula: change(column.formula, sheet) },
      ),
    })),
  };
}

/** A state with all formulas changed that do not depend on where in their column they stand. */
export const withAllFormulas = (state: BookState, change: (formula: string, sheet: string) => string): BookState =>
  withColumnsOwnFormulas(withFormulas(state, change), (formula, { name }) => change(formula, name));
