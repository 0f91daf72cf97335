import type { Content } from '../../formula/values.ts';
import { quantities, type QuantityKind } from '../../units/quantities.ts';
import { adaptedBook, type StoredColumns, storedFormat } from '../../workbook/adapted-book.ts';
import { readLook } from '../../workbook/own-look.ts';
import type { BookRow, BookState, SheetState, UserColumn } from '../../workbook/state.ts';
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

function row(value: unknown): BookRow {
  const { cells, notes, looks, hidden } = isFields(value) ? value : {};
  const kept = Object.entries(isFields(notes) ? notes : {}).filter(
    (note): note is [string, string] => typeof note[1] === 'string' && /^\d{1,5}$/.test(note[0]),
  );
  const seen = Object.entries(isFields(looks) ? looks : {}).flatMap(([column, look]) => {
    const own = /^\d{1,5}$/.test(column) ? readLook(look) : undefined;
    return own === undefined ? [] : [[column, own] as const];
  });
  return {
    cells: listOf(cells).map((content): Content => (isContent(content) ? content : null)),
    ...(kept.length === 0 ? {} : { notes: Object.fromEntries(kept) }),
    ...(seen.length === 0 ? {} : { looks: Object.fromEntries(seen) }),
    ...(hidden === true ? { hidden } : {}),
  };
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
    found.set(sheet, [...(found.get(sheet) ?? []), ...rows]);
  return found;
}

const ownColumns = (columns: unknown): UserColumn[] =>
  listOf(columns).map((column) => {
    const { header, kind } = isFields(column) ? column : {};
    return { header: typeof header === 'string' ? header : '', kind: isKind(kind) ? kind : 'text' };
  });

function columnsOf(columns: unknown): StoredColumns {
  return Object.fromEntries(
    Object.entries(isFields(columns) ? columns : {}).map(([sheet, headers]) => [sheet, listOf(headers).map(String)]),
  );
}

/** Whether bytes begin as such a file does; no workbook begins so. */
export const isStoredBook = (bytes: Uint8Array): boolean => bytes[0] === '{'.charCodeAt(0);

export function storedBook(bytes: Uint8Array): StoredBook {
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
  const title = typeof head['title'] === 'string' ? head['title'] : '';
  const book = adaptedBook(
    { title, units, invented: head['invented'] === true, sheets: [...sheets.values()] },
    columnsOf(head['columns']),
  );
  return { state: book.state, told: [...told, ...book.told] };
}
