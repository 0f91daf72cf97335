import { numberIn } from '../formula/values.ts';
import type { Name } from '../records/inputs.ts';
import type { Solved } from './solved-belt.ts';

/**
 * The solution next to the present value: a step where one does, the next standard diameter up of a pulley, else where
 * a figure equals its number; undefined where there is none, or the present value is one.
 */
export function nearestSolution({ answer, present, met }: Solved): Name | undefined {
  if (met) return undefined;
  if (answer.of === 'choices') return answer.found[0];
  if (answer.of !== 'numbers') return undefined;
  const { stretches, roots } = answer.solutions;
  const from = numberIn(present) ?? 0;
  const larger = answer.standard?.find((size) => size > from);
  if (larger !== undefined) return larger;
  const steps = stretches.map((stretch) => Math.min(stretch.to, Math.max(stretch.from, from)));
  return (steps.length > 0 ? steps : roots).toSorted((one, other) => Math.abs(one - from) - Math.abs(other - from))[0];
}
