import { type Content, isFormula } from '../../formula/values.ts';
import { quantities, type QuantityKind } from '../../units/quantities.ts';
import { adaptedBook, type StoredColumns, storedFormat } from '../../workbook/adapted-book.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import { readBookLook } from '../../workbook/book-look.ts';
import { rowOf } from '../../workbook/formula-changes.ts';
import { mostDigits } from '../../workbook/own-columns.ts';
import { readLook } from '../../workbook/own-look.ts';
import type { BookRow, BookState, CellFormat, SheetState, UserColumn } from '../../workbook/state.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';

/**
 * The file that the page hands out when it can't read the book that a browser has stored (`Autosave.raw`): read as far
 * as it can be, since it is what somebody has left of a book. What was lost is told.
 */
export interface StoredBook {
  readonly state: BookState;
  readonly told: readonly string[];
}

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const isKind = (kind: unknown): kind is QuantityKind => typeof kind === 'string' && Object.hasOwn(quantities, kind);

const refused = (why: string): UnreadableFile =>
  new UnreadableFile(
    'not a workbook',
    `The file is no stored book: ${why}. Choose an .xlsx workbook, or the file that "Download the stored book" gave ` +
      `you.`,
  );

const isContent = (value: unknown): value is Content =>
  value === null || ['number', 'string', 'boolean'].includes(typeof value);

/** How numbers are shown, as far as it is known here; undefined when it does not say what they measure. */
function formatOf(value: unknown): CellFormat | undefined {
  const { kind, digits, percent } = isFields(value) ? value : {};
  if (!isKind(kind)) return undefined;
  return {
    kind,
    ...(typeof digits === 'number' && Number.isInteger(digits) && digits >= 0 && digits <= mostDigits
      ? { digits }
      : {}),
    ...(percent === true ? { percent } : {}),
  };
}

/** What is said of a row's cells by column, as far as it can be read. */
const byColumn = <Item>(said: unknown, read: (item: unknown) => Item | undefined): Readonly<Record<number, Item>> =>
  Object.fromEntries(
    Object.entries(isFields(said) ? said : {}).flatMap(([column, value]): [number, Item][] => {
      const item = /^\d{1,5}$/.test(column) ? read(value) : undefined;
      return item === undefined ? [] : [[Number(column), item]];
    }),
  );

function row(value: unknown): BookRow {
  const { cells, notes, formats, looks, hidden } = isFields(value) ? value : {};
  return rowOf(
    listOf(cells).map((content): Content => (isContent(content) ? content : null)),
    {
      notes: byColumn(notes, (note) => (typeof note === 'string' ? note : undefined)),
      formats: byColumn(formats, formatOf),
      looks: byColumn(looks, readLook),
      hidden: hidden === true ? hidden : undefined,
    },
  );
}

/** The rows of each sheet by its place in the book, run after run. */
function rowsBySheet(runs: unknown): ReadonlyMap<number, readonly BookRow[]> {
  const keyed = listOf(runs).flatMap((run) => {
    const [sheet, number] = isFields(run) ? listOf(run['key']) : [];
    return isFields(run) && typeof sheet === 'number' && typeof number === 'number'
      ? [{ sheet, number, rows: listOf(run['rows']).map(row) }]
      : [];
  });
  const found = new Map<number, BookRow[]>();
  for (const { sheet, rows } of keyed.toSorted((one, other) => one.number - other.number))
    for (const one of rows) {
      const own = found.get(sheet);
      if (own === undefined) found.set(sheet, [one]);
      else own.push(one);
    }
  return found;
}

const ownColumns = (columns: unknown): UserColumn[] =>
  listOf(columns).map((column) => {
    const { header, unit, doc, formula, ...format } = isFields(column) ? column : {};
    return {
      ...(formatOf(format) ?? { kind: 'text' }),
      header: typeof header === 'string' ? header : '',
      ...(typeof unit === 'string' ? { unit } : {}),
      ...(typeof doc === 'string' ? { doc } : {}),
      ...(isFormula(isContent(formula) ? formula : null) ? { formula: String(formula) } : {}),
    };
  });

function columnsOf(columns: unknown): StoredColumns {
  return Object.fromEntries(
    Object.entries(isFields(columns) ? columns : {}).map(([sheet, headers]) => [sheet, listOf(headers).map(String)]),
  );
}

/** Whether bytes begin as such a file does; no workbook begins so. */
export const isStoredBook = (bytes: Uint8Array): boolean => bytes[0] === '{'.charCodeAt(0);

/** Refuses a file with more values than are read, before any of them is made: its text costs less than they do. */
function refuseManyValues(bytes: Uint8Array, { cells }: ReadLimits): void {
  let values = 0;
  for (const byte of bytes) if (byte === comma || byte === bracket || byte === brace) values += 1;
  if (values > mostValues * cells)
    throw refused(`it has more than ${grouped(mostValues * cells)} values, the maximum that can be read`);
}

const [comma, bracket, brace] = [','.charCodeAt(0), '['.charCodeAt(0), '{'.charCodeAt(0)];
/** Values of such a file, empty cells too, to the filled cells of a workbook. */
const mostValues = 2;

/** Records of one sheet: as many as a book may have in the browser, so that one that grew there comes back. Ours. */
const mostRecords = 100_000;
/** Rows times columns of all sheets together. Ours: so many records have three quarters of it. */
const mostPlaces = 40_000_000;

/** Refuses a book that could not be worked out or shown: a few characters of the file make a row of some 300 cells. */
function refuseLarge(sheets: readonly SheetState[], { filledRows, columnNumber }: ReadLimits): void {
  let places = 0;
  for (const { name, rows, userColumns } of sheets) {
    const declared = compiledSheets.get(name)?.columns.length ?? 0;
    const columns = userColumns.length + declared;
    places += rows.length * columns;
    if (rows.length > (declared === 0 ? filledRows : mostRecords) || columns > columnNumber || places > mostPlaces)
      throw new UnreadableFile(
        'too much content',
        `The sheet ${name.slice(0, 80)} of the stored book has ${grouped(rows.length)} rows of ${grouped(columns)} ` +
          `columns, more than a book can hold. Choose another file.`,
      );
  }
}

export function storedBook(bytes: Uint8Array, limits: ReadLimits): StoredBook {
  refuseManyValues(bytes, limits);
  let file: unknown;
  try {
    file = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    throw refused('it is cut off or damaged');
  }
  const head = isFields(file) ? file['head'] : undefined;
  if (!isFields(file) || !isFields(head)) throw refused('it does not say what it holds');
  const version = head['version'];
  if (typeof version === 'number' && version > storedFormat)
    throw refused(`a later version of Skewbook stored it, in format ${version}; this one reads format ${storedFormat}`);
  const units = head['units'] === 'us' ? 'us' : 'metric';
  const [rows, told] = [rowsBySheet(file['runs']), [] as string[]];
  const sheets = new Map<string, SheetState>();
  for (const [place, item] of listOf(head['sheets']).entries()) {
    const name = isFields(item) ? item['name'] : undefined;
    if (!isFields(item) || typeof name !== 'string' || sheets.has(name)) continue;
    const own = rows.get(place) ?? [];
    if (typeof item['rows'] === 'number' && item['rows'] !== own.length)
      told.push(`the sheet ${name} was stored with ${item['rows']} rows, of which ${own.length} are in the file`);
    sheets.set(name, { name, userColumns: ownColumns(item['userColumns']), rows: own });
  }
  refuseLarge([...sheets.values()], limits);
  const title = typeof head['title'] === 'string' ? head['title'] : '';
  const look = readBookLook(head['look']);
  const book = adaptedBook(
    {
      title,
      units,
      invented: head['invented'] === true,
      sheets: [...sheets.values()],
      ...(look === undefined ? {} : { look }),
    },
    columnsOf(head['columns']),
  );
  return { state: book.state, told: [...told, ...book.told] };
}
