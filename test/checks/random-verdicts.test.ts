import { describe, expect, test } from 'vitest';
import { comparedVerdicts, toBeMet } from './plain-verdicts.ts';
import { worsenedBelts, worsenings } from './worsened-belts.ts';

/** What `npm run long` tries on many more: the parts "verdicts" and "monotony". */

const seeds = Array.from({ length: 10 }, (_, index) => index);

describe('on random belts', () => {
  test('no check, and no belt, is called better or worse than by a plain second implementation', () => {
    const found = seeds.map((seed) => comparedVerdicts(seed, 200));
    expect(found.flatMap(({ better }) => better)).toEqual([]);
    expect(found.flatMap(({ worse }) => worse)).toEqual([]);
    const met = new Set(found.flatMap((one) => [...one.met]));
    expect(toBeMet.filter((what) => !met.has(what))).toEqual([]);
  });

  test('what is worse is never called better', () => {
    const found = seeds.slice(0, 5).map((seed) => worsenedBelts(seed, 40));
    expect(found.flatMap(({ improved }) => improved)).toEqual([]);
    for (const { tried, worse } of found) {
      expect(tried).toBeGreaterThan(40 * 3);
      expect(worse).toBeGreaterThan(40);
    }
    expect(worsenings.length).toBeGreaterThanOrEqual(5);
  });
});
