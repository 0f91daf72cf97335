import { expect, test } from 'vitest';
import { randomSession } from './random-session.ts';

/** Whatever was done to a book, undo of all brings the first one back. The long run of it is npm run long. */

test('two sessions of changes by chance, taken back and done again', () => {
  const sessions = Array.from({ length: 2 }, (_, number) => randomSession(number));
  expect(sessions.flatMap(({ wrong }, number) => wrong.map((text) => `session ${number}, ${text}`))).toEqual([]);
  expect(sessions.reduce((sum, { done }) => sum + done, 0)).toBeGreaterThan(15);
});
