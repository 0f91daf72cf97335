import { type Content, isFormula } from '../formula/values.ts';
import { movedByColumn } from './own-look.ts';
import type { BookRow, BookState, SheetState } from './state.ts';

/** Changes of all formulas that users have typed into a book: into its cells, and for whole columns. */

/** What a row says of its cells beside their contents. */
type RowSays = { readonly [Key in keyof Omit<BookRow, 'cells'>]?: BookRow[Key] | undefined };

const isSaid = (said: object | undefined): boolean => said !== undefined && Object.keys(said).length > 0;

/** A row that says nothing of its cells where there is nothing to say. */
export const rowOf = (cells: readonly Content[], { notes, formats, looks, hidden }: RowSays = {}): BookRow => ({
  cells,
  ...(notes !== undefined && isSaid(notes) ? { notes } : {}),
  ...(formats !== undefined && isSaid(formats) ? { formats } : {}),
  ...(looks !== undefined && isSaid(looks) ? { looks } : {}),
  ...(hidden === true ? { hidden } : {}),
});

/** What a row says, with each item at the column where its cell stands now. */
export const movedSays = (
  { notes, formats, looks, hidden }: RowSays,
  moved: (column: number) => number | undefined,
): RowSays => ({
  notes: movedByColumn(notes, moved),
  formats: movedByColumn(formats, moved),
  looks: movedByColumn(looks, moved),
  hidden,
});

/** A state whose users' formulas are as `change` makes them; rows without a changed one are shared with the old one. */
export function withFormulas(state: BookState, change: (formula: string, sheet: string) => string): BookState {
  const inRow = (row: BookRow, sheet: string): BookRow => {
    let cells: Content[] | undefined;
    for (let column = 0; column < row.cells.length; column += 1) {
      const content = row.cells[column] ?? null;
      if (!isFormula(content)) continue;
      const changed = change(content, sheet);
      if (changed !== content) (cells ??= [...row.cells])[column] = changed;
    }
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
