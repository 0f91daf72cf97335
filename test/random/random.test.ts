import { describe, expect, test } from 'vitest';
import { gamma, waiting } from '../../src/random/draws.ts';
import { between0And1, randomNumbers, randomWhole } from '../../src/random/random-numbers.ts';

describe('random numbers', () => {
  test(
    'are those of xoshiro128** for the state 1, 2, 3, 4 (from its reference implementation, ' +
      'xoshiro128starstar.c 1.1)',
    () => {
      const state: [number, number, number, number] = [1, 2, 3, 4];
      expect(Array.from({ length: 10 }, () => randomWhole(state))).toEqual([
        11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
      ]);
    },
  );

  test('stay below 1 at the largest pair of whole numbers, and above 0 at the least', () => {
    // From here both wholes are 2^32 - 1: 2199679431 is what the scrambler makes that of, and equal first and third
    // words keep it.
    const state: [number, number, number, number] = [1, 2_199_679_431, 1, 0];
    expect([randomWhole(state), randomWhole(state)]).toEqual([4_294_967_295, 4_294_967_295]);
    expect(between0And1([1, 2_199_679_431, 1, 0])).toBeLessThan(1);
    expect(between0And1([1, 0, 1, 0])).toBeGreaterThan(0);
  });

  test('are the same for the same seed, lie between 0 and 1, and fill that evenly', () => {
    const [one, same, other] = [1, 1, 2].map((seed) => Array.from({ length: 4000 }, randomNumbers(seed)));
    expect(one).toEqual(same);
    expect(one).not.toEqual(other);
    const tenths = new Array<number>(10).fill(0);
    for (const number of one ?? []) tenths[Math.floor(number * 10)] = (tenths[Math.floor(number * 10)] ?? 0) + 1;
    const chiSquared = tenths.reduce((sum, count) => sum + (count - 400) ** 2 / 400, 0);
    // 99.9 % of the chi-squared distribution with 9 degrees of freedom, printed tables.
    expect(chiSquared).toBeLessThan(27.88);
  });
});

describe('draws', () => {
  const count = 40_000;
  // Central fourth moment of a gamma quantity of scale 1: 3 shape (shape + 2). A waiting time is one of shape 1.
  test.each([
    ['waiting', 1, waiting],
    ['gamma 4', 4, (random: () => number) => gamma(4, random)],
    ['gamma 0.6', 0.6, (random: () => number) => gamma(0.6, random)],
  ] as const)('%s: mean and variance are the shape, within four standard errors', (_, shape, draw) => {
    const random = randomNumbers(7);
    const drawn = Array.from({ length: count }, () => draw(random));
    const mean = drawn.reduce((sum, one) => sum + one, 0) / count;
    const variance = drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (count - 1);
    expect(Math.min(...drawn)).toBeGreaterThan(0);
    expect(Math.abs(mean - shape)).toBeLessThan(4 * Math.sqrt(shape / count));
    expect(Math.abs(variance - shape)).toBeLessThan(4 * Math.sqrt((3 * shape * (shape + 2) - shape ** 2) / count));
  });
});
