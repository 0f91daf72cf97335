import type { MergeBook } from '../../merge/merge-plan.ts';
import { counted } from '../../units/phrases.ts';
import { recordKey } from '../../workbook/record-names.ts';
import { differingRecords } from '../../workbook/row-lists.ts';
import { type BookRow, type BookState, sheetOf } from '../../workbook/state.ts';
import type { Comparing } from '../comparing.ts';
import type { LibraryHost } from './library-host.ts';
import type { FileMemory, LibraryStore, Version } from './library-store.ts';
import { dayOf, momentOf } from './library-words.ts';

const counts = new WeakMap<readonly BookRow[], number>();
/** The list of rows that was counted last: after a change nearly all rows are the same. */
let lastCounted: WeakRef<readonly BookRow[]> | undefined;

/** How many belts have a name. It is asked after each save, so only rows that are others are looked at. */
export function beltCount(state: BookState): number {
  const belts = sheetOf(state, 'Belts');
  const { rows } = belts;
  const known = counts.get(rows);
  if (known !== undefined) return known;
  const before = lastCounted?.deref();
  const last = before?.length === rows.length ? { name: belts.name, rows: before } : { name: belts.name, rows: [] };
  let count = counts.get(last.rows) ?? 0;
  for (const record of differingRecords(last.rows, rows))
    count += Number(recordKey(belts, record) !== '') - Number(recordKey(last, record) !== '');
  counts.set(rows, count);
  lastCounted = new WeakRef(rows);
  return count;
}

/** An earlier state of the open book beside it, or beside another earlier one. */
export interface ComparedVersion {
  readonly version: Version;
  /** The other version; undefined for the open book. */
  readonly than?: Version | undefined;
  /** Of two versions the earlier is the one beside which the other is looked at. */
  readonly comparing: Comparing;
}

/**
 * How the open book was at earlier times, and what it last read from and wrote to files.
 *
 * A version is kept before and after each import and merge, before an earlier one is brought back, and of each day on
 * which the book was changed. What is kept is bounded; what goes for it is told.
 */
export class BookPast {
  readonly #host: LibraryHost;
  readonly #store: LibraryStore;
  readonly #id: string;
  versions: readonly Version[] = [];
  memories: readonly FileMemory[] = [];
  /** What of the past is gone since the page was opened, in sentences. */
  gone: readonly string[] = [];
  /** One after the other, so that the order of versions is that of what happened. */
  #work: Promise<void> = Promise.resolve();

  constructor(host: LibraryHost, store: LibraryStore, id: string) {
    this.#host = host;
    this.#store = store;
    this.#id = id;
  }

  #run(what: string, work: () => Promise<void>): Promise<void> {
    this.#work = this.#work.then(work).catch((error: unknown) => {
      this.#host.say(`${what}: ${error instanceof Error ? error.message : String(error)}`, 'problem');
    });
    return this.#work;
  }

  #tell(text: string): void {
    this.gone = [...this.gone.filter((one) => one !== text), text];
    this.#host.say(text, 'problem');
  }

  refresh(): Promise<void> {
    return this.#run('What is kept of this book could not be listed', async () => {
      this.versions = await this.#store.versions(this.#id);
      this.memories = await this.#store.memories(this.#id);
      this.#host.changed();
    });
  }

  keep(why: string, state = this.#host.book.state, at = new Date()): Promise<void> {
    void this.#run(`No version was kept (${why})`, async () => {
      const gone = await this.#store.keepVersion(
        { book: this.#id, at, why, belts: beltCount(state), title: state.title },
        { state },
      );
      if (gone > 0)
        this.#tell(`${counted(gone, 'version')} of this book, the oldest, went to make room for newer ones.`);
    });
    return this.refresh();
  }

  /** Keeps the book as it was and as it is, around a step that changed much. */
  keepAround(step: string, before: BookState): Promise<void> {
    void this.keep(`before ${step}`, before);
    return this.keep(step);
  }

  /** Remembers what was read from or written to a file, for when it comes back. */
  remember(memory: Omit<FileMemory, 'key' | 'size' | 'book' | 'at'>, book: MergeBook, id = this.#id): Promise<void> {
    void this.#run(`It is not remembered what ${memory.file} holds`, async () => {
      const gone = await this.#store.remember({ ...memory, book: id, at: new Date() }, book);
      for (const { file, how, at } of gone)
        this.#tell(
          `To make room, it is no longer remembered what was ${how === 'read' ? 'read from' : 'written to'} ` +
            `${file} on ` +
            `${momentOf(at)}: a file that comes from it will be compared without that.`,
        );
    });
    return this.refresh();
  }

  /** A book as it was; undefined, and told, when it can't be had. */
  async content(kind: 'versions' | 'memories', key: number): Promise<MergeBook | undefined> {
    let found: MergeBook | undefined;
    await this.#run('It could not be opened', async () => {
      found = await this.#store.content(kind, key);
    });
    return found;
  }

  /** From now on the last state of each day is kept once the next day's first change comes. */
  keepDays(kept: { readonly state: BookState; readonly at: Date } | undefined): void {
    let last = kept;
    const turn = (now: Date): void => {
      if (last !== undefined && dayOf(last.at) !== dayOf(now))
        void this.keep(`as left on ${dayOf(last.at)}`, last.state, last.at);
    };
    this.#host.book.listen(() => {
      const now = new Date();
      turn(now);
      last = { state: this.#host.book.state, at: now };
    });
  }
}
