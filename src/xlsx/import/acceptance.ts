import { demoCounts } from '../../workbook/demo-records.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { namedSheets, recordSheets } from '../../../sheets/index.ts';
import type { Content } from '../../formula/values.ts';
import { listed } from '../../sheet/words.ts';
import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { convertedBook } from '../../workbook/conversion.ts';
import { type BookRow, type BookState, type SheetState, sheetOf } from '../../workbook/state.ts';
import { choiceWords, filledBlanks } from './blank-fills.ts';
import { grouped } from '../read/read-limits.ts';
import { freeName, freePlaces, freeSheet, mostFreeFormulas } from './free-sheet.ts';
import { keptRecords, readingOrder } from './kept-records.ts';
import {
  baseNameOf,
  type EarlierRecords,
  type ImportOptions,
  type ImportProposal,
  type ImportResult,
  type TableProposal,
  type TableReport,
  UnusableList,
} from './import-model.ts';
import { acceptExport } from './earlier-export.ts';
import type { RawBook, RawSheet } from '../read/raw-book.ts';
import type { Unkept, UnkeptKind } from '../read/raw-look.ts';
import { rowCheckHeader } from '../row-check-header.ts';
import { shownBook } from '../read/raw-cells.ts';
import { lookWith } from './kept-layouts.ts';
import { mostRecords, refuseLong } from './list-size.ts';
import { notKeptLines } from './not-kept.ts';
import { PlacedLooks } from './placed-looks.ts';
import { type NamedCurrency, refuseCurrencies } from './named-currencies.ts';
import { type ImportNotes, SheetImport, tell } from './sheet-import.ts';
import { remarkNames, remarkSeries } from './name-remarks.ts';
import { withAssumptions } from './listed-assumptions.ts';
import { acceptStored } from './stored-import.ts';
import { blankInputs, lackingInputs } from './usual-values.ts';

/** A list being taken over, sheet by sheet. */
class Acceptance {
  readonly #book: RawBook;
  readonly #proposal: ImportProposal;
  readonly #base: BookState;
  readonly #baseName: string;
  /** What stands in for what the file does not hold, in the book's units. */
  readonly #foundation: BookState;
  readonly notes: ImportNotes;
  readonly reports = new Map<TableProposal, TableReport>();
  /** Declared sheets by name. */
  readonly #sheets = new Map<string, SheetState>();
  readonly #free: SheetState[] = [];
  readonly #currencies = new Map<string, readonly NamedCurrency[]>();
  readonly looks = new PlacedLooks();
  readonly #part: EarlierRecords | undefined;
  /** Records that a sheet may have. */
  readonly #most: number;
  /** Formulas of the free sheets so far. */
  #freeFormulas = 0;

  constructor(book: RawBook, proposal: ImportProposal, base: BookState, options: ImportOptions) {
    this.#book = book;
    this.#proposal = proposal;
    this.#base = base;
    this.#baseName = baseNameOf(options);
    this.#most = options.mostRecords ?? mostRecords;
    this.#foundation = convertedBook(base, proposal.units).state;
    this.notes = { notUnderstood: [], remarks: [], assumed: [...proposal.assumed], counted: [] };
    this.#part = options.part;
  }

  /** Sheets of records: read from the tables that are taken for them, else kept. */
  takeRecords(): void {
    const empty: string[] = [];
    // Sheets that others choose from are read first.
    for (const declaration of readingOrder()) {
      const tables = this.#proposal.tables.filter(({ target }) => target === declaration.name);
      if (tables.length > 0) this.#readRecords(declaration, tables);
      else if (!this.#keepRecords(declaration)) empty.push(declaration.name);
    }
    if (empty.length > 0)
      this.notes.assumed.push(
        `${listed(empty, 'and', empty.length)}: not in the file; ` +
          `${empty.length === 1 ? 'the sheet stays' : 'these sheets stay'} empty`,
      );
  }

  /** Whether there was anything to keep. */
  #keepRecords(declaration: SheetDeclaration): boolean {
    const { name } = declaration;
    const from = this.#foundation.sheets.find((sheet) => sheet.name === name) ?? { name, userColumns: [], rows: [] };
    const { sheet, told } = keptRecords(declaration, from, this.#base, this.#baseName, [...this.#sheets.values()]);
    this.#sheets.set(name, sheet);
    if (told !== undefined) this.notes.assumed.push(told);
    return told !== undefined;
  }

  #readRecords(declaration: SheetDeclaration, tables: readonly TableProposal[]): void {
    const { units, fill, values } = this.#proposal;
    const known = [...this.#sheets.values()];
    const reading = new SheetImport(
      declaration,
      units,
      this.notes,
      (column) => choiceWords(column, known),
      declaration === belts ? values : [],
      declaration === belts ? this.#part?.dates : undefined,
    );
    for (const table of tables) this.reports.set(table, reading.add(this.#book, table, this.#most));
    const filled =
      declaration === belts
        ? filledBlanks(stateOf(reading), fill, units, known)
        : { sheet: stateOf(reading), told: [] };
    for (const note of filled.told) tell(this.notes, note);
    const before = declaration === belts ? this.#part : undefined;
    this.#sheets.set(
      declaration.name,
      before === undefined
        ? filled.sheet
        : { ...filled.sheet, before: { records: before.records, first: before.first } },
    );
    this.#currencies.set(declaration.name, reading.currencies);
    for (const looks of reading.looks)
      this.looks.add(looks.placed(reading.userColumns), looks.lostComments, looks.colouredHeaders);
    remarkNames(reading, this.notes, declaration === belts ? this.#part : undefined);
    if (declaration === belts) remarkSeries(reading, known, this.notes);
  }

  keepNamedValues(): void {
    for (const { declaration } of namedSheets) {
      const from = this.#foundation.sheets.find(({ name }) => name === declaration.name);
      if (from !== undefined) this.#sheets.set(declaration.name, from);
    }
  }

  /** Sheets that are taken for assumptions, kept as they are, or left out. */
  takeOthers(): void {
    for (const table of this.#proposal.tables) {
      const sheet = this.#book.sheets.find(({ name }) => name === table.sheet);
      if (sheet === undefined || this.reports.has(table)) continue;
      if (table.target === 'Assumptions') {
        const before = this.#sheets.get('Assumptions');
        const given = withAssumptions(this.#book, table, before, this.#proposal, this.notes);
        if (given !== undefined) this.#sheets.set('Assumptions', given);
      }
      if (table.target === 'free' || table.target === 'Assumptions') this.#keepFree(table, sheet);
      else this.reports.set(table, { ...table, records: 0, columns: [] });
    }
  }

  #keepFree(table: TableProposal, sheet: RawSheet): void {
    const name = freeName(sheet.name, [...declaredNames, ...this.#free.map((other) => other.name)]);
    const { state, values, formulas, told, placed, lostComments, colouredHeaders } = freeSheet(sheet, name, {
      formulas: mostFreeFormulas - this.#freeFormulas,
      places: freePlaces(this.#free),
    });
    this.looks.add(placed, lostComments, colouredHeaders);
    this.#freeFormulas += formulas;
    if (told !== undefined) this.notes.assumed.push(told);
    this.#free.push(state);
    this.reports.set(table, { ...table, records: state.rows.length, columns: [], kept: name });
    if (values > 0)
      this.notes.assumed.push(
        `${sheet.name}: ${values} formulas kept as values only: they refer to other sheets, use functions that the ` +
          `book does not have, are too large, or exceed ${grouped(mostFreeFormulas)} in number`,
      );
  }

  refuseCurrencies(): void {
    refuseCurrencies(this.#sheets, this.#currencies, this.notes.notUnderstood);
  }

  get sheets(): SheetState[] {
    return [...declaredNames.flatMap((name) => this.#sheets.get(name) ?? []), ...this.#free];
  }
}

/**
 * A book from a file, as proposed. What the file does not hold (plate series, strips, assumptions) comes from `base`,
 * converted to the book's units, and the report says so.
 */
export function acceptImport(
  file: RawBook,
  proposal: ImportProposal,
  base: BookState,
  options: ImportOptions = {},
): ImportResult {
  const result = accepted(file, proposal, base, options);
  refuseLong(result.state);
  return result;
}

function accepted(file: RawBook, proposal: ImportProposal, base: BookState, options: ImportOptions): ImportResult {
  if (file.stored !== undefined) return acceptStored(file.stored, proposal);
  if (proposal.ours) return acceptExport(file, proposal, base, options);
  const { tables, units, unitsWhy } = proposal;
  if (!tables.some(({ target }) => recordSheets.some(({ name }) => name === target)))
    throw new UnusableList(`No sheet is selected as ${belts.name}: select the one that lists the belts.`);
  const acceptance = new Acceptance(shownBook(file), proposal, base, options);
  acceptance.takeRecords();
  acceptance.keepNamedValues();
  acceptance.takeOthers();
  acceptance.refuseCurrencies();
  const { reports, notes, sheets } = acceptance;
  const { counted, ...told } = notes;
  const look = lookWith(base.look, acceptance.looks.sheets);
  const hasPlates = ['Plate series', 'Strips'].every((sheet) => tables.some(({ target }) => target === sheet));
  const state: BookState = {
    title: options.title ?? titleOf(proposal) ?? base.title,
    units,
    // Whatever the list brings: what was lent of an invented book stays invented until it is replaced.
    invented: base.invented && (!hasPlates || demoCounts({ sheets, units }).length > 0),
    sheets,
    ...(look === undefined ? {} : { look }),
  };
  const blanks = blankInputs(sheetOf(state, belts.name));
  return {
    state,
    report: {
      ours: false,
      units,
      unitsWhy,
      tables: tables.map((table) => reports.get(table) ?? { ...table, records: 0, columns: [] }),
      ...told,
      notKept: notKeptLines(file, acceptance.looks.lost, keptOfForms(proposal)),
      lacking: lackingInputs(blanks),
      tallies: { counted, blanks },
    },
  };
}

/** What a form of this program has of its own, which the next one has again. */
const ofForms: readonly UnkeptKind[] = [
  'comments',
  'rules for what may be entered',
  'other fonts and sizes',
  'row heights',
  'colours of headers',
];

function keptOfForms({ tables }: ImportProposal): (sheet: RawSheet, thing: Unkept) => boolean {
  const forms = new Set(
    tables.flatMap(({ sheet, columns }) => (columns.some(({ header }) => header === rowCheckHeader) ? [sheet] : [])),
  );
  return ({ name }, { kind }) => !forms.has(name) || !ofForms.includes(kind);
}

const declaredNames: readonly string[] = [...recordSheets, ...namedSheets.map(({ declaration }) => declaration)].map(
  ({ name }) => name,
);

function stateOf(reading: SheetImport): SheetState {
  const width = reading.declaration.columns.length + reading.userColumns.length;
  const padded = (row: BookRow): BookRow =>
    row.cells.length === width
      ? row
      : { ...row, cells: [...row.cells, ...new Array<Content>(width - row.cells.length).fill(null)] };
  return { name: reading.declaration.name, userColumns: reading.userColumns, rows: reading.rows.map(padded) };
}

/** A title that stands above the list of belts. */
const titleOf = ({ tables }: ImportProposal): string | undefined =>
  tables
    .find(({ target }) => target === belts.name)
    ?.skipped.find(({ what, row }) => what === 'title' && row > 0)
    ?.text.split(' | ')[0];
