import type { CellValue } from 'exceljs';
import { columnLetters } from '../../formula/address.ts';
import type { FileNumbers } from './file-numbers.ts';

/**
 * Rows of a sheet as its part of the file holds them, cell by cell into one text.
 *
 * A cell names its place only where the one before it is not its neighbour: the place is optional, and a cell without
 * one stands right of the cell before it. Addresses that differ from row to row are what packs worst: without them a
 * file of 10,000 belts has a third of its size. Cells that others refer to by name, the first of shared formulas and
 * those with a note or a link, keep their places for readers that look them up so.
 *
 * Source: ECMA-376 Part 1, 18.3.1.4 (c), 18.3.1.40 (f), 18.3.1.73 (row), 18.18.11 (ST_CellType).
 */

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

const needsEscape = /[&<>"']|[^\P{Cc}\t\n\r\u0080-\u009F]/u;

/** A text as XML holds it, without the control characters for which it has no place. */
export const escaped = (text: string): string =>
  needsEscape.test(text)
    ? text.replaceAll(/[&<>"']|[^\P{Cc}\t\n\r\u0080-\u009F]/gu, (sign) => entities[sign] ?? '')
    : text;

/** What a formula came to. */
export type Result = number | string | boolean | { readonly error: string };

/** Characters of a number that has more digits than other programs write: a sign, a point, 15 digits. */
const longestNumber = 16;

/**
 * A computed number in 15 significant digits, as other programs write it; what differs from there on is noise of the
 * arithmetic, and takes room.
 */
function computedNumber(value: number): string {
  const text = String(value);
  return text.length <= longestNumber ? text : String(Number(value.toPrecision(15)));
}

interface FormulaCell {
  readonly formula: string;
  readonly result?: Result;
  readonly shareType?: string;
  readonly ref?: string;
}

const isFormulaCell = (value: CellValue): value is CellValue & FormulaCell =>
  typeof value === 'object' && value !== null && 'formula' in value;

const isErrorCell = (value: CellValue): value is CellValue & { readonly error: string } =>
  typeof value === 'object' && value !== null && 'error' in value;

/** Characters of rows that are packed together: enough for what repeats from row to row to be found. */
export const packedTogether = 500_000;

/** A formula's f element. */
export const formulaElement = ({ formula, shareType, ref }: FormulaCell): string =>
  `<f${shareType === undefined ? '' : ` t="${shareType}" ref="${ref ?? ''}"`}>${escaped(formula)}</f>`;

export class RowText {
  readonly #numbers: FileNumbers;
  #text = '';
  #row = 0;
  /** The column behind the last cell; -1 before the first of a row. */
  #next = -1;
  #isOpen = false;

  constructor(numbers: FileNumbers) {
    this.#numbers = numbers;
  }

  get length(): number {
    return this.#text.length;
  }

  /** What was made so far, which is forgotten here. */
  taken(): string {
    const text = this.#text;
    this.#text = '';
    return text;
  }

  begin(row: number, { height, hidden }: { readonly height?: number; readonly hidden?: true | undefined } = {}): void {
    this.#row = row;
    this.#next = -1;
    this.#isOpen = true;
    this.#text += `<row r="${row}"${height === undefined ? '' : ` ht="${height}" customHeight="1"`}${
      hidden === true ? ' hidden="1"' : ''
    }>`;
  }

  end(): void {
    if (this.#isOpen) this.#text += '</row>';
    this.#isOpen = false;
  }

  #start(column: number, look: number, named: boolean): string {
    const place = column === this.#next && !named ? '' : ` r="${columnLetters(column)}${this.#row}"`;
    this.#next = column + 1;
    return `<c${place} s="${look}"`;
  }

  /** A cell of a declared formula, whose f element is ready. */
  computed(column: number, look: number, formula: string, result: Result | undefined, named = false): void {
    const start = this.#start(column, look, named);
    this.#text +=
      typeof result === 'number'
        ? `${start}>${formula}<v>${computedNumber(result)}</v></c>`
        : typeof result === 'string'
          ? `${start} t="str">${formula}${result === '' ? '<v/>' : `<v>${escaped(result)}</v>`}</c>`
          : result === undefined
            ? `${start}>${formula}</c>`
            : typeof result === 'boolean'
              ? `${start} t="b">${formula}<v>${result ? 1 : 0}</v></c>`
              : `${start} t="e">${formula}<v>${result.error}</v></c>`;
  }

  /** Cells that are ready as text; the first names its place, or stands right of the cell before. */
  ready(first: number, cells: string, count: number): void {
    if (count === 0) return;
    this.#text += first === this.#next ? cells : cells.replace('<c', `<c r="${columnLetters(first)}${this.#row}"`);
    this.#next = first + count;
  }

  /** A cell with whatever it holds; one that somebody refers to by its place is `named`. */
  cell(column: number, look: number, value: CellValue, named = false): void {
    if (isFormulaCell(value)) {
      const { result } = value;
      this.computed(column, look, formulaElement(value), result, named || value.shareType !== undefined);
      return;
    }
    const start = this.#start(column, look, named);
    if (typeof value === 'number') this.#text += `${start}><v>${value}</v></c>`;
    else if (typeof value === 'string') this.#text += this.#textCell(start, value);
    else if (typeof value === 'boolean') this.#text += `${start} t="b"><v>${value ? 1 : 0}</v></c>`;
    else if (isErrorCell(value)) this.#text += `${start} t="e"><v>${value.error}</v></c>`;
    else if (value === null || value === undefined) this.#text += `${start}/>`;
    else throw new Error(`a row holds numbers, texts, errors and formulas: ${JSON.stringify(value)}`);
  }

  #textCell(start: string, text: string): string {
    const number = this.#numbers.text(text);
    if (number !== undefined) return `${start} t="s"><v>${number}</v></c>`;
    const space = /^\s|\s$|\n/.test(text) ? ' xml:space="preserve"' : '';
    return `${start} t="inlineStr"><is><t${space}>${escaped(text)}</t></is></c>`;
  }
}
