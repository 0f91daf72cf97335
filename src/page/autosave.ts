import { deleteDB, type IDBPDatabase, openDB } from 'idb';
import { adaptedBook, presentColumns, type StoredColumns, storedFormat as version } from '../workbook/adapted-book.ts';
import { lookDamaged, readBookLook } from '../workbook/book-look.ts';
import type { BookRow, BookState, SheetState } from '../workbook/state.ts';
import { headFault, rowsFault } from '../workbook/stored-shape.ts';
import { type FirstLook, readFirstLook } from './first-look.ts';
import { enteredLook } from './first-texts.ts';
import { firstBook } from './library/window-book.ts';
import {
  changedRuns,
  type Head,
  headOf,
  readRows,
  refuse,
  runAt,
  runsOf,
  type Store,
  type Writing,
} from './stored-runs.ts';

/** Whether the program has the columns that a book was stored with. */
const sameColumns = (columns: StoredColumns): boolean => JSON.stringify(columns) === JSON.stringify(presentColumns());

/** Runs that are stored together: some milliseconds of copying. */
const mostAtOnce = 8;

const storeName = (id: string): string => (id === firstBook ? 'skewbook' : `skewbook ${id}`);

export interface Kept {
  readonly state: BookState;
  readonly at: Date;
  /** What the book has by another name now than when it was stored. */
  readonly told: readonly string[];
  /** The page has worked it out in these columns before: it need not be tried first. */
  readonly worked: boolean;
}

/** What can be shown of a stored book before all of it is read. */
interface KeptLook {
  readonly title: string;
  readonly look: FirstLook;
  /** Rows of the book, all sheets together. */
  readonly rows: number;
}

/**
 * A book in this browser's own store, so that a reload, a crash or a closed lid loses nothing. Each book has a store of
 * its own, and none can harm another.
 *
 * Rows are stored in runs. A state shares the rows it did not change with the one before, so a save writes only the
 * runs in which a row is another than at the last save: typing in a book of ten thousand belts stays as quick as in one
 * of ten.
 */
export class Autosave {
  readonly #store: IDBPDatabase<Store>;
  readonly #writer = crypto.randomUUID();
  #last: BookState | undefined;
  /** What was read of the store, run for run as it stands there, and by whose save. */
  #read: (Pick<Head, 'at' | 'writer'> & { readonly sheets: readonly SheetState[] }) | undefined;

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

  /** The first rows of the book as it was saved last; undefined when there is none that can be read. */
  async firstLook(): Promise<KeptLook | undefined> {
    const reading = this.#store.transaction(['head', 'runs'], 'readonly');
    const head = await reading.objectStore('head').get('book');
    const [first] = headFault(head) === undefined ? (head?.sheets ?? []) : [];
    if (head === undefined || first === undefined || head.version > version) return undefined;
    const rows = head.sheets.reduce((sum, sheet) => sum + sheet.rows, 0);
    const seen = readFirstLook(head.seen);
    if (seen !== undefined) return { title: head.title, look: seen, rows };
    const run: readonly unknown[] = (await reading.objectStore('runs').get([0, 0])) ?? [];
    if (!sameColumns(head.columns) || rowsFault(first.name, run) !== undefined) return undefined;
    const sheet = { ...first, rows: run as readonly BookRow[] };
    return { title: head.title, look: enteredLook(sheet, head), rows };
  }

  /**
   * The book as it was saved last; undefined when there is none. Says how many rows have been read, in all and of how
   * many.
   */
  async kept(read: (rows: number, of: number) => void = () => undefined): Promise<Kept | undefined> {
    const reading = this.#store.transaction(['head', 'runs'], 'readonly');
    const head = await reading.objectStore('head').get('book');
    if (head === undefined) return undefined;
    if (head.version > version)
      throw new Error(
        `a later version of Skewbook stored it, in format ${head.version}; this version reads format ${version}`,
      );
    refuse(headFault(head));
    const of = head.sheets.reduce((sum, { rows }) => sum + rows, 0);
    const sheets: SheetState[] = [];
    let [before, allInRuns] = [0, true];
    for (const [sheet, { name, userColumns, rows }] of head.sheets.entries()) {
      const { rows: found, inRuns } = await readRows(reading, sheet, name, (count) => read(before + count, of));
      allInRuns &&= inRuns;
      if (found.length !== rows)
        throw new Error(`the sheet ${name} was stored with ${rows} rows and has ${found.length}`);
      sheets.push({ name, userColumns, rows: found });
      before += rows;
    }
    const beyond = await reading.objectStore('runs').count(IDBKeyRange.lowerBound([head.sheets.length, 0]));
    if (beyond > 0) throw new Error('it has rows of sheets that it does not name');
    if (allInRuns) this.#read = { at: head.at, writer: head.writer, sheets };
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
      worked: head.worked === true && sameColumns(head.columns),
      at: head.at instanceof Date && Number.isFinite(head.at.getTime()) ? head.at : new Date(),
    };
  }

  /** Bytes that the stored book takes, as text: browsers do not say what they take of the disk. */
  async size(): Promise<number> {
    return new TextEncoder().encode(await this.raw()).byteLength;
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
    return JSON.stringify(whole, (_, value: unknown) => (typeof value === 'bigint' ? String(value) : value));
  }

  /**
   * Stores the state, which was worked out; returns when it was stored, and whether another page had stored its own
   * book in between.
   */
  async save(state: BookState, seen?: FirstLook): Promise<{ readonly at: Date; readonly over: boolean }> {
    const at = new Date();
    // Saved means on disk: a store left to itself tells of it once the system has it in memory.
    const writing = this.#store.transaction(['head', 'runs'], 'readwrite', { durability: 'strict' });
    try {
      const over = await this.#write(writing, state, at, seen);
      await writing.done;
      this.#last = state;
      this.#read = undefined;
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

  /** What was read, where nobody has stored anything since. */
  #stillStored(head: Head | undefined): readonly SheetState[] | undefined {
    const read = this.#read;
    return read !== undefined && head?.writer === read.writer && head.at.getTime() === read.at.getTime()
      ? read.sheets
      : undefined;
  }

  async #write(writing: Writing, state: BookState, at: Date, seen: FirstLook | undefined): Promise<boolean> {
    const runs = writing.objectStore('runs');
    const before = await writing.objectStore('head').get('book');
    const over = this.#last !== undefined && before?.writer !== this.#writer;
    const last = before?.writer === this.#writer ? this.#last?.sheets : this.#stillStored(before);
    const requests: Promise<unknown>[] = [];
    for (const [sheet, { rows }] of state.sheets.entries()) {
      const earlier = last?.[sheet]?.rows;
      if (earlier === rows) continue;
      for (const run of changedRuns(rows, earlier)) {
        requests.push(runs.put(runAt(rows, run), [sheet, run]));
        // Each is copied when it is asked for: the page has its turn before the next ones.
        if (requests.length >= mostAtOnce) await Promise.all(requests.splice(0));
      }
      requests.push(runs.delete(IDBKeyRange.bound([sheet, runsOf(rows)], [sheet, Infinity])));
    }
    requests.push(runs.delete(IDBKeyRange.lowerBound([state.sheets.length, 0])));
    const head = { ...headOf(state), ...(seen === undefined ? {} : { seen }), worked: true, at, writer: this.#writer };
    requests.push(writing.objectStore('head').put(head, 'book'));
    await Promise.all(requests);
    return over;
  }
}
