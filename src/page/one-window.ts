/** One window at a time changes the book that this browser keeps. */

const name = 'skewbook book';

/** A window that is being loaded anew gives the book free only after this one has asked for it. */
const patience = 500;

/** By which the window that has the book tells the others that it has stored it. */
const channel = (): BroadcastChannel | undefined =>
  'BroadcastChannel' in window ? new BroadcastChannel(name) : undefined;

/** Tells the other windows that the book is stored anew. */
export function storedTeller(): () => void {
  const others = channel();
  return () => others?.postMessage('stored');
}

/** Calls back whenever the window that has the book has stored it. */
export function onStored(told: () => void): void {
  channel()?.addEventListener('message', told);
}

/** Never ends: the book is held until the window is closed. */
const held = (): Promise<never> => new Promise(() => undefined);

/** Holds the book for this window. False while another has it; `freed` is called when that one has been closed. */
export function holdBook(freed: () => void): Promise<boolean> {
  if (!('locks' in navigator)) return Promise.resolve(true);
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
