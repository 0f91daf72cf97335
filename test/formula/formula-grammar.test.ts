import { expect, test } from 'vitest';
import { grammarCases } from './formula-grammar.ts';

/** Whatever a formula is made of, it ends in a value or an error. The long run of it is npm run long. */

test('600 formulas by chance end in a value or an error code', () => {
  const { named, tried } = grammarCases(20_261_126);
  const ends = Array.from({ length: 600 }, (_, number) => ({ number, how: tried(number) }));
  expect(
    ends.filter(({ how }) => how.startsWith('wrong')).map(({ number, how }) => `${named(number)}: ${how}`),
  ).toEqual([]);
  for (const kind of ['value', 'error']) expect(ends.filter(({ how }) => how === kind).length).toBeGreaterThan(60);
});
