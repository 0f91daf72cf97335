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
  readonly underline?: true;
  /** Struck through, as what is out of service often is. */
  readonly struck?: true;
  /** "left", "center" or "right", where the file says so; with how far it is moved in: "left 2". */
  readonly align?: string;
  /** "top" or "middle"; at the bottom otherwise. */
  readonly vertical?: string;
  readonly wrap?: true;
  /** Lines heavier than a list's thin ones: "top medium, bottom double C00000"; without a colour they are black. */
  readonly borders?: string;
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

const borderSides = ['top', 'right', 'bottom', 'left'] as const;
const borderStyles = ['medium', 'thick', 'double'] as const;

export interface BorderLine {
  readonly side: (typeof borderSides)[number];
  readonly style: (typeof borderStyles)[number];
  /** Six hexadecimal digits. */
  readonly color: string;
}

const oneLine = /^(top|right|bottom|left) (medium|thick|double)(?: ([0-9A-F]{6}))?$/;

/** The lines that a look's text names; undefined when it is none. */
export function borderLines(borders: string): readonly BorderLine[] | undefined {
  const lines = borders.split(', ').map((text): BorderLine | undefined => {
    const [, first, second, color = '000000'] = oneLine.exec(text) ?? [];
    const side = borderSides.find((name) => name === first);
    const style = borderStyles.find((name) => name === second);
    return side === undefined || style === undefined ? undefined : { side, style, color };
  });
  const whole = lines.filter((line) => line !== undefined);
  return whole.length === lines.length ? whole : undefined;
}

/** Lines as the text of a look; undefined when there are none. */
export function bordersText(lines: readonly BorderLine[]): string | undefined {
  const texts = borderSides.flatMap((side) => {
    const line = lines.find((one) => one.side === side);
    return line === undefined ? [] : [`${side} ${line.style}${line.color === '000000' ? '' : ` ${line.color}`}`];
  });
  return texts.length === 0 ? undefined : texts.join(', ');
}

const isTrue = (value: unknown): boolean => value === true;
const isColor = (value: unknown): boolean => typeof value === 'string' && /^[0-9A-F]{6}$/.test(value);
const isText = (value: unknown): boolean => typeof value === 'string' && value !== '';

/** What each part of a look may be. */
const parts: Readonly<Record<keyof OwnLook, (value: unknown) => boolean>> = {
  fill: isColor,
  color: isColor,
  bold: isTrue,
  italic: isTrue,
  underline: isTrue,
  struck: isTrue,
  align: (value) => typeof value === 'string' && /^(?:left|center|right)(?: \d{1,2})?$/.test(value),
  vertical: (value) => value === 'top' || value === 'middle',
  wrap: isTrue,
  borders: (value) => typeof value === 'string' && borderLines(value) !== undefined,
  format: isText,
  comment: isText,
};

const partNames = Object.keys(parts) as readonly (keyof OwnLook)[];

const known = new Map<string, OwnLook>();
const mostKnown = 10_000;

/**
 * One object for all looks that are the same: a list has a handful for ten thousand cells. Undefined for a plain one.
 */
export function sharedLook(look: OwnLook): OwnLook | undefined {
  if (partNames.every((part) => look[part] === undefined)) return undefined;
  const key = JSON.stringify(partNames.map((part) => look[part]));
  const same = known.get(key);
  if (same !== undefined) return same;
  if (known.size < mostKnown && look.comment === undefined) known.set(key, look);
  return look;
}

export const sameLook = (one: OwnLook | undefined, other: OwnLook | undefined): boolean =>
  one === other || (one !== undefined && other !== undefined && partNames.every((part) => one[part] === other[part]));

/** A look from a file that anybody may have changed; what is no look is left out. */
export function readLook(value: unknown): OwnLook | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const given = value as Readonly<Record<string, unknown>>;
  const some = partNames.filter((part) => Object.hasOwn(given, part) && parts[part](given[part]));
  // Each part was just held to what it may be.
  return sharedLook(Object.fromEntries(some.map((part) => [part, given[part]])) as OwnLook);
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
