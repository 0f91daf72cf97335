import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { MergeBook } from '../../merge/merge-plan.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { DiskFile } from './disk-file.ts';
import { type PackedBook, packed, unpacked } from './packed-book.ts';

/**
 * What this browser keeps around its books: which there are, how each was at earlier times, and what each last read
 * from or wrote to a file.
 *
 * The books themselves lie in stores of their own (`Autosave`), so that nothing done here can touch one.
 */

export interface BookEntry {
  readonly id: string;
  readonly title: string;
  readonly units: UnitSystem;
  readonly belts: number;
  /** When it was open last. */
  readonly at: Date;
  /** When it was put into the bin; undefined while it is not there. */
  readonly binned?: Date | undefined;
  /** Bytes that it takes with its versions, once it is in the bin. */
  readonly size?: number | undefined;
}

export interface Version {
  readonly key: number;
  readonly book: string;
  /** When the book was so. */
  readonly at: Date;
  /** What made it worth keeping, "import of list.xlsx". */
  readonly why: string;
  readonly belts: number;
  readonly title: string;
  readonly size: number;
  readonly digest: string;
}

/** What a book last read from a file, or wrote to it. */
export interface FileMemory {
  readonly key: number;
  readonly book: string;
  readonly file: string;
  readonly how: 'read' | 'written';
  readonly at: Date;
  /** Of the file's bytes. */
  readonly fileDigest: string;
  /** The mark that an export carries. */
  readonly mark?: string | undefined;
  /** Whether the file is a whole book of ours. */
  readonly whole: boolean;
  /** Of a list, its headers. */
  readonly headers: string;
  readonly size: number;
}

/** How much is kept of one book. Ours: a year of weekly imports, and what a browser has room for several times. */
interface LibraryLimits {
  readonly versions: number;
  readonly versionBytes: number;
  readonly files: number;
  readonly fileBytes: number;
}

export const libraryLimits: LibraryLimits = {
  versions: 60,
  versionBytes: 30_000_000,
  files: 10,
  fileBytes: 15_000_000,
};

interface Schema extends DBSchema {
  books: { key: string; value: BookEntry };
  versions: { key: number; value: Omit<Version, 'key'>; indexes: { book: string } };
  memories: { key: number; value: Omit<FileMemory, 'key'>; indexes: { book: string } };
  contents: { key: [kind: 'versions' | 'memories', key: number]; value: PackedBook };
  /** The files on disk that books are saved to. */
  files: { key: string; value: DiskFile };
}

type Kind = 'versions' | 'memories';

/**
 * For tests: limits are met only after years. Which go so that what is left is within the limits; the newest always
 * stays.
 */
export function beyond<Item extends { readonly size: number }>(
  newestFirst: readonly Item[],
  count: number,
  bytes: number,
): Item[] {
  let sum = 0;
  const gone: Item[] = [];
  newestFirst.forEach((item, place) => {
    sum += item.size;
    if (place > 0 && (place >= count || sum > bytes)) gone.push(item);
  });
  return gone;
}

export class LibraryStore {
  readonly #store: IDBPDatabase<Schema>;

  private constructor(store: IDBPDatabase<Schema>) {
    this.#store = store;
  }

  static async open(): Promise<LibraryStore> {
    return new LibraryStore(
      await openDB<Schema>('skewbook-library', 1, {
        upgrade(store) {
          store.createObjectStore('books');
          store.createObjectStore('versions', { autoIncrement: true }).createIndex('book', 'book');
          store.createObjectStore('memories', { autoIncrement: true }).createIndex('book', 'book');
          store.createObjectStore('contents');
          store.createObjectStore('files');
        },
        // A later version of the page in another window wants to change the store: it is the other's now.
        blocking: (_before, _wanted, event) => (event.target as IDBDatabase).close(),
      }),
    );
  }

  books(): Promise<BookEntry[]> {
    return this.#store.getAll('books');
  }

  book(id: string): Promise<BookEntry | undefined> {
    return this.#store.get('books', id);
  }

  async setBook(entry: BookEntry): Promise<void> {
    await this.#store.put('books', entry, entry.id);
  }

  async versions(book: string): Promise<Version[]> {
    return (await this.#list('versions', book)) as Version[];
  }

  async memories(book: string): Promise<FileMemory[]> {
    return (await this.#list('memories', book)) as FileMemory[];
  }

  /** Newest first. */
  async #list(kind: Kind, book: string): Promise<(Version | FileMemory)[]> {
    const reading = this.#store.transaction(kind, 'readonly');
    const index = reading.store.index('book');
    const [keys, values] = await Promise.all([index.getAllKeys(book), index.getAll(book)]);
    return values
      .map((value, place) => ({ ...value, key: keys[place] ?? 0 }))
      .toSorted((one, other) => other.key - one.key) as (Version | FileMemory)[];
  }

  /** Keeps a version, unless the last one says the same; returns how many older ones went for it. */
  async keepVersion(
    version: Omit<Version, 'key' | 'size' | 'digest'>,
    book: MergeBook,
    limits = libraryLimits,
  ): Promise<number> {
    const content = await packed(book);
    const [last] = await this.versions(version.book);
    if (last?.digest === content.digest) return 0;
    const { digest } = content;
    await this.#add('versions', { ...version, size: content.bytes.byteLength, digest }, content);
    const gone = beyond(await this.versions(version.book), limits.versions, limits.versionBytes);
    await this.#drop('versions', gone);
    return gone.length;
  }

  /** Keeps what was read from or written to a file; returns what went for it. */
  async remember(
    memory: Omit<FileMemory, 'key' | 'size'>,
    book: MergeBook,
    limits = libraryLimits,
  ): Promise<FileMemory[]> {
    const content = await packed(book);
    await this.#add('memories', { ...memory, size: content.bytes.byteLength }, content);
    const gone = beyond(await this.memories(memory.book), limits.files, limits.fileBytes);
    await this.#drop('memories', gone);
    return gone;
  }

  /** Has a copy of a book remember the files that the book does. */
  async copyMemories(from: string, to: string): Promise<void> {
    for (const { key, ...memory } of (await this.memories(from)).toReversed()) {
      const content = await this.#store.get('contents', ['memories', key]);
      if (content !== undefined) await this.#add('memories', { ...memory, book: to }, content);
    }
  }

  async #add(kind: Kind, value: Omit<Version, 'key'> | Omit<FileMemory, 'key'>, content: PackedBook): Promise<void> {
    const writing = this.#store.transaction([kind, 'contents'], 'readwrite', { durability: 'strict' });
    const key = await writing.objectStore(kind).add(value as Omit<Version, 'key'> & Omit<FileMemory, 'key'>);
    await writing.objectStore('contents').put(content, [kind, key]);
    await writing.done;
  }

  async #drop(kind: Kind, items: readonly { readonly key: number }[]): Promise<void> {
    const writing = this.#store.transaction([kind, 'contents'], 'readwrite');
    await Promise.all([
      ...items.flatMap(({ key }) => [
        writing.objectStore(kind).delete(key),
        writing.objectStore('contents').delete([kind, key]),
      ]),
      writing.done,
    ]);
  }

  /** A book as it was. Throws with why when it can't be had. */
  async content(kind: Kind, key: number): Promise<MergeBook> {
    const content = await this.#store.get('contents', [kind, key]);
    if (content === undefined) throw new Error('it is no longer stored');
    return await unpacked(content);
  }

  /** Bytes of the versions and files that are kept of a book. */
  async pastSize(book: string): Promise<number> {
    const kept = [...(await this.versions(book)), ...(await this.memories(book))];
    return kept.reduce((sum, { size }) => sum + size, 0);
  }

  file(book: string): Promise<DiskFile | undefined> {
    return this.#store.get('files', book);
  }

  async setFile(book: string, file: DiskFile): Promise<void> {
    await this.#store.put('files', file, book);
  }

  /** Forgets all about a book. */
  async forget(book: string): Promise<void> {
    await this.#drop('versions', await this.versions(book));
    await this.#drop('memories', await this.memories(book));
    await this.#store.delete('files', book);
    await this.#store.delete('books', book);
  }
}
