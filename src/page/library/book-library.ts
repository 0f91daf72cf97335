import type { BookState } from '../../workbook/state.ts';
import { Autosave } from '../autosave.ts';
import { whileClosed } from '../one-window.ts';
import { beltCount, BookPast } from './book-past.ts';
import type { LibraryHost } from './library-host.ts';
import type { BookEntry, LibraryStore } from './library-store.ts';
import { addressOf } from './window-book.ts';

export type { ComparedVersion } from './book-past.ts';

/** After this many milliseconds the list says anew when the open book was changed. */
const entryRest = 60_000;

const channelName = 'skewbook library';

const titled = (title: string): string => (title === '' ? 'the untitled book' : title);

/**
 * For tests: names meet only after several copies. A book's name beside others: of two alike, the second gets a number.
 */
export function freeTitle(title: string, taken: readonly string[]): string {
  const base = title === '' ? 'Untitled' : title;
  if (!taken.includes(base)) return base;
  let count = 2;
  while (taken.includes(`${base} ${count}`)) count += 1;
  return `${base} ${count}`;
}

/** The books that this browser keeps, with the one that is open here. */
export class BookLibrary {
  readonly id: string;
  readonly past: BookPast;
  readonly store: LibraryStore;
  readonly #host: LibraryHost;
  readonly #others = 'BroadcastChannel' in window ? new BroadcastChannel(channelName) : undefined;
  books: readonly BookEntry[] = [];
  /** The open book goes to the bin: the list follows it no more. */
  #leaving = false;
  /** Bytes that the browser holds for the page, and may hold; undefined where it does not say. */
  usage: { readonly used: number; readonly room: number } | undefined;

  constructor(host: LibraryHost, store: LibraryStore, id: string) {
    this.#host = host;
    this.store = store;
    this.id = id;
    this.past = new BookPast(host, store, id);
    this.#others?.addEventListener('message', () => void this.refresh());
  }

  async #try(what: string, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#host.say(`${what}: ${error instanceof Error ? error.message : String(error)}`, 'problem');
    }
    this.#others?.postMessage('changed');
    await this.refresh();
  }

  async refresh(): Promise<void> {
    this.books = (await this.store.books()).toSorted((one, other) => other.at.getTime() - one.at.getTime());
    const told = 'storage' in navigator ? await navigator.storage.estimate() : {};
    this.usage =
      told.usage === undefined || told.quota === undefined ? undefined : { used: told.usage, room: told.quota };
    this.#host.changed();
  }

  /** Bytes that a book takes with its past: nothing changes them while it lies in the bin. */
  async #size(id: string): Promise<number> {
    const book = await Autosave.open(id);
    const size = (await book.size()) + (await this.store.pastSize(id));
    book.close();
    return size;
  }

  #entry(id: string, state: BookState, at = new Date()): BookEntry {
    return { id, title: state.title, units: state.units, belts: beltCount(state), at };
  }

  /** From now on the list follows the open book. */
  follow(): void {
    let last: BookEntry | undefined;
    const note = (): void => {
      const now = this.#entry(this.id, this.#host.book.state);
      const same =
        last !== undefined && last.title === now.title && last.units === now.units && last.belts === now.belts;
      if (same && last !== undefined && now.at.getTime() - last.at.getTime() < entryRest) return;
      last = now;
      void this.store.setBook(now).then(
        () => this.#others?.postMessage('changed'),
        (error: unknown) => this.#host.say(`The list of books could not be kept: ${String(error)}`, 'problem'),
      );
    };
    this.#host.listen(() => {
      if (!this.#leaving && this.#host.saving.state === 'saved') note();
    });
  }

  /** Once all that was typed is stored, or could not be. */
  async #settled(): Promise<void> {
    if (this.#host.saving.state !== 'saving') return;
    await new Promise<void>((done) => {
      this.#host.listen(() => {
        if (this.#host.saving.state !== 'saving') done();
      });
    });
  }

  /** Opens another book in this window. */
  async open(id: string): Promise<void> {
    await this.#settled();
    location.hash = addressOf(id);
  }

  /** Stores a new book beside the others; answers its id. */
  async add(state: BookState): Promise<string> {
    const id = crypto.randomUUID();
    const store = await Autosave.open(id);
    await store.save(state);
    store.close();
    await this.store.setBook(this.#entry(id, state));
    return id;
  }

  create(state: BookState): Promise<void> {
    return this.#try('The book could not be made', async () => this.open(await this.add(state)));
  }

  duplicate(entry: BookEntry): Promise<void> {
    return this.#try(`${titled(entry.title)} could not be copied`, async () => {
      const title = freeTitle(
        `${entry.title === '' ? 'Untitled' : entry.title.replace(/ copy(?: \d+)?$/, '')} copy`,
        this.books.map((one) => one.title),
      );
      if (entry.id === this.id && this.#host.saving.state !== 'failed') {
        await this.store.copyMemories(entry.id, await this.add({ ...this.#host.book.state, title }));
        return;
      }
      const id = crypto.randomUUID();
      const [from, to] = [await Autosave.open(entry.id), await Autosave.open(id)];
      await from.copyTo(to);
      const known = await to.retitle(title);
      from.close();
      to.close();
      await this.store.copyMemories(entry.id, id);
      await this.store.setBook({ ...entry, id, at: new Date(), ...(known ? { title } : {}) });
    });
  }

  rename(entry: BookEntry, title: string): Promise<void> {
    return this.#try(`${titled(entry.title)} could not be renamed`, async () => {
      if (entry.id === this.id) {
        this.#host.book.replace({ ...this.#host.book.state, title }, 'rename book');
        return;
      }
      let known = false;
      const closed = await whileClosed(entry.id, async () => {
        const store = await Autosave.open(entry.id);
        known = await store.retitle(title);
        store.close();
      });
      if (!closed) throw new Error('another window has it open: rename it there');
      if (!known) throw new Error('a later version of Skewbook stored it: rename it there');
      await this.store.setBook({ ...entry, title });
    });
  }

  bin(entry: BookEntry): Promise<void> {
    return this.#try(`${titled(entry.title)} could not be deleted`, async () => {
      if (entry.id === this.id) await this.#settled();
      const binned = { ...entry, binned: new Date(), size: await this.#size(entry.id) };
      if (entry.id === this.id) {
        this.#leaving = true;
        await this.store.setBook(binned);
        const next = this.books.find((one) => one.id !== this.id && one.binned === undefined);
        location.hash = addressOf(next?.id ?? '');
        return;
      }
      const closed = await whileClosed(entry.id, () => this.store.setBook(binned));
      if (!closed) throw new Error('another window has it open: close that first');
    });
  }

  bringBack(entry: BookEntry): Promise<void> {
    return this.#try(`${titled(entry.title)} could not be brought back`, async () => {
      if ((await this.store.book(entry.id)) === undefined) throw new Error('another window has deleted it for good');
      await this.store.setBook({ ...entry, binned: undefined, size: undefined });
    });
  }

  /** Deletes books of the bin with all their past, for good; one that can't be deleted keeps none of the others. */
  async purge(entries: readonly BookEntry[]): Promise<void> {
    for (const entry of entries)
      await this.#try(`${titled(entry.title)} could not be deleted`, async () => {
        const closed = await whileClosed(entry.id, async () => {
          // Another window may have brought it back, or have deleted it, meanwhile.
          if ((await this.store.book(entry.id))?.binned === undefined) throw new Error('it is no longer in the bin');
          await Autosave.remove(entry.id);
          await this.store.forget(entry.id);
        });
        if (!closed) throw new Error('another window has it open: close that first');
      });
  }
}
