import fc from 'fast-check';
import { test } from 'vitest';
import { alike, work } from './sheet-edits.ts';

/** A short run of what test/bench/sheet-edits-bench.ts does at length. */
test('random sequences of edits leave a book as they leave a plain model', () => {
  fc.assert(fc.property(work, alike), { numRuns: 25 });
});
