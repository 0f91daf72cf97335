import type { DecimalMark } from '../../units/numbers.ts';
import { textSheet } from '../../xlsx/read/delimited-text.ts';
import type { RawBook, RawSheet } from '../../xlsx/read/raw-book.ts';
import { noTally, openWorkbook } from '../../xlsx/read/read.ts';
import { readLines } from '../../xlsx/read/text-lines.ts';
import { UnreadableFile } from '../../xlsx/read/unreadable-file.ts';
import { bookParts } from '../../xlsx/read/zip-guard.ts';
import { longLimits } from './long-limits.ts';
import type { ListData, PartRows } from './part-model.ts';
import { NotPlain, type RowRun, rowRuns, rowsUpTo, RunParts, type SheetFrame, shortEnd } from './row-runs.ts';
import { lettersOf, linesUpTo, type PlacedText, textRuns } from './text-runs.ts';

/** A long list's file, of which some rows are read at a time. */
export interface ListContent {
  /** The decimal mark that a text begins with. */
  readonly decimal: DecimalMark | undefined;
  /** The runs of its rows, each of so many bytes; answers what stands around them, of which `begun` is told first. */
  runs(runBytes: (run: number) => number, begun: (before: Uint8Array) => void): Generator<RowRun, SheetFrame>;
  /** The rows of a run up to the row of a number, that row included. */
  upTo(run: RowRun, number: number): Uint8Array;
  /** The file with these rows alone, and the decimal marks that its texts show. */
  read(rows: PartRows): PartOfFile;
}

interface PartOfFile {
  readonly book: RawBook;
  readonly decimals: ReadonlySet<DecimalMark>;
}

/** The longest sheet of a workbook, beside the others. */
class SheetContent implements ListContent {
  readonly decimal = undefined;
  readonly #sheet: ListData['sheet'] & { readonly path: string };
  readonly #parts: ReturnType<typeof bookParts>;
  readonly #workbook: ReturnType<typeof openWorkbook>;
  readonly #others: readonly RawSheet[];
  readonly #links: number;

  constructor(bytes: Uint8Array, long: ListData['sheet'] & { readonly path: string }) {
    this.#sheet = long;
    this.#parts = bookParts(bytes, longLimits);
    this.#workbook = openWorkbook(this.#parts);
    const tally = noTally();
    this.#others = this.#workbook.sheets.flatMap((sheet) =>
      sheet.path === long.path ? [] : [this.#workbook.read(sheet, tally)],
    );
    this.#links = tally.links;
  }

  runs(runBytes: (run: number) => number, begun: (before: Uint8Array) => void): Generator<RowRun, SheetFrame> {
    return rowRuns(this.#parts.pieces(this.#sheet.path), runBytes, begun);
  }

  upTo(run: RowRun, number: number): Uint8Array {
    return rowsUpTo(run, number);
  }

  read({ before, head, rows, after = shortEnd }: PartRows): PartOfFile {
    const sheet = this.#sheet;
    const tally = { ...noTally(), links: this.#links };
    const content = new RunParts(this.#parts, sheet.path, [before, head, rows, after]);
    const own = this.#workbook.read(sheet, tally, undefined, content);
    const outside = this.#workbook.outside(tally.links);
    const others = [...this.#others];
    const sheets = this.#workbook.sheets.flatMap(({ path }) => (path === sheet.path ? [own] : (others.shift() ?? [])));
    const { names } = this.#workbook;
    return { book: { sheets, names, ...(outside === undefined ? {} : { outside }) }, decimals: new Set() };
  }
}

/** A list that is a text, such as .csv. */
class TextContent implements ListContent {
  readonly #bytes: Uint8Array;
  readonly #text: PlacedText;

  constructor(bytes: Uint8Array, text: PlacedText) {
    this.#bytes = bytes;
    this.#text = text;
  }

  get decimal(): DecimalMark | undefined {
    return this.#text.form.decimal;
  }

  runs(runBytes: (run: number) => number): Generator<RowRun, SheetFrame> {
    return textRuns(this.#bytes, this.#text, runBytes);
  }

  upTo(run: RowRun, number: number): Uint8Array {
    return linesUpTo(run, number, this.#text.form);
  }

  read({ head, rows, first, decimal }: PartRows): PartOfFile {
    const { form } = this.#text;
    const lines = [
      { first: 1, text: lettersOf(head, form) },
      { first, text: lettersOf(rows, form) },
    ].filter(({ text }) => text !== '');
    try {
      return readLines(lines, form, decimal, longLimits);
    } catch (error) {
      // The line that is at fault has its number in the whole text only.
      if (error instanceof UnreadableFile) throw new NotPlain('one of its lines is too long to be read');
      throw error;
    }
  }
}

/** The content of a list that is dealt out. */
export function listContent({ bytes, sheet, text }: Pick<ListData, 'bytes' | 'sheet' | 'text'>): ListContent {
  const { path } = sheet;
  if (path !== undefined) return new SheetContent(bytes, { ...sheet, path });
  if (text === undefined) throw new Error(`${textSheet} is neither a sheet of a workbook nor a text`);
  return new TextContent(bytes, text);
}
