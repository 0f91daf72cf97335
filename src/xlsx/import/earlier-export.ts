import { countedWords } from './counted-notes.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { withDeclaredNames } from '../../workbook/adapted-book.ts';
import { convertedBook } from '../../workbook/conversion.ts';
import { compiledSheets, declarationOf, emptyBook } from '../../workbook/declared.ts';
import { presentBook, toldRenamed } from '../../workbook/earlier-names.ts';
import type { BookState, SheetState } from '../../workbook/state.ts';
import { type About, aboutIn, aboutSheetName } from '../about.ts';
import { madeSheets } from '../made-sheets.ts';
import type { Unkept } from '../read/raw-look.ts';
import type { RawBook, RawSheet } from '../read/raw-book.ts';
import { shownBook } from '../read/raw-cells.ts';
import { filledBlanks } from './blank-fills.ts';
import type { ExportedColumns } from './exported-columns.ts';
import { aboutInPlace, exportedPlaces, movedInFile } from './exported-places.ts';
import { bookLook } from './exported-book-look.ts';
import type { PlacedSheet } from './kept-layouts.ts';
import { lostCommentsAt, notKeptLines } from './not-kept.ts';
import { type ExportNotes, exportedSheet } from './exported-sheet.ts';
import { freeName, freePlaces, freeSheet } from './free-sheet.ts';
import {
  baseNameOf,
  type ImportOptions,
  type ImportProposal,
  type ImportResult,
  type TableProposal,
  type TableReport,
} from './import-model.ts';
import { mostRecords } from './list-size.ts';
import { mostPlaces, nearCells } from './near-cells.ts';
import { withoutSpills } from './spilled-cells.ts';

/**
 * An export of this program read back: the book as it was, with what was changed in the file since.
 *
 * Cells are taken as they are, nothing is guessed. Cells of computed columns are dropped, unless they hold something
 * else than the rest of their column. What the user had typed comes from the About sheet where the cell still holds
 * what was written for it.
 */
export function readAboutSheet(book: RawBook): About | undefined {
  const sheet = book.sheets.find(({ name }) => name === aboutSheetName);
  const about = sheet === undefined ? undefined : aboutIn(sheet);
  return about === undefined ? undefined : { ...about, sheets: distinct(about.sheets) };
}

/**
 * Sheets whose names can stand in one book, which tells them apart without case: of two alike the first counts, of one
 * like a sheet of the program's own only that. What is left out comes as a sheet that was added.
 */
function distinct(sheets: About['sheets']): About['sheets'] {
  const own = new Map([...compiledSheets.keys()].map((name) => [name.toLowerCase(), name]));
  const taken = new Set<string>();
  return sheets.filter(({ name }) => {
    const key = name.toLowerCase();
    if (taken.has(key) || (own.get(key) ?? name) !== name) return false;
    taken.add(key);
    return true;
  });
}

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
export function exportedTables(book: RawBook, about: About): TableProposal[] {
  return book.sheets.map((sheet) => {
    const known = about.sheets.find(({ written }) => written === sheet.name);
    if (known !== undefined)
      return table(sheet, declarationOf(known.name) === undefined ? 'free' : known.name, 'written by this program');
    return madeSheets.includes(sheet.name)
      ? table(sheet, 'ignore', 'written again with every export')
      : table(sheet, 'free', 'added in another program');
  });
}

/** A declared sheet as another book has it, in the export's units. */
const standIn = (base: BookState, { units }: About, sheet: string): SheetState | undefined =>
  convertedBook(base, units).state.sheets.find(({ name }) => name === sheet);

/** The sheets that the export had, and those declared since, with what stands in for a missing one. */
function knownSheets(
  book: RawBook,
  about: About,
  places: ReadonlyMap<string, ExportedColumns>,
  base: BookState,
  options: ImportOptions,
  notes: ExportNotes,
): SheetState[] {
  const moved = movedInFile(about, places);
  const present = about.sheets.flatMap((sheet): SheetState[] => {
    const raw = book.sheets.find(({ name }) => name === sheet.written);
    const columns = places.get(sheet.name);
    if (raw !== undefined && columns !== undefined) return [exportedSheet(raw, sheet, about, notes, columns, moved)];
    const isDeclared = declarationOf(sheet.name) !== undefined;
    notes.assumed.push(
      `${sheet.written}: the file no longer has this ` +
        `sheet${isDeclared ? `; the one of ${baseNameOf(options)} is ` + `used` : ''}`,
    );
    const other = isDeclared ? standIn(base, about, sheet.name) : undefined;
    return other === undefined ? [] : [other];
  });
  for (const declared of compiledSheets.keys()) {
    const missing = present.some(({ name }) => name === declared) ? undefined : standIn(base, about, declared);
    if (missing !== undefined) present.push(missing);
  }
  return present;
}

interface AddedSheet {
  readonly raw: RawSheet;
  readonly state: SheetState;
  readonly told: string | undefined;
  readonly placed: PlacedSheet;
  readonly lost: readonly Unkept[];
}

/** Sheets that came in another program, as free ones. */
function addedSheets(book: RawBook, about: About, present: readonly SheetState[]): AddedSheet[] {
  const added: AddedSheet[] = [];
  for (const raw of shownBook(book).sheets) {
    if (about.sheets.some(({ written }) => written === raw.name) || madeSheets.includes(raw.name)) continue;
    const taken = [...present, ...added.map(({ state }) => state)].map(({ name }) => name);
    const { state, told, placed, lostComments, colouredHeaders } = freeSheet(raw, freeName(raw.name, taken), {
      places: freePlaces(added.map((other) => other.state)),
    });
    added.push({ raw, state, told, placed, lost: [...lostCommentsAt(lostComments), ...colouredHeaders] });
  }
  return added;
}

/** The book with its blanks filled as asked, and with the declared names that the file lacks. */
function completed(
  book: BookState,
  { fill }: ImportProposal,
): { readonly state: BookState; readonly told: readonly string[] } {
  const filled = book.sheets.map((sheet) =>
    sheet.name === belts.name ? filledBlanks(sheet, fill, book.units, book.sheets) : { sheet, told: [] },
  );
  const fresh = emptyBook(book.units);
  const complete = filled.map(({ sheet }) =>
    withDeclaredNames(
      sheet,
      fresh.sheets.find(({ name }) => name === sheet.name),
    ),
  );
  return {
    state: { ...book, sheets: complete.map(({ sheet }) => sheet) },
    told: [
      ...complete.flatMap(({ sheet, added }) =>
        added.length === 0
          ? []
          : [`${sheet.name}: the file lacks ${added.length} of its values; the defaults are used: ${added.join(', ')}`],
      ),
      ...filled.flatMap(({ told }) => told.map(countedWords)),
    ],
  };
}

/** The book without cells so far from the others that it could not hold the sheet. */
function nearBook(book: RawBook, about: About, told: string[]): RawBook {
  const sheets = book.sheets.map((sheet) => {
    const name = about.sheets.find(({ written }) => written === sheet.name)?.name;
    const own = name === undefined ? undefined : declarationOf(name);
    const near = nearCells(sheet, Math.max(mostPlaces, (own?.columns.length ?? 0) * 2 * mostRecords));
    if (name === undefined) return sheet;
    if (near.told !== undefined) told.push(near.told);
    return near.sheet;
  });
  return { ...book, sheets };
}

/** The file without what is written again with every export. */
const withoutMade = (book: RawBook): RawBook => ({
  ...book,
  sheets: book.sheets.filter(({ name }) => !madeSheets.includes(name)),
});

const lostOf = ({ lostComments }: ExportNotes, added: readonly AddedSheet[]): ReadonlyMap<string, readonly Unkept[]> =>
  new Map([
    ...[...lostComments].map(([name, places]) => [name, lostCommentsAt(places)] as const),
    ...added.map(({ raw, lost }) => [raw.name, lost] as const),
  ]);

function notKept(given: RawBook, about: About, notes: ExportNotes, added: readonly AddedSheet[]): string[] {
  // Rules of its sheets are the program's own, which the next file has again.
  const isOurs = (name: string): boolean => about.sheets.some(({ written }) => written === name);
  return notKeptLines(
    withoutMade(given),
    lostOf(notes, added),
    ({ name }, { kind, place }) =>
      !isOurs(name) || (kind !== 'rules for what may be entered' && (kind !== 'row heights' || place !== 'A1')),
  );
}

function tableReports(
  { tables }: ImportProposal,
  about: About,
  added: readonly AddedSheet[],
  state: BookState,
): TableReport[] {
  return tables.map((item) => {
    const name =
      about.sheets.find(({ written }) => written === item.sheet)?.name ??
      added.find(({ raw }) => raw.name === item.sheet)?.state.name;
    const sheet = state.sheets.find((one) => one.name === name);
    return {
      ...item,
      records: sheet?.rows.length ?? 0,
      columns: [],
      ...(item.target === 'free' && name !== undefined ? { kept: name } : {}),
    };
  });
}

export function acceptExport(
  given: RawBook,
  proposal: ImportProposal,
  base: BookState,
  options: ImportOptions = {},
): ImportResult {
  const written = readAboutSheet(given);
  if (written === undefined) throw new Error('the book is not an export of this program');
  const notes: ExportNotes = {
    notUnderstood: [],
    remarks: [],
    assumed: [...proposal.assumed],
    lostComments: new Map(),
  };
  const book = nearBook(given, written, notes.assumed);
  const places = exportedPlaces(book, written);
  const about = aboutInPlace(book, written, places);
  const present = knownSheets(book, about, places, base, options, notes);
  const added = addedSheets(book, about, present);
  const order = [...compiledSheets.keys()];
  const rank = ({ name }: SheetState): number => (order.includes(name) ? order.indexOf(name) : order.length);
  const sheets = [...present.toSorted((a, b) => rank(a) - rank(b)), ...added.map(({ state }) => state)];
  const { title, units, invented } = about;
  const look = bookLook(
    book,
    about,
    places,
    added.map(({ placed }) => placed),
  );
  const named = presentBook({ title, units, invented, sheets, ...(look === undefined ? {} : { look }) });
  const read: BookState = { ...named.state, sheets: withoutSpills(named.state.sheets, about, book) };
  const { state: converted, review } = convertedBook(read, proposal.units);
  const { state, told } = completed(converted, proposal);
  notes.assumed.push(
    ...added.flatMap((sheet) => sheet.told ?? []),
    ...toldRenamed(
      'Columns',
      [...places.values()].flatMap(({ renamed }) => renamed),
    ),
    ...named.told,
    ...told,
    ...review.map(({ place, column, content, why }) => `${place} (${column}): ${content}: ${why}`),
  );
  const tables = tableReports(proposal, about, added, state);
  return {
    state,
    report: {
      ours: true,
      ...(written.mark === undefined ? {} : { mark: written.mark }),
      units: state.units,
      unitsWhy: proposal.unitsWhy,
      tables,
      notUnderstood: notes.notUnderstood,
      remarks: notes.remarks,
      assumed: notes.assumed,
      notKept: notKept(given, about, notes, added),
      lacking: [],
    },
  };
}
