import { type About, aboutIn, aboutSheetName } from '../about.ts';
import { madeSheets } from '../made-sheets.ts';
import type { CellContext } from './cell-value.ts';
import { textBook } from './delimited-text.ts';
import { isOpenSpreadsheet, openDocumentBook } from './open-document.ts';
import { cellFormats } from './cell-formats.ts';
import type { SheetTally } from './filled-rows.ts';
import type { RawBook, RawOutside, RawSheet } from './raw-book.ts';
import { type ReadLimits, readLimits } from './read-limits.ts';
import { type Relationship, relationships } from './relationships.ts';
import { sharedStrings } from './shared-strings.ts';
import { sheetPart, type Unread } from './sheet-part.ts';
import { themeColors } from './theme-colors.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { isStoredBook, storedBook } from './stored-book.ts';
import { type WorkbookPart, workbookPart } from './workbook-part.ts';
import { archiveBytes, bookParts, plainText } from './zip-guard.ts';
import type { BookParts } from './zip-parts.ts';

export { UnreadableFile } from './unreadable-file.ts';

/** Sheets without cells of their own, passed over. The last is a sheet of macros of before 1997. */
const withoutCells = new Set(['chartsheet', 'dialogsheet', 'xlMacrosheet', 'xlIntlMacrosheet']);

function existing(parts: BookParts, { target }: Relationship, what: string): string {
  const path = target === undefined ? undefined : parts.find(target);
  if (path === undefined) {
    throw new UnreadableFile(
      'part missing',
      `The file is damaged: ${what} should be in part ` +
        `${target === undefined ? '(outside the file)' : `"${target.slice(0, 80)}"`}, which is missing. ` +
        `${saveAgain}`,
    );
  }
  return path;
}

function workbookPath(parts: BookParts): string {
  const main = [...relationships(parts, '').values()].find(({ type }) => type === 'officeDocument');
  if (!main) {
    throw new UnreadableFile(
      'not a workbook',
      `The file is not an .xlsx workbook: its part _rels/.rels names no workbook part. ${saveAgain}`,
    );
  }
  const path = existing(parts, main, 'the workbook');
  if (path.toLowerCase().endsWith('.bin')) {
    throw new UnreadableFile(
      'binary workbook',
      'The file is a binary workbook (.xlsb), whatever its name ends with. ' +
        'Open it in your spreadsheet program and save it as .xlsx (Excel workbook).',
    );
  }
  return path;
}

/** Source: ECMA-376 Part 1, 12.3.8 (connections), 12.3.9 (external workbook references); [MS-OFFMACRO2] for macros. */
function outsideOf(types: readonly string[], links: number): RawOutside | undefined {
  const files = types.filter((type) => type === 'externalLink').length;
  const [connections, macros] = [types.includes('connections'), types.includes('vbaProject')];
  return files + links > 0 || connections || macros ? { files, links, connections, macros } : undefined;
}

/** The working columns by the name of the file's sheet, which stand behind all that a book holds. */
function workingColumns(about: About): ReadonlyMap<string, Unread> {
  return new Map(
    about.sheets.flatMap(({ name, written, headers = [], workings = [] }): [string, Unread][] => {
      const own = about.columns.filter((column) => column.sheet === name).length;
      return workings.length === 0 ? [] : [[written, { after: headers.length + own, headings: new Set(workings) }]];
    }),
  );
}

const blankSheet = ({ name, hidden }: OpenSheet): RawSheet => ({
  name,
  hidden,
  rows: new Map(),
  merges: [],
  lastRow: 0,
  lastColumn: 0,
});

/** A workbook file whose sheets are still to be read. */
interface OpenWorkbook {
  readonly sheets: readonly OpenSheet[];
  /** How many sheets the file lists, those without cells included. */
  readonly listed: number;
  readonly names: RawBook['names'];
  /** The sheet's cells; `from` may stand for the archive's parts, with another content of the sheet's. */
  readonly read: (sheet: OpenSheet, tally: SheetTally, unread?: Unread, from?: BookParts) => RawSheet;
  /** What it points to outside itself, with so many links in its cells. */
  readonly outside: (links: number) => RawOutside | undefined;
}

/** A sheet that may hold cells, and its part of the file. */
interface OpenSheet {
  readonly name: string;
  readonly hidden: boolean;
  readonly path: string;
}

export const noTally = (): SheetTally => ({ cells: 0, merges: 0, characters: 0, texts: 0, links: 0 });

/** Reads what all sheets of an .xlsx file share: their list, texts, formats and names. */
export function openWorkbook(parts: BookParts): OpenWorkbook {
  const path = workbookPath(parts);
  const { sheets, names, from1904 } = workbookPart(parts, path);
  const related = relationships(parts, path);
  const ofType = (wanted: string): Relationship | undefined =>
    [...related.values()].find(({ type }) => type === wanted);
  const texts = ofType('sharedStrings');
  const styles = ofType('styles');
  const { target: theme } = ofType('theme') ?? {};
  const colors = themeColors(parts, theme === undefined ? undefined : parts.find(theme));
  let known: CellContext | undefined;
  // Made when the first sheet is read: who only asks which sheets there are need not wait for a million texts.
  const context = (): CellContext =>
    (known ??= {
      texts: texts ? sharedStrings(parts, existing(parts, texts, 'the text of the cells')) : [],
      formats: styles ? cellFormats(parts, existing(parts, styles, 'the cell formats'), colors) : [],
      from1904,
    });
  return {
    listed: sheets.length,
    sheets: sheets.flatMap((sheet) => placedSheet(parts, sheet, related) ?? []),
    names,
    read: ({ name, hidden, path: part }, tally, unread, from = parts) => ({
      name,
      hidden,
      ...sheetPart(from, part, name.slice(0, 80), context(), tally, unread),
    }),
    outside: (links) =>
      outsideOf(
        [...related.values()].map(({ type }) => type),
        links,
      ),
  };
}

function placedSheet(
  parts: BookParts,
  { name, hidden, relationship }: WorkbookPart['sheets'][number],
  related: ReadonlyMap<string, Relationship>,
): OpenSheet | undefined {
  const shown = name.slice(0, 80);
  const place = related.get(relationship);
  if (!place)
    throw new UnreadableFile(
      'part missing',
      `The file is damaged: sheet "${shown}" names no part of the file. ${saveAgain}`,
    );
  return withoutCells.has(place.type) ? undefined : { name, hidden, path: existing(parts, place, `sheet "${shown}"`) };
}

/**
 * Reads a workbook file (.xlsx, .xlsm, .xltx, .ods) or a list as text (.csv, .tsv) into its cells, or the file of a
 * stored book.
 *
 * Whatever the bytes are, it ends: with a book, or with `UnreadableFile`. Memory and time stay within `limits`, because
 * parts are unpacked and read piece by piece and no span is ever written out cell by cell. Nothing in the file is run.
 *
 * Of the working columns of this program's own books only the headings are read, of the sheets that each export writes
 * anew no cells but About's, unless `all` of the file is asked for: an import leaves them out.
 *
 * Source: ECMA-376 (ISO/IEC 29500) Parts 1 and 2, transitional and strict; the others in their own files.
 */
export function readBook(bytes: Uint8Array, limits: ReadLimits = readLimits, all = false): RawBook {
  if (isStoredBook(bytes)) return { sheets: [], names: [], stored: storedBook(archiveBytes(bytes, limits), limits) };
  const text = plainText(bytes, limits);
  if (text !== undefined) return textBook(text, limits);
  const parts = bookParts(bytes, limits);
  if (isOpenSpreadsheet(parts)) return openDocumentBook(parts);
  const workbook = openWorkbook(parts);
  const tally = noTally();
  // What a book of this program says of itself comes first: working columns and findings are most of a large one's
  // cells.
  const aboutSheet = workbook.sheets.find(({ name }) => name === aboutSheetName);
  const about = aboutSheet === undefined ? undefined : workbook.read(aboutSheet, tally);
  const known = all || about === undefined ? undefined : aboutIn(about);
  const unread = known === undefined ? new Map<string, Unread>() : workingColumns(known);
  const isMade = ({ name }: OpenSheet): boolean =>
    known !== undefined && madeSheets.includes(name) && !known.sheets.some(({ written }) => written === name);
  const read = workbook.sheets.map((sheet) => {
    if (about !== undefined && sheet === aboutSheet) return about;
    return isMade(sheet) ? blankSheet(sheet) : workbook.read(sheet, tally, unread.get(sheet.name));
  });
  if (read.length === 0) {
    throw new UnreadableFile(
      'not a workbook',
      `The workbook has no sheet with cells${workbook.listed > 0 ? ' (only charts or macros)' : ''}. ` +
        'Choose the workbook that holds the list of belts.',
    );
  }
  const outside = workbook.outside(tally.links);
  return { sheets: read, names: workbook.names, ...(outside === undefined ? {} : { outside }) };
}
