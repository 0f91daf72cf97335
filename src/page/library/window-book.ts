import type { BookEntry } from './library-store.ts';

/** Which book a window has: its address says so, and a window without one has the book that was opened last. */

/** The book that was there before there were several; it keeps the store that it had. */
export const firstBook = 'book';

const lastName = 'skewbook open book';

interface Asked {
  readonly id: string | undefined;
  /** An earlier state of the book, to be looked at. */
  readonly version: number | undefined;
}

export function asked(): Asked {
  const words = new URLSearchParams(location.hash.slice(1));
  const version = Number(words.get('version') ?? Number.NaN);
  const id = words.get('book') ?? lastOpen();
  return { id: id === '' ? undefined : id, version: Number.isInteger(version) ? version : undefined };
}

export const addressOf = (id: string, version?: number): string =>
  `#${String(new URLSearchParams({ book: id, ...(version === undefined ? {} : { version: String(version) }) }))}`;

function lastOpen(): string | undefined {
  try {
    return localStorage.getItem(lastName) ?? undefined;
  } catch {
    return undefined;
  }
}

/** A reload is to show the same book, and a window to come too. */
export function haveBook(id: string): void {
  history.replaceState(null, '', addressOf(id));
  try {
    localStorage.setItem(lastName, id);
  } catch {
    // A browser that keeps nothing for the page keeps no second book either.
  }
  window.addEventListener('hashchange', () => location.reload());
}

interface Choice {
  readonly id: string;
  readonly told?: string;
}

/** The book to be opened: the one asked for, or else the last one that is not in the bin. */
export function bookToOpen(id: string | undefined, entries: readonly BookEntry[], fresh: () => string): Choice {
  const entry = entries.find((one) => one.id === id);
  if (entry !== undefined && entry.binned === undefined) return { id: entry.id };
  const first = entries.find((one) => one.id === firstBook);
  if ((id === undefined || id === firstBook) && first === undefined) return { id: firstBook };
  const told =
    id === undefined || (id === firstBook && first === undefined)
      ? undefined
      : entry === undefined
        ? 'The book of this address is not kept in this browser; another is open.'
        : `${entry.title === '' ? 'The book asked for' : entry.title} is in the bin; another book is open. Bring it ` +
          `back from Book, Books.`;
  const [newest] = entries
    .filter(({ binned }) => binned === undefined)
    .toSorted((one, other) => other.at.getTime() - one.at.getTime());
  const chosen = newest?.id ?? (first === undefined ? firstBook : fresh());
  return { id: chosen, ...(told === undefined ? {} : { told }) };
}
