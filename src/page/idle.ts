/**
 * Does a piece of work when the page has nothing more urgent to do, or when the latest moment has come, in milliseconds
 * from now.
 */
export const soon = (work: () => void, latest = 300): void => {
  if ('requestIdleCallback' in globalThis) globalThis.requestIdleCallback(work, { timeout: latest });
  else setTimeout(work, 16);
};

/** Milliseconds without a key or a scroll after which nobody is typing or scrolling. Ours. */
const rest = 100;
/** When a key, the wheel or a scroll came last. */
let stirred: number | undefined;

function noteStirring(): void {
  if (stirred !== undefined) return;
  stirred = -Infinity;
  for (const kind of ['keydown', 'wheel', 'scroll'])
    globalThis.addEventListener?.(kind, () => (stirred = performance.now()), { capture: true, passive: true });
}

/**
 * As `soon`, but not while somebody types or scrolls, whose next key would wait for the work. Once the latest moment
 * has come it is done all the same, and told that nobody rests.
 */
export function atRest(work: (resting: boolean) => void, latest = 500): void {
  noteStirring();
  const end = performance.now() + latest;
  const turn = (): void =>
    soon(() => {
      const now = performance.now();
      const resting = now - (stirred ?? 0) >= rest;
      if (resting || now >= end) work(resting);
      else setTimeout(turn, Math.min((stirred ?? 0) + rest, end) - now);
    });
  turn();
}

/** Whether a key or the mouse waits for the page; where a browser does not tell, that none does. */
export function inputWaits(): boolean {
  const { navigator } = globalThis as { navigator?: { readonly scheduling?: { isInputPending(): boolean } } };
  return navigator?.scheduling?.isInputPending() ?? false;
}

/**
 * Ends once the page had its turn: what came from keys and mouse is done, and a frame drawn that was due. By a message,
 * since a browser lets timers of a page that nobody sees wait for a second each.
 */
export const turnOfPage = (): Promise<void> =>
  new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => {
      port1.close();
      done();
    });
    port1.start();
    port2.postMessage(null);
  });
