import { Autosave, type Kept } from './autosave.ts';
import type { Desk } from './desk.ts';

/** When the book is saved, and what the page says about it. */

/** After a change the page waits for more of them, in all no longer than makes a save fall within a second. */
const pause = 400;
const longestWait = 700;

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));

interface OpenedStore {
  readonly store: Autosave | undefined;
  readonly kept: Kept | undefined;
  readonly problem: string | undefined;
}

/**
 * Opens the store and reads what is in it; a browser without one, or one that refuses, is told of and worked without.
 */
export async function openStore(): Promise<OpenedStore> {
  try {
    const store = await Autosave.open();
    try {
      return { store, kept: await store.kept(), problem: undefined };
    } catch (error) {
      return {
        store,
        kept: undefined,
        problem:
          `the book stored in this browser could not be read (${reason(error)}). It is left unchanged. Export ` +
          `the open book to keep your work.`,
      };
    }
  } catch (error) {
    return {
      store: undefined,
      kept: undefined,
      problem:
        `this browser does not let the page store your work (${reason(error)}). Export the book before you ` +
        `close it.`,
    };
  }
}

/** Asks before a book is left whose changes are nowhere. */
function guardLeaving(desk: Desk, saved: () => boolean): void {
  window.addEventListener('beforeunload', (event) => {
    if (!saved() || (desk.saving.state === 'failed' && desk.book.undoable !== undefined)) event.preventDefault();
  });
}

/** Keeps the book in the store from now on; what is in it and could not be read only once the user says so. */
export function keepSaved(desk: Desk, { store, problem }: OpenedStore): void {
  if (problem === undefined) {
    if (store !== undefined) saveChanges(desk, store, false);
    return;
  }
  desk.say(`Not saved: ${problem}`, 'problem');
  const failed = { state: 'failed', why: problem } as const;
  desk.saving =
    store === undefined
      ? failed
      : {
          ...failed,
          replace: () => {
            desk.saving = { state: 'saving' };
            saveChanges(desk, store, true);
            desk.changed();
          },
        };
  guardLeaving(desk, () => true);
}

/** The book while another window has it: as it was stored last, to read and to export. */
export function onlyShown(desk: Desk): void {
  const why =
    'another window of this browser has the book open. This one shows it as last saved, and takes over when the ' +
    'other is closed';
  desk.book.closed = why;
  desk.saving = { state: 'failed', why };
}

function saveChanges(desk: Desk, store: Autosave, atOnce: boolean): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | undefined;
  let wanted = atOnce;
  /** When the first change came that is not being saved yet. */
  let since = 0;

  const save = async (): Promise<void> => {
    while (wanted) {
      wanted = false;
      try {
        const { at, over } = await store.save(desk.book.state);
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
