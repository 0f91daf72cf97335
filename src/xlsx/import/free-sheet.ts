import type { Content } from '../../formula/values.ts';
import type { OwnLook } from '../../workbook/own-look.ts';
import type { BookRow, SheetState } from '../../workbook/state.ts';
import { verbatim } from './cell-content.ts';
import { columnName } from '../read/cell-address.ts';
import type { PlacedSheet } from './kept-layouts.ts';
import { mostPlaces, nearCells } from './near-cells.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import type { Unkept } from '../read/raw-look.ts';
import { grouped } from '../read/read-limits.ts';
import { cellText, isDay, isText, rowCells } from '../read/raw-cells.ts';
import { SheetLooks } from './sheet-looks.ts';
import { sheetFormula } from './row-formulas.ts';

interface FreeSheet {
  readonly state: SheetState;
  /** Formulas that live on, and those of which only the value was taken. */
  readonly formulas: number;
  readonly values: number;
  /** Cells whose comments found no place. */
  readonly lostComments: readonly string[];
  readonly colouredHeaders: readonly Unkept[];
  readonly placed: PlacedSheet;
  /** What was left out of the sheet, in words; undefined when nothing was. */
  readonly told: string | undefined;
}

/** Formulas of one file that go on being computed in free sheets; the engine takes some 10 kB for each. Ours. */
export const mostFreeFormulas = 20_000;
/** Rows times columns of all free sheets of one file. Ours: a file has 200 sheets, of which few are large. */
const mostFreePlaces = 4 * mostPlaces;

const together = `the sheets that are kept as they are would have more than ${grouped(mostFreePlaces)} cells together`;

/** The places of free sheets that are left once others were made. */
export const freePlaces = (made: readonly SheetState[]): number =>
  made.reduce((left, { rows, userColumns }) => left - rows.length * userColumns.length, mostFreePlaces);

/** Rows below the last filled one that are kept for their colours or comments. Ours. */
const mostLookedBelow = 50;

/**
 * A sheet of the file that is no list of ours, kept as a sheet of the user's: every cell at its place.
 *
 * Its first row gives the columns their headers when it is one, a text over every column, and the cells below keep
 * their addresses. Otherwise the columns are called by their letters, and every cell moves down by one row. Formulas
 * over the sheet's own cells live on; of those that look elsewhere, and of those beyond `mostFormulas`, the value is
 * taken. What stands beyond `places` is left out.
 */
export function freeSheet(
  whole: RawSheet,
  name: string,
  { formulas: mostFormulas = mostFreeFormulas, places = mostPlaces } = {},
): FreeSheet {
  const { sheet, told } = places < mostPlaces ? nearCells(whole, Math.max(0, places), together) : nearCells(whole);
  const headed = hasHeaders(sheet);
  const top = headed ? 2 : 1;
  const dates = dateColumns(sheet, top);
  const first = rowCells(sheet, 1);
  const userColumns = Array.from({ length: sheet.lastColumn }, (_, index) => ({
    header: headed ? cellText(first[index] ?? { row: 1, column: index + 1, value: '' }).trim() : columnName(index + 1),
    kind: dates.has(index + 1) ? ('date' as const) : ('text' as const),
  }));
  const looks = new SheetLooks(sheet);
  const lastRow = Math.max(sheet.lastRow, Math.min(looks.looksBelow, sheet.lastRow + mostLookedBelow));
  const rows = Array.from({ length: Math.max(0, lastRow - top + 1) }, (_, at) =>
    freeRow(looks, at + top, rowCells(sheet, at + top), userColumns.length),
  );
  // A date beside other contents becomes a text, with which a formula would compute something else.
  const asTexts = [...sheet.rows.values()].some((cells) =>
    cells.some((cell) => cell.date === true && !dates.has(cell.column)),
  );
  let formulas = 0;
  let values = 0;
  const content = (cell: RawCell): Content => {
    const formula =
      cell.formula === undefined || asTexts || formulas >= mostFormulas
        ? undefined
        : sheetFormula(cell.formula, 2 - top);
    if (cell.formula !== undefined) {
      if (formula === undefined) values += 1;
      else formulas += 1;
    }
    return formula ?? (dates.has(cell.column) && typeof cell.value === 'number' ? cell.value : verbatim(cell));
  };
  for (const [row, raw] of sheet.rows) {
    const target = rows[row - top];
    if (row >= top && target !== undefined) for (const cell of raw) target.cells[cell.column - 1] = content(cell);
  }
  const beside = headed ? looks.commentsOf(1) : new Map<number, string>();
  const columns = userColumns.map(({ header }, index) => {
    const comment = beside.get(index + 1);
    if (comment !== undefined) looks.take(1, index + 1);
    return { column: index + 1, header, ...(comment === undefined ? {} : { comment }) };
  });
  return {
    state: { name, userColumns, rows },
    formulas,
    values,
    told,
    lostComments: looks.lostComments,
    colouredHeaders: headed ? looks.colouredHeaders([1]) : [],
    placed: { raw: sheet, sheet: name, turned: false, columns },
  };
}

interface FreeRow extends BookRow {
  readonly cells: Content[];
}

/** A row of which nothing but the look is known. */
function freeRow(looks: SheetLooks, row: number, raw: readonly RawCell[], width: number): FreeRow {
  const columns = Array.from({ length: width }, (_, index) => index + 1);
  const own = looks.ofRow(row, raw, columns);
  const placed: Record<number, OwnLook> = {};
  for (const [column, look] of own.looks)
    if (column <= width) {
      placed[column - 1] = look;
      looks.take(row, column);
    }
  return {
    cells: new Array<Content>(width).fill(null),
    ...(Object.keys(placed).length === 0 ? {} : { looks: placed }),
    ...(own.hidden ? { hidden: true as const } : {}),
  };
}

function hasHeaders(sheet: RawSheet): boolean {
  const first = rowCells(sheet, 1);
  return (
    sheet.lastColumn > 0 &&
    first.length === sheet.lastColumn &&
    first.every((cell) => isText(cell) && cell.formula === undefined) &&
    new Set(first.map((cell) => cellText(cell).trim().toLowerCase())).size === first.length
  );
}

/** Columns in which every filled cell is a date. */
function dateColumns(sheet: RawSheet, top: number): ReadonlySet<number> {
  const dates = new Map<number, boolean>();
  for (const [row, cells] of sheet.rows)
    if (row >= top) for (const cell of cells) dates.set(cell.column, (dates.get(cell.column) ?? true) && isDay(cell));
  return new Set([...dates].flatMap(([column, all]) => (all ? [column] : [])));
}

/** A name for a free sheet that no other sheet of the book has. */
export function freeName(name: string, taken: readonly string[]): string {
  const used = new Set(taken.map((other) => other.toLowerCase()));
  let candidate = name;
  for (let count = 1; used.has(candidate.toLowerCase()); count += 1)
    candidate = count === 1 ? `${name} (as listed)` : `${name} (as listed ${count})`;
  return candidate;
}
