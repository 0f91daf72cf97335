import type { Content } from '../formula/values.ts';
import type { CellPlace } from './place.ts';
import type { BookState, SheetState, UserColumn } from './state.ts';

/** A state made from another, sharing with it what stays the same. */

/** A content for a cell. */
export interface CellEdit extends CellPlace {
  readonly content: Content;
}

/** A state with one sheet changed. */
export function withSheet(state: BookState, name: string, change: (sheet: SheetState) => SheetState): BookState {
  return { ...state, sheets: state.sheets.map((sheet) => (sheet.name === name ? change(sheet) : sheet)) };
}

function grouped<Item, Key>(items: readonly Item[], keyOf: (item: Item) => Key): Map<Key, Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/** A state with some contents changed; everything else is shared with the old one. */
export function withContents(state: BookState, edits: readonly CellEdit[]): BookState {
  const bySheet = grouped(edits, ({ sheet }) => sheet);
  return {
    ...state,
    sheets: state.sheets.map((sheet) => {
      const own = bySheet.get(sheet.name);
      if (own === undefined) return sheet;
      const rows = [...sheet.rows];
      for (const [record, list] of grouped(own, (edit) => edit.record)) {
        const row = rows[record];
        if (row === undefined) continue;
        const cells = [...row.cells];
        const notes = { ...row.notes };
        for (const { column, content } of list) {
          while (cells.length <= column) cells.push(null);
          cells[column] = content;
          delete notes[column];
        }
        rows[record] = Object.keys(notes).length === 0 ? { cells } : { cells, notes };
      }
      return { ...sheet, rows };
    }),
  };
}

export const withColumnAdded = (state: BookState, name: string, column: UserColumn): BookState =>
  withSheet(state, name, (sheet) => ({
    ...sheet,
    userColumns: [...sheet.userColumns, column],
    rows: sheet.rows.map((row) => ({ ...row, cells: [...row.cells, null] })),
  }));

/** A state without one of a sheet's user columns: `own` among these, `column` among all. */
export const withColumnRemoved = (state: BookState, name: string, own: number, column: number): BookState =>
  withSheet(state, name, (sheet) => ({
    ...sheet,
    userColumns: sheet.userColumns.toSpliced(own, 1),
    rows: sheet.rows.map((row) => ({ ...row, cells: row.cells.toSpliced(column, 1) })),
  }));

export const withColumnRenamed = (state: BookState, name: string, own: number, header: string): BookState =>
  withSheet(state, name, (sheet) => ({
    ...sheet,
    userColumns: sheet.userColumns.map((user, index) => (index === own ? { ...user, header } : user)),
  }));

/** A state with a free sheet of empty cells behind the others. */
export const withFreeSheet = (state: BookState, name: string, columns: number, rows: number): BookState => ({
  ...state,
  sheets: [
    ...state.sheets,
    {
      name,
      userColumns: Array.from({ length: columns }, (_, index) => ({ header: `Column ${index + 1}`, kind: 'number' })),
      rows: Array.from({ length: rows }, () => ({ cells: Array.from({ length: columns }, () => null) })),
    },
  ],
});
