import type { CellErrorValue, CellValue } from 'exceljs';
import { isComputed } from '../../sheet/declaration.ts';
import { type CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { FileFormulas } from './file-formulas.ts';

type Result = number | string | boolean | CellErrorValue;

/**
 * Formula characters of one sheet from which its rows share their formulas.
 *
 * Written out in every cell a belt's formulas take 20,000 characters, which every reader takes; a file of 10,000 belts
 * would be 200 MB of them unpacked. Above this a column's formula stands in its first cell, and the cells below refer
 * to it, as the format provides. Source: ECMA-376 Part 1, 18.3.1.40 (f, shared).
 */
const mostWrittenOut = 16_000_000;

const isResult = (value: CellValue): value is Result =>
  value !== null && value !== undefined && (typeof value !== 'object' || 'error' in value);

/** The formulas of a sheet's computed columns, row by row, with their results. */
export class DeclaredFormulas {
  /** Why a column has no formula in the file, by column. */
  readonly why = new Map<number, string>();
  readonly #pieces = new Map<number, readonly string[]>();
  /** The record that holds each column's shared formula; undefined where rows do not share. */
  readonly #first = new Map<number, number>();
  readonly #shares: boolean;
  readonly #records: number;

  constructor(formulas: FileFormulas, plan: CompiledSheet, records: number) {
    this.#records = records;
    let characters = 0;
    for (const [index, column] of plan.columns.entries()) {
      if (!isComputed(column)) continue;
      const formula = formulas.own(index, plan);
      if ('why' in formula) this.why.set(index, formula.why);
      else {
        this.#pieces.set(index, formula.pieces);
        characters += formula.pieces.join('').length;
      }
    }
    this.#shares = characters * records > mostWrittenOut;
  }

  /** The content of a cell that shows its column's declared formula. */
  cell(column: number, record: number, result: CellValue): CellValue {
    const pieces = this.#pieces.get(column);
    if (pieces === undefined || !isResult(result)) return result;
    const first = this.#first.get(column);
    if (this.#shares && first !== undefined)
      return { sharedFormula: `${columnLetters(column)}${sheetRow(first)}`, result };
    this.#first.set(column, record);
    const formula = pieces.join(String(sheetRow(record)));
    if (!this.#shares) return { formula, result };
    // Up to where cells may share it: which do, is known only when they have been written.
    const letters = columnLetters(column);
    const ref = `${letters}${sheetRow(record)}:${letters}${sheetRow(this.#records - 1)}`;
    const shared = { formula, result, shareType: 'shared', ref };
    return shared;
  }
}
