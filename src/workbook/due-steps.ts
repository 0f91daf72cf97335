import type { DirtyColumns } from './dirty.ts';
import type { ComputingStep } from './compiled-book.ts';

/** A computing step that has something to work out, and whether any value moved by it. */
export interface DueStep extends Pick<ComputingStep, 'column' | 'formula'> {
  readonly records: ReadonlySet<number> | 'all';
  moved: boolean;
}

/** Those of a sheet's steps that its dirty columns ask for. */
export const dueSteps = (steps: readonly ComputingStep[], dirty: DirtyColumns): DueStep[] =>
  steps.flatMap(({ column, formula }) => {
    const records = dirty.get(column);
    return records === undefined ? [] : [{ column, formula, records, moved: false }];
  });
