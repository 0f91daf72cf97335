import type { CellPlace } from './place.ts';

/**
 * How the user's own file shows a cell: it comes along with the list, is written into exported books and shown on the
 * page. Nothing that is computed depends on it.
 */
export interface OwnLook {
  /** Colours are six hexadecimal digits; what is black on white has none. */
  readonly fill?: string;
  readonly color?: string;
  readonly bold?: true;
  readonly italic?: true;
  /** Code of its number format. */
  readonly format?: string;
  /** What somebody wrote beside the cell. */
  readonly comment?: string;
}

/** How the user's file shows a cell of a book. */
export const ownLookAt = (
  book: { readonly sheet: (name: string) => { readonly rows: readonly { readonly looks?: RowLooks }[] } },
  { sheet, record, column }: CellPlace,
): OwnLook | undefined => book.sheet(sheet).rows[record]?.looks?.[column];

/** Looks of a row's cells, by column. */
export type RowLooks = Readonly<Record<number, OwnLook>>;

const known = new Map<string, OwnLook>();
const mostKnown = 10_000;

/**
 * One object for all looks that are the same: a list has a handful for ten thousand cells. Undefined for a plain one.
 */
export function sharedLook(look: OwnLook): OwnLook | undefined {
  const { fill, color, bold, italic, format, comment } = look;
  const key = JSON.stringify([fill, color, bold, italic, format, comment]);
  if (key === '[null,null,null,null,null,null]') return undefined;
  const same = known.get(key);
  if (same !== undefined) return same;
  if (known.size < mostKnown && comment === undefined) known.set(key, look);
  return look;
}

export const sameLook = (one: OwnLook | undefined, other: OwnLook | undefined): boolean =>
  one === other ||
  (one !== undefined &&
    other !== undefined &&
    one.fill === other.fill &&
    one.color === other.color &&
    one.bold === other.bold &&
    one.italic === other.italic &&
    one.format === other.format &&
    one.comment === other.comment);

const isColor = (value: unknown): value is string => typeof value === 'string' && /^[0-9A-F]{6}$/.test(value);
const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';

/** A look from a file that anybody may have changed; what is no look is left out. */
export function readLook(value: unknown): OwnLook | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { fill, color, bold, italic, format, comment } = value as Readonly<Record<string, unknown>>;
  return sharedLook({
    ...(isColor(fill) ? { fill } : {}),
    ...(isColor(color) ? { color } : {}),
    ...(bold === true ? { bold } : {}),
    ...(italic === true ? { italic } : {}),
    ...(isText(format) ? { format } : {}),
    ...(isText(comment) ? { comment } : {}),
  });
}

/** A row's looks or notes with each at the column where its cell stands now; undefined when none is left. */
export function movedByColumn<Item>(
  items: Readonly<Record<number, Item>> | undefined,
  moved: (column: number) => number | undefined,
): Readonly<Record<number, Item>> | undefined {
  if (items === undefined) return undefined;
  const entries = Object.entries(items).flatMap(([column, item]): [number, Item][] => {
    const to = moved(Number(column));
    return to === undefined ? [] : [[to, item]];
  });
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}
