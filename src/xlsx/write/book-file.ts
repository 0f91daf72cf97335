import type { Workbook as FileBook, Worksheet } from 'exceljs';
import type { Finding } from '../../records/finding.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { aboutMark } from '../about.ts';
import { findingsSheetName } from '../made-sheets.ts';
import { grouped, readLimits } from '../read/read-limits.ts';
import { writeAbout } from './about-sheet.ts';
import { columnLooks } from './column-looks.ts';
import { type LookAsked, OwnNumbers } from './file-numbers.ts';
import { fileText } from './file-text.ts';
import { FindingRows, findingsSheet } from './findings-sheet.ts';
import { writeFunctions } from './functions-sheet.ts';
import { type HeldColumns, heldColumns } from './held-otherwise.ts';
import type { FileLayout, MadeRows } from './made-rows.ts';
import { packedParts } from './packed-book.ts';
import { type Packing, PartPieces } from './packing.ts';
import { type CellExtra, type PlacedRows, placeRows } from './placed-rows.ts';
import { RecordRows } from './record-rows.ts';
import { type DefinedNames, rowSource } from './row-source.ts';
import { saidToo, type WrittenOtherwise } from './said-of-rows.ts';
import { writeSheet } from './written-sheet.ts';
import type { RowSource, Writing } from './writing.ts';
import { zipFile } from './zip-file.ts';

export interface FileOptions extends Packing {
  /** When the file says that it was made; the same book with the same stamp gives the same bytes. */
  readonly stamp?: Date;
  /** By which the file is to be known again when it comes back. */
  readonly mark?: string | undefined;
  /** Columns with something in place of their formulas, where not all records are in the book. */
  readonly held?: HeldColumns;
  /** Hears which share of the book's records is written, of those that are made here. */
  readonly told?: ((share: number) => void) | undefined;
  /** Findings that are written at most; all that a sheet has rows for when absent. */
  readonly findingsRoom?: number;
}

/** A file that is written, to be put where it belongs piece by piece, once. */
export interface WrittenFile {
  readonly pieces: Iterable<Uint8Array<ArrayBuffer>>;
  /** What the file holds otherwise than the book: formulas as values, texts cut. The About sheet lists it too. */
  readonly otherwise: readonly WrittenOtherwise[];
}

const nameRules = 'sheet names in files ignore case, hold at most 31 characters and none of [ ] : * ? / \\';

/** Records that share formulas: each block of them begins with the formulas in full. */
const blockRecords = 1_000;

/** The rows of a sheet as far as they are made. */
interface SheetRows {
  readonly pieces: PartPieces;
  records: number;
  lastRow: number;
  lastColumn: number;
  readonly extras: CellExtra[];
}

/** Records below the header of a sheet. */
const mostRecords = readLimits.rowNumber - 1;

const encoder = new TextEncoder();

/**
 * A book's file on its way: rows come first, block by block, and leave packed; all else is written around them in the
 * end, by the spreadsheet library. What a cell looks like is said once for both (`cell-styles.ts`, `file-numbers.ts`).
 *
 * Rows are made here (`addRecords`, `addFindings`) or come ready from other threads (`add`, `made-rows.ts`).
 */
export class BookFile {
  readonly #book: Workbook;
  readonly #file: FileBook;
  readonly #options: FileOptions;
  readonly #held: HeldColumns;
  readonly #numbers: OwnNumbers;
  readonly #source: RowSource;
  readonly #names: DefinedNames;
  readonly #scratch: Worksheet;
  /** By the sheet's name in the book. */
  readonly #rows = new Map<string, SheetRows>();
  readonly #found: SheetRows;
  /** Findings for which the sheet has no row left. */
  #withoutRoom = 0;

  private constructor(book: Workbook, { file, scratch }: { file: FileBook; scratch: Worksheet }, options: FileOptions) {
    this.#book = book;
    this.#file = file;
    this.#scratch = scratch;
    this.#options = options;
    this.#held = options.held ?? heldColumns(book);
    this.#numbers = new OwnNumbers(file);
    const { source, names } = rowSource(book, this.#numbers, this.#held);
    this.#source = source;
    this.#names = names;
    this.#found = this.#noRows();
    for (const [name, written] of source.sheets)
      if (name !== written)
        source.said.otherwise.push({ place: name, why: `the sheet is called ${written}: ${nameRules}` });
  }

  /**
   * Begins the file of a book: of the whole of it, or of one that has what all records refer to and some records by
   * which the widths of columns are found.
   *
   * The writing library is loaded when this is called, since a page that only shows a book does not need it.
   */
  static async begin(book: Workbook, options: FileOptions = {}): Promise<BookFile> {
    await import('./whole-texts.ts');
    const { default: ExcelJS } = await import('exceljs');
    const file = new ExcelJS.Workbook();
    const { stamp = new Date() } = options;
    file.creator = aboutMark;
    file.lastModifiedBy = aboutMark;
    file.title = fileText(book.state.title).text;
    file.created = stamp;
    file.modified = stamp;
    file.calcProperties = { fullCalcOnLoad: true };
    return new BookFile(book, { file, scratch: new ExcelJS.Workbook().addWorksheet() }, options);
  }

  /** What threads have to know to make rows of this file; `records` says how many each sheet will have, or so. */
  layout(records: ReadonlyMap<string, number>): FileLayout {
    for (const { name } of this.#book.state.sheets)
      for (const { role, format } of columnLooks(name, this.#book.columns(name), this.#book.units))
        this.#numbers.look(role, format);
    const spelt = new Map(
      [...this.#source.laid].map(([name, { formulas, workings }]) => [name, { formulas, workings }] as const),
    );
    return { held: this.#held, spelt, numbers: this.#numbers.given(), records };
  }

  /** Numbers for looks that a thread met. */
  numbersFor(looks: readonly LookAsked[]): number[] {
    return looks.map((look) => this.#numbers.look(...look));
  }

  #noRows(): SheetRows {
    return { pieces: new PartPieces(this.#options), records: 0, lastRow: 0, lastColumn: 0, extras: [] };
  }

  #rowsOf(sheet: string): SheetRows {
    let rows = this.#rows.get(sheet);
    if (rows === undefined) this.#rows.set(sheet, (rows = this.#noRows()));
    return rows;
  }

  /** Adds rows that were made elsewhere, below those of their sheet. */
  add({ sheet, records, pieces, lastColumn, extras, said }: MadeRows): void {
    const rows = sheet === undefined ? this.#found : this.#rowsOf(sheet);
    for (const piece of pieces) rows.pieces.addPacked(piece);
    rows.records += records;
    rows.lastRow = rows.records + 1;
    rows.lastColumn = Math.max(rows.lastColumn, lastColumn);
    for (const extra of extras) rows.extras.push(extra);
    saidToo(this.#source.said, said);
  }

  async #taken(into: SheetRows, texts: Iterable<string>): Promise<void> {
    for (const text of texts) {
      into.pieces.add(encoder.encode(text));
      await into.pieces.room();
    }
  }

  /** Makes the rows of all records of a sheet of the book; `told` hears how many there are. */
  async #addRecords(sheet: string, told: (records: number) => void): Promise<void> {
    const state = this.#book.sheet(sheet);
    const { length } = state.rows;
    const into = this.#rowsOf(sheet);
    const rows = new RecordRows(this.#source, state, { above: 0, records: length });
    rows.tellColumns();
    for (let from = 0; from < length; from += blockRecords) {
      const block = { number: from / blockRecords, from, to: Math.min(from + blockRecords, length) };
      await this.#taken(into, rows.block(block));
      told(block.to);
    }
    await this.#taken(into, rows.filledBelow());
    into.records = length;
    Object.assign(into, rows.extent);
    into.extras.push(...rows.extras());
  }

  /** Makes the rows of findings, below those that there are, as many as the sheet has room for. */
  async addFindings(findings: readonly Finding[]): Promise<void> {
    const into = this.#found;
    const { findingsRoom = mostRecords } = this.#options;
    const some = findings.slice(0, findingsRoom - into.records);
    this.#withoutRoom += findings.length - some.length;
    const rows = new FindingRows(this.#source);
    await this.#taken(into, rows.rows(some, into.records));
    into.records += some.length;
  }

  #sayWithoutRoom(): void {
    if (this.#withoutRoom === 0) return;
    const { records } = this.#found;
    this.#source.said.otherwise.push({
      place: findingsSheetName,
      why:
        `the sheet has room for the first ${grouped(records)} of ${grouped(records + this.#withoutRoom)} findings; ` +
        `the page and the command check show all`,
    });
  }

  /** Writes what is left: the records of sheets that no rows came for, and all that stands around rows. */
  async end(): Promise<WrittenFile> {
    const { sheets } = this.#book.state;
    const missing = sheets.filter(({ name }) => !this.#rows.has(name));
    const all = missing.reduce((sum, { rows }) => sum + rows.length, 0);
    let made = 0;
    for (const { name, rows } of missing) {
      await this.#addRecords(name, (records) => this.#options.told?.((made + records) / all));
      made += rows.length;
    }
    const writing: Writing = {
      ...this.#source,
      file: this.#file,
      records: new Map(sheets.map(({ name }) => [name, this.#rowsOf(name).records])),
      widths: new Map(),
    };
    this.#sayWithoutRoom();
    for (const { name, reference } of this.#names) this.#file.definedNames.add(reference, name);
    const placed: PlacedRows[] = [];
    const place = (sheet: Worksheet, rows: SheetRows): void => {
      placed.push(placeRows(sheet, rows, this.#scratch));
    };
    for (const state of sheets) place(writeSheet(writing, state), this.#rowsOf(state.name));
    const found = this.#found;
    place(findingsSheet(writing, found.records), found);
    writeFunctions(writing);
    writeAbout(writing, found.records, this.#options.mark);
    const archive = await this.#file.xlsx.writeBuffer({ zip: { compression: 'STORE' } });
    const parts = await packedParts(new Uint8Array(archive), placed, this.#options);
    return { pieces: zipFile(parts), otherwise: writing.said.otherwise };
  }
}
