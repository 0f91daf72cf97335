import type { BeltHeader } from '../../sheets/index.ts';
import type { BookState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { checkCorrelations, type Correlation, typedCorrelation } from './correlations.ts';
import { streamName } from './drawn-values.ts';
import type { Tolerances } from './effects.ts';
import { factorValue } from './factor.ts';
import { factorNamed } from './known-factors.ts';
import type { SimulationAsked } from './simulated-part.ts';
import { proposedTolerance, typedTolerance } from './tolerance.ts';

/** A simulation as plain data, so that threads can be told of it: what people type is read where it is needed. */
export interface SimulationTask {
  readonly state: BookState;
  readonly records: readonly number[];
  readonly columns: readonly BeltHeader[];
  readonly draws: number;
  readonly seed: number;
  /** As "Power=5%". */
  readonly tolerances: readonly string[];
  /** As "Power~Speed=0.6". */
  readonly correlations: readonly string[];
}

/** Tolerances as they were typed, else as they are proposed. Throws ChangeRefused for what can't be read. */
export function typedTolerances(book: Workbook, texts: readonly string[]): Tolerances {
  const given = texts.map((text) => {
    const { name, of } = typedTolerance(text);
    return { name: factorNamed(book, name).name, of };
  });
  return (factor, belt) => {
    const own = given.findLast((one) => one.name === factor.name);
    if (own === undefined) return proposedTolerance(factor, belt);
    const value = factorValue(factor, belt);
    const tolerance = typeof value === 'number' ? own.of(value) : undefined;
    return tolerance?.half === 0 ? undefined : tolerance;
  };
}

/** Correlations as they were typed. Throws ChangeRefused for what can't be read, or can't be had together. */
export function typedCorrelations(book: Workbook, texts: readonly string[]): readonly Correlation[] {
  const stream = (name: string): string => streamName(factorNamed(book, name).name);
  const given = texts.map((text) => {
    const { one, other, by } = typedCorrelation(text);
    return { one: stream(one), other: stream(other), by };
  });
  checkCorrelations(given);
  return given;
}

/** What is asked of a book by a task. */
export const simulationAsked = (book: Workbook, task: Omit<SimulationTask, 'state'>): SimulationAsked => ({
  records: task.records,
  columns: task.columns,
  draws: task.draws,
  seed: task.seed,
  tolerances: typedTolerances(book, task.tolerances),
  correlations: typedCorrelations(book, task.correlations),
});

/** Belts times draws from which a second thread is worth its start. Chosen: a second's work. */
const worthAThread = 40_000;

/** The belts dealt out to threads: neighbours are alike, so each thread gets every second or third. */
export function dealtOut({ records, draws }: Pick<SimulationTask, 'records' | 'draws'>, threads: number): number[][] {
  const count = records.length * draws < worthAThread ? 1 : Math.max(1, Math.min(threads, records.length));
  return Array.from({ length: count }, (_, hand) => records.filter((__, place) => place % count === hand));
}
