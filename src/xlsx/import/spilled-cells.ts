import { sheetRow } from '../../formula/address.ts';
import { isFault, isFormula, type Matrix } from '../../formula/values.ts';
import { declarationOf } from '../../workbook/declared.ts';
import { placeKey } from '../../workbook/place.ts';
import type { BookState, SheetState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import type { About } from '../about.ts';
import { formulaOnSheet } from '../formula-on-sheet.ts';
import type { RawBook } from '../read/raw-book.ts';
import { cellAt } from '../read/raw-cells.ts';
import { namelessHeader } from './exported-columns.ts';

/**
 * Free sheets without the cells that formulas fill.
 *
 * A file holds every cell of a spill; in the book only the formula stands, and cells in its way would stop it. Which
 * cells those are the formula itself tells, once it is worked out; a cell that holds something else is the user's.
 */
export function withoutSpills(sheets: readonly SheetState[], about: About, book: RawBook): SheetState[] {
  const spilling = about.formulas.filter(({ place: { sheet, record, column } }) => {
    const state = sheets.find(({ name }) => name === sheet);
    if (
      state === undefined ||
      declarationOf(sheet) !== undefined ||
      !isFormula(state.rows[record]?.cells[column] ?? null)
    )
      return false;
    const beside = [state.rows[record + 1]?.cells[column], state.rows[record]?.cells[column + 1]];
    return beside.some((content) => (content ?? null) !== null);
  });
  if (spilling.length === 0) return [...sheets];
  const typed = new Set(about.formulas.map(({ place }) => placeKey(place)));
  const cleared = sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => ({ ...row, cells: [...row.cells] })),
  }));
  const state: BookState = { title: '', units: about.units, invented: false, sheets };
  const workbook = new Workbook(state);
  for (const { place } of spilling) {
    const target = cleared.find(({ name }) => name === place.sheet);
    const written = about.sheets.find(({ name }) => name === place.sheet)?.written;
    const raw = book.sheets.find(({ name }) => name === written);
    const content = target?.rows[place.record]?.cells[place.column] ?? null;
    const value = isFormula(content) ? workbook.evaluate(formulaOnSheet(content, place.sheet)) : null;
    if (target === undefined || raw === undefined || !Array.isArray(value)) continue;
    (value as Matrix).forEach((row, down) =>
      row.forEach((item, right) => {
        const [record, column] = [place.record + down, place.column + right];
        const cells = target.rows[record]?.cells;
        if (
          (down === 0 && right === 0) ||
          cells === undefined ||
          typed.has(placeKey({ sheet: place.sheet, record, column }))
        )
          return;
        const cell = cellAt(raw, sheetRow(record), column + 1);
        const held = isFault(item) ? item.code : item;
        const same =
          typeof held === 'number' && typeof cell?.value === 'number'
            ? Math.abs(held - cell.value) <= 1e-9 * Math.abs(held)
            : (cell?.error ?? cell?.value ?? null) === held;
        if (same || cell?.formula !== undefined) cells[column] = null;
      }),
    );
  }
  return cleared.map((sheet) => withoutEmptied(sheet, about));
}

/** A sheet without the rows below its last record and the nameless columns beside its last that only spills filled. */
function withoutEmptied(sheet: SheetState, { sheets, columns }: About): SheetState {
  const written = sheets.find(({ name }) => name === sheet.name)?.records;
  if (written === undefined || Number.isNaN(written)) return sheet;
  const last = sheet.rows.findLastIndex(({ cells }) => cells.some((content) => content !== null));
  const rows = sheet.rows.slice(0, Math.max(written, last + 1));
  const own = columns.filter((column) => column.sheet === sheet.name).length;
  let width = sheet.userColumns.length;
  while (
    width > own &&
    sheet.userColumns[width - 1]?.header === namelessHeader(width) &&
    rows.every(({ cells }) => (cells[width - 1] ?? null) === null)
  )
    width -= 1;
  return width === sheet.userColumns.length || declarationOf(sheet.name) !== undefined
    ? { ...sheet, rows }
    : {
        ...sheet,
        userColumns: sheet.userColumns.slice(0, width),
        rows: rows.map((row) => ({ ...row, cells: row.cells.slice(0, width) })),
      };
}
