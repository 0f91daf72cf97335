import type { Trial } from './opening.ts';

/** Tries a book in a worker of its own, which is ended when its time is over. */
export const trialInWorker: Trial = (state, milliseconds) =>
  new Promise((done) => {
    const worker = new Worker(new URL('./workers/trial-worker.ts', import.meta.url), { type: 'module' });
    const end = (why: string | undefined): void => {
      clearTimeout(timer);
      worker.terminate();
      done(why);
    };
    const timer = setTimeout(() => end(`it took more than ${Math.round(milliseconds / 1000)} s`), milliseconds);
    worker.addEventListener('message', ({ data }: MessageEvent<{ done: string; why?: string }>) => {
      end(data.done === 'refuse' ? (data.why ?? 'it failed') : undefined);
    });
    worker.addEventListener('error', ({ message }) => end(message));
    worker.postMessage(state);
  });
