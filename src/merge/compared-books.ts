import { type MergeBook, mergePlan, type MergePlan } from './merge-plan.ts';

/**
 * What differs between two books of which nobody knows what both come from: everything counts as changed in the second.
 * Where one of them is a list, only what it has columns for.
 */
export const comparedBooks = (one: MergeBook, other: MergeBook): MergePlan =>
  mergePlan({ base: one, mine: one, theirs: other });
