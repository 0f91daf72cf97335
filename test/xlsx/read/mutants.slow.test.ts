import { expect, test } from 'vitest';
import { mutant, outcome, realFiles } from '../mutants.ts';

/** Real files, damaged: read or refused in a sentence, never a fault. The long run of them is npm run long. */

test('120 mutants of ten real files are read or refused in a sentence', async () => {
  const files = await realFiles();
  expect(files).toHaveLength(10);
  // A card, an order and a list of days are no lists of belts.
  expect(files.filter(({ bytes }) => outcome(bytes) === 'read')).toHaveLength(7);
  const wrong: string[] = [];
  const counts = { read: 0, refused: 0 };
  for (let number = 0; number < 120; number += 1) {
    const { name, bytes } = mutant(files, 20_261_126, number);
    const what = outcome(bytes);
    if (typeof what === 'object') wrong.push(`${name}: ${what.wrong}`);
    else counts[what] += 1;
  }
  expect(wrong).toEqual([]);
  expect(counts.read).toBeGreaterThan(20);
  expect(counts.refused).toBeGreaterThan(20);
}, 240_000);
