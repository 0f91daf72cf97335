import { type Value } from '../formula/values.ts';
import { type QuantityKind, type UnitSystem } from '../units/quantities.ts';

/** Plain tables whose cells may be formulas: what is made from a book for a file, and is no book itself. */

export interface TableColumn {
  readonly header: string;
  readonly kind: QuantityKind;
  readonly digits?: number | Readonly<Record<UnitSystem, number>>;
  readonly percent?: true;
  /** Dates with the time of day. */
  readonly timed?: true;
  /** Said when one points at the heading. */
  readonly note?: string;
  /** All its cells are formulas. */
  readonly computed?: true;
  /** Whose money it is: the book's, or that which the row names in its column Currency. */
  readonly currency?: 'book' | 'row';
  /** A bar in each cell, as long as its number is large. */
  readonly bars?: true;
  /** Amounts of 0 are not shown. */
  readonly noZeros?: true;
  /** Numbers above it are shown in red. */
  readonly alertAbove?: number;
}

/** A cell that is worked out: its formula in standard functions, without "=", and what that gives. */
export interface FormulaCell {
  readonly formula: string;
  readonly value: number | string;
}

export type TableCell = Value | FormulaCell;

export interface Table {
  readonly name: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly TableCell[])[];
  /** Columns at the left that stay in view. */
  readonly keys: number;
  /** The last row is a total. */
  readonly total?: true;
  /** First and last of the columns whose minimum is marked in each row. */
  readonly cheapest?: readonly [from: number, to: number];
  /** The book's currency, for columns of its money. */
  readonly currency?: string;
}

export interface TableBook {
  readonly title: string;
  readonly tables: readonly Table[];
  /** Rows of the sheet About: a word, then texts. */
  readonly about: readonly (readonly string[])[];
}
