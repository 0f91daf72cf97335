/**
 * Does a piece of work when the page has nothing more urgent to do, or when the latest moment has come, in milliseconds
 * from now.
 */
export const soon = (work: () => void, latest = 300): void => {
  if ('requestIdleCallback' in globalThis) globalThis.requestIdleCallback(work, { timeout: latest });
  else setTimeout(work, 16);
};

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
