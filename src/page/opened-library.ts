import type { BookState } from '../workbook/state.ts';
import type { Desk, Dialog } from './desk.ts';
import { takeDropped } from './dropped-file.ts';
import type { Importing } from './importing.ts';
import { BookLibrary } from './library/book-library.ts';
import { type BookEntry, LibraryStore } from './library/library-store.ts';
import { momentOf } from './library/library-words.ts';
import { asked, bookToOpen, firstBook } from './library/window-book.ts';

/** What a window begins with: which book of the browser it has, or which earlier state of one. */
export interface OpenedLibrary {
  readonly store: LibraryStore | undefined;
  readonly id: string;
  readonly told?: string | undefined;
  /** An earlier state, to be looked at and no more. */
  readonly shown?: { readonly state: BookState; readonly why: string } | undefined;
}

interface StoredState {
  readonly state: BookState;
  readonly at: Date;
}

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));

async function shownVersion(
  store: LibraryStore,
  id: string,
  key: number,
): Promise<Pick<OpenedLibrary, 'told' | 'shown'>> {
  try {
    const version = (await store.versions(id)).find((one) => one.key === key);
    if (version === undefined) throw new Error('it is no longer kept');
    const { state } = await store.content('versions', key);
    const why =
      `This is the book of ${momentOf(version.at)} (${version.why}), to look at and to export. To go on from it, ` +
      `bring it back: Book, Versions in the window of the book`;
    return { shown: { state, why } };
  } catch (error) {
    return { told: `The version could not be opened: ${reason(error)}. The book as it is now is open instead.` };
  }
}

export async function openLibrary(): Promise<OpenedLibrary> {
  const { id: wanted, version } = asked();
  let store: LibraryStore;
  let entries: readonly BookEntry[];
  try {
    store = await LibraryStore.open();
    entries = await store.books();
  } catch (error) {
    // Where nothing at all can be stored, the book's own store says so.
    const told =
      wanted === undefined || wanted === firstBook
        ? undefined
        : `The books of this browser could not be listed: ${reason(error)}`;
    return { store: undefined, id: firstBook, told };
  }
  const { id, told } = bookToOpen(wanted, entries, () => crypto.randomUUID());
  if (version === undefined || id !== wanted) return { store, id, told };
  return { store, id, ...(await shownVersion(store, id, version)) };
}

/**
 * Gives the page its books and their past. `kept` is the open book as it was stored, undefined where this window does
 * not store it.
 */
export function useLibrary(
  desk: Desk,
  { store, id }: OpenedLibrary,
  kept: StoredState | undefined,
  own: boolean,
): void {
  if (store === undefined) return;
  const library = new BookLibrary(desk, store, id);
  desk.library = library;
  if (own) {
    library.follow();
    library.past.keepDays(kept);
  }
  void library.refresh();
  void library.past.refresh();
}

/** Reads the file, or the rows, that the dialog Import is opened for. */
export function importGiven(desk: Desk, importing: Importing): void {
  takeDropped(desk);
  let seen: Dialog | undefined;
  desk.listen(() => {
    if (desk.dialog === seen) return;
    seen = desk.dialog;
    if (seen?.kind !== 'import') return;
    if (seen.pasted !== undefined) importing.openText(seen.pasted);
    if (seen.file !== undefined) void importing.open(seen.file);
    const file = seen.onDisk;
    if (file === undefined) return;
    void file.getFile().then(
      (read) => importing.open(read, file),
      (error: unknown) => desk.say(`${file.name} could not be read: ${reason(error)}`, 'problem'),
    );
  });
}
