import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { cuttingPlan } from '../../../src/order/search/cutting-plan.ts';
import { loadSolver } from '../../../src/solver/solver.ts';
import { type Solver } from '../../../src/solver/program.ts';

/** Twenty published cutting-stock instances to proven optimum; sources in data/README.md. */

interface Instance {
  readonly name: string;
  readonly roll: number;
  readonly printed: number;
  readonly lengths: readonly number[];
}

function instances(): Instance[] {
  const [count = '', ...lines] = readFileSync(new URL('data/u120.txt', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .map((line) => line.trim());
  let at = 0;
  return Array.from({ length: Number(count) }, () => {
    const name = lines[at] ?? '';
    const [roll = 0, pieces = 0, printed = 0] = (lines[at + 1] ?? '').split(/\s+/).map(Number);
    at += 2 + pieces;
    return { name, roll, printed, lengths: lines.slice(at - pieces, at).map(Number) };
  });
}

/** Proven since the file was printed, one less each. */
const improved = new Map([
  ['u120_08', 50],
  ['u120_19', 49],
]);
/** First fit, longest first, as the literature gives it for three of them. */
const firstFit = new Map([
  ['u120_00', 49],
  ['u120_08', 51],
  ['u120_19', 50],
]);

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

test('there are twenty instances of 120 pieces', () => {
  expect(instances().map(({ lengths }) => lengths.length)).toEqual(Array.from({ length: 20 }, () => 120));
});

describe('u120', () => {
  test.each(instances())(
    '$name',
    async ({ name, roll, printed, lengths }) => {
      const plan = await cuttingPlan(
        {
          pieces: lengths.map((length, place) => ({ belt: `piece ${place}`, length, quantity: 1 })),
          shelf: [],
          sold: [{ name: 'roll', length: roll, price: 1 }],
          sawLoss: 0,
          step: 1,
        },
        solver,
        { seconds: 100 },
      );
      expect(plan.rolls.length).toBe(improved.get(name) ?? printed);
      expect([plan.cost, plan.bound, plan.gap, plan.proven]).toEqual([plan.rolls.length, plan.rolls.length, 0, true]);
      if (firstFit.has(name)) expect(plan.firstFitCost).toBe(firstFit.get(name));
      expect(plan.rolls.every(({ cuts }) => cuts.reduce((sum, { length }) => sum + length, 0) <= roll)).toBe(true);
      expect(plan.rolls.flatMap(({ cuts }) => cuts.map(({ belt, length }) => `${belt} ${length}`)).toSorted()).toEqual(
        lengths.map((length, place) => `piece ${place} ${length}`).toSorted(),
      );
    },
    120_000,
  );
});
