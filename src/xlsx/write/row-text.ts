import type { CellValue } from 'exceljs';
import { columnLetters } from '../../formula/address.ts';
import type { FileNumbers } from './file-numbers.ts';

/**
 * Rows of a sheet as its part of the file holds them, cell by cell into one text.
 *
 * The standard lets a cell's place go where the cell before is its neighbour. What differs from row to row packs worst:
 * findings without places take a third, the rows of 10,000 belts would take a quarter. But openpyxl 3.1.5 leaves
 * formulas that cells share as the first of them has them where these have no place, without a word, and a few readers
 * know no cell without one. So records name every place.
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
type Result = number | string | boolean | { readonly error: string };

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
const formulaElement = ({ formula, shareType, ref }: FormulaCell): string =>
  `<f${shareType === undefined ? '' : ` t="${shareType}" ref="${ref ?? ''}"`}>${escaped(formula)}</f>`;

const knownLetters: string[] = [];

/** A column's letters, which every cell asks for. */
function lettersOf(column: number): string {
  return (knownLetters[column] ??= columnLetters(column));
}

/** The start of a cell up to the number of its row. */
export const cellStart = (column: number): string => `<c r="${lettersOf(column)}`;

/** Which cells name their places: all, or those with a formula and those behind a gap. */
type Places = 'all' | 'after gaps';

export class RowText {
  readonly #numbers: FileNumbers;
  readonly #places: Places;
  #text = '';
  #row = '';
  /** The column behind the last cell; -1 before the first of a row. */
  #next = -1;

  constructor(numbers: FileNumbers, places: Places) {
    this.#numbers = numbers;
    this.#places = places;
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
    this.#row = String(row);
    this.#next = -1;
    this.#text += `<row r="${row}"${height === undefined ? '' : ` ht="${height}" customHeight="1"`}${
      hidden === true ? ' hidden="1"' : ''
    }>`;
  }

  end(): void {
    this.#text += '</row>';
  }

  /** The start of a cell; one that others refer to by its place is `named`. */
  #start(column: number, look: number, named = false): string {
    const isNeighbour = column === this.#next;
    this.#next = column + 1;
    return this.#places === 'after gaps' && isNeighbour && !named
      ? `<c s="${look}"`
      : `${cellStart(column)}${this.#row}" s="${look}"`;
  }

  /** A cell of a declared formula, whose f element is ready. */
  computed(column: number, look: number, formula: string, result: Result | undefined): void {
    const start = this.#start(column, look, true);
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

  /** Cells that are ready but for the number of their row, which stands between the pieces. */
  ready(pieces: readonly string[]): void {
    this.#text += pieces.join(this.#row);
  }

  /** A cell with whatever it holds. */
  cell(column: number, look: number, value: CellValue): void {
    if (isFormulaCell(value)) {
      this.computed(column, look, formulaElement(value), value.result);
      return;
    }
    const start = this.#start(column, look);
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
