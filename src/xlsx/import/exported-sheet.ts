import { recordInRow } from '../../formula/address.ts';
import { type Content, isFormula } from '../../formula/values.ts';
import { isComputed } from '../../sheet/declaration.ts';
import { isWords } from '../../units/quantities.ts';
import { type BookColumn, bookColumns, declarationOf, namedSheetOf } from '../../workbook/declared.ts';
import { type CellPlace, placeKey } from '../../workbook/place.ts';
import { rowOf } from '../../workbook/formula-changes.ts';
import type { BookRow, CellFormat, SheetState } from '../../workbook/state.ts';
import type { About, AboutSheet } from '../about.ts';
import { positionName } from '../read/cell-address.ts';
import { readLimits } from '../read/read-limits.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { cellText, hasFormula } from '../read/raw-cells.ts';
import { adaptedFormula, type MovedColumn } from '../../workbook/adapted-book.ts';
import { computedCells, type ExportedColumns, typedContent } from './exported-columns.ts';
import { exportedLooks } from './exported-looks.ts';
import type { NotUnderstood, ReadingRemark } from './import-model.ts';
import { mostPlaces } from './near-cells.ts';

/** One sheet of an export of this program, as its file holds it now. */

export interface ExportNotes {
  readonly notUnderstood: NotUnderstood[];
  readonly remarks: ReadingRemark[];
  readonly assumed: string[];
  /** Cells of the file's sheets whose comments found no place. */
  readonly lostComments: Map<string, readonly string[]>;
}

/** What the About sheet says of a sheet's cells, by record and column. */
class AboutCells {
  readonly typed: ReadonlyMap<string, About['formulas'][number]>;
  readonly remarks: ReadonlyMap<string, About['remarks'][number]>;
  readonly overrides: ReadonlySet<string>;
  readonly formats: ReadonlyMap<string, About['formats'][number]>;

  constructor(about: About, sheet: string) {
    const at = <Item extends { readonly place: CellPlace }>(items: readonly Item[]): Map<string, Item> =>
      new Map(
        items.flatMap((item) =>
          item.place.sheet === sheet ? [[`${item.place.record},${item.place.column}`, item] as const] : [],
        ),
      );
    this.typed = at(about.formulas);
    this.remarks = at(about.remarks);
    this.formats = at(about.formats);
    this.overrides = new Set(at(about.overrides.map((place) => ({ place }))).keys());
  }
}

/** The cells below the headers, by the column of the book's sheet. */
function cellsByColumn(raw: RawSheet, position: ReadonlyMap<number, number>): Map<number, RawCell[]> {
  const byColumn = new Map<number, RawCell[]>();
  for (const [row, cells] of raw.rows) {
    if (row < 2) continue;
    for (const cell of cells) {
      const index = position.get(cell.column);
      if (index === undefined) continue;
      const list = byColumn.get(index);
      if (list === undefined) byColumn.set(index, [cell]);
      else list.push(cell);
    }
  }
  return byColumn;
}

interface ReadRow {
  readonly cells: Content[];
  readonly notes: Record<number, string>;
}

interface ReadInto {
  /** Columns of the book's sheet. */
  readonly width: number;
  /** Where the columns of the file's sheets stand in the book. */
  readonly moved: MovedColumn;
}

class SheetReading {
  readonly #raw: RawSheet;
  readonly #sheet: AboutSheet;
  readonly #about: AboutCells;
  readonly #notes: ExportNotes;
  readonly #rows: readonly ReadRow[];
  readonly #led: (formula: string) => string;

  constructor(raw: RawSheet, sheet: AboutSheet, about: About, notes: ExportNotes, { width, moved }: ReadInto) {
    this.#raw = raw;
    this.#sheet = sheet;
    this.#led = (formula) => adaptedFormula(formula, sheet.written, moved);
    this.#about = new AboutCells(about, sheet.name);
    this.#notes = notes;
    const computes = (declarationOf(sheet.name)?.columns ?? []).some(isComputed);
    // A record of a sheet with computed columns has formulas even when it is blank, so that its row is there.
    const said = sheet.records * width <= mostPlaces && sheet.records <= readLimits.filledRows ? sheet.records : 0;
    const count = Math.max(computes ? 0 : said, raw.lastRow - 1);
    this.#rows = Array.from({ length: count }, () => ({ cells: new Array<Content>(width).fill(null), notes: {} }));
  }

  column(column: BookColumn, index: number, cells: readonly RawCell[]): void {
    // What the user put there says nothing of how the column was written.
    const computed = column.computed
      ? computedCells(cells.filter((cell) => !this.#about.overrides.has(`${recordInRow(cell.row)},${index}`)))
      : undefined;
    for (const cell of cells) {
      const key = `${recordInRow(cell.row)},${index}`;
      const listed = this.#about.overrides.has(key);
      const overridden =
        computed === undefined ||
        computed.differs(cell) ||
        (listed && (cells.length < 2 || this.#about.typed.has(key) || !hasFormula(cell)));
      if (overridden) this.#take(column, index, cell, computed !== undefined && !listed);
    }
  }

  /** `replaced`: another program put it in place of the sheet's formula. */
  #take(column: BookColumn, index: number, cell: RawCell, replaced: boolean): void {
    const record = recordInRow(cell.row);
    const row = this.#rows[record];
    if (row === undefined) return;
    const key = `${record},${index}`;
    const content = typedContent(cell, this.#about.typed.get(key), this.#led);
    row.cells[index] = content;
    const where = { sheet: this.#raw.name, cell: positionName(cell), column: column.header, given: cellText(cell) };
    if (replaced)
      this.#notes.remarks.push({
        ...where,
        what: "another program replaced the sheet's formula with this; it is kept as an override",
      });
    const remark = this.#about.remarks.get(key);
    if (remark !== undefined) row.notes[index] = remark.text;
    else if (
      typeof content === 'string' &&
      !isFormula(content) &&
      !isWords(column.kind) &&
      !column.own &&
      namedSheetOf(this.#sheet.name) === undefined &&
      cell.value !== ''
    )
      this.#notes.notUnderstood.push({
        ...where,
        why: 'the cell holds text in a column of numbers',
        allowed: 'a number',
      });
  }

  /** The rows, with the remarks of cells that are empty in the file. */
  rows(): BookRow[] {
    for (const { place, text } of this.#about.remarks.values()) {
      const row = this.#rows[place.record];
      if (row !== undefined && row.notes[place.column] === undefined && row.cells[place.column] === null)
        row.notes[place.column] = text;
    }
    const formats = new Map<number, Record<number, CellFormat>>();
    for (const { place, format } of this.#about.formats.values())
      formats.set(place.record, { ...formats.get(place.record), [place.column]: format });
    return this.#rows.map(({ cells, notes }, record) => rowOf(cells, { notes, formats: formats.get(record) }));
  }
}

export function exportedSheet(
  raw: RawSheet,
  sheet: AboutSheet,
  about: About,
  notes: ExportNotes,
  { position, userColumns, missing, added }: ExportedColumns,
  moved: MovedColumn,
): SheetState {
  const quoted = (headers: readonly string[]): string => headers.map((header) => `"${header}"`).join(', ');
  // A version before this one had fewer columns and did not list them.
  const was = (header: string): boolean => sheet.headers?.some((name) => header.startsWith(name)) === true;
  const gone = missing.filter(was);
  const fresh = missing.filter((header) => !was(header));
  if (gone.length > 0) notes.assumed.push(`${sheet.written}: the file no longer has ${quoted(gone)}`);
  if (fresh.length > 0)
    notes.assumed.push(
      `${sheet.written}: the file has no ${quoted(fresh)}; ${fresh.length === 1 ? 'it is' : 'they are'} new since ` +
        `the version that wrote it, or deleted`,
    );
  if (added.length > 0)
    notes.assumed.push(`${sheet.written}: ${quoted(added)} was added in another program and is kept as your own`);
  const columns = bookColumns({ name: sheet.name, userColumns, rows: [] });
  const overridden = new Set(about.overrides.map(placeKey));
  const remarks = new Map(about.remarks.map(({ place, text }) => [placeKey(place), text]));
  const formats = new Map(about.formats.map(({ place, format }) => [placeKey(place), format]));
  const looks = exportedLooks(raw, sheet.name, {
    columns,
    position,
    keyHeader: declarationOf(sheet.name)?.key,
    about,
    isOverridden: (record, column) => overridden.has(placeKey({ sheet: sheet.name, record, column })),
    remark: (record, column) => remarks.get(placeKey({ sheet: sheet.name, record, column })),
    format: (record, column) => formats.get(placeKey({ sheet: sheet.name, record, column })),
  });
  notes.lostComments.set(raw.name, looks.lostComments);
  const reading = new SheetReading(raw, sheet, about, notes, { width: columns.length, moved });
  for (const [index, cells] of cellsByColumn(raw, position)) {
    const column = columns[index];
    if (column !== undefined) reading.column(column, index, cells);
  }
  // Two columns may have one name: the first ones are those that the file says something of, in its order.
  const said = about.columns
    .filter((column) => column.sheet === sheet.name)
    .toSorted((one, other) => one.position - other.position);
  const led = userColumns.map((column, own) => {
    const formula = said[own]?.column.formula;
    return formula === undefined ? column : { ...column, formula };
  });
  const rows = reading.rows().map((row, record) => ({ ...row, ...looks.rows.get(record) }));
  return { name: sheet.name, userColumns: led, rows };
}
