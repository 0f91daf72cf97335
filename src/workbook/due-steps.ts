import type { DirtyColumns } from './dirty.ts';
import type { ComputingStep } from './layout.ts';

/** A computing step that has something to work out, and whether any value moved by it. */
export interface DueStep extends ComputingStep {
  readonly records: ReadonlySet<number> | 'all';
  moved: boolean;
}

/** Those of a sheet's steps that its dirty columns ask for. */
export const dueSteps = (steps: readonly ComputingStep[], dirty: DirtyColumns | undefined): DueStep[] =>
  dirty === undefined ? [] : steps.flatMap((step) => {
    const records = dirty.get(step.column);
    return records === undefined ? [] : [{ ...step, records, moved: false }];
  });

/** Records in which any of the steps is due; undefined for all of them. */
export function dueRecords(due: readonly DueStep[]): ReadonlySet<number> | undefined {
  const found = new Set<number>();
  for (const { records } of due) {
    if (records === 'all') return undefined;
    for (const record of records) found.add(record);
  }
  return found;
}
