import { expect, test } from 'vitest';
import { mutantCases, outcome, realFiles } from '../mutants.ts';

/** Real files, damaged: read or refused in a sentence, never a fault. The long run of them is npm run long. */

test('eleven real files are read, but for what is no list of belts', async () => {
  const files = await realFiles();
  expect(files).toHaveLength(11);
  expect(files.filter(({ bytes }) => outcome(bytes) === 'read')).toHaveLength(8);
  expect(files.filter(({ bytes }) => outcome(bytes) === 'refused')).toHaveLength(3);
}, 120_000);

test('80 mutants of them are read or refused in a sentence', async () => {
  const { named, tried } = await mutantCases(20_261_126);
  const ends = Array.from({ length: 80 }, (_, number) => ({ number, how: tried(number) }));
  expect(
    ends.filter(({ how }) => how.startsWith('wrong')).map(({ number, how }) => `${named(number)}: ${how}`),
  ).toEqual([]);
  for (const kind of ['read', 'refused']) expect(ends.filter(({ how }) => how === kind).length).toBeGreaterThan(20);
}, 240_000);
