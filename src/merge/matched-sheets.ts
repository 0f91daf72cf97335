import { compiledSheets } from '../workbook/declared.ts';
import type { BookRow, SheetState } from '../workbook/state.ts';
import { counted } from '../units/phrases.ts';
import { alignedRows, alone, renamedRows, type RowList, settled } from './aligned-rows.ts';
import type { Places, Three } from './merge-item.ts';
import type { Orders } from './merged-order.ts';
import { ListMoves, MovedReferences, type SheetMoves } from './moved-references.ts';
import { namingColumns, recordKeys, recordName } from '../workbook/record-names.ts';

/** What stands where in three books: their sheets, records and columns, each matched with itself. */

export type Book = keyof Three<unknown>;
export const books: readonly Book[] = ['base', 'mine', 'theirs'];

/**
 * The columns of each sheet that a list has which is no whole book; of its sheets that are not named it has nothing.
 */
export type Covers = ReadonlyMap<string, ReadonlySet<string>>;

export interface MatchedColumn {
  readonly header: string;
  /** Where it stands in each book; -1 where it is not, or where a list says nothing of it. */
  readonly places: Places;
  /** The books that say nothing of it, lists that have no such column. */
  readonly silent: readonly Book[];
  readonly own: boolean;
}

export interface MatchedSheet {
  readonly name: string;
  readonly states: Three<SheetState | undefined>;
  /** Which of these come from a list, which says nothing of how its cells and own columns show numbers. */
  readonly lists: Three<boolean>;
  /** Records by a number of their own: where each stands. */
  readonly rows: readonly Places[];
  readonly rowOrders: Orders;
  readonly columns: readonly MatchedColumn[];
  readonly columnOrders: Orders;
  /** What the reader must know of how records were matched. */
  readonly told: readonly string[];
}

const widthOf = (name: string): number => compiledSheets.get(name)?.columns.length ?? 0;

/** The own columns of a sheet by what they are called; of several alike each counts for itself. */
function ownHeaders(sheet: SheetState | undefined): Map<string, number> {
  const found = new Map<string, number>();
  sheet?.userColumns.forEach(({ header }, own) => {
    const word = header.trim().toLowerCase();
    let key = word;
    for (let count = 2; found.has(key); count += 1) key = `${word}\n${count}`;
    found.set(key, widthOf(sheet.name) + own);
  });
  return found;
}

const three = <Item>(of: (book: Book) => Item): Three<Item> => ({
  base: of('base'),
  mine: of('mine'),
  theirs: of('theirs'),
});

function matchedColumns(
  name: string,
  states: Three<SheetState | undefined>,
  covers: Three<Covers | undefined>,
): { readonly columns: MatchedColumn[]; readonly orders: Orders } {
  const declared = (compiledSheets.get(name)?.columns ?? []).map(({ header }, place): MatchedColumn => ({
    header,
    places: three((book) =>
      states[book] === undefined || covers[book]?.get(name)?.has(header) === false ? -1 : place,
    ),
    silent: books.filter((book) => covers[book]?.get(name)?.has(header) === false),
    own: false,
  }));
  const own = three((book) => ownHeaders(states[book]));
  const keys = [...new Set(books.toReversed().flatMap((book) => [...own[book].keys()]))];
  const user = keys.map((key): MatchedColumn => {
    const places = three((book) => own[book].get(key) ?? -1);
    const from = (['mine', 'theirs', 'base'] as const).find((book) => places[book] >= 0) ?? 'mine';
    const header = states[from]?.userColumns[places[from] - widthOf(name)]?.header ?? key;
    return {
      header,
      places,
      // A list says nothing of a column that it lacks, but where it is told that there was none.
      silent: books.filter((book) => places[book] < 0 && covers[book]?.get(name)?.has(header) === false),
      own: true,
    };
  });
  return {
    columns: [...declared, ...user],
    orders: three((book) => [...own[book].keys()].map((key) => declared.length + keys.indexOf(key))),
  };
}

interface MatchedRows {
  readonly rows: readonly Places[];
  readonly orders: Orders;
  readonly told: readonly string[];
}

/** The two lists of a pair of books, each with the columns that both have. */
function rowLists(
  [one, other]: readonly [Book, Book],
  states: Three<SheetState | undefined>,
  columns: readonly MatchedColumn[],
): readonly [RowList, RowList] {
  const shared = columns.filter(({ places }) => places[one] >= 0 && places[other] >= 0);
  const list = (book: Book): RowList => {
    const state = states[book];
    return {
      rows: state?.rows ?? [],
      keys: state === undefined ? [] : recordKeys(state),
      columns: shared.map(({ places }) => places[book]),
      naming: state === undefined ? [] : namingColumns(state.name),
    };
  };
  return [list(one), list(other)];
}

/** Pairs of two books' rows without looking, where both have the very same ones. */
const sameRows = (one: readonly BookRow[], other: readonly BookRow[]): boolean =>
  one === other || (one.length === other.length && one.every((row, place) => row === other[place]));

/** Rows of two books by those of the first: the other's, or a mark of `aligned-rows`. */
type Partners = number[];

const rowsOf = (states: Three<SheetState | undefined>, book: Book): readonly BookRow[] => states[book]?.rows ?? [];

function inverse(images: readonly number[], count: number): Partners {
  const back = new Array<number>(count).fill(alone);
  images.forEach((image, row) => {
    if (image >= 0) back[image] = row;
  });
  return back;
}

/** The records of a sheet in three books, matched in pairs. */
class RowMatching {
  readonly told: string[] = [];
  readonly #states: Three<SheetState | undefined>;
  readonly #columns: readonly MatchedColumn[];

  constructor(states: Three<SheetState | undefined>, columns: readonly MatchedColumn[]) {
    this.#states = states;
    this.#columns = columns;
  }

  /**
   * Whether one side is the earlier book itself. Only then a record may be one that has another name now: where both
   * sides may have changed it, a guess would be another one after the merge.
   */
  get #isComparison(): boolean {
    const { base, mine, theirs } = this.#states;
    return base !== undefined && (base === mine || base === theirs);
  }

  /** The rows of `other` by those of `one`, beyond what is known already. */
  pairs(one: Book, other: Book, forth?: Partners, back?: Partners): Partners {
    const lists = rowLists([one, other], this.#states, this.#columns);
    if (forth === undefined && sameRows(lists[0].rows, lists[1].rows)) return lists[0].rows.map((_, row) => row);
    const found = alignedRows(...lists, forth, back);
    const name = this.#states[one]?.name ?? '';
    if (found.byContent > 0 && compiledSheets.has(name))
      this.told.push(
        `${name}: ${counted(found.byContent, 'record')} without a name of ${found.byContent === 1 ? 'its' : 'their'} ` +
          `own matched by contents and place`,
      );
    if (this.#isComparison)
      for (const [from, to] of renamedRows(...lists, found.forth, found.back)) this.#tellRenamed(one, from, other, to);
    return found.forth;
  }

  #tellRenamed(one: Book, from: number, other: Book, to: number): void {
    const [before, now] = [this.#states[one], this.#states[other]];
    if (before === undefined || now === undefined) return;
    this.told.push(
      `${before.name}: "${recordName(before, from)}" and "${recordName(now, to)}" differ in their name alone and are ` +
        `taken for the same record`,
    );
  }
}

function matchedRows(states: Three<SheetState | undefined>, columns: readonly MatchedColumn[]): MatchedRows {
  const matching = new RowMatching(states, columns);
  const [mine, theirs] = [matching.pairs('base', 'mine'), matching.pairs('base', 'theirs')];
  const fromMine = inverse(mine, rowsOf(states, 'mine').length);
  const fromTheirs = inverse(theirs, rowsOf(states, 'theirs').length);
  // What the earlier book has is matched through it: only new records are looked for in each other.
  const through = (base: number, other: Partners): number => {
    const partner = base < 0 ? alone : (other[base] ?? alone);
    return base >= 0 && partner < 0 ? settled : partner;
  };
  const forth = fromMine.map((base) => through(base, theirs));
  const back = fromTheirs.map((base) => through(base, mine));
  const others = forth.includes(alone) && back.includes(alone) ? matching.pairs('mine', 'theirs', forth, back) : forth;
  const taken = new Set(others.filter((row) => row >= 0));
  const rows: Places[] = [
    ...fromMine.map((base, row) => ({ base, mine: row, theirs: Math.max(-1, others[row] ?? -1) })),
    ...fromTheirs.flatMap((base, row) => (taken.has(row) ? [] : [{ base, mine: -1, theirs: row }])),
    ...rowsOf(states, 'base').flatMap((_, row) =>
      (mine[row] ?? -1) < 0 && (theirs[row] ?? -1) < 0 ? [{ base: row, mine: -1, theirs: -1 }] : [],
    ),
  ];
  const numbers = three((book) => new Array<number>(rowsOf(states, book).length).fill(-1));
  rows.forEach((places, id) => {
    for (const book of books) if (places[book] >= 0) numbers[book][places[book]] = id;
  });
  return { rows, orders: numbers, told: matching.told };
}

export function matchedSheet(
  name: string,
  states: Three<SheetState | undefined>,
  covers: Three<Covers | undefined>,
): MatchedSheet {
  const { columns, orders: columnOrders } = matchedColumns(name, states, covers);
  const { rows, orders: rowOrders, told } = matchedRows(states, columns);
  const lists = three((book) => covers[book] !== undefined);
  return { name, states, lists, rows, rowOrders, columns, columnOrders, told };
}

/** Where records and columns of one book stand in another, for its formulas. */
export function movedReferences(sheets: readonly MatchedSheet[], from: Book, to: Book): MovedReferences {
  return new MovedReferences(
    new Map(
      sheets.flatMap((sheet): [string, SheetMoves][] => {
        const state = sheet.states[from];
        if (state === undefined || sheet.states[to] === undefined) return [];
        const rows = new Array<number>(state.rows.length).fill(-1);
        for (const places of sheet.rows) if (places[from] >= 0) rows[places[from]] = places[to];
        const columns = Array.from({ length: widthOf(sheet.name) }, (_, place) => place);
        for (const { own, places } of sheet.columns) if (own && places[from] >= 0) columns[places[from]] = places[to];
        const moves = { rows: new ListMoves(rows), columns: new ListMoves(columns) };
        const records = { here: state.rows.length, there: sheet.states[to]?.rows.length ?? 0 };
        return [[sheet.name.toLowerCase(), { ...moves, ...(compiledSheets.has(sheet.name) ? { records } : {}) }]];
      }),
    ),
  );
}
