import type { Node } from '../../formula/syntax.ts';

/** What a sheet's formulas are in its file, and the columns beside the sheet that only the file has. */

/** Why a formula can stand in a file only as its value. */
export interface NoFormula {
  readonly why: string;
}

/** A formula in pieces, between which its record's row number stands. */
export interface RowPieces {
  readonly pieces: readonly string[];
  /** It calculates with ranges of its row cell by cell, which a file says by an array formula. */
  readonly array: boolean;
}

/** A column that only the file has, to the right of the sheet's own. */
export interface WorkingColumn {
  /** How formulas refer to it, `{Width, checked}`. */
  readonly slot: string;
  readonly header: string;
  readonly doc: string;
  readonly formula: Node;
  /** The sheet's column that it holds the checked number of. */
  readonly of?: string;
}

export interface FileSheet {
  /** Formulas of computed columns over `{Column}`, own and working ones, by position. */
  readonly formulas: ReadonlyMap<number, Node | NoFormula>;
  readonly workings: readonly WorkingColumn[];
}

/** The heading of the column beside a sheet that holds a column's numbers where they are allowed. */
export const checkedHeader = (header: string): string => `${header}, checked`;
