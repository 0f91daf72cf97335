import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Background } from '../../src/page/background.ts';

/** Work beside the page, with a worker that answers when it is told to. */

interface Found {
  readonly done: 'found';
  readonly what: number;
}

/** A worker whose answers the test gives. */
class HeldWorker extends EventTarget implements Worker {
  ended = false;
  onmessage = null;
  onmessageerror = null;
  onerror = null;

  postMessage(): void {
    // It is at its task from now on.
  }

  terminate(): void {
    this.ended = true;
  }

  answer(data: Found | { readonly done: 'end' }): void {
    this.dispatchEvent(new MessageEvent('message', { data }));
  }
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const limit = { milliseconds: 21_000, why: 'Stopped after 20 s.' };

test('a search is ended with its limit, and what it had found stays', () => {
  const found: number[] = [];
  const background = new Background<'order', Found>(
    (_, { what }) => void found.push(what),
    () => {},
  );
  const worker = new HeldWorker();
  background.start('order', worker, {}, limit);
  worker.answer({ done: 'found', what: 7 });
  vi.advanceTimersByTime(20_999);
  expect([background.has('order'), worker.ended]).toEqual([true, false]);
  vi.advanceTimersByTime(1);
  expect([background.has('order'), worker.ended]).toEqual([false, true]);
  expect(background.problems.get('order')).toBe(limit.why);
  worker.answer({ done: 'found', what: 8 });
  expect(found).toEqual([7]);
});

test('a limit says nothing of a search that came to its end, or of the one after it', () => {
  const background = new Background<'order', Found>(
    () => {},
    () => {},
  );
  const [first, second] = [new HeldWorker(), new HeldWorker()];
  background.start('order', first, {}, limit);
  vi.advanceTimersByTime(15_000);
  background.start('order', second, {}, limit);
  expect(first.ended).toBe(true);
  vi.advanceTimersByTime(15_000);
  expect(background.has('order')).toBe(true);
  second.answer({ done: 'end' });
  vi.advanceTimersByTime(60_000);
  expect([background.has('order'), background.problems.size]).toEqual([false, 0]);
});

test('a search that is stopped keeps nothing until its limit', () => {
  const background = new Background<'order', Found>(
    () => {},
    () => {},
  );
  const worker = new HeldWorker();
  background.start('order', worker, {}, limit);
  background.stop('order');
  expect([background.has('order'), worker.ended, vi.getTimerCount()]).toEqual([false, true, 0]);
});
