import type { BookState } from '../workbook/state.ts';
import { Autosave, type Kept } from './autosave.ts';
import type { Desk } from './desk.ts';
import { entryText } from './cell-text.ts';
import { download } from './downloading.ts';
import { onStored, storedTeller } from './one-window.ts';
import { contentField, typedPlace } from './typing-field.ts';
import type { FirstRows } from './views/first-rows.ts';

/** When the book is saved, and what the page says about it. */

/** After a change the page waits for more of them, in all no longer than makes a save fall within a second. */
const pause = 400;
const longestWait = 700;

/** Why something failed, as a part of a sentence. */
const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error)).replace(/\.+$/, '');

export interface OpenedStore {
  readonly store: Autosave | undefined;
  readonly kept: Kept | undefined;
  readonly problem: string | undefined;
  /** Which book of this browser it is. */
  readonly id: string;
}

/**
 * Opens the store and reads what is in it; a browser without one, or one that refuses, is reported and worked without.
 */
export async function openStore(id: string, first: FirstRows): Promise<OpenedStore> {
  try {
    const store = await Autosave.open(id);
    try {
      const look = await store.firstLook();
      if (look !== undefined) await first.show(look.title, look.look, look.rows);
      const kept = await store.kept((rows, of) => void first.tell({ stage: 'reading', rows, of }));
      return { id, store, kept, problem: undefined };
    } catch (error) {
      return {
        id,
        store,
        kept: undefined,
        problem:
          `the book stored in this browser could not be read (${reason(error)}). It is left unchanged. Export ` +
          `the open book to keep your work.`,
      };
    }
  } catch (error) {
    return {
      id,
      store: undefined,
      kept: undefined,
      problem:
        `this browser does not let the page store your work (${reason(error)}). Export the book before you ` +
        `close it.`,
    };
  }
}

/** The store without its book, which the page could not show when it was last started. */
export const setAside = (opened: OpenedStore, why: string | undefined): OpenedStore =>
  why === undefined || opened.kept === undefined
    ? opened
    : {
        ...opened,
        kept: undefined,
        problem:
          `the book stored in this browser could not be shown (${why}). It is left unchanged, and the demo is ` +
          `open instead`,
      };

/** Whether a text is being typed that no cell holds yet. */
function typesAnew(desk: Desk): boolean {
  const field = contentField(document.activeElement);
  const place = field === undefined ? undefined : typedPlace(desk, field);
  return place !== undefined && field?.value !== entryText(desk.book, place);
}

/** Asks before a book is left whose changes are nowhere. */
function guardLeaving(desk: Desk, saved: () => boolean): void {
  window.addEventListener('beforeunload', (event) => {
    const isLost = desk.saving.state === 'failed' && desk.book.undoable !== undefined;
    if (!saved() || desk.changing !== undefined || isLost || typesAnew(desk)) event.preventDefault();
  });
}

/** Keeps the book in the store from now on; what is in it and could not be read only once the user says so. */
export function keepSaved(desk: Desk, { id, store, problem }: OpenedStore): void {
  if (problem === undefined) {
    if (store !== undefined) saveChanges(desk, id, store, false);
    return;
  }
  desk.say(`Not saved: ${problem}`, 'problem');
  const failed = { state: 'failed', why: problem } as const;
  desk.saving =
    store === undefined
      ? failed
      : {
          ...failed,
          raw: () =>
            void store.raw().then(
              (text) => download(text, 'application/json', 'Skewbook stored book.json'),
              (error: unknown) => desk.say(`The stored book could not be downloaded: ${reason(error)}`, 'problem'),
            ),
          replace: () => {
            desk.saving = { state: 'saving' };
            saveChanges(desk, id, store, true);
            desk.changed();
          },
        };
  guardLeaving(desk, () => true);
}

/** Shares of the time that showing a book anew takes: a large one is shown less often than it is stored. */
const rest = 4;

/**
 * Puts a book in place of one that may not be changed here: what another window has made of it. Its steps are the
 * other's to take back, and each would hold a whole book.
 */
function showStored({ book }: Desk, state: BookState): void {
  const { closed } = book;
  book.closed = undefined;
  try {
    book.replace(state, 'changes of the other window');
    book.forgetSteps();
  } finally {
    book.closed = closed;
  }
}

/** Shows each book that the other window has stored, while this one is seen. */
function followStored(desk: Desk, id: string, store: Autosave): void {
  let [wanted, busy] = [false, false];
  const follow = async (): Promise<void> => {
    if (!wanted || busy || document.visibilityState === 'hidden') return;
    [wanted, busy] = [false, true];
    const begun = performance.now();
    try {
      const kept = await store.kept();
      if (kept !== undefined) showStored(desk, kept.state);
    } catch (error) {
      desk.say(`What the other window has changed could not be shown: ${reason(error)}`, 'problem');
    }
    setTimeout(
      () => {
        busy = false;
        void follow();
      },
      rest * (performance.now() - begun),
    );
  };
  onStored(id, () => {
    wanted = true;
    void follow();
  });
  document.addEventListener('visibilitychange', () => void follow());
}

/** The book while another window has it: as it was stored last, to read and to export. */
export function onlyShown(desk: Desk, { id, store }: OpenedStore): void {
  const why =
    'another window of this browser has the book open. This one shows it as last saved, and takes over when the ' +
    'other is closed';
  desk.book.closed = why;
  desk.saving = { state: 'failed', why };
  if (store !== undefined) followStored(desk, id, store);
}

/** An earlier state in the place of a store: it is read only. */
export const shownStore = (id: string, state: BookState): OpenedStore => ({
  id,
  store: undefined,
  kept: { state, at: new Date(), told: [], worked: false },
  problem: undefined,
});

/** A book that is only to be looked at and exported. */
export function lookedAt(desk: Desk, why: string): void {
  desk.book.closed = why;
  desk.saving = { state: 'shown', why };
}

function saveChanges(desk: Desk, id: string, store: Autosave, atOnce: boolean): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | undefined;
  let wanted = atOnce;
  const tellOthers = storedTeller(id);
  /** When the first change came that is not being saved yet. */
  let since = 0;

  const save = async (): Promise<void> => {
    while (wanted) {
      wanted = false;
      try {
        const { at, over } = await store.save(desk.book.state, desk.firstLook?.());
        tellOthers();
        if (!wanted) desk.saving = { state: 'saved', at };
        if (over)
          desk.say(
            'Another window had saved its book in this browser. The book of this window has now replaced it.',
            'problem',
          );
      } catch (error) {
        desk.saving = { state: 'failed', why: `${reason(error)}. Export the book to keep it.` };
      }
      desk.changed();
    }
    running = undefined;
  };
  const saveNow = (): void => {
    clearTimeout(timer);
    timer = undefined;
    if (wanted) running ??= save();
  };
  desk.book.listen(() => {
    const now = performance.now();
    if (timer === undefined) since = now;
    wanted = true;
    desk.saving = { state: 'saving' };
    clearTimeout(timer);
    timer = setTimeout(saveNow, Math.max(0, Math.min(pause, since + longestWait - now)));
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') saveNow();
  });
  guardLeaving(desk, () => {
    saveNow();
    return !wanted && running === undefined;
  });
  saveNow();
}
