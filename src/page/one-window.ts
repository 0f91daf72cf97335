import { firstBook } from './library/window-book.ts';

/** One window at a time changes a book that this browser keeps. */

const nameOf = (id: string): string => (id === firstBook ? 'skewbook book' : `skewbook book ${id}`);

/** A window that is being loaded anew gives the book free only after this one has asked for it. */
const patience = 500;

/** By which the window that has the book tells the others that it has stored it. */
const channel = (id: string): BroadcastChannel | undefined =>
  'BroadcastChannel' in window ? new BroadcastChannel(nameOf(id)) : undefined;

/** Tells the other windows that the book is stored anew. */
export function storedTeller(id: string): () => void {
  const others = channel(id);
  return () => others?.postMessage('stored');
}

/** Calls back whenever the window that has the book has stored it. */
export function onStored(id: string, told: () => void): void {
  channel(id)?.addEventListener('message', told);
}

/** Never ends: the book is held until the window is closed. */
const held = (): Promise<never> => new Promise(() => undefined);

/** Holds the book for this window. False while another has it; `freed` is called when that one has been closed. */
export function holdBook(id: string, freed: () => void): Promise<boolean> {
  if (!('locks' in navigator)) return Promise.resolve(true);
  const name = nameOf(id);
  return new Promise((done) => {
    const taken = (): Promise<never> => {
      done(true);
      return held();
    };
    navigator.locks.request(name, { signal: AbortSignal.timeout(patience) }, taken).catch(() => {
      done(false);
      void navigator.locks.request(name, () => {
        freed();
        return held();
      });
    });
  });
}

/** Does what may be done only while no window has the book open; false when one has. */
export async function whileClosed(id: string, work: () => Promise<void>): Promise<boolean> {
  if (!('locks' in navigator)) {
    await work();
    return true;
  }
  return await navigator.locks.request(nameOf(id), { ifAvailable: true }, async (lock) => {
    if (lock === null) return false;
    await work();
    return true;
  });
}
