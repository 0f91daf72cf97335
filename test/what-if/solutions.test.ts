import { describe, expect, test } from 'vitest';
import { Fault, type Value } from '../../src/formula/values.ts';
import { type Steps, solutions, type Target } from '../../src/what-if/solutions.ts';

/** Solutions of figures whose own are known in closed form. */

const equal = (target: number): Target => ({
  distance: (value) => (typeof value === 'number' ? Math.abs(value - target) : undefined),
  difference: (value) => (typeof value === 'number' ? value - target : undefined),
});
const most = (limit: number): Target => ({
  distance: (value) => (typeof value === 'number' ? Math.max(0, value - limit) : undefined),
});

const solved = (figure: (at: number) => Value, steps: Steps, target: Target): ReturnType<typeof solutions> =>
  solutions(figure, steps, target);

describe('equalities', () => {
  test('every crossing of a wave is found, between steps and to the last digits', () => {
    const { roots } = solved((at) => Math.sin(at), { from: 0.5, to: 20, step: 0.5 }, equal(0));
    expect(roots).toHaveLength(6);
    for (const [index, root] of roots.entries()) expect(root).toBeCloseTo((index + 1) * Math.PI, 12);
  });

  test('a figure that touches its target, or dips past it between two steps, has its roots', () => {
    const touching = solved((at) => (at - Math.SQRT2) ** 2 + 3, { from: 0, to: 4, step: 0.5 }, equal(3));
    expect(touching.roots).toHaveLength(1);
    // A parabola's bottom is flat: half of the digits are lost there.
    expect(touching.roots[0]).toBeCloseTo(Math.SQRT2, 6);
    const dipping = solved((at) => (at - 1.25) ** 2, { from: 0, to: 4, step: 0.5 }, equal(0.01));
    expect(dipping.roots.map((root) => Number(root.toFixed(10)))).toEqual([1.15, 1.35]);
  });

  test('a leap over the target is no solution; the nearest step is told', () => {
    const { roots, stretches, nearest } = solved((at) => Math.floor(at), { from: 0, to: 9, step: 0.25 }, equal(4.4));
    expect({ roots, stretches, nearest: nearest?.at }).toEqual({ roots: [], stretches: [], nearest: 4 });
  });

  test('a level figure that equals its target does so over a stretch', () => {
    const { stretches } = solved((at) => Math.floor(at), { from: 0, to: 9, step: 0.25 }, equal(4));
    expect(stretches).toHaveLength(1);
    expect(stretches[0]).toMatchObject({ from: 4, to: 4.75 });
    expect(stretches[0]?.exactTo).toBeCloseTo(5, 12);
  });

  test('where a figure is an error nothing is solved, and beside it everything is', () => {
    const figure = (at: number): Value => (at < 2 ? new Fault('#NUM!', 'too small') : at * at);
    expect(solved(figure, { from: 0, to: 5, step: 0.5 }, equal(9)).roots).toEqual([3]);
    expect(solved(figure, { from: 0, to: 5, step: 0.5 }, equal(1)).roots).toEqual([]);
  });
});

describe('limits', () => {
  test('every stretch below a limit is found with its ends, on steps and exactly', () => {
    const { stretches, everyStep } = solved((at) => Math.cos(at), { from: 0, to: 13, step: 0.01 }, most(0.5));
    expect(everyStep).toBe(true);
    expect(stretches.map(({ from, to }) => [from, to])).toEqual([
      [1.05, 5.23],
      [7.34, 11.51],
    ]);
    const [one, other] = stretches;
    expect(one?.exactFrom).toBeCloseTo(Math.PI / 3, 12);
    expect(one?.exactTo).toBeCloseTo((5 * Math.PI) / 3, 12);
    expect(other?.exactFrom).toBeCloseTo((7 * Math.PI) / 3, 12);
  });

  test('the ends of a long range of steps are followed to the step', () => {
    const answer = solved((at) => Math.abs(at - 500_000.4), { from: 0, to: 1_000_000, step: 1 }, most(1234.5));
    expect(answer).toMatchObject({ everyStep: false, stretches: [{ from: 498_766, to: 501_234 }] });
  });

  test('steps are what a person types: 0.1 and not 0.30000000000000004', () => {
    const tried: number[] = [];
    solved(
      (at) => {
        tried.push(at);
        return 1;
      },
      { from: 0, to: 1, step: 0.1 },
      most(2),
    );
    expect(tried.slice(0, 5)).toEqual([0, 0.1, 0.2, 0.3, 0.4]);
  });
});
