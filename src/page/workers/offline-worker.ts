/**
 * Starts the page when its server does not answer: keeps the files of a build in the browser.
 *
 * The page itself is asked of the server first, so that a new build is seen at once; all other files have a name of
 * their own in each build and are taken from what is kept. Files of the build before stay until the next one, for a
 * window that is still open with it.
 */

// The compiler takes every file for one of a page's; this one runs as a service worker.
const worker = self as unknown as ServiceWorkerGlobalScope;

/** Every file of the build; the build puts them here. */
declare const builtFiles: readonly string[];
/** Names the build by what is in it. */
declare const buildName: string;

const prefix = 'skewbook-';
const own = `${prefix}${buildName}`;

async function keep(): Promise<void> {
  const cache = await caches.open(own);
  await Promise.all(
    builtFiles.map(async (file) => {
      const isPage = file === './' || !file.startsWith('assets/');
      const kept = isPage ? undefined : await caches.match(file);
      await (kept === undefined ? cache.add(new Request(file, { cache: 'reload' })) : cache.put(file, kept));
    }),
  );
  await worker.skipWaiting();
}

async function dropOld(): Promise<void> {
  const builds = (await caches.keys()).filter((name) => name.startsWith(prefix) && name !== own);
  await Promise.all(builds.slice(0, -1).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

async function page(request: Request): Promise<Response> {
  try {
    return await fetch(request);
  } catch (error) {
    const kept = await (await caches.open(own)).match('./');
    if (kept === undefined) throw error;
    return kept;
  }
}

const file = async (request: Request): Promise<Response> =>
  (await (await caches.open(own)).match(request)) ?? (await caches.match(request)) ?? (await fetch(request));

worker.addEventListener('install', (event) => event.waitUntil(keep()));
worker.addEventListener('activate', (event) => event.waitUntil(dropOld()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== worker.location.origin) return;
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request));
});
