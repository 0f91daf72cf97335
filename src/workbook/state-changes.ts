import { type Content, isFormula } from '../formula/values.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { withColumnFormulas } from './column-formulas.ts';
import { bookColumns, compiledSheets } from './declared.ts';
import { grownFormula, Relocation, type Shift, shiftedFormula } from './moved-references.ts';
import { movedByColumn } from './own-look.ts';
import { type CellPlace, placeKey } from './place.ts';
import { type BookRow, type BookState, contentAt, sheetOf, type SheetState, type UserColumn } from './state.ts';

/** A state made from another, sharing with it what stays the same. */

/** A content for a cell. */
export interface CellEdit extends CellPlace {
  readonly content: Content;
}

/** A state with one sheet changed. For tests: states are made with it. */
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
        const { notes: _, ...others } = row;
        rows[record] = { ...others, cells, ...(Object.keys(notes).length === 0 ? {} : { notes }) };
      }
      return { ...sheet, rows };
    }),
  };
}

/** A state whose users' formulas are as `change` makes them; rows without a changed one are shared with the old one. */
function withFormulas(state: BookState, change: (formula: string, sheet: string) => string): BookState {
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

const withShift = (state: BookState, shift: Shift): BookState =>
  withFormulas(state, (formula, sheet) => shiftedFormula(formula, sheet, shift));

/**
 * Formulas before so many records come below the last one of a sheet: ranges over all records of a declared sheet's
 * columns are to hold them too. In a free sheet nothing says which rows belong together.
 */
const withGrowth = (state: BookState, sheet: string, added: number): BookState =>
  added > 0 && compiledSheets.has(sheet)
    ? withFormulas(state, (formula, standsIn) =>
        grownFormula(formula, standsIn, { sheet, records: sheetOf(state, sheet).rows.length, added }),
      )
    : state;

/** A state with records taken out and others put in at a place; formulas go on naming the cells that they named. */
export const withRecordsMoved = (
  state: BookState,
  sheet: string,
  at: number,
  removed: number,
  added: readonly BookRow[],
): BookState =>
  withSheet(
    withGrowth(
      // Row 0 of a sheet holds its headers.
      withShift(state, { sheet, axis: 'row', at: at + 1, added: added.length, removed }),
      sheet,
      at < sheetOf(state, sheet).rows.length ? 0 : added.length,
    ),
    sheet,
    (item) => {
      const spliced = { ...item, rows: item.rows.toSpliced(at, removed, ...added) };
      return compiledSheets.has(sheet) && removed === 0
        ? withColumnFormulas(sheetOf(state, sheet), spliced, at, added.length)
        : spliced;
    },
  );

/** A row with a column more or less; remarks and looks stay with their cells. */
function rowShifted(
  { cells, notes, looks, ...others }: BookRow,
  at: number,
  removed: number,
  added: readonly Content[],
): BookRow {
  // A cell behind what a row holds is empty, but the new one must not stand nearer than its column.
  const filled = [...cells, ...Array.from({ length: Math.max(0, at - cells.length) }, () => null)];
  const moved = (column: number): number | undefined =>
    column < at ? column : column < at + removed ? undefined : column - removed + added.length;
  const [movedNotes, movedLooks] = [movedByColumn(notes, moved), movedByColumn(looks, moved)];
  return {
    ...others,
    cells: filled.toSpliced(at, removed, ...added),
    ...(movedNotes === undefined ? {} : { notes: movedNotes }),
    ...(movedLooks === undefined ? {} : { looks: movedLooks }),
  };
}

/** Rows of a sheet that hold the contents given, and nothing in all other columns. */
export function emptyOrGiven(sheet: SheetState, rows: readonly (readonly Content[])[]): BookRow[] {
  const width = bookColumns(sheet).length;
  return rows.map((cells) => ({ cells: Array.from({ length: width }, (_, column) => cells[column] ?? null) }));
}

/** How many columns stand before the user's own. */
export const declaredWidth = (sheet: string): number => compiledSheets.get(sheet)?.columns.length ?? 0;

/** A state with a column of the user's own put in at a place among all columns. */
export const withColumnAdded = (
  state: BookState,
  name: string,
  column: UserColumn,
  at = declaredWidth(name) + sheetOf(state, name).userColumns.length,
): BookState =>
  withSheet(
    withShift(state, { sheet: name, axis: 'column', at, added: 1, removed: 0 }),
    name,
    ({ userColumns, rows, ...sheet }) => ({
      ...sheet,
      userColumns: userColumns.toSpliced(at - declaredWidth(name), 0, column),
      rows: rows.map((row) => rowShifted(row, at, 0, [null])),
    }),
  );

/** A state without one of a sheet's user columns; formulas that named a cell of it name none. */
export const withColumnRemoved = (state: BookState, name: string, at: number): BookState =>
  withSheet(
    withShift(state, { sheet: name, axis: 'column', at, added: 0, removed: 1 }),
    name,
    ({ userColumns, rows, ...sheet }) => ({
      ...sheet,
      userColumns: userColumns.toSpliced(at - declaredWidth(name), 1),
      rows: rows.map((row) => rowShifted(row, at, 1, [])),
    }),
  );

export const withColumnRenamed = (state: BookState, name: string, own: number, header: string): BookState =>
  withSheet(state, name, (sheet) => ({
    ...sheet,
    userColumns: sheet.userColumns.map((user, index) => (index === own ? { ...user, header } : user)),
  }));

/** The name of a new column that no other of the sheet has. */
function freeHeader(taken: Set<string>): string {
  for (let number = taken.size + 1; ; number += 1) {
    const header = `Column ${number}`;
    if (taken.has(header.toLowerCase())) continue;
    taken.add(header.toLowerCase());
    return header;
  }
}

/** What a new column of the user's own is taken to hold. */
export const ownKind = (sheet: string): QuantityKind => (compiledSheets.has(sheet) ? 'text' : 'number');

/** A sheet with at least so many records and columns; columns that are added are the user's own. */
function enlarged(sheet: SheetState, records: number, width: number): SheetState {
  const columns = bookColumns(sheet);
  const taken = new Set(columns.map(({ header }) => header.toLowerCase()));
  const further = Array.from({ length: Math.max(0, width - columns.length) }, (): UserColumn => ({
    header: freeHeader(taken),
    kind: ownKind(sheet.name),
  }));
  const all = columns.length + further.length;
  const added = Array.from({ length: Math.max(0, records - sheet.rows.length) }, (): BookRow => ({
    cells: Array.from({ length: all }, () => null),
  }));
  const larger = { ...sheet, userColumns: [...sheet.userColumns, ...further], rows: [...sheet.rows, ...added] };
  return compiledSheets.has(sheet.name) ? withColumnFormulas(sheet, larger, sheet.rows.length, added.length) : larger;
}

/** A state with room for cells beyond the last row or column of their sheets; the same one when all have room. */
export function withRoom(state: BookState, cells: readonly CellPlace[]): BookState {
  const needed = new Map<string, { records: number; width: number }>();
  for (const { sheet, record, column } of cells) {
    const size = needed.get(sheet) ?? { records: 0, width: 0 };
    size.records = Math.max(size.records, record + 1);
    size.width = Math.max(size.width, column + 1);
    needed.set(sheet, size);
  }
  const small = state.sheets.filter((sheet) => {
    const size = needed.get(sheet.name);
    return size !== undefined && (size.records > sheet.rows.length || size.width > bookColumns(sheet).length);
  });
  return small.reduce((grown, { name }) => {
    const { records = 0, width = 0 } = needed.get(name) ?? {};
    const ranged = withGrowth(grown, name, records - sheetOf(grown, name).rows.length);
    return withSheet(ranged, name, (sheet) => enlarged(sheet, records, width));
  }, state);
}

/** A cell whose content goes to another. */
export interface CellMove {
  readonly from: CellPlace;
  readonly to: CellPlace;
}

/**
 * What becomes of cells when the contents of some go to others: formulas go as they are but for what moves with them,
 * and whatever refers to a moved cell follows it. The cells that were left are empty.
 */
export function moveEdits(state: BookState, moves: readonly CellMove[]): CellEdit[] {
  const relocation = new Relocation();
  const edits = new Map<string, CellEdit>();
  for (const { from, to } of moves) {
    relocation.add(
      { sheet: from.sheet, row: from.record + 1, column: from.column },
      { sheet: to.sheet, row: to.record + 1, column: to.column },
    );
    edits.set(placeKey(from), { ...from, content: null });
  }
  for (const { from, to } of moves) {
    const content = contentAt(state, from);
    edits.set(placeKey(to), {
      ...to,
      content: isFormula(content) ? relocation.formula(content, from.sheet, to.sheet) : content,
    });
  }
  for (const { name, rows } of state.sheets) {
    rows.forEach(({ cells }, record) =>
      cells.forEach((content, column) => {
        if (!isFormula(content)) return;
        const place = { sheet: name, record, column };
        if (edits.has(placeKey(place))) return;
        const followed = relocation.formula(content, name, name);
        if (followed !== content) edits.set(placeKey(place), { ...place, content: followed });
      }),
    );
  }
  return [...edits.values()];
}

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
