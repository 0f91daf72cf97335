import { expect, test } from 'vitest';
import { killedPages } from './killed-pages.ts';

/** A browser that is killed at any moment has lost nothing that was said to be saved, and a second's work at most. */

test('what was saved is there after a kill at any moment, and the book opens', async () => {
  const { kills, edits, wrong } = await killedPages({ count: 2, seed: 20_261_126 });
  expect(wrong).toEqual([]);
  expect(kills).toBe(2);
  expect(edits).toBeGreaterThan(2);
}, 240_000);
