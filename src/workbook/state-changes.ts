import { withReferences } from '../formula/reference-text.ts';
import type { Content } from '../formula/values.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { formulaBelow, withColumnFormulas } from './column-formulas.ts';
import { movedSays, rowOf, withAllFormulas, withColumnsOwnFormulas, withFormulas } from './formula-changes.ts';
import { bookColumns, compiledSheets } from './declared.ts';
import { grownFormula, type Shift, shiftedFormula } from './moved-references.ts';
import type { CellPlace } from './place.ts';
import { withRowsAt } from './row-lists.ts';
import { type BookRow, type BookState, type CellFormat, sheetOf, type SheetState, type UserColumn } from './state.ts';

/** A state made from another, sharing with it what stays the same. */

/** The format that a content takes along to another cell of the user's own. */
export function formatAlong(state: BookState, from: CellPlace, to: CellPlace): CellFormat | undefined {
  const own = to.column >= declaredWidth(to.sheet);
  return own ? sheetOf(state, from.sheet).rows[from.record]?.formats?.[from.column] : undefined;
}

/** A content for a cell. */
export interface CellEdit extends CellPlace {
  readonly content: Content;
  /** How the cell shows its numbers from now on; undefined leaves that as it is. */
  readonly format?: CellFormat | undefined;
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
      const changed: [number, BookRow][] = [];
      for (const [record, list] of grouped(own, (edit) => edit.record)) {
        const row = sheet.rows[record];
        if (row === undefined) continue;
        const cells = [...row.cells];
        const notes = { ...row.notes };
        const formats = { ...row.formats };
        for (const { column, content, format } of list) {
          while (cells.length <= column) cells.push(null);
          cells[column] = content;
          delete notes[column];
          if (format !== undefined) formats[column] = format;
        }
        changed.push([record, rowOf(cells, { ...row, notes, formats })]);
      }
      return { ...sheet, rows: withRowsAt(sheet.rows, changed) };
    }),
  };
}

const withShift = (state: BookState, shift: Shift): BookState =>
  withColumnsOwnFormulas(
    withFormulas(state, (formula, sheet) => shiftedFormula(formula, sheet, shift)),
    (formula, { name, rows }) => {
      // Below the last record the formula's own row moves as a record's there would.
      const moves = name === shift.sheet && shift.axis === 'row' ? shift.added - shift.removed : 0;
      const below = shiftedFormula(formulaBelow(formula, rows.length), name, shift);
      return formulaBelow(below, -(rows.length + moves));
    },
  );

/**
 * Formulas before so many records come below the last one of a sheet: ranges over all records of a declared sheet's
 * columns are to hold them too. In a free sheet nothing says which rows belong together.
 */
const withGrowth = (state: BookState, sheet: string, added: number): BookState =>
  added > 0 && compiledSheets.has(sheet)
    ? withAllFormulas(state, (formula, standsIn) =>
        grownFormula(formula, standsIn, { sheet, records: sheetOf(state, sheet).rows.length, added }),
      )
    : state;

/**
 * Formulas after so many records came above the first one of a declared sheet: a column named whole, as
 * `Belts[Width]` is, holds them too. A range that is not fixed to its rows moves down with its cells.
 */
const withGrowthAbove = (state: BookState, sheet: string, added: number): BookState => {
  const last = sheetOf(state, sheet).rows.length + added;
  return withAllFormulas(state, (formula, standsIn) =>
    withReferences(formula, (reference) => {
      const { from, to } = reference;
      const all = from.row === 1 + added && from.rowFixed && to?.row === last && to.rowFixed;
      return all && (reference.sheet ?? standsIn).toLowerCase() === sheet.toLowerCase()
        ? { ...reference, from: { ...from, row: 1 } }
        : undefined;
    }),
  );
};

const shiftedRows = (state: BookState, shift: Shift): BookState => {
  const { sheet, at, added, removed } = shift;
  const shifted = withShift(state, shift);
  const above = at === 1 && removed === 0 && added > 0 && sheetOf(state, sheet).rows.length > 0;
  return above && compiledSheets.has(sheet) ? withGrowthAbove(shifted, sheet, added) : shifted;
};

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
      shiftedRows(state, { sheet, axis: 'row', at: at + 1, added: added.length, removed }),
      sheet,
      at < sheetOf(state, sheet).rows.length ? 0 : added.length,
    ),
    sheet,
    (item) => {
      const spliced = { ...item, rows: item.rows.toSpliced(at, removed, ...added) };
      return removed === 0 ? withColumnFormulas(sheetOf(state, sheet), spliced, at, added.length) : spliced;
    },
  );

/** A row with a column more or less; remarks, formats and looks stay with their cells. */
function rowShifted({ cells, ...says }: BookRow, at: number, removed: number, added: readonly Content[]): BookRow {
  // A cell behind what a row holds is empty, but the new one must not stand nearer than its column.
  const filled = [...cells, ...Array.from({ length: Math.max(0, at - cells.length) }, () => null)];
  const moved = (column: number): number | undefined =>
    column < at ? column : column < at + removed ? undefined : column - removed + added.length;
  return rowOf(filled.toSpliced(at, removed, ...added), movedSays(says, moved));
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

/** The name of a new column that no other of the sheet has. */
function freeHeader(taken: Set<string>): string {
  for (let number = taken.size + 1; ; number += 1) {
    const header = `Column ${number}`;
    if (taken.has(header.toLowerCase())) continue;
    taken.add(header.toLowerCase());
    return header;
  }
}

/** The name of one more column of a sheet. */
export const newHeader = (sheet: SheetState): string =>
  freeHeader(new Set(bookColumns(sheet).map(({ header }) => header.toLowerCase())));

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
  const userColumns = further.length === 0 ? sheet.userColumns : [...sheet.userColumns, ...further];
  const larger = { ...sheet, userColumns, rows: [...sheet.rows, ...added] };
  return withColumnFormulas(sheet, larger, sheet.rows.length, added.length);
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
