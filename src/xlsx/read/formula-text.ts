import { columnName, columnNumber } from './cell-address.ts';
import { readLimits } from './read-limits.ts';

/** A reference, or an end of one, that moves with the cell that holds its formula, except where a dollar fixes it. */
interface Movable {
  /** 0 in a reference to whole rows. */
  readonly column: number;
  readonly columnFixed: boolean;
  /** 0 in a reference to whole columns. */
  readonly row: number;
  readonly rowFixed: boolean;
}

/** A formula taken apart just far enough to move it: text that stays, and references. */
export type FormulaPiece = string | Movable;

const { columnNumber: lastColumn, rowNumber: lastRow } = readLimits;

const wholeRows = /(\$?)([1-9]\d{0,6}):(\$?)([1-9]\d{0,6})(?![\p{L}\p{N}_.$(!:])/uy;
const wholeColumns = /(\$?)([A-Za-z]{1,3}):(\$?)([A-Za-z]{1,3})(?![\p{L}\p{N}_.$(!:\\])/uy;
const number = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const word = /[\p{L}_\\$][\p{L}\p{N}_.\\?$]*/uy;
const cell = /^(\$?)([A-Za-z]{1,3})(\$?)([1-9]\d{0,6})$/;
const futurePrefix = /^(?:_xl(?:fn|ws|pm)\.)+/i;

/** The end of a quoted run. A doubled quote ends one run and begins the next, which comes to the same. */
function quoteEnd(text: string, start: number): number {
  const end = text.indexOf(text[start] ?? '', start + 1);
  return end < 0 ? text.length : end + 1;
}

/** The end of a bracketed table reference or file number; a quote inside escapes the next character. */
function bracketEnd(text: string, start: number): number {
  let depth = 0;
  for (let at = start; at < text.length; at++) {
    const letter = text[at];
    if (letter === "'") at++;
    else if (letter === '[') depth++;
    else if (letter === ']' && --depth === 0) return at + 1;
  }
  return text.length;
}

const columnEnd = (dollar: string | undefined, letters = ''): Movable => ({
  column: columnNumber(letters),
  columnFixed: dollar === '$',
  row: 0,
  rowFixed: true,
});
const rowEnd = (dollar: string | undefined, digits = ''): Movable => ({
  column: 0,
  columnFixed: true,
  row: Number(digits),
  rowFixed: dollar === '$',
});

const columnOnSheet = (column: number): boolean => column >= 1 && column <= lastColumn;
const rowOnSheet = (row: number): boolean => row >= 1 && row <= lastRow;

/** Where a word, a number or a reference can begin; anything else stands for itself. */
const mayBegin = (code: number): boolean =>
  (code >= 65 && code <= 90) ||
  (code >= 97 && code <= 122) ||
  (code >= 48 && code <= 57) ||
  code > 127 ||
  code === 36 ||
  code === 46 ||
  code === 92 ||
  code === 95;

class PieceReader {
  readonly #text: string;
  readonly #pieces: FormulaPiece[] = [];
  /** What goes before the text from `#start` on and is not in it. */
  #kept = '';
  #start = 0;
  #at = 0;

  constructor(text: string) {
    this.#text = text;
  }

  #move(reference: Movable, from: number): void {
    const plain = this.#kept + this.#text.slice(this.#start, from);
    if (plain !== '') this.#pieces.push(plain);
    this.#pieces.push(reference);
    this.#kept = '';
    this.#start = this.#at;
  }

  #matched(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.#at;
    const match = pattern.exec(this.#text);
    if (match) this.#at = pattern.lastIndex;
    return match ?? undefined;
  }

  /** Whether rows or columns as wholes stand here; they move when both ends are on the sheet. */
  #range(pattern: RegExp, end: typeof columnEnd, onSheet: (end: Movable) => boolean): boolean {
    const match = this.#matched(pattern);
    if (!match) return false;
    const from = end(match[1], match[2]);
    const to = end(match[3], match[4]);
    if (onSheet(from) && onSheet(to)) {
      this.#move(from, match.index);
      this.#kept = ':';
      this.#move(to, this.#at);
    }
    return true;
  }

  #word(): void {
    const match = this.#matched(word);
    if (!match) {
      this.#at++;
      return;
    }
    const [name] = match;
    const parts = this.#text[this.#at] === '(' || this.#text[this.#at] === '!' ? null : cell.exec(name);
    const column = columnNumber(parts?.[2] ?? '');
    const row = Number(parts?.[4] ?? 0);
    if (parts && columnOnSheet(column) && rowOnSheet(row))
      this.#move({ column, columnFixed: parts[1] === '$', row, rowFixed: parts[3] === '$' }, match.index);
    else if (futurePrefix.test(name)) {
      this.#kept += this.#text.slice(this.#start, match.index) + name.replace(futurePrefix, '');
      this.#start = this.#at;
    }
  }

  read(): readonly FormulaPiece[] {
    while (this.#at < this.#text.length) {
      const code = this.#text.charCodeAt(this.#at);
      if (code === 34 || code === 39) this.#at = quoteEnd(this.#text, this.#at);
      else if (code === 91) this.#at = bracketEnd(this.#text, this.#at);
      else if (!mayBegin(code)) this.#at++;
      else if (
        !this.#range(wholeRows, rowEnd, ({ row }) => rowOnSheet(row)) &&
        !this.#range(wholeColumns, columnEnd, ({ column }) => columnOnSheet(column)) &&
        !this.#matched(number)
      )
        this.#word();
    }
    const rest = this.#kept + this.#text.slice(this.#start);
    if (rest !== '') this.#pieces.push(rest);
    return this.#pieces;
  }
}

/**
 * Takes a formula apart into references that can move and everything else, word for word.
 *
 * Texts, quoted sheet names, table references, names, function names that look like cells (`LOG10(`) and sheet names
 * (`AB1!`) stay. Prefixes that files put before functions newer than the format (`_xlfn.`) are left out.
 *
 * Source: ECMA-376 Part 1, 18.17.2 (grammar); [MS-XLSX] 2.2.2 (prefixes).
 */
export const formulaPieces = (text: string): readonly FormulaPiece[] => new PieceReader(text).read();

/**
 * The formula moved so many rows down and columns right; a reference that leaves the sheet becomes #REF!.
 *
 * Text that was added up is kept as its bits, at ten times the memory, until one of its letters is asked for.
 */
export function movedFormula(pieces: readonly FormulaPiece[], down: number, right: number): string {
  let text = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') {
      text += piece;
      continue;
    }
    const column = piece.columnFixed ? piece.column : piece.column + right;
    const row = piece.rowFixed ? piece.row : piece.row + down;
    if ((piece.column > 0 && !columnOnSheet(column)) || (piece.row > 0 && !rowOnSheet(row))) {
      text += '#REF!';
      continue;
    }
    if (piece.column > 0) text += piece.columnFixed ? `$${columnName(column)}` : columnName(column);
    if (piece.row > 0) text += piece.rowFixed ? `$${row}` : row;
  }
  return Number.isNaN(text.charCodeAt(0)) ? '' : text;
}

/** Formula text as a person would type it, without the prefixes of newer functions. */
export const typedFormula = (text: string): string =>
  text.includes('_') && /_xl(?:fn|ws|pm)\./i.test(text) ? movedFormula(formulaPieces(text), 0, 0) : text;
