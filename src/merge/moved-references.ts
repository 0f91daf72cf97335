import { columnLetters, columnPosition, recordInRow, sheetRow } from '../formula/address.ts';
import { FormulaSyntaxError, tokens } from '../formula/tokens.ts';

/** Where the records or the columns of a sheet stand in another book: by their place here, -1 for one that is gone. */
export class ListMoves {
  readonly #images: readonly number[];
  /** Whether all stand where they stood: what is new stands behind them. */
  readonly same: boolean;
  /** The last place over there that one of these has. */
  readonly #last: number;
  readonly #known = new Map<string, Span | undefined>();

  constructor(images: readonly number[]) {
    this.#images = images;
    this.same = images.every((image, place) => image === place);
    let last = -1;
    for (const image of images) last = Math.max(last, image);
    this.#last = last;
  }

  /**
   * Where a span stands over there, as a spreadsheet moves it: from the first to the last of what is left of it. What
   * lies beyond the last record keeps its distance from it. Undefined when nothing is left.
   */
  span(first: number, last: number): Span | undefined {
    if (this.same || last < 0) return { first, last };
    const key = `${first}:${last}`;
    if (!this.#known.has(key)) this.#known.set(key, this.#span(first, last));
    return this.#known.get(key);
  }

  #span(first: number, last: number): Span | undefined {
    const count = this.#images.length;
    const beyond = (place: number): number => place - (count - 1) + this.#last;
    let [low, high] = [Infinity, -Infinity];
    for (let place = Math.max(first, 0); place <= Math.min(last, count - 1); place += 1) {
      const image = this.#images[place] ?? -1;
      if (image < 0) continue;
      low = Math.min(low, image);
      high = Math.max(high, image);
    }
    if (last >= count) {
      low = Math.min(low, beyond(Math.max(first, count)));
      high = Math.max(high, beyond(last));
    }
    // The row of the headers stays.
    if (first < 0) [low, high] = [first, Math.max(high, first)];
    return low === Infinity ? undefined : { first: low, last: high };
  }
}

interface Span {
  readonly first: number;
  readonly last: number;
}

export interface SheetMoves {
  readonly rows: ListMoves;
  readonly columns: ListMoves;
  /** How many records a sheet of the book's has here and over there; a free sheet's rows belong together in no way. */
  readonly records?: { readonly here: number; readonly there: number };
}

interface HowMoved {
  /** Whether it stands in a cell, or is that of a whole column. */
  readonly ofCell: boolean;
  readonly whole: boolean;
}

const isFirstRow = (row: string | undefined): boolean => row !== undefined && recordInRow(Number(row)) === 0;

/** Rows that stay where they are. */
const unmoved = new ListMoves([]);

const reference =
  /^((?:'(?:[^']|'')+'|[^'!]+)!)?(\$?)([A-Za-z]{1,3})?(\$?)(\d{1,7})?(?::(\$?)([A-Za-z]{1,3})?(\$?)(\d{1,7})?)?$/;

const noReference = '#REF!';

/** Formulas of one book as another one writes them: references lead to the same records and columns. */
export class MovedReferences {
  /** By sheet name in small letters. */
  readonly #sheets: ReadonlyMap<string, SheetMoves>;
  /** Whether formulas stay as they are, but for whole columns. */
  readonly same: boolean;
  /** Whether whole columns have other records over there. */
  readonly grows: boolean;

  constructor(sheets: ReadonlyMap<string, SheetMoves>) {
    this.#sheets = sheets;
    this.same = [...sheets.values()].every(({ rows, columns }) => rows.same && columns.same);
    this.grows = [...sheets.values()].some(({ records }) => records !== undefined && records.here !== records.there);
  }

  /** A formula of the sheet `home`; what can't be read as a formula stays as it is. */
  formula(formula: string, home: string): string {
    return this.same ? formula : this.#formula(formula, home, { ofCell: true, whole: false });
  }

  /** The same, in which a range over all records of a column is over all that the column has over there. */
  wholeFormula(formula: string, home: string): string {
    return this.same && !this.grows ? formula : this.#formula(formula, home, { ofCell: true, whole: true });
  }

  /** The formula of a whole column, as its first record has it: rows that go with the record stay as far from it. */
  columnFormula(formula: string, home: string): string {
    return this.same && !this.grows ? formula : this.#formula(formula, home, { ofCell: false, whole: true });
  }

  #formula(formula: string, home: string, how: HowMoved): string {
    try {
      let text = '';
      let end = 1;
      for (const token of tokens(formula.slice(1))) {
        if (token.type !== 'reference') continue;
        const at = token.position + 1;
        text += formula.slice(end, at) + this.#reference(token.text, home, how);
        end = at + token.text.length;
      }
      return end === 1 ? formula : `=${text}${formula.slice(end)}`;
    } catch (error) {
      if (error instanceof FormulaSyntaxError) return formula;
      throw error;
    }
  }

  #reference(text: string, home: string, { ofCell, whole }: HowMoved): string {
    const match = reference.exec(text);
    if (match === null) return text;
    const [, prefix = '', fixedLeft = '', left, fixedTop = '', top] = match;
    const [fixedRight = '', right, fixedBottom = '', bottom] = match.slice(6);
    const sheet = prefix === '' ? home : prefix.slice(0, -1).replaceAll(/^'|'$/g, '').replaceAll("''", "'");
    const moves = this.#sheets.get(sheet.toLowerCase());
    if (moves === undefined) return text;
    const across = moved(moves.columns, left, right, columnPosition, columnLetters);
    const isFixed = fixedTop !== '' && (bottom === undefined || fixedBottom !== '');
    const { records } = moves;
    const isWhole =
      whole && records !== undefined && isFixed && isFirstRow(top) && bottom === String(sheetRow(records.here - 1));
    const down =
      isWhole && records.there > 0
        ? {
            first: String(sheetRow(0)),
            last: String(sheetRow(records.there - 1)),
            same: records.here === records.there,
          }
        : moved(
            ofCell || isFixed ? moves.rows : unmoved,
            top,
            bottom,
            (row) => recordInRow(Number(row)),
            (record) => String(sheetRow(record)),
          );
    if (across === undefined || down === undefined) return noReference;
    if (across.same && down.same) return text;
    const from = `${fixedLeft}${across.first}${fixedTop}${down.first}`;
    return text.includes(':')
      ? `${prefix}${from}:${fixedRight}${across.last}${fixedBottom}${down.last}`
      : `${prefix}${from}`;
  }
}

/** The two ends of a reference in one direction, moved; empty where it names none, as whole columns name no rows. */
function moved(
  moves: ListMoves,
  first: string | undefined,
  last: string | undefined,
  place: (text: string) => number,
  text: (place: number) => string,
): { readonly first: string; readonly last: string; readonly same: boolean } | undefined {
  if (first === undefined) return { first: '', last: '', same: true };
  const [one, other] = [place(first), place(last ?? first)];
  const span = moves.span(Math.min(one, other), Math.max(one, other));
  if (span === undefined) return undefined;
  return {
    first: text(span.first),
    last: text(span.last),
    same: span.first === Math.min(one, other) && span.last === Math.max(one, other),
  };
}
