import { Autosave, type Kept } from './autosave.ts';
import type { Desk } from './desk.ts';

/** When the book is saved, and what the page says about it. */

/** After a change the page waits for more of them. */
const pause = 500;

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
          `The book that was saved here could not be read (${reason(error)}). It stays in the store until you ` +
          `change this one.`,
      };
    }
  } catch (error) {
    return {
      store: undefined,
      kept: undefined,
      problem:
        `This browser does not let the page store your work (${reason(error)}). Export the book before you ` +
        `close it.`,
    };
  }
}

export function keepSaved(desk: Desk, store: Autosave): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | undefined;
  let wanted = false;

  const save = async (): Promise<void> => {
    while (wanted) {
      wanted = false;
      try {
        const { at, over } = await store.save(desk.book.state);
        if (!wanted) desk.saving = { state: 'saved', at };
        if (over)
          desk.say(
            'Another window had saved its book in this browser meanwhile. What is saved now is this one.',
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
    wanted = true;
    desk.saving = { state: 'saving' };
    clearTimeout(timer);
    timer = setTimeout(saveNow, pause);
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') saveNow();
  });
  window.addEventListener('beforeunload', (event) => {
    saveNow();
    if (wanted || running !== undefined || desk.saving.state === 'failed') event.preventDefault();
  });
}
