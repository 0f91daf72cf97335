import type { UnitSystem } from '../units/quantities.ts';
import { type BookLook, noLook } from '../workbook/book-look.ts';
import { convertedBook } from '../workbook/conversion.ts';
import { compiledSheets, namedSheetOf } from '../workbook/declared.ts';
import type { BookState, SheetState } from '../workbook/state.ts';
import { counted } from '../units/phrases.ts';
import { type Book, books, type Covers, matchedSheet, type MatchedSheet } from './matched-sheets.ts';
import { withoutUnusedColumns } from './unused-columns.ts';
import type { Change, MergeItem, Three } from './merge-item.ts';
import { orderChange, type Orders } from './merged-order.ts';
import { type Looks, viewItems } from './merged-views.ts';
import { SheetComparison, type SheetPlan } from './sheet-comparison.ts';

/** A book to be merged. */
export interface MergeBook {
  readonly state: BookState;
  /** The columns that it says something of, by sheet; absent for a whole book. */
  readonly covers?: Covers;
}

/** Two books and what both come from, with all that either changed. */
export interface MergePlan {
  readonly units: UnitSystem;
  /** In the units of the result. */
  readonly states: Three<BookState>;
  readonly sheets: readonly MatchedSheet[];
  /** By sheet, where its records and columns are compared. */
  readonly plans: ReadonlyMap<string, SheetPlan>;
  readonly sheetOrders: Orders;
  readonly looks: Looks;
  readonly items: readonly MergeItem[];
  /** What the reader must know of how the books were compared. */
  readonly told: readonly string[];
}

const nowhere = { base: -1, mine: -1, theirs: -1 };

/** A book's own units; undefined for a list, which says nothing of those of a book. */
const unitsOf = ({ state, covers }: MergeBook): UnitSystem | undefined =>
  covers === undefined ? state.units : undefined;

/** The units of the result: those of the side that changed them. */
function mergedUnits({ base, mine, theirs }: Three<MergeBook>): UnitSystem {
  const before = unitsOf(base) ?? unitsOf(mine) ?? theirs.state.units;
  const here = unitsOf(mine) ?? before;
  return here === before ? (unitsOf(theirs) ?? before) : here;
}

/** Sheets that a list does not hold, as the books beside it have them: it says nothing of these. */
function completedStates(given: Three<MergeBook>, states: Three<BookState>): Three<BookState> {
  const silent = (book: Book, name: string): boolean =>
    given[book].covers !== undefined && given[book].covers?.has(name) !== true;
  const completed = (book: Book, others: readonly Book[]): BookState => {
    const { covers } = given[book];
    if (covers === undefined) return states[book];
    const names = [...new Set(books.flatMap((other) => states[other].sheets.map(({ name }) => name)))];
    return {
      ...states[book],
      sheets: names.flatMap((name): SheetState[] => {
        const from = silent(book, name)
          ? others.find((other) => !silent(other, name) && (book !== 'base' || silent('theirs', name)))
          : book;
        return states[from ?? book].sheets.filter((sheet) => sheet.name === name);
      }),
    };
  };
  // Where neither list says anything of a sheet, neither changed it.
  return {
    base: completed('base', given.theirs.covers === undefined ? [] : ['mine']),
    mine: completed('mine', ['base', 'theirs']),
    theirs: completed('theirs', ['base', 'mine']),
  };
}

const key = (name: string): string => name.toLowerCase();

/** Sheets of all books, matched by their names without case; those of a list that has none of it are not there. */
function matchedSheets(given: Three<MergeBook>, states: Three<BookState>): MatchedSheet[] {
  const names = [...new Set(books.toReversed().flatMap((book) => states[book].sheets.map(({ name }) => key(name))))];
  return names.flatMap((wanted): MatchedSheet[] => {
    const of = (book: Book): SheetState | undefined => states[book].sheets.find(({ name }) => key(name) === wanted);
    const found = { base: of('base'), mine: of('mine'), theirs: of('theirs') };
    const name = (found.mine ?? found.theirs ?? found.base)?.name;
    const covers = { base: given.base.covers, mine: given.mine.covers, theirs: given.theirs.covers };
    return name === undefined ? [] : [matchedSheet(name, found, coversOf(covers, name))];
  });
}

/** A sheet that stands in for a list's own is whole. */
function coversOf(covers: Three<Covers | undefined>, sheet: string): Three<Covers | undefined> {
  const of = (book: Book): Covers | undefined => (covers[book]?.has(sheet) === true ? covers[book] : undefined);
  return { base: of('base'), mine: of('mine'), theirs: of('theirs') };
}

function sheetOrders(states: Three<BookState>, sheets: readonly MatchedSheet[]): Orders {
  const numbers = new Map(sheets.map(({ name }, number) => [key(name), number]));
  const of = (book: Book): number[] => states[book].sheets.flatMap(({ name }) => numbers.get(key(name)) ?? []);
  return { base: of('base'), mine: of('mine'), theirs: of('theirs') };
}

const changes = (here: Change | undefined, there: Change | undefined): Pick<MergeItem, 'here' | 'there'> => ({
  ...(here === undefined ? {} : { here }),
  ...(there === undefined ? {} : { there }),
});

/** The order of records, columns or sheets as an item; none where nobody changed it. */
function orderItem(orders: Orders, of: NonNullable<MergeItem['of']>, sheet: string): MergeItem[] {
  const { here, there, conflict } = orderChange(orders);
  if (!here && !there) return [];
  const item = {
    level: 'order',
    of,
    sheet,
    record: '',
    column: '',
    kind: 'text',
    rows: nowhere,
    columns: nowhere,
  } as const;
  return [{ ...item, ...changes(here ? 'changed' : undefined, there ? 'changed' : undefined), conflict }];
}

/** Facts of the whole book. */
function factItems(given: Three<MergeBook>): MergeItem[] {
  const facts = {
    title: ({ state }: MergeBook) => state.title,
    'unit system': ({ state }: MergeBook) => (state.units === 'us' ? 'US customary' : 'metric'),
    'invented figures': ({ state }: MergeBook) => (state.invented ? 'yes' : 'no'),
  };
  return Object.entries(facts).flatMap(([column, fact]): MergeItem[] => {
    const mine = given.mine.covers === undefined ? fact(given.mine) : undefined;
    const theirs = given.theirs.covers === undefined ? fact(given.theirs) : undefined;
    const base = (given.base.covers === undefined ? fact(given.base) : mine) ?? theirs ?? '';
    const [here, there] = [mine !== undefined && mine !== base, theirs !== undefined && theirs !== base];
    if (!here && !there) return [];
    return [
      {
        level: 'book',
        sheet: '',
        record: '',
        column,
        ...changes(here ? 'changed' : undefined, there ? 'changed' : undefined),
        conflict: here && there && mine !== theirs,
        cells: { base: { content: base }, mine: { content: mine ?? base }, theirs: { content: theirs ?? base } },
        kind: 'text',
        rows: nowhere,
        columns: nowhere,
      },
    ];
  });
}

/** How each book is looked at; undefined for a list, which does not say. */
function looksOf(given: Three<MergeBook>): Looks {
  const of = ({ state, covers }: MergeBook): BookLook | undefined =>
    covers === undefined ? (state.look ?? noLook) : undefined;
  return { base: of(given.base), mine: of(given.mine), theirs: of(given.theirs) };
}

/** Whether a sheet is set by the book's units alone. */
const isSetByUnits = (name: string): boolean => namedSheetOf(name)?.editable === false;

/** A sheet that one book added or took away. */
function sheetItem(sheet: MatchedSheet, comparison: SheetComparison): MergeItem[] {
  const { base, mine, theirs } = sheet.states;
  const change = (side: SheetState | undefined): Change | undefined =>
    base === undefined ? (side === undefined ? undefined : 'new') : side === undefined ? 'gone' : undefined;
  const [here, there] = [change(mine), change(theirs)];
  if (here === undefined && there === undefined) return [];
  const conflict =
    (here === 'gone' && there === undefined && comparison.changes('theirs')) ||
    (there === 'gone' && here === undefined && comparison.changes('mine'));
  const item = { level: 'sheet', sheet: sheet.name, record: '', column: '', kind: 'text' } as const;
  const kept = {
    ...(here === undefined && conflict ? { here: 'changed' as const } : {}),
    ...(there === undefined && conflict ? { there: 'changed' as const } : {}),
  };
  return [{ ...item, ...changes(here, there), ...kept, conflict, rows: nowhere, columns: nowhere }];
}

/** The books in the units of the result, and what a change of units leaves to the reader. */
function converted(
  given: Three<MergeBook>,
  units: UnitSystem,
): { readonly states: Three<BookState>; readonly told: string[] } {
  const known = new Map<BookState, ReturnType<typeof convertedBook>>();
  const of = (book: Book): BookState => {
    const { state } = given[book];
    const made = known.get(state) ?? convertedBook(state, units);
    known.set(state, made);
    return made.state;
  };
  const states = { base: of('base'), mine: of('mine'), theirs: of('theirs') };
  const changed = [...known].filter(([before, { state }]) => before !== state);
  const left = changed.reduce((count, [, { review }]) => count + review.length, 0);
  const told = [
    `The books are not all in the same units: they are compared in ${units === 'us' ? 'US customary' : 'metric'} ones` +
      (left === 0 ? '.' : `; ${counted(left, 'cell')} with numbers of a unit that is not known stay as they are.`),
  ];
  return { states, told: changed.length === 0 ? [] : told };
}

/**
 * What two books changed since a third that both come from.
 *
 * Records are matched by their names, own columns by their headers, sheets by their names; values compare in the same
 * units, formulas by the cells that they lead to. A list counts only where it has columns.
 */
export function mergePlan(whole: Three<MergeBook>): MergePlan {
  const given = withoutUnusedColumns(whole);
  const units = mergedUnits(given);
  const { states: inUnits, told } = converted(given, units);
  const states = completedStates(given, inUnits);
  const sheets = matchedSheets(given, states);
  const noise = books.some((book) => given[book].state.units !== units);
  const compared = sheets.filter(({ name }) => !isSetByUnits(name));
  const comparisons = compared.map((sheet) => new SheetComparison(sheet, sheets, units, noise));
  const orders = sheetOrders(states, sheets);
  const looks = looksOf(given);
  const plans = comparisons.map((comparison): [string, SheetPlan] => [comparison.sheet.name, comparison.plan()]);
  return {
    units,
    states,
    sheets,
    plans: new Map(plans),
    sheetOrders: orders,
    looks,
    items: [
      ...factItems(given),
      ...viewItems(looks),
      ...orderItem(orders, 'sheets', ''),
      ...comparisons.flatMap((comparison, at) => {
        const { sheet } = comparison;
        const twoSided = sheet.states.mine !== undefined && sheet.states.theirs !== undefined;
        return [
          ...(compiledSheets.has(sheet.name) ? [] : sheetItem(sheet, comparison)),
          ...(twoSided
            ? [
                ...orderItem(sheet.rowOrders, 'records', sheet.name),
                ...orderItem(sheet.columnOrders, 'columns', sheet.name),
                ...(plans[at]?.[1].items ?? []),
              ]
            : []),
        ];
      }),
    ],
    told: [...new Set([...told, ...sheets.flatMap((sheet) => sheet.told)])],
  };
}
