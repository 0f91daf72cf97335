import type { OwnLook } from '../../workbook/own-look.ts';

/** How a file shows its cells, as far as a book keeps it, and what else it holds that a book does not keep. */

/** Of one cell, beside its number format and its comment. */
export type RawLook = Omit<OwnLook, 'format' | 'comment'>;

/** Columns that stand side by side, counted from 1. */
interface RawColumns {
  readonly first: number;
  readonly last: number;
  /** In characters of the file's standard font. */
  readonly width?: number;
  readonly hidden?: true;
  /** Of cells that the file does not name one by one. */
  readonly look?: RawLook | undefined;
}

/** What no book keeps, by kinds. */
export const unkeptKinds = [
  'conditional formats',
  'rules for what may be entered',
  'merged cells',
  'pictures',
  'charts',
  'shapes',
  'pivot tables',
  'fills of blank cells',
  'comments',
  'other fonts and sizes',
  'turned texts',
  'row heights',
  'colours of headers',
] as const;

export type UnkeptKind = (typeof unkeptKinds)[number];

/** Something that a book does not keep, and where it stands in its sheet: "D2:D40", or '' where the file says none. */
export interface Unkept {
  readonly kind: UnkeptKind;
  readonly place: string;
}

interface PlacedLook {
  readonly row: number;
  readonly column: number;
  readonly look: RawLook;
}

interface PlacedComment {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

export interface RawSheetLook {
  readonly columns: readonly RawColumns[];
  readonly hiddenRows: ReadonlySet<number>;
  /** Of rows as a whole: it holds for the cells that the file does not name one by one. */
  readonly rows: ReadonlyMap<number, RawLook>;
  /** Rows and columns that stay in view. */
  readonly frozen: { readonly rows: number; readonly columns: number };
  /** Cells that show a colour or a line and hold nothing, and plain ones of a row or column that shows one. */
  readonly blanks: readonly PlacedLook[];
  readonly comments: readonly PlacedComment[];
  readonly unkept: readonly Unkept[];
}

export const plainSheetLook: RawSheetLook = {
  columns: [],
  hiddenRows: new Set(),
  rows: new Map(),
  frozen: { rows: 0, columns: 0 },
  blanks: [],
  comments: [],
  unkept: [],
};

/** Pixels of a screen for each character of a column's width. Source: ECMA-376 Part 1, 18.3.1.13 (width). */
export const pixelsPerCharacter = 7;
