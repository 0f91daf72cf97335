import { isFormula } from '../formula/values.ts';
import { columnFormula, formulaBelow } from './column-formulas.ts';
import { withRenamedHeaders } from './column-layout.ts';
import { bookColumns } from './declared.ts';
import { rowOf } from './formula-changes.ts';
import { sharedLook } from './own-look.ts';
import { type BookRow, type BookState, sheetOf, type UserColumn } from './state.ts';
import { declaredWidth, withSheet } from './state-changes.ts';

/** What the user says of a column of their own: what it holds, how it is shown, and the formula of all its cells. */

/** Digits after the point that a column or a cell can be told to show. */
export const mostDigits = 9;

/** A column of the user's own as the book has it, with the formula that its cells share. */
export function ownColumnAt(state: BookState, sheet: string, position: number): UserColumn | undefined {
  const found = sheetOf(state, sheet);
  const column = found.userColumns[position - declaredWidth(sheet)];
  const formula = columnFormula(found, position);
  return column === undefined || formula === undefined ? column : { ...column, formula };
}

/** A row without the number format that a file gave a cell. */
function withoutFileFormat(row: BookRow, position: number): BookRow {
  const { [position]: look, ...others } = row.looks ?? {};
  if (look?.format === undefined) return row;
  const { format: _, ...rest } = look;
  const kept = sharedLook(rest);
  return rowOf(row.cells, { ...row, looks: kept === undefined ? others : { ...others, [position]: kept } });
}

const showsAlike = (one: UserColumn, other: UserColumn): boolean =>
  one.kind === other.kind && one.digits === other.digits && one.percent === other.percent;

/**
 * A state in which one of a sheet's own columns is another. How its numbers are to show counts before how a file showed
 * them. With a formula, each cell that is empty or holds a formula
 * gets it; what was entered stays. Without one, the cells that held the column's formula are empty.
 */
export function withOwnColumn(state: BookState, name: string, position: number, column: UserColumn): BookState {
  const before = ownColumnAt(state, name, position);
  if (before === undefined) throw new Error(`${name} has no column of your own at ${position}`);
  const { formula } = column;
  const own = position - declaredWidth(name);
  const shown = showsAlike(before, column)
    ? state
    : withSheet(state, name, (sheet) => ({
        ...sheet,
        rows: sheet.rows.map((row) => withoutFileFormat(row, position)),
      }));
  const changed = withSheet(shown, name, (sheet) => ({
    ...sheet,
    userColumns: sheet.userColumns.with(own, column),
    rows:
      formula === before.formula
        ? sheet.rows
        : sheet.rows.map((row, record) => {
            const content = row.cells[position] ?? null;
            const followed = before.formula !== undefined && content === formulaBelow(before.formula, record);
            if (formula === undefined ? !followed : content !== null && !isFormula(content)) return row;
            const cells = [...row.cells];
            while (cells.length <= position) cells.push(null);
            return {
              ...row,
              cells: cells.with(position, formula === undefined ? null : formulaBelow(formula, record)),
            };
          }),
  }));
  return changed.look === undefined || column.header === before.header
    ? changed
    : {
        ...changed,
        look: withRenamedHeaders(changed.look, (of, header) =>
          of === name && header === before.header ? column.header : header,
        ),
      };
}

/** Records whose cell of a column is another than the column's formula makes it. */
export function exceptions(state: BookState, name: string, position: number): number {
  const formula = ownColumnAt(state, name, position)?.formula;
  const { rows } = sheetOf(state, name);
  return formula === undefined
    ? 0
    : rows.filter(({ cells }, record) => (cells[position] ?? null) !== formulaBelow(formula, record)).length;
}

/** Why a text will not do as the name of a column of a sheet; undefined when it will. */
export function headerRefusal(state: BookState, name: string, header: string, position?: number): string | undefined {
  const typed = header.trim();
  if (typed === '') return 'A column needs a name.';
  if (/[{}.()[\]!]/.test(typed)) return 'A column name cannot hold any of { } . ( ) [ ] !';
  const taken = bookColumns(sheetOf(state, name)).findIndex(
    (column) => column.header.toLowerCase() === typed.toLowerCase(),
  );
  return taken < 0 || taken === position ? undefined : `There is already a column ${typed}.`;
}
