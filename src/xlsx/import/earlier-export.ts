import { recordInRow } from '../../formula/address.ts';
import { type Content, isFormula } from '../../formula/values.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { isComputed } from '../../sheet/declaration.ts';
import { isWords } from '../../units/quantities.ts';
import { withDeclaredNames } from '../../workbook/adapted-book.ts';
import { convertedBook } from '../../workbook/conversion.ts';
import { bookColumns, declarationOf, emptyBook, namedSheetOf, compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { BookRow, BookState, SheetState } from '../../workbook/state.ts';
import { type About, aboutOf, type AboutSheet, aboutSheetName } from '../about.ts';
import { filledBlanks } from './blank-fills.ts';
import { positionName } from '../read/cell-address.ts';
import { findingsSheetName } from '../write/findings-sheet.ts';
import { freeName, freeSheet } from './free-sheet.ts';
import { functionsSheetName } from '../write/functions-sheet.ts';
import {
  baseNameOf,
  type ReadingRemark,
  type ImportOptions,
  type ImportProposal,
  type ImportResult,
  type NotUnderstood,
  type TableProposal,
  type TableReport,
} from './import-model.ts';
import { computedCells, ownColumns, typedContent } from './own-columns.ts';
import type { RawBook, RawCell, RawSheet } from '../read/raw-book.ts';
import { cellText, shownBook } from '../read/raw-cells.ts';
import { withoutSpills } from './spilled-cells.ts';

/**
 * Our own export read back: the book as it was, with what was changed in the file since.
 *
 * Cells are taken as they are, nothing is guessed. Cells of computed columns are dropped, unless they hold something
 * else than the rest of their column. What the user had typed comes from the About sheet where the cell still holds
 * what was written for it.
 */
export function readAboutSheet(book: RawBook): About | undefined {
  const sheet = book.sheets.find(({ name }) => name === aboutSheetName);
  if (sheet === undefined) return undefined;
  const rows = [...sheet.rows]
    .toSorted(([a], [b]) => a - b)
    .map(([, cells]) => {
      const values: (number | string | boolean | null)[] = [];
      for (const cell of cells) values[cell.column - 1] = cell.value;
      return values;
    });
  return aboutOf(rows);
}

const madeSheets: readonly string[] = [aboutSheetName, findingsSheetName, functionsSheetName];

const table = (sheet: RawSheet, target: string, why: string): TableProposal => ({
  sheet: sheet.name,
  hidden: sheet.hidden,
  target,
  why,
  turned: false,
  headerTop: 1,
  headerRow: 1,
  lastRow: sheet.lastRow,
  skipped: [],
  units: 'metric',
  columns: [],
});

/** What the file's sheets are. */
export function ownTables(book: RawBook, about: About): TableProposal[] {
  return book.sheets.map((sheet) => {
    const known = about.sheets.find(({ written }) => written === sheet.name);
    if (known !== undefined)
      return table(sheet, declarationOf(known.name) === undefined ? 'free' : known.name, 'written by this program');
    return madeSheets.includes(sheet.name)
      ? table(sheet, 'ignore', 'made anew with every export')
      : table(sheet, 'free', 'added in another program');
  });
}

interface OwnNotes {
  readonly notUnderstood: NotUnderstood[];
  readonly remarks: ReadingRemark[];
  readonly assumed: string[];
}

export function acceptOwnExport(
  book: RawBook,
  proposal: ImportProposal,
  base: BookState,
  options: ImportOptions = {},
): ImportResult {
  const about = readAboutSheet(book);
  if (about === undefined) throw new Error('the book is no export of this program');
  const notes: OwnNotes = { notUnderstood: [], remarks: [], assumed: [...proposal.assumed] };
  const sheets = about.sheets.map((own): SheetState | undefined => {
    const raw = book.sheets.find(({ name }) => name === own.written);
    if (raw !== undefined) return ownSheet(raw, own, about, notes);
    notes.assumed.push(
      `${own.written}: the file no longer has this ` +
        `sheet${declarationOf(own.name) === undefined ? '' : `; that of ` + `${baseNameOf(options)} stands in for it`}`,
    );
    return declarationOf(own.name) === undefined
      ? undefined
      : convertedBook(base, about.units).state.sheets.find(({ name }) => name === own.name);
  });
  const present = sheets.flatMap((sheet) => sheet ?? []);
  for (const declaration of compiledSheets.keys()) {
    const missing = present.some(({ name }) => name === declaration)
      ? undefined
      : convertedBook(base, about.units).state.sheets.find(({ name }) => name === declaration);
    if (missing !== undefined) present.push(missing);
  }
  const added: { readonly raw: RawSheet; readonly state: SheetState }[] = [];
  for (const raw of shownBook(book).sheets) {
    if (about.sheets.some(({ written }) => written === raw.name) || madeSheets.includes(raw.name)) continue;
    added.push({
      raw,
      state: freeSheet(
        raw,
        freeName(
          raw.name,
          [...present, ...added.map(({ state }) => state)].map(({ name }) => name),
        ),
      ).state,
    });
  }
  const order = [...compiledSheets.keys()];
  const rank = ({ name }: SheetState): number => (order.includes(name) ? order.indexOf(name) : order.length);
  const read: BookState = {
    title: about.title,
    units: about.units,
    invented: about.invented,
    sheets: withoutSpills(
      [...present.toSorted((a, b) => rank(a) - rank(b)), ...added.map(({ state }) => state)],
      about,
      book,
    ),
  };
  const { state: converted, review } = convertedBook(read, proposal.units);
  const filled = converted.sheets.map((sheet) =>
    sheet.name === belts.name
      ? filledBlanks(sheet, proposal.fill, converted.units, converted.sheets)
      : { sheet, told: [] },
  );
  const fresh = emptyBook(converted.units);
  const complete = filled.map(({ sheet }) =>
    withDeclaredNames(
      sheet,
      fresh.sheets.find(({ name }) => name === sheet.name),
    ),
  );
  const state: BookState = { ...converted, sheets: complete.map(({ sheet }) => sheet) };
  notes.assumed.push(
    ...complete.flatMap(({ sheet, added }) =>
      added.length === 0
        ? []
        : [
            `${sheet.name}: the file lacks ${added.length} of its values, which are taken as a new book has them: ` +
              `${added.join(', ')}`,
          ],
    ),
  );
  notes.assumed.push(...filled.flatMap(({ told }) => told));
  notes.assumed.push(...review.map(({ place, column, content, why }) => `${place} (${column}): ${content}: ${why}`));
  const tables = proposal.tables.map((item): TableReport => {
    const own =
      about.sheets.find(({ written }) => written === item.sheet)?.name ??
      added.find(({ raw }) => raw.name === item.sheet)?.state.name;
    const sheet = state.sheets.find(({ name }) => name === own);
    return {
      ...item,
      records: sheet?.rows.length ?? 0,
      columns: [],
      ...(item.target === 'free' && own !== undefined ? { kept: own } : {}),
    };
  });
  return { state, report: { ours: true, units: state.units, unitsWhy: proposal.unitsWhy, tables, ...notes } };
}

function ownSheet(raw: RawSheet, own: AboutSheet, about: About, notes: OwnNotes): SheetState {
  const { position, userColumns, missing, added } = ownColumns(raw, own, about);
  if (missing.length > 0)
    notes.assumed.push(`${own.written}: the file no longer has ${missing.map((header) => `"${header}"`).join(', ')}`);
  if (added.length > 0)
    notes.assumed.push(
      `${own.written}: ${added.map((header) => `"${header}"`).join(', ')} came in another program and stays as ` +
        `your own`,
    );
  const columns = bookColumns({ name: own.name, userColumns, rows: [] });
  const declared = declarationOf(own.name)?.columns ?? [];
  const at = <Item extends { readonly place: CellPlace }>(items: readonly Item[]): Map<string, Item> =>
    new Map(
      items.flatMap((item) =>
        item.place.sheet === own.name ? [[`${item.place.record},${item.place.column}`, item] as const] : [],
      ),
    );
  const typed = at(about.formulas);
  const remarks = at(about.remarks);
  const overrides = at(about.overrides.map((cell) => ({ place: cell })));
  const computes = declared.some(isComputed);
  // A record of a sheet with computed columns has formulas even when it is blank, so that its row is there.
  const count = Math.max(computes ? 0 : own.records, raw.lastRow - 1);
  const rows = Array.from({ length: count }, (): { cells: Content[]; notes: Record<number, string> } => ({
    cells: new Array<Content>(columns.length).fill(null),
    notes: {},
  }));

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
  for (const [index, cells] of byColumn) {
    const column = columns[index];
    const computed = column?.computed === true ? computedCells(cells) : undefined;
    for (const cell of cells) {
      const record = recordInRow(cell.row);
      const row = rows[record];
      if (row === undefined || column === undefined) continue;
      const placeKey = `${record},${index}`;
      const listed = overrides.has(placeKey);
      if (
        computed !== undefined &&
        !(
          computed.differs(cell) ||
          (listed && cells.length < 2) ||
          (listed && typed.has(placeKey)) ||
          (listed && cell.formula === undefined)
        )
      )
        continue;
      const content = typedContent(cell, typed.get(placeKey));
      row.cells[index] = content;
      const where = { sheet: raw.name, cell: positionName(cell), column: column.header, given: cellText(cell) };
      if (computed !== undefined && !listed)
        notes.remarks.push({
          ...where,
          what: "another program put this in place of the sheet's formula; it is kept as an override",
        });
      const remark = remarks.get(placeKey);
      if (remark !== undefined) row.notes[index] = remark.text;
      else if (
        typeof content === 'string' &&
        !isFormula(content) &&
        !isWords(column.kind) &&
        !column.own &&
        namedSheetOf(own.name) === undefined &&
        cell.value !== ''
      ) {
        notes.notUnderstood.push({ ...where, why: 'a text stands in a column of numbers', allowed: 'a number' });
      }
    }
  }
  for (const {
    place: { record, column },
    text,
  } of remarks.values()) {
    const row = rows[record];
    if (row !== undefined && row.notes[column] === undefined && row.cells[column] === null) row.notes[column] = text;
  }
  return {
    name: own.name,
    userColumns,
    rows: rows.map(({ cells, notes: said }): BookRow =>
      Object.keys(said).length === 0 ? { cells } : { cells, notes: said },
    ),
  };
}
