/**
 * Does a piece of work when the page has nothing more urgent to do, or when the latest moment has come, in milliseconds
 * from now.
 */
export const soon = (work: () => void, latest = 300): void => {
  if ('requestIdleCallback' in globalThis) globalThis.requestIdleCallback(work, { timeout: latest });
  else setTimeout(work, 16);
};
