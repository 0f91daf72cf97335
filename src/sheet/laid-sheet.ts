import type { QuantityKind } from '../units/quantities.ts';
import type { FormulaCell } from './table.ts';

/** How a laid cell shows its number. */
export interface NumberLook {
  readonly kind: QuantityKind;
  readonly digits?: number;
  readonly percent?: true;
}

/** What may be entered into a cell of a locked sheet. */
export type Answer =
  | { readonly kind: 'text' }
  | { readonly kind: 'number' | 'count' | 'date'; readonly min: number; readonly message: string }
  | { readonly kind: 'choice'; readonly choices: readonly string[] };

/** A cell of a sheet that is laid out to be read and written on. */
export interface LaidCell {
  readonly value: string | number | null | FormulaCell;
  readonly look: 'title' | 'heading' | 'head' | 'text' | 'strong' | 'blank';
  /** Columns that it takes. */
  readonly span: number;
  readonly align?: 'end';
  /** How many of a text's first lines are bold. */
  readonly boldLines?: number;
  readonly shown?: NumberLook;
  /** It stays open when the sheet is locked, and takes this. */
  readonly answer?: Answer;
}

export interface LaidSheet {
  readonly name: string;
  /** Characters of each column. */
  readonly widths: readonly number[];
  readonly rows: readonly (readonly LaidCell[])[];
  /** Only answers may be changed. */
  readonly locked?: true;
  /** How many columns at the right hold keys for programs, and are not shown. */
  readonly hiddenColumns?: number;
  readonly landscape?: true;
}
