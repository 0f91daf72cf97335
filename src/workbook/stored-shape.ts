import { columnLetters, sheetRow } from '../formula/address.ts';
import { quantities, type QuantityKind } from '../units/quantities.ts';

/**
 * Whether what a browser has stored is a book at all.
 *
 * A store can be damaged, by a disk, another program or a fault of this one. What the page takes for a book without
 * being one fails wherever it is used, long after it could be left alone and handed out. Numbers, texts and lengths are
 * not judged: a book may hold any, and opens with them.
 */

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((item) => typeof item === 'string');

/** Kinds of a cell's content; one that was never written counts as empty. */
const contentTypes: ReadonlySet<string> = new Set(['number', 'string', 'boolean', 'undefined']);

const isKind = (kind: unknown): kind is QuantityKind => typeof kind === 'string' && Object.hasOwn(quantities, kind);

/** How numbers are shown; what is none would stop the page wherever it shows the cell. */
const isFormat = (format: unknown): boolean =>
  isFields(format) &&
  isKind(format['kind']) &&
  ['undefined', 'number'].includes(typeof format['digits']) &&
  ['undefined', 'boolean'].includes(typeof format['percent']);

/** What an own column may say of itself in texts. */
const columnTexts = ['unit', 'doc', 'formula'];
const hasTexts = (column: Fields): boolean =>
  columnTexts.every((text) => ['undefined', 'string'].includes(typeof column[text]));

function sheetFault(sheet: unknown, place: number): string | undefined {
  if (!isFields(sheet) || typeof sheet['name'] !== 'string' || typeof sheet['rows'] !== 'number')
    return `what it says of its sheet ${place + 1} cannot be read`;
  const own = sheet['userColumns'];
  if (!Array.isArray(own) || !own.every((one) => isFields(one) && typeof one['header'] === 'string'))
    return `the list of the own columns of the sheet ${sheet['name']} cannot be read`;
  const unknown = own.find((one: Fields) => !isFormat(one) || !hasTexts(one)) as Fields | undefined;
  return unknown === undefined
    ? undefined
    : `the own column ${String(unknown['header'])} of the sheet ${sheet['name']} is of no known kind or format`;
}

/** What is wrong with a stored book's head, as a part of a sentence. */
export function headFault(head: unknown): string | undefined {
  if (!isFields(head)) return 'its description is missing';
  if (typeof head['title'] !== 'string') return 'its title is not a text';
  if (head['units'] !== 'metric' && head['units'] !== 'us') return 'its units are neither metric nor US';
  const { columns, sheets } = head;
  if (!isFields(columns) || !Object.values(columns).every(isTexts)) return 'the list of its columns cannot be read';
  if (!Array.isArray(sheets)) return 'the list of its sheets is missing';
  for (const [place, sheet] of sheets.entries()) {
    const fault = sheetFault(sheet, place);
    if (fault !== undefined) return fault;
  }
  const names = sheets.map(({ name }: Fields) => String(name));
  const twice = names.find((name, place) => names.indexOf(name) < place);
  return twice === undefined ? undefined : `it has two sheets called ${twice}`;
}

/** How a file showed a cell: texts, and what is only said when it is so. */
const isOwnLook = (look: unknown): boolean =>
  isFields(look) && Object.values(look).every((item) => typeof item === 'string' || item === true);

/** What is wrong with stored rows of a sheet, as a part of a sentence; `from` is the record of the first of them. */
export function rowsFault(sheet: string, rows: readonly unknown[], from = 0): string | undefined {
  for (const [place, row] of rows.entries()) {
    const record = from + place;
    const cells = isFields(row) ? row['cells'] : undefined;
    if (!isFields(row) || !Array.isArray(cells)) return `row ${sheetRow(record)} of the sheet ${sheet} cannot be read`;
    const wrong = cells.findIndex((content) => content !== null && !contentTypes.has(typeof content));
    if (wrong >= 0)
      return `the cell ${columnLetters(wrong)}${sheetRow(record)} of the sheet ${sheet} holds no text or number`;
    const { notes, formats, looks } = row;
    if (notes !== undefined && (!isFields(notes) || !Object.values(notes).every((note) => typeof note === 'string')))
      return `the remarks of row ${sheetRow(record)} of the sheet ${sheet} cannot be read`;
    if (formats !== undefined && (!isFields(formats) || !Object.values(formats).every(isFormat)))
      return `the number formats of row ${sheetRow(record)} of the sheet ${sheet} cannot be read`;
    if (looks !== undefined && (!isFields(looks) || !Object.values(looks).every(isOwnLook)))
      return `the looks of row ${sheetRow(record)} of the sheet ${sheet} cannot be read`;
  }
  return undefined;
}
