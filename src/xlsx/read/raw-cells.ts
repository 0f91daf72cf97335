import { isoDate } from '../../units/dates.ts';
import type { RawBook, RawCell, RawRange, RawSheet } from './raw-book.ts';

/**
 * What import asks of raw cells: their text, whether they are filled, and a sheet turned so that its rows are columns.
 */

/** A cell's value as a person reads it; '' for nothing. */
export function cellText(cell: RawCell): string {
  const { value, error, date } = cell;
  if (error !== undefined) return error;
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return date === true ? dateText(value) : String(value);
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return cell.formula === undefined ? '' : `=${cell.formula}`;
}

/** A day, with its time when there is one; a number below 1 is a time of day alone. */
function dateText(serial: number): string {
  if (serial < 0 || serial >= 2_958_466) return String(serial);
  return serial < 1 ? isoDate(serial).slice(11) : isoDate(serial);
}

/** Whether a cell holds a day of the calendar, not a time of day alone. */
export const isDay = ({ date, value }: RawCell): boolean => date === true && typeof value === 'number' && value >= 1;

/** Whether a cell shows something; a formula that answers an empty text shows nothing. */
export function isFilled(cell: RawCell): boolean {
  const { value, error } = cell;
  if (error !== undefined) return true;
  return typeof value === 'string'
    ? value !== '' && (value.charCodeAt(0) > 32 || value.trim() !== '')
    : value !== null || hasFormula(cell);
}

/** Whether a cell has a formula, which is not written out for this. */
export const hasFormula = (cell: RawCell): boolean => cell.shared !== undefined || cell.formula !== undefined;

const shown = new WeakMap<RawBook, RawBook>();

/** The book with the cells that show something only, rows in their order; made once for a book. */
export function shownBook(book: RawBook): RawBook {
  let kept = shown.get(book);
  if (kept === undefined) {
    kept = { ...book, sheets: book.sheets.map(shownSheet) };
    shown.set(book, kept);
    shown.set(kept, kept);
  }
  return kept;
}

function shownSheet(sheet: RawSheet): RawSheet {
  const rows = new Map<number, readonly RawCell[]>();
  let lastColumn = 0;
  for (const [row, cells] of [...sheet.rows].toSorted(([a], [b]) => a - b)) {
    const filled = cells.every(isFilled) ? cells : cells.filter(isFilled);
    if (filled.length === 0) continue;
    rows.set(row, filled);
    lastColumn = Math.max(lastColumn, filled.at(-1)?.column ?? 0);
  }
  return { ...sheet, rows, lastRow: Math.max(0, ...[...rows.keys()].slice(-1)), lastColumn };
}

export const isText = (cell: RawCell): cell is RawCell & { readonly value: string } =>
  typeof cell.value === 'string' && cell.value.trim() !== '';

const none: readonly RawCell[] = [];
/** The cells of a row of a shown sheet. */
export const rowCells = (sheet: RawSheet, row: number): readonly RawCell[] => sheet.rows.get(row) ?? none;

export const cellAt = (sheet: RawSheet, row: number, column: number): RawCell | undefined =>
  sheet.rows.get(row)?.find((cell) => cell.column === column);

/** Areas that a sheet may have merged from a row on; more are a form, not a list. */
const mostMerged = 20_000;

/**
 * The sheet with the value of a merged cell in every row that it spans, from a row on: an area merged over five belts
 * is the area of each. Rows that are blank otherwise stay so.
 */
export function spreadMerges(sheet: RawSheet, from: number): RawSheet {
  const tall = sheet.merges.filter(({ top, bottom }) => bottom > top && top >= from);
  if (tall.length === 0 || tall.length > mostMerged) return sheet;
  const rows = new Map(sheet.rows);
  const spread = new Map<number, RawCell[]>();
  for (const { top, left, bottom } of tall) {
    const anchor = cellAt(sheet, top, left);
    if (anchor === undefined) continue;
    const { formula: _, shared: __, ...value } = anchor;
    for (let row = top + 1; row <= Math.min(bottom, sheet.lastRow); row += 1) {
      if (!rows.has(row)) continue;
      const added = spread.get(row);
      if (added === undefined) spread.set(row, [{ ...value, row }]);
      else added.push({ ...value, row });
    }
  }
  for (const [row, added] of spread) {
    // Of two cells in one column the first counts: what the list holds itself, then the area that comes first.
    const byColumn = new Map<number, RawCell>();
    for (const cell of [...(rows.get(row) ?? []), ...added])
      if (!byColumn.has(cell.column)) byColumn.set(cell.column, cell);
    rows.set(
      row,
      [...byColumn.values()].toSorted((a, b) => a.column - b.column),
    );
  }
  return { ...sheet, rows };
}

export const rangeAt = (sheet: RawSheet, row: number, column: number): RawRange | undefined =>
  sheet.merges.find(({ top, left, bottom, right }) => row >= top && row <= bottom && column >= left && column <= right);

/** The sheet with rows for columns, for lists whose records stand side by side. */
export function turned(sheet: RawSheet): RawSheet {
  const rows = new Map<number, RawCell[]>();
  for (const cells of sheet.rows.values()) {
    for (const cell of cells) {
      // What shares its formula does not hand it on by itself.
      const { shared: _, ...own } = cell;
      const { formula } = cell;
      const moved = { ...own, ...(formula === undefined ? {} : { formula }), row: cell.column, column: cell.row };
      const row = rows.get(cell.column);
      if (row === undefined) rows.set(cell.column, [moved]);
      else row.push(moved);
    }
  }
  const ordered = [...rows]
    .toSorted(([a], [b]) => a - b)
    .map(([row, cells]): [number, RawCell[]] => [row, cells.toSorted((a, b) => a.column - b.column)]);
  return {
    ...sheet,
    rows: new Map(ordered),
    merges: sheet.merges.map(({ top, left, bottom, right }) => ({
      top: left,
      left: top,
      bottom: right,
      right: bottom,
    })),
    lastRow: sheet.lastColumn,
    lastColumn: sheet.lastRow,
  };
}
