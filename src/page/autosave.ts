import { type DBSchema, deleteDB, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import { adaptedBook, presentColumns, type StoredColumns, storedFormat as version } from '../workbook/adapted-book.ts';
import { type BookLook, lookDamaged, readBookLook } from '../workbook/book-look.ts';
import type { BookRow, BookState, SheetState } from '../workbook/state.ts';
import { headFault, rowsFault } from '../workbook/stored-shape.ts';
import { firstBook } from './library/window-book.ts';

/**
 * A book in this browser's own store, so that a reload, a crash or a closed lid loses nothing. Each book has a store of
 * its own, and none can harm another.
 *
 * Rows are stored in runs. A state shares the rows it did not change with the one before, so a save writes only the
 * runs in which a row is another than at the last save: typing in a book of ten thousand belts stays as quick as in one
 * of ten.
 */
interface Head {
  /** The form that the book is stored in. */
  readonly version: number;
  readonly title: string;
  readonly units: BookState['units'];
  readonly invented: boolean;
  readonly sheets: readonly (Omit<SheetState, 'rows'> & { readonly rows: number })[];
  readonly look?: BookLook;
  /** The declared headers of each sheet, by which another version of the program finds its way. */
  readonly columns: StoredColumns;
  readonly at: Date;
  /** The page that saved last; another page's runs are not ours to build on. */
  readonly writer: string;
}

interface Store extends DBSchema {
  head: { key: 'book'; value: Head };
  runs: { key: [sheet: number, run: number]; value: readonly BookRow[] };
}

type Writing = IDBPTransaction<Store, ('head' | 'runs')[], 'readwrite'>;

const runLength = 100;

const runsOf = (rows: readonly BookRow[]): number => Math.ceil(rows.length / runLength);
const runAt = (rows: readonly BookRow[], run: number): readonly BookRow[] =>
  rows.slice(run * runLength, (run + 1) * runLength);

function sameRun(now: readonly BookRow[], before: readonly BookRow[] | undefined, run: number): boolean {
  if (before === undefined) return false;
  const end = (run + 1) * runLength;
  if (Math.min(now.length, end) !== Math.min(before.length, end)) return false;
  for (let row = run * runLength; row < Math.min(now.length, end); row += 1) if (now[row] !== before[row]) return false;
  return true;
}

function refuse(fault: string | undefined): void {
  if (fault !== undefined) throw new Error(fault);
}
const storeName = (id: string): string => (id === firstBook ? 'skewbook' : `skewbook ${id}`);

export interface Kept {
  readonly state: BookState;
  readonly at: Date;
  /** What the book has by another name now than when it was stored. */
  readonly told: readonly string[];
}

export class Autosave {
  readonly #store: IDBPDatabase<Store>;
  readonly #writer = crypto.randomUUID();
  #last: BookState | undefined;

  private constructor(store: IDBPDatabase<Store>) {
    this.#store = store;
  }

  static async open(id: string): Promise<Autosave> {
    return new Autosave(
      await openDB<Store>(storeName(id), 1, {
        upgrade(store) {
          store.createObjectStore('head');
          store.createObjectStore('runs');
        },
        // Another window takes this book away for good, which none does that another is changing.
        blocking: (_before, _wanted, event) => (event.target as IDBDatabase).close(),
      }),
    );
  }

  /** Takes the store of a book away, for good. */
  static async remove(id: string): Promise<void> {
    await deleteDB(storeName(id));
  }

  close(): void {
    this.#store.close();
  }

  /** Puts all that is stored into another store as it is, whether or not it can be read. */
  async copyTo(other: Autosave): Promise<void> {
    const reading = this.#store.transaction(['head', 'runs'], 'readonly');
    const [head, keys, values] = await Promise.all([
      reading.objectStore('head').get('book'),
      reading.objectStore('runs').getAllKeys(),
      reading.objectStore('runs').getAll(),
    ]);
    const writing = other.#store.transaction(['head', 'runs'], 'readwrite', { durability: 'strict' });
    await Promise.all([
      ...(head === undefined ? [] : [writing.objectStore('head').put(head, 'book')]),
      ...keys.map((key, at) => writing.objectStore('runs').put(values[at] ?? [], key)),
      writing.done,
    ]);
  }

  /** Gives the stored book another name; one of a later version is left as it is. */
  async retitle(title: string): Promise<boolean> {
    const writing = this.#store.transaction('head', 'readwrite', { durability: 'strict' });
    const head = await writing.store.get('book');
    const known = head !== undefined && head.version <= version;
    if (known) await writing.store.put({ ...head, title }, 'book');
    await writing.done;
    return known;
  }

  /** The book as it was saved last; undefined when there is none. */
  async kept(): Promise<Kept | undefined> {
    const reading = this.#store.transaction(['head', 'runs'], 'readonly');
    const head = await reading.objectStore('head').get('book');
    if (head === undefined) return undefined;
    if (head.version > version)
      throw new Error(
        `a later version of Skewbook stored it, in format ${head.version}; this version reads format ${version}`,
      );
    refuse(headFault(head));
    const sheets = await Promise.all(
      head.sheets.map(async ({ name, userColumns, rows }, sheet): Promise<SheetState> => {
        const runs = await reading.objectStore('runs').getAll(IDBKeyRange.bound([sheet, 0], [sheet, Infinity]));
        const read = runs.flat();
        if (read.length !== rows)
          throw new Error(`the sheet ${name} was stored with ${rows} rows and has ${read.length}`);
        refuse(rowsFault(name, read));
        return { name, userColumns, rows: read };
      }),
    );
    const beyond = await reading.objectStore('runs').count(IDBKeyRange.lowerBound([head.sheets.length, 0]));
    if (beyond > 0) throw new Error('it has rows of sheets that it does not name');
    const { title, units, invented, look } = head;
    const soundLook = readBookLook(look);
    const { state, told } = adaptedBook(
      { title, units, invented, sheets, ...(soundLook === undefined ? {} : { look: soundLook }) },
      head.columns,
    );
    return {
      state,
      told: lookDamaged(look, soundLook)
        ? [...told, 'Which columns are shown was stored damaged: what cannot be read is shown as at first.']
        : told,
      // The time is for the user alone: a book opens without it.
      at: head.at instanceof Date && Number.isFinite(head.at.getTime()) ? head.at : new Date(),
    };
  }

  /** All that is stored, as it is: whatever version wrote it, and whether or not it can be read. */
  async raw(): Promise<string> {
    const reading = this.#store.transaction(['head', 'runs'], 'readonly');
    const runs = reading.objectStore('runs');
    const [head, keys, values] = await Promise.all([
      reading.objectStore('head').get('book'),
      runs.getAllKeys(),
      runs.getAll(),
    ]);
    const whole = { head, runs: keys.map((key, at) => ({ key, rows: values[at] })) };
    // A damaged store may hold what a text has no form for.
    return JSON.stringify(whole, (_, value: unknown) => (typeof value === 'bigint' ? String(value) : value), 1);
  }

  /** Stores the state; returns when it was stored, and whether another page had stored its own book in between. */
  async save(state: BookState): Promise<{ readonly at: Date; readonly over: boolean }> {
    const at = new Date();
    // Saved means on disk: a store left to itself tells of it once the system has it in memory.
    const writing = this.#store.transaction(['head', 'runs'], 'readwrite', { durability: 'strict' });
    try {
      const over = await this.#write(writing, state, at);
      await writing.done;
      this.#last = state;
      return { at, over };
    } catch (error) {
      // All of it or nothing: what was asked for before the fault would be stored else.
      writing.done.catch(() => undefined);
      try {
        writing.abort();
      } catch {
        // The browser has ended it by itself.
      }
      throw error;
    }
  }

  async #write(writing: Writing, state: BookState, at: Date): Promise<boolean> {
    const runs = writing.objectStore('runs');
    const before = await writing.objectStore('head').get('book');
    const over = this.#last !== undefined && before?.writer !== this.#writer;
    const last = over || before?.writer !== this.#writer ? undefined : this.#last;
    const requests: Promise<unknown>[] = [];
    state.sheets.forEach(({ rows }, sheet) => {
      const earlier = last?.sheets[sheet]?.rows;
      if (earlier === rows) return;
      for (let run = 0; run < runsOf(rows); run += 1)
        if (!sameRun(rows, earlier, run)) requests.push(runs.put(runAt(rows, run), [sheet, run]));
      requests.push(runs.delete(IDBKeyRange.bound([sheet, runsOf(rows)], [sheet, Infinity])));
    });
    requests.push(runs.delete(IDBKeyRange.lowerBound([state.sheets.length, 0])));
    const sheets = state.sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length }));
    const { title, units, invented, look } = state;
    const head = {
      version,
      columns: presentColumns(),
      title,
      units,
      invented,
      sheets,
      ...(look === undefined ? {} : { look }),
      at,
      writer: this.#writer,
    };
    requests.push(writing.objectStore('head').put(head, 'book'));
    await Promise.all(requests);
    return over;
  }
}
