import type { Finding } from '../../records/finding.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { type GivenNumbers, LentNumbers, type LookAsked } from './file-numbers.ts';
import { FindingRows } from './findings-sheet.ts';
import type { HeldColumns } from './held-otherwise.ts';
import type { SpeltSheets } from './laid-sheets.ts';
import { type Pack, type PackedPiece, PackInTurn } from './packing.ts';
import type { CellExtra } from './placed-rows.ts';
import { RecordRows } from './record-rows.ts';
import { rowSource } from './row-source.ts';
import { nothingSaid, type SaidOfRows } from './said-of-rows.ts';
import type { RowSource } from './writing.ts';

/**
 * Rows of a large book that are made apart from its file, in blocks and in any thread, and joined there in their order
 * (`book-file.ts`). A block is a book of its own: some records, and all that they refer to.
 */

/** What a thread has to know of a file to make rows of it. It can be handed over. */
export interface FileLayout {
  readonly held: HeldColumns;
  readonly spelt: SpeltSheets;
  readonly numbers: GivenNumbers;
  /** Records of each sheet, or so: whether they share formulas depends on how many they are. */
  readonly records: ReadonlyMap<string, number>;
}

/** Rows of one sheet, packed. They can be handed from thread to thread. */
export interface MadeRows {
  /** In the book; undefined for those of findings, since a sheet of the user's may have their sheet's name. */
  readonly sheet: string | undefined;
  readonly records: number;
  readonly pieces: readonly PackedPiece[];
  readonly lastColumn: number;
  readonly extras: readonly CellExtra[];
  readonly said: SaidOfRows;
}

/** Looks that the file has not numbered yet: ask it, `learn` the answer and make the rows again. */
interface LooksWanted {
  readonly wanted: readonly LookAsked[];
}

const encoder = new TextEncoder();

/** Makes rows of books that differ in their records only. */
export class RowMaker {
  readonly #source: RowSource;
  readonly #numbers: LentNumbers;
  readonly #records: FileLayout['records'];
  readonly #pack: Pack;

  constructor(book: Workbook, { held, spelt, numbers, records }: FileLayout, pack: Pack) {
    this.#numbers = new LentNumbers(numbers);
    this.#source = rowSource(book, this.#numbers, held, spelt).source;
    this.#records = records;
    this.#pack = pack;
  }

  learn(asked: readonly LookAsked[], numbers: readonly number[]): void {
    this.#numbers.learn(asked, numbers);
  }

  /**
   * All records of a sheet of a block. `number` is the block's among those of the sheet, `above` how many records stand
   * above it. Formulas that users typed need the whole book: a block that holds one is a programmer's error.
   */
  async recordRows(
    book: Workbook,
    sheet: string,
    { number, above }: { readonly number: number; readonly above: number },
  ): Promise<MadeRows | LooksWanted> {
    const said = nothingSaid();
    const source = { ...this.#source, book, said };
    const state = book.sheet(sheet);
    const rows = new RecordRows(source, state, { above, records: this.#records.get(sheet) ?? above });
    if (number === 0) rows.tellColumns();
    const pieces = await this.#packed(rows.block({ number, from: 0, to: state.rows.length }));
    if (said.typed.length > 0) throw new Error(`${sheet} has formulas of the user's own: write the whole book`);
    const made = { sheet, records: state.rows.length, pieces, lastColumn: rows.extent.lastColumn };
    return this.#answer({ ...made, extras: rows.extras(), said });
  }

  /** Findings of a block, with the records and cells that they have in the whole book. */
  async findingRows(
    book: Workbook,
    findings: readonly Finding[],
    { above }: { readonly above: number },
  ): Promise<MadeRows | LooksWanted> {
    const said = nothingSaid();
    const rows = new FindingRows({ ...this.#source, book, said });
    const pieces = await this.#packed(rows.rows(findings, above));
    return this.#answer({ sheet: undefined, records: findings.length, pieces, lastColumn: 0, extras: [], said });
  }

  #answer(rows: MadeRows): MadeRows | LooksWanted {
    const wanted = this.#numbers.wanted();
    return wanted.length > 0 ? { wanted } : rows;
  }

  async #packed(texts: Iterable<string>): Promise<PackedPiece[]> {
    const pieces: PackedPiece[] = [];
    const turn = new PackInTurn(this.#pack);
    for (const text of texts) pieces.push(await turn.packed(encoder.encode(text)));
    return pieces;
  }
}
