import { belts } from '../../sheets/belts/index.ts';
import { offers } from '../../sheets/buying/offers.ts';
import { orders } from '../../sheets/buying/orders.ts';
import { shelf } from '../../sheets/buying/shelf.ts';
import { sites } from '../../sheets/buying/sites.ts';
import { suppliers } from '../../sheets/buying/suppliers.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { strips } from '../../sheets/series/strips.ts';
import { type Content, isFault, isFormula } from '../formula/values.ts';
import { isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { listed } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { convertedBook } from '../workbook/conversion.ts';
import { bookColumns } from '../workbook/declared.ts';
import type { BookRow, BookState, SheetState } from '../workbook/state.ts';
import { reviewDate, withSuppliesOf } from '../workbook/lent-sheets.ts';
import { sheetOf } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Books of several sites as one, so that they can buy together. */

/** A book with what its file is called. */
interface NamedBook {
  readonly file: string;
  readonly book: Workbook;
}

interface RowPlace {
  /** Place of its book. */
  readonly book: number;
  /** In the sheet of that book. */
  readonly record: number;
}

export interface JoinedBooks {
  readonly state: BookState;
  /** Names of the sites, in the order of the books. */
  readonly sites: readonly string[];
  /** The row of a book that a row comes from. */
  readonly placeOf: (sheet: string, record: number) => RowPlace | undefined;
  /** What a reader must know of how they were joined, a sentence each without its full stop. */
  readonly told: readonly string[];
  /** Series and strips that books say different things of: with these no order can be made. */
  readonly conflicts: readonly string[];
}

const keyColumn = ({ columns, key }: SheetDeclaration): number => columns.findIndex(({ header }) => header === key);

const keyed = (content: Content | undefined): string =>
  String(content ?? '')
    .trim()
    .toLowerCase();

/**
 * A book in values: what formulas and changed columns of another book come to holds for it alone, since the cells that
 * they refer to are elsewhere in the joined one.
 */
function inValues(book: Workbook, units: UnitSystem): BookState {
  const { state } = book;
  const valued = state.sheets.map((sheet): SheetState => {
    const own = bookColumns(sheet).findIndex((column) => column.own);
    return {
      ...sheet,
      userColumns: [],
      rows: sheet.rows.map(({ cells, notes }, record): BookRow => {
        const kept = cells.slice(0, own < 0 ? cells.length : own).map((content, column): Content => {
          if (!isFormula(content)) return content;
          const value = book.value({ sheet: sheet.name, record, column });
          return isFault(value) ? null : value;
        });
        return notes === undefined ? { cells: kept } : { cells: kept, notes };
      }),
    };
  });
  return convertedBook({ ...state, sheets: valued }, units).state;
}

/** What says nothing of a joint: who sells it, for how much. */
const ofBuying: ReadonlySet<string> = new Set(['Supplier', 'Remark']);

const same = (one: Content, other: Content): boolean =>
  typeof one === 'number' && typeof other === 'number'
    ? Math.abs(one - other) <= 1e-6 * Math.max(Math.abs(one), Math.abs(other))
    : keyed(one) === keyed(other);

const shown = (content: Content): string =>
  content === null ? 'blank' : typeof content === 'number' ? String(Number(content.toPrecision(6))) : String(content);

/** Another book whose series, suppliers, offers and assumptions count for all. */
interface Lender {
  readonly file: string;
  readonly state: BookState;
}

/** A book with what another lends, but with its own stock and open orders where it has some. */
function withSharedOf(own: BookState, other: BookState): BookState {
  const lent = withSuppliesOf(own, other);
  return {
    ...lent,
    sheets: lent.sheets.map((sheet) => {
      const kept = ([shelf.name, orders.name] as readonly string[]).includes(sheet.name)
        ? sheetOf(own, sheet.name)
        : undefined;
      return kept === undefined || kept.rows.length === 0 ? sheet : kept;
    }),
  };
}

class Joining {
  readonly #sheets: Map<string, BookRow[]>;
  readonly #places = new Map<string, RowPlace[]>();
  readonly #sites: string[] = [];
  readonly #files: string[] = [];
  readonly told: string[] = [];
  readonly conflicts: string[] = [];

  /** What the joined book takes prices, assumptions and series from. */
  readonly #shared: string;
  readonly #compare: boolean;
  readonly #base: BookState;

  constructor({ file, book: { state: own } }: NamedBook, lender: Lender | undefined) {
    this.#files.push(file);
    this.#shared = lender?.file ?? file;
    this.#compare = lender === undefined;
    this.#base = lender === undefined ? own : withSharedOf(own, lender.state);

    this.#sheets = new Map(this.#base.sheets.map(({ name, rows }) => [name, [...rows]]));
    for (const [name, rows] of this.#sheets)
      this.#places.set(
        name,
        rows.map((_, record) => ({ book: 0, record })),
      );
    this.#sites.push(this.#siteName(own, file));
  }

  /** A site's own name, or the file's where it has none or another site has it. */
  #siteName(state: BookState, file: string): string {
    const own = String(sheetOf(state, sites.name).rows[0]?.cells[keyColumn(sites)] ?? '').trim();
    const title = state.title === '' ? file : state.title;
    const named = own === '' ? title : own;
    if (!this.#sites.includes(named)) return named;
    const byTitle = `${named} (${title})`;
    return this.#sites.includes(byTitle) ? `${named} (${this.#files.length})` : byTitle;
  }

  #rows(sheet: string): BookRow[] {
    return this.#sheets.get(sheet) ?? [];
  }

  #add(sheet: string, row: BookRow, place: RowPlace): void {
    this.#rows(sheet).push(row);
    this.#places.get(sheet)?.push(place);
  }

  /** Adds rows whose names must differ from all that are there: one that is taken gets its site behind it. */
  #named(declaration: SheetDeclaration, state: BookState, book: number): Map<string, string> {
    const column = keyColumn(declaration);
    const taken = new Set(this.#rows(declaration.name).map(({ cells }) => keyed(cells[column])));
    const renamed = new Map<string, string>();
    sheetOf(state, declaration.name).rows.forEach((row, record) => {
      const name = row.cells[column] ?? null;
      if (name === null || !taken.has(keyed(name))) {
        this.#add(declaration.name, row, { book, record });
        return;
      }
      const other = `${String(name).trim()} (${this.#sites[book] ?? ''})`;
      renamed.set(keyed(name), other);
      this.#add(declaration.name, { ...row, cells: row.cells.with(column, other) }, { book, record });
    });
    return renamed;
  }

  /** Adds series or strips that are not there yet, and compares those that are. */
  #parts(declaration: SheetDeclaration, state: BookState, book: number): void {
    const column = keyColumn(declaration);
    sheetOf(state, declaration.name).rows.forEach((row, record) => {
      const name = keyed(row.cells[column]);
      if (name === '') return;
      const known = this.#rows(declaration.name).find(({ cells }) => keyed(cells[column]) === name);
      if (known === undefined) {
        this.#add(declaration.name, row, { book, record });
        return;
      }
      if (!this.#compare) return;
      declaration.columns.forEach((declared, index) => {
        if (isComputed(declared) || declared.kind === 'money' || ofBuying.has(declared.header)) return;
        const [there, here] = [known.cells[index] ?? null, row.cells[index] ?? null];
        if (!same(there, here))
          this.conflicts.push(
            `${declaration.name}, ${shown(row.cells[column] ?? null)}: ${declared.header} is ${shown(there)} in ` +
              `${this.#files[0] ?? ''} and ${shown(here)} in ${this.#files[book] ?? ''}`,
          );
      });
    });
  }

  /** What another book has and the joined one does not take. */
  #unused(state: BookState, file: string): void {
    const counts = ([offers, suppliers] as const).flatMap(({ name, record }) => {
      const number = sheetOf(state, name).rows.length;
      return number === 0 ? [] : [counted(number, record)];
    });
    if (counts.length > 0)
      this.told.push(
        `${listed(counts)} of ${file} ${counts.length === 1 && counts[0]?.startsWith('1 ') === true ? 'is' : 'are'} ` +
          `not used: prices are those of ${this.#shared}`,
      );
    const [theirs, ours] = [state, this.#base].map((one) => sheetOf(one, 'Assumptions').rows);
    const other = (theirs ?? []).flatMap(({ cells }) => {
      const own = ours?.find((row) => row.cells[0] === cells[0]);
      return own === undefined || cells[0] === reviewDate || same(own.cells[1] ?? null, cells[1] ?? null)
        ? []
        : [String(cells[0])];
    });
    if (other.length > 0)
      this.told.push(`${file} assumes otherwise: ${listed(other)}; those of ${this.#shared} are used`);
  }

  add({ file, book }: NamedBook): void {
    const state = inValues(book, this.#base.units);
    const place = this.#files.length;
    this.#files.push(file);
    this.#sites.push(this.#siteName(state, file));
    this.#parts(plateSeries, state, place);
    this.#parts(strips, state, place);
    this.#unused(state, file);
    const renamed = this.#named(belts, state, place);
    const ofBelt = pulleys.columns.findIndex(({ header }) => header === 'Belt');
    sheetOf(state, pulleys.name).rows.forEach((row, record) => {
      const belt = renamed.get(keyed(row.cells[ofBelt]));
      this.#add(pulleys.name, belt === undefined ? row : { ...row, cells: row.cells.with(ofBelt, belt) }, {
        book: place,
        record,
      });
    });
    this.#named(shelf, state, place);
    this.#named(orders, state, place);
    const [site] = sheetOf(state, sites.name).rows;
    if (site !== undefined)
      this.#add(
        sites.name,
        { ...site, cells: site.cells.with(keyColumn(sites), this.#sites[place] ?? null) },
        { book: place, record: 0 },
      );
    const again = [...renamed.values()];
    if (again.length > 0)
      this.told.push(
        `${counted(again.length, 'belt')} of ${file} ${again.length === 1 ? 'has a name' : 'have names'} of another ` +
          `book: ${again.slice(0, 5).join(', ')}${again.length > 5 ? ` and ${again.length - 5} more` : ''}`,
      );
  }

  get joined(): JoinedBooks {
    return {
      state: {
        ...this.#base,
        sheets: this.#base.sheets.map((sheet) => ({ ...sheet, rows: this.#sheets.get(sheet.name) ?? sheet.rows })),
      },
      sites: this.#sites,
      placeOf: (sheet, record) => this.#places.get(sheet)?.[record],
      told: this.told,
      conflicts: this.conflicts,
    };
  }
}

/**
 * Books as one: belts, pulleys, shelf, open orders and sites of all; plate series and strips of all; all else, such as
 * suppliers, offers and assumptions, of the first book, or of the lender where there is one.
 *
 * In units of the first. Formulas of the other books are taken as the values that they come to there, and columns of
 * their own are left behind.
 */
export function joinedBooks([first, ...others]: readonly [NamedBook, ...NamedBook[]], lender?: Lender): JoinedBooks {
  const joining = new Joining(first, lender);
  for (const other of others) joining.add(other);
  return joining.joined;
}
