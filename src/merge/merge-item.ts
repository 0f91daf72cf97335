import type { Content } from '../formula/values.ts';
import type { CellFormat } from '../workbook/state.ts';
import type { QuantityKind } from '../units/quantities.ts';

/** One of the two books that come from the same third. */
export type Side = 'mine' | 'theirs';

export const otherOf = (side: Side): Side => (side === 'mine' ? 'theirs' : 'mine');

export type Change = 'new' | 'gone' | 'changed';

/** Something of three books: of each a fact, or where it stands there. */
export interface Three<Item> {
  readonly base: Item;
  readonly mine: Item;
  readonly theirs: Item;
}

/** Where a record, column or sheet stands in each book, -1 where it does not. */
export type Places = Three<number>;

/** A cell as a book has it. */
export interface ItemCell {
  readonly content: Content;
  readonly note?: string;
  /** How it shows its number, where it is not as its column does. */
  readonly format?: CellFormat;
  /** It holds what the user's formula for its whole column makes it. */
  readonly ruled?: true;
}

/** What one or both of two books changed. */
export interface MergeItem {
  readonly level: 'book' | 'sheet' | 'column' | 'fact' | 'record' | 'cell' | 'order' | 'view';
  /** Of an order: what is in another one. */
  readonly of?: 'records' | 'columns' | 'sheets';
  /** Of a column of the user's own: what is another of it. */
  readonly fact?: string;
  /** '' where it is of the whole book, or the order of its sheets. */
  readonly sheet: string;
  /** The record's name; '' where it is of no single one. */
  readonly record: string;
  /** The column's header, or of a view or a fact of the book how people call it; '' where it is of no single one. */
  readonly column: string;
  /** What the book `mine` made of it; absent where it left it alone. */
  readonly here?: Change;
  readonly there?: Change;
  /** Both changed it, and not alike. */
  readonly conflict: boolean;
  /** Cells, and facts of the book and of columns, as each book has them. */
  readonly cells?: Three<ItemCell>;
  readonly kind: QuantityKind;
  readonly rows: Places;
  readonly columns: Places;
}

/** Whom a planner takes an item from; undefined leaves a conflict open and else takes what was changed. */
export type Choose = (item: MergeItem) => Side | undefined;

/**
 * Whose state of an item counts: the chosen side's, else that of who changed it. An open conflict keeps what this book
 * has, and where one side took away what the other changed, it keeps that.
 */
export function sideOf(item: MergeItem, chosen: Side | undefined): Side {
  if (chosen !== undefined) return chosen;
  if (item.conflict) return item.here === 'gone' ? 'theirs' : 'mine';
  return item.here === undefined ? 'theirs' : 'mine';
}
