import type { RawLook, RawSheetLook } from './raw-look.ts';
import type { StoredBook } from './stored-book.ts';

/** A workbook file as read: every cell at its place, nothing yet understood. */

/** A formula that a file holds once, for many cells. */
export interface SharedFormula {
  /** As it reads in a cell that shares it. */
  at(cell: Pick<RawCell, 'row' | 'column'>): string;
}

/** One filled cell, as the file holds it. Rows and columns count from 1. */
export interface RawCell {
  readonly row: number;
  readonly column: number;
  /** Cached or typed value; null when the cell only has a formula without a cached result. */
  readonly value: number | string | boolean | null;
  /** The error code when the cell holds one, e.g. '#N/A'; `value` is then null. */
  readonly error?: string;
  /** Formula text without the equals sign, shared formulas already moved to this cell, `_xlfn.` prefixes removed. */
  readonly formula?: string;
  /**
   * Where its formula comes from, when many cells share one: it is written out only when it is asked for, since the
   * formulas of a large book come to a gigabyte.
   */
  readonly shared?: SharedFormula;
  /** Number format code when it is not General; a literal in it may name a unit, as in `0.0" mm"`. */
  readonly format?: string;
  /** True when the format makes the number a date or time; the value is then a serial in the 1900 system. */
  readonly date?: boolean;
  /** How the file shows it, where that is more than black on white. */
  readonly look?: RawLook;
  /** What the list wrote where the value is that of the cell above: a ditto mark. */
  readonly repeats?: string;
}

export interface RawRange {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface RawSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** Filled cells by row number, each row's cells in column order; blank rows are absent. */
  readonly rows: ReadonlyMap<number, readonly RawCell[]>;
  readonly merges: readonly RawRange[];
  /** The greatest row and column that hold a filled cell; 0 for an empty sheet. */
  readonly lastRow: number;
  readonly lastColumn: number;
  /** Absent where the file says nothing of it. */
  readonly look?: RawSheetLook;
}

export interface RawName {
  readonly name: string;
  /** What it refers to, without an equals sign. */
  readonly reference: string;
}

/** What a file points to outside itself, or would have run. None of it is followed, fetched or run. */
export interface RawOutside {
  /** Other files that its formulas refer to. */
  readonly files: number;
  /** Cells that lead to a page, a file or an address. */
  readonly links: number;
  readonly connections: boolean;
  readonly macros: boolean;
}

/** What was found of a file that is text: nothing in it says so. */
export interface RawText {
  readonly encoding: string;
  /** What parts the columns, in words; absent where there is one column only. */
  readonly delimiter?: string;
  /** Absent where its numbers show none or contradict each other. */
  readonly decimal?: 'point' | 'comma';
}

export interface RawBook {
  /** A book that a browser had stored, in place of sheets: nothing of it is guessed. */
  readonly stored?: StoredBook;
  readonly sheets: readonly RawSheet[];
  readonly names: readonly RawName[];
  /** Absent when there is nothing of the kind. */
  readonly outside?: RawOutside;
  /** Of a list that is a text, such as .csv. */
  readonly text?: RawText;
}
