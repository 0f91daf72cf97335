import { demoBook } from '../workbook/demo.ts';
import type { BookState } from '../workbook/state.ts';
import { workbookInParts } from '../workbook/opened-in-parts.ts';
import { Workbook } from '../workbook/workbook.ts';
import type { Kept } from './autosave.ts';
import { trialInWorker } from './book-trial.ts';
import { turnOfPage } from './idle.ts';
import { hasFormulas, openable } from './opening.ts';
import type { FirstRows } from './views/first-rows.ts';

/** The book that the page starts with: the stored one, as far as it can be worked out. */
interface OpenedBook {
  readonly book: Workbook;
  /** What was done to it so that it opens. */
  readonly told?: string | undefined;
  /** Why the stored book is not the open one. */
  readonly problem?: string;
}

/** Stands in the browser from before a book is worked out until the page has drawn it. */
const unfinishedStart = 'skewbook start';

/** Whether the start before this one came to no end, as when the book that it opened stopped the page. */
export function beginStart(): boolean {
  try {
    const before = localStorage.getItem(unfinishedStart) !== null;
    localStorage.setItem(unfinishedStart, 'begun');
    return before;
  } catch {
    // A browser that keeps nothing for the page keeps no book either that could stop it.
    return false;
  }
}

export function endStart(): void {
  try {
    localStorage.removeItem(unfinishedStart);
  } catch {
    // As above.
  }
}

/** Why the page could not be started with the stored book; stands until the start that follows. */
const failedStart = 'skewbook failed start';

/** What the start before this one failed by; it is asked once. */
export function takeFailure(): string | undefined {
  try {
    const why = sessionStorage.getItem(failedStart);
    sessionStorage.removeItem(failedStart);
    return why ?? undefined;
  } catch {
    return undefined;
  }
}

/** Notes why a start failed, for the next; false where a browser keeps nothing. */
export function keepFailure(why: string): boolean {
  try {
    sessionStorage.setItem(failedStart, why);
    return true;
  } catch {
    return false;
  }
}

const unopened = (why: string): OpenedBook => ({
  book: new Workbook(demoBook('metric')),
  problem:
    `the book stored in this browser cannot be calculated (${why}). It is left unchanged, and the demo is ` +
    `open instead`,
});

/**
 * A book with formulas of users' is tried in a worker first, unless the page worked it out before it stored it; one at
 * which the last start ended always is. A trial of a large book takes as long and as much memory as opening it.
 */
export async function openedBook(kept: Kept | undefined, careful: boolean, first: FirstRows): Promise<OpenedBook> {
  if (kept === undefined) return { book: new Workbook(demoBook('metric')) };
  const of = kept.state.sheets.reduce((sum, { rows }) => sum + rows.length, 0);
  await first.tell({ stage: 'working out', of });
  if (!careful && (kept.worked || !hasFormulas(kept.state))) {
    try {
      return await opened(kept.state, kept.told);
    } catch {
      // What could be worked out by an earlier version: it is tried like any other.
    }
  }
  await first.trying();
  const { state, told } = await openable(kept.state, trialInWorker);
  const all = told === undefined ? kept.told : [...kept.told, told];
  if (state === undefined) return unopened(all.at(-1) ?? 'it failed');
  try {
    return await opened(state, all);
  } catch (error) {
    return unopened(error instanceof Error ? error.message : String(error));
  }
}

const opened = async (state: BookState, told: readonly string[]): Promise<OpenedBook> => ({
  book: await workbookInParts(state, turnOfPage),
  told: told.length === 0 ? undefined : told.join(' '),
});
