import type { CellErrorValue, CellValue } from 'exceljs';
import { isComputed } from '../../sheet/declaration.ts';
import { type CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { FileFormulas } from './file-formulas.ts';
import type { LaidSheet } from './laid-sheets.ts';
import type { NoFormula, RowPieces } from './working-columns.ts';

type Result = number | string | boolean | CellErrorValue;

/**
 * Formula characters of one sheet from which its rows share their formulas.
 *
 * Written out in every cell a belt's formulas take 20,000 characters, which every reader takes; a file of 10,000 belts
 * would be 200 MB of them unpacked. Above this a column's formula stands in its first cell, and the cells below refer
 * to it, as the format provides. Source: ECMA-376 Part 1, 18.3.1.40 (f, shared).
 */
const mostWrittenOut = 2_000_000;

const isResult = (value: CellValue): value is Result =>
  value !== null && value !== undefined && (typeof value !== 'object' || 'error' in value);

/** The formulas of a sheet's computed and working columns, row by row, with their results where they are known. */
export class DeclaredFormulas {
  /** Why a column has no formula in the file, by column. */
  readonly why = new Map<number, string>();
  readonly #pieces = new Map<number, RowPieces>();
  /** The record that holds each column's shared formula; undefined where rows do not share. */
  readonly #first = new Map<number, number>();
  readonly #shares: boolean;
  readonly #records: number;

  constructor(formulas: FileFormulas, plan: CompiledSheet, records: number, laid: LaidSheet | undefined) {
    this.#records = records;
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
    this.#shares = characters * records > mostWrittenOut;
  }

  /** The content of a cell that shows its column's declared formula. */
  cell(column: number, record: number, result: CellValue): CellValue {
    return isResult(result) ? (this.#formula(column, record, { result }) ?? result) : result;
  }

  /** The content of a cell of a working column: what it answers is for whoever recalculates. */
  working(column: number, record: number): CellValue {
    return this.#formula(column, record, {}) ?? null;
  }

  #formula(column: number, record: number, answer: { readonly result?: Result }): CellValue | undefined {
    const row = this.#pieces.get(column);
    if (row === undefined) return undefined;
    const { pieces, array } = row;
    if (array) {
      const ref = `${columnLetters(column)}${sheetRow(record)}`;
      const cell = { formula: pieces.join(String(sheetRow(record))), ...answer, shareType: 'array', ref };
      return cell;
    }
    const first = this.#first.get(column);
    if (this.#shares && first !== undefined)
      return { sharedFormula: `${columnLetters(column)}${sheetRow(first)}`, ...answer };
    this.#first.set(column, record);
    const formula = pieces.join(String(sheetRow(record)));
    if (!this.#shares) return { formula, ...answer };
    // Up to where cells may share it: which do, is known only when they have been written.
    const letters = columnLetters(column);
    const ref = `${letters}${sheetRow(record)}:${letters}${sheetRow(this.#records - 1)}`;
    const shared = { formula, ...answer, shareType: 'shared', ref };
    return shared;
  }
}
