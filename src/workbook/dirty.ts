import type { ComputingStep } from './compiled-book.ts';

/** Computed cells to work out again: by sheet and column, in some records or in all. */
export type Dirty = Map<string, DirtyColumns>;

type DirtyColumns = Map<number, Set<number> | 'all'>;

export function mark(dirty: Dirty, sheet: string, column: number, record: number | 'all'): void {
  const columns = dirty.get(sheet) ?? new Map<number, Set<number> | 'all'>();
  dirty.set(sheet, columns);
  const records = columns.get(column);
  if (record === 'all') columns.set(column, 'all');
  else if (records === undefined) columns.set(column, new Set([record]));
  else if (records !== 'all') records.add(record);
}

/** Every computed cell there is. */
export function everything(steps: readonly ComputingStep[]): Dirty {
  const dirty: Dirty = new Map();
  for (const { plan, column } of steps) mark(dirty, plan.declaration.name, column, 'all');
  return dirty;
}

/** Adds what `more` marks. */
export function merge(dirty: Dirty, more: Dirty): void {
  for (const [sheet, columns] of more) {
    for (const [column, records] of columns) {
      if (records === 'all') mark(dirty, sheet, column, 'all');
      else for (const record of records) mark(dirty, sheet, column, record);
    }
  }
}

/** A computing step that has something to work out, and whether any value moved by it. */
export interface DueStep extends ComputingStep {
  readonly records: ReadonlySet<number> | 'all';
  moved: boolean;
}

/** Those of a sheet's steps that its dirty columns ask for. */
export const dueSteps = (steps: readonly ComputingStep[], dirty: DirtyColumns): DueStep[] =>
  steps.flatMap(({ plan, column, formula }) => {
    const records = dirty.get(column);
    return records === undefined ? [] : [{ plan, column, formula, records, moved: false }];
  });
