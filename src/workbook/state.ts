import { cellName, sheetRow } from '../formula/address.ts';
import type { Content } from '../formula/values.ts';
import type { Column } from '../sheet/declaration.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { type BookLook, noLook, withCommentsOf } from './book-look.ts';
import type { RowLooks } from './own-look.ts';
import type { CellPlace } from './place.ts';

/**
 * A book as data: what is saved, undone, imported and exported. Nothing here is computed, and nothing is ever changed
 * in place: a change makes a new state that shares what it leaves alone.
 */
export interface BookRow {
  /**
   * One content a column: declared columns first, the user's own after them. Empty is null. A text starting with "="
   * is a formula. In a computed column null stands for the sheet's own formula, anything else overrides it.
   */
  readonly cells: readonly Content[];
  /** Remarks on cells by column index: why a cell's text could not be understood, as the import said it. */
  readonly notes?: Readonly<Record<number, string>>;
  /** How cells of the user's own show their numbers, by column index, where they do not as their column does. */
  readonly formats?: Readonly<Record<number, CellFormat>>;
  /** How the user's file shows the cells, where it is more than plain. */
  readonly looks?: RowLooks;
  /** Hidden in the user's file: files are written so, the book shows and counts it like any other. */
  readonly hidden?: true;
}

/** How numbers are shown that a column declares nothing of. */
export type NumberLook = Pick<Column, 'digits' | 'percent' | 'timed'>;

/** What a cell holds and how it shows it, where that is another than its column says. */
export interface CellFormat extends Pick<NumberLook, 'percent'> {
  readonly kind: QuantityKind;
  readonly digits?: number;
}

/** A column that the user added, or that came with a list and belongs to no declared column. */
export interface UserColumn extends CellFormat {
  readonly header: string;
  /** 'text' unless the user said what it measures. */
  readonly kind: QuantityKind;
  /** The unit of numbers whose kind has none: it is shown, and never converted. */
  readonly unit?: string;
  /** What it means, in the user's words. */
  readonly doc?: string;
  /** The formula of the whole column, as the first record has it. A record that is added gets it. */
  readonly formula?: string;
}

export interface SheetState {
  readonly name: string;
  readonly userColumns: readonly UserColumn[];
  readonly rows: readonly BookRow[];
  /** Of a part of a long list, which is worked out a part at a time: what of it stands before these rows. */
  readonly before?: RecordsBefore;
}

/** The records of a list that stand before a part of it. */
export interface RecordsBefore {
  readonly records: number;
  /** The first record of a name (trimmed, without case); asked only for names that the whole list has twice. */
  readonly first: (name: string) => number | undefined;
}

/** A cell of the whole sheet by the record of a part, as people name it. */
export const cellInSheet = ({ name, before }: SheetState, record: number, column: number): string =>
  cellName(name, record + (before?.records ?? 0), column);

/** The row of the whole sheet that a record of it stands in, as people are told it. */
export const rowInSheet = ({ before }: SheetState, record: number): number => sheetRow(record + (before?.records ?? 0));

export interface BookState {
  readonly title: string;
  readonly units: UnitSystem;
  /** True while plate series, strips and prices are the invented ones of the demo. */
  readonly invented: boolean;
  /**
   * Declared record sheets in their order, then Assumptions and Units (rows of Name, Value, Unit, Meaning, Source),
   * then free sheets of the user's, which have only user columns.
   */
  readonly sheets: readonly SheetState[];
  /** How the user looks at it; undefined until there is something to say. */
  readonly look?: BookLook;
}

/** A sheet of a book. Throws a programmer's error when there is none of that name. */
export function sheetOf({ sheets }: Pick<BookState, 'sheets'>, name: string): SheetState {
  const sheet = sheets.find((item) => item.name === name);
  if (sheet === undefined) throw new Error(`the book has no sheet ${name}`);
  return sheet;
}

/** What was entered into a cell; null where nothing was, or no record is. */
export const contentAt = (state: Pick<BookState, 'sheets'>, { sheet, record, column }: CellPlace): Content =>
  sheetOf(state, sheet).rows[record]?.cells[column] ?? null;

/** A state, as it comes from a file, looked at in another way. */
export const withLook = (state: BookState, look: BookLook | undefined): BookState =>
  look === undefined || look === state.look ? state : { ...state, look };

/**
 * A state from before a step, looked at as the book is now. What is written beside headers is no way to look at a book:
 * it stays as it was.
 */
export const seenAs = (state: BookState, look: BookLook | undefined): BookState =>
  withLook(state, look === undefined ? undefined : withCommentsOf(look, state.look ?? noLook));
