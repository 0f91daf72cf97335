/**
 * Keeps the page's files in the browser once it has started, so that it starts again without its server.
 *
 * A browser that refuses (private windows, storage denied) goes on without; the book is not concerned.
 */
export function keepForOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  navigator.serviceWorker.register('./offline.js').catch(() => undefined);
}
