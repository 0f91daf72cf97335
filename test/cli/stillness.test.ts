import { expect, test } from 'vitest';
import { Stillness } from '../../src/cli/stillness.ts';

test('a run on a busy machine moves, however slowly, and one that only waits stands still', () => {
  const [busy, waiting] = [new Stillness(0, 70), new Stillness(0, 70)];
  const [slowly, never] = [[] as number[], [] as number[]];
  for (let second = 1; second <= 600; second += 1) {
    slowly.push(busy.until(second * 1000, 70 + second * 10));
    never.push(waiting.until(second * 1000, 70 + second * 0.4));
  }
  expect(Math.max(...slowly)).toBe(49_000);
  expect(Math.max(...never)).toBe(600_000);
});
