/**
 * How the columns of a sheet are shown: which, in what order, how wide. It goes by headers, so it holds over other
 * versions of the program; a header that there is no more is passed over. Nothing that is computed depends on it.
 */
export interface ColumnLayout {
  /** The view that was chosen last; '' where the sheet has none. */
  readonly view: string;
  /** What is shown, in this order; 'all' for every column but the intermediate ones. */
  readonly headers: readonly string[] | 'all';
  /** With 'all', whether the intermediate columns are shown too. */
  readonly intermediate: boolean;
  /** Groups of columns that are folded away. */
  readonly folded: readonly string[];
  /** Columns that the user has drawn to a width, in CSS pixels. */
  readonly widths: Readonly<Record<string, number>>;
  /** What somebody wrote beside the headers. */
  readonly comments?: Readonly<Record<string, string>> | undefined;
  /** Columns that stay in view at the left. */
  readonly frozen: number;
  /** Columns that the user's file hides: shown only where a view names them, and hidden in files. */
  readonly away?: readonly string[] | undefined;
  /** Rows that stay in view in files, their headers included; 1 where it is not said. */
  readonly frozenRows?: number | undefined;
  /** The sheet is hidden in files. */
  readonly hidden?: true | undefined;
  readonly sort?: { readonly header: string; readonly descending: boolean } | undefined;
}

/** A view that the user has put together and named. */
export interface OwnView {
  readonly sheet: string;
  readonly name: string;
  readonly layout: ColumnLayout;
}

/** How a book is looked at. It is kept with the book and is no part of what can be undone. */
export interface BookLook {
  readonly layouts: Readonly<Record<string, ColumnLayout>>;
  readonly views: readonly OwnView[];
}

export const noLook: BookLook = { layouts: {}, views: [] };

/** The layout of a sheet, which may be called as what every object has, such as "constructor". */
export const layoutIn = ({ layouts }: BookLook, sheet: string): ColumnLayout | undefined =>
  Object.hasOwn(layouts, sheet) ? layouts[sheet] : undefined;

/** The width that a column was drawn to, whatever it is called. */
export const widthIn = ({ widths }: ColumnLayout, header: string): number | undefined =>
  Object.hasOwn(widths, header) ? widths[header] : undefined;

/** What somebody wrote beside a column's header, whatever it is called. */
export const commentIn = ({ comments = {} }: ColumnLayout, header: string): string | undefined =>
  Object.hasOwn(comments, header) ? comments[header] : undefined;

/** A look with what another one has written beside headers. */
export function withCommentsOf(look: BookLook, other: BookLook): BookLook {
  const written = ({ layouts }: BookLook): boolean =>
    Object.values(layouts).some(({ comments }) => comments !== undefined);
  if (other === look || (!written(look) && !written(other))) return look;
  const layouts = Object.entries(look.layouts).map(([sheet, layout]) => {
    const { comments: _, ...bare } = layout;
    const comments = layoutIn(other, sheet)?.comments;
    return [sheet, comments === undefined ? bare : { ...bare, comments }] as const;
  });
  const others = Object.entries(other.layouts).filter(
    ([sheet, { comments }]) => comments !== undefined && layoutIn(look, sheet) === undefined,
  );
  return { ...look, layouts: Object.fromEntries([...layouts, ...others]) };
}

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const texts = (value: unknown): string[] =>
  Array.isArray(value) ? value.filter((item): item is string => typeof item === 'string') : [];

const countOf = (value: unknown, most: number): number | undefined =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= most ? value : undefined;

/** Pixels that a column may be wide. */
const widest = 2000;
const mostFrozen = 100;

/** A layout as a file says it, of which anybody may have changed anything; what can't be is left out. */
export function readLayout(value: unknown): ColumnLayout | undefined {
  if (!isFields(value)) return undefined;
  const { view, headers, intermediate, folded, widths, comments, frozen, away, frozenRows, hidden, sort } = value;
  const written = Object.entries(isFields(comments) ? comments : {}).filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string' && entry[1] !== '',
  );
  const rows = countOf(frozenRows, mostFrozen);
  const hiddenHeaders = texts(away);
  return {
    view: typeof view === 'string' ? view : '',
    headers: Array.isArray(headers) ? texts(headers) : 'all',
    intermediate: intermediate === true,
    folded: texts(folded),
    widths: Object.fromEntries(
      Object.entries(isFields(widths) ? widths : {}).filter(
        (entry): entry is [string, number] => typeof entry[1] === 'number' && entry[1] > 0 && entry[1] <= widest,
      ),
    ),
    ...(written.length === 0 ? {} : { comments: Object.fromEntries(written) }),
    frozen: countOf(frozen, mostFrozen) ?? 0,
    ...(hiddenHeaders.length === 0 ? {} : { away: hiddenHeaders }),
    ...(rows === undefined ? {} : { frozenRows: rows }),
    ...(hidden === true ? { hidden } : {}),
    ...(isFields(sort) && typeof sort['header'] === 'string'
      ? { sort: { header: sort['header'], descending: sort['descending'] === true } }
      : {}),
  };
}

/** How a stored book is looked at, as far as it can be read; undefined for what is none: a book opens without it. */
export function readBookLook(value: unknown): BookLook | undefined {
  if (!isFields(value) || !isFields(value['layouts']) || !Array.isArray(value['views'])) return undefined;
  const layouts = Object.entries(value['layouts']).flatMap(([sheet, kept]): [string, ColumnLayout][] => {
    const layout = readLayout(kept);
    return layout === undefined ? [] : [[sheet, layout]];
  });
  const views = value['views'].flatMap((view: unknown): OwnView[] => {
    if (!isFields(view) || typeof view['sheet'] !== 'string' || typeof view['name'] !== 'string') return [];
    const layout = readLayout(view['layout']);
    return layout === undefined ? [] : [{ sheet: view['sheet'], name: view['name'], layout }];
  });
  return { layouts: Object.fromEntries(layouts), views };
}

/** Whether all that is said in a value stands in another too; what says nothing may be left out. */
function saysAll(stored: unknown, read: unknown): boolean {
  if (stored === undefined || Object.is(stored, read)) return true;
  if (read === undefined) return stored === false || (Array.isArray(stored) && stored.length === 0);
  if (typeof stored !== 'object' || stored === null || typeof read !== 'object' || read === null) return false;
  return Object.entries(stored).every(([key, value]) =>
    saysAll(value, Object.hasOwn(read, key) ? (read as Fields)[key] : undefined),
  );
}

/** Whether something of a stored look could not be read. */
export const lookDamaged = (stored: unknown, read: BookLook | undefined): boolean => !saysAll(stored, read);
