import { isComputed } from '../../sheet/declaration.ts';
import { type CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { FileFormulas } from './file-formulas.ts';
import type { LaidSheet } from './laid-sheets.ts';
import { escaped } from './row-text.ts';
import type { NoFormula, RowPieces } from './working-columns.ts';

/**
 * Formula characters of one sheet from which its rows share their formulas.
 *
 * Written out in every cell a belt's formulas take 20,000 characters, which every reader takes; a file of 10,000 belts
 * would be 200 MB of them unpacked. Above this a column's formula stands in the first cell of a block of rows, and the
 * cells below refer to it, as the format provides. Blocks stand for themselves, so that they can be made in any order.
 * Source: ECMA-376 Part 1, 18.3.1.40 (f, shared).
 */
const mostWrittenOut = 2_000_000;

/** The formulas of a sheet's computed and working columns, row by row, with their results where they are known. */
export class DeclaredFormulas {
  /** Why a column has no formula in the file, by column. */
  readonly why = new Map<number, string>();
  readonly #pieces = new Map<number, RowPieces>();
  /** Records of the sheet above the first. */
  readonly #above: number;
  /** Whether rows share their formulas. */
  readonly shares: boolean;
  /** The block that is being made: its last row, and the columns whose formula one of its rows has. */
  #block = { number: 0, last: 0, columns: new Map<number, string>() };

  constructor(
    formulas: FileFormulas,
    plan: CompiledSheet,
    { records, above }: { readonly records: number; readonly above: number },
    laid: LaidSheet | undefined,
  ) {
    this.#above = above;
    let characters = 0;
    const take = (index: number, formula: RowPieces | NoFormula): void => {
      if ('why' in formula) {
        this.why.set(index, formula.why);
        return;
      }
      this.#pieces.set(index, formula);
      characters += formula.pieces.join('').length;
    };
    for (const [index, column] of plan.columns.entries())
      if (isComputed(column)) take(index, formulas.own(index, plan));
    const { name } = plan.declaration;
    laid?.workings.forEach(({ formula, header }, index) => {
      const working = formulas.inRow(formula, name);
      if ('why' in working) throw new Error(`${name}, ${header}: ${working.why}`);
      take(laid.width + index, working);
    });
    this.shares = characters * records > mostWrittenOut;
  }

  /** Begins a block of records that may share formulas, up to the last of them; no two of a sheet have one number. */
  begin(number: number, last: number): void {
    this.#block = { number, last: sheetRow(this.#above + last), columns: new Map() };
  }

  /**
   * The f element of a column's declared formula in a record; undefined where the column has no formula. What stands
   * for the row's number may be another text, for rows that are made from one pattern.
   */
  element(column: number, record: number, row = String(sheetRow(this.#above + record))): string | undefined {
    const shared = this.#block.columns.get(column);
    if (shared !== undefined) return shared;
    const made = this.#pieces.get(column);
    if (made === undefined) return undefined;
    const formula = made.pieces.map(escaped).join(row);
    if (made.array) return `<f t="array" ref="${columnLetters(column)}${row}">${formula}</f>`;
    if (!this.shares) return `<f>${formula}</f>`;
    const index = this.#block.number * this.#pieces.size + this.#block.columns.size;
    this.#block.columns.set(column, `<f t="shared" si="${index}"/>`);
    // Up to where cells may share it: which do, is known only when they have been written.
    const letters = columnLetters(column);
    const ref = `${letters}${row}:${letters}${this.#block.last}`;
    return `<f t="shared" ref="${ref}" si="${index}">${formula}</f>`;
  }
}
