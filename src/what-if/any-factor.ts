import type { Belt } from '../records/belt.ts';
import { factorsFor } from './known-factors.ts';
import type { Goal } from './goal.ts';
import { type Solved, solvedBelt } from './solved-belt.ts';
import { isSolvable } from './solved-words.ts';

/** Steps tried of each factor when all are. Chosen: a second or two for a belt. */
const fewTried = 200;

/** How far a solution is from the present value, as a share of it: near ones are told first. */
function reach({ present, answer }: Solved): number {
  if (answer.of !== 'numbers' || typeof present !== 'number') return answer.of === 'choices' ? 1 : Infinity;
  const { stretches, roots } = answer.solutions;
  const distances = [
    ...stretches.map(({ from, to }) => Math.max(0, from - present, present - to)),
    ...roots.map((root) => Math.abs(root - present)),
  ];
  return Math.min(...distances) / Math.max(Math.abs(present), Number.MIN_VALUE);
}

/** Every factor that alone meets the goal, the nearest first; those that change nothing or can't are left out. */
export function anyFactor(belt: Belt, goal: Goal): Solved[] {
  return factorsFor(belt)
    .map((factor) => solvedBelt(belt, goal, factor, {}, fewTried))
    .filter(isSolvable)
    .toSorted((one, other) => reach(one) - reach(other));
}
