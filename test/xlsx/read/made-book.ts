import { strToU8, zipSync } from 'fflate';
import { readBook } from '../../../src/xlsx/read/read.ts';
import type { RawBook, RawCell, RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { type ReadLimits, readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { UnreadableFile } from '../../../src/xlsx/read/unreadable-file.ts';

/** Workbook files written by hand, as small as they can be, so that a test shows the one thing it is about. */

export const transitional = {
  main: 'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
  related: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
};
export const strict = {
  main: 'http://purl.oclc.org/ooxml/spreadsheetml/main',
  related: 'http://purl.oclc.org/ooxml/officeDocument/relationships',
};

export interface MadeSheet {
  readonly name?: string;
  /** The whole part, or with `rows` and `after` what stands in it. */
  readonly part?: string;
  readonly rows?: string;
  readonly after?: string;
  readonly before?: string;
  readonly attributes?: string;
  readonly type?: string;
}

export interface MadeBook {
  readonly sheets?: readonly MadeSheet[];
  /** `<si>` elements. */
  readonly strings?: string;
  /** Content of the style sheet. */
  readonly styles?: string;
  readonly properties?: string;
  readonly names?: string;
  readonly namespaces?: typeof transitional;
  /** Further parts, or other content for the usual ones. */
  readonly parts?: Readonly<Record<string, string | Uint8Array>>;
}

export function madeParts({
  sheets = [{}],
  strings,
  styles,
  properties = '',
  names = '',
  namespaces = transitional,
  parts = {},
}: MadeBook): Record<string, Uint8Array> {
  const { main, related } = namespaces;
  const relationship = (id: string, type: string, target: string): string =>
    `<Relationship Id="${id}" Type="${related}/${type}" Target="${target}"/>`;
  const packaged = (content: string): string =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${content}</Relationships>`;
  const texts: Record<string, string | Uint8Array> = {
    '_rels/.rels': packaged(relationship('a', 'officeDocument', 'xl/workbook.xml')),
    'xl/workbook.xml':
      `<workbook xmlns="${main}" xmlns:r="${related}">${properties}<sheets>` +
      sheets
        .map(
          ({ name, attributes = '' }, index) =>
            `<sheet name="${name ?? `Sheet${index + 1}`}" sheetId="${index + 1}" r:id="s${index}" ${attributes}/>`,
        )
        .join('') +
      `</sheets>${names === '' ? '' : `<definedNames>${names}</definedNames>`}</workbook>`,
    'xl/_rels/workbook.xml.rels': packaged(
      sheets
        .map(({ type = 'worksheet' }, index) => relationship(`s${index}`, type, `worksheets/sheet${index + 1}.xml`))
        .join('') +
        (strings === undefined ? '' : relationship('strings', 'sharedStrings', 'sharedStrings.xml')) +
        (styles === undefined ? '' : relationship('styles', 'styles', 'styles.xml')),
    ),
  };
  sheets.forEach(({ part, rows = '', before = '', after = '' }, index) => {
    texts[`xl/worksheets/sheet${index + 1}.xml`] =
      part ?? `<worksheet xmlns="${main}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`;
  });
  if (strings !== undefined) texts['xl/sharedStrings.xml'] = `<sst xmlns="${main}">${strings}</sst>`;
  if (styles !== undefined) texts['xl/styles.xml'] = `<styleSheet xmlns="${main}">${styles}</styleSheet>`;
  return Object.fromEntries(
    Object.entries({ ...texts, ...parts }).map(([path, content]) => [
      path,
      typeof content === 'string' ? strToU8(content) : content,
    ]),
  );
}

export const worksheet = (content: string): string => `<worksheet xmlns="${transitional.main}">${content}</worksheet>`;

export const madeFile = (book: MadeBook, level: 0 | 6 = 6): Uint8Array => zipSync(madeParts(book), { level });

/** A file with one sheet of these rows. */
export const fileOfRows = (rows: string, rest: MadeBook = {}): Uint8Array => madeFile({ ...rest, sheets: [{ rows }] });

export function onlySheet(book: RawBook): RawSheet {
  const [sheet, ...more] = book.sheets;
  if (!sheet || more.length > 0) throw new Error(`expected one sheet, not ${book.sheets.length}`);
  return sheet;
}

/** Cells by address ("B7") as they were read. */
export function cellsOf(sheet: RawSheet): Map<string, RawCell> {
  const found = new Map<string, RawCell>();
  for (const cells of sheet.rows.values()) {
    for (const cell of cells) {
      const letters = cell.column > 26 ? String.fromCharCode(64 + Math.floor((cell.column - 1) / 26)) : '';
      found.set(`${letters}${String.fromCharCode(65 + ((cell.column - 1) % 26))}${cell.row}`, cell);
    }
  }
  return found;
}

export const readRows = (rows: string, rest: MadeBook = {}): Map<string, RawCell> =>
  cellsOf(onlySheet(readBook(fileOfRows(rows, rest))));

export function refusalOf(bytes: Uint8Array, limits: ReadLimits = readLimits): UnreadableFile {
  try {
    readBook(bytes, limits);
  } catch (error) {
    if (error instanceof UnreadableFile) return error;
    throw error;
  }
  throw new Error('the file was read, where a refusal was expected');
}
