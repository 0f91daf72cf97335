import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import type { BeltDraws } from '../what-if/simulated-part.ts';
import { gathered, type Simulation } from '../what-if/simulation.ts';
import {
  dealtOut,
  simulationAsked,
  type SimulationTask,
  typedCorrelations,
  typedTolerances,
} from '../what-if/simulation-task.ts';
import { ChangeRefused } from '../what-if/typed-change.ts';
import { totalColumns } from '../what-if/variant-differences.ts';
import { isEmptyRecord } from '../records/input-issues.ts';
import type { BookState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { Background } from './background.ts';
import type { ChanceAnswer } from './workers/chance-worker.ts';

/** Simulations beside the page: of the belt on show, or of the fleet. Its draws are dealt out to workers. */

export type Whose = 'belt' | 'fleet';
type Work = `${Whose} ${number}`;

interface Run {
  readonly book: Workbook;
  readonly task: SimulationTask;
  readonly shares: number[];
  readonly parts: (readonly BeltDraws[] | undefined)[];
}

export interface Found {
  readonly state: BookState;
  readonly records: readonly number[];
  readonly columns: readonly BeltHeader[];
  readonly simulation: Simulation;
}

/** Draws of the fleet that can be chosen: a second's work for a few dozen belts, and ten. */
export const fleetDraws = [1_000, 10_000] as const;

/** Workers at most: a book takes memory in each. */
const mostWorkers = 4;

export class Chances {
  readonly #background: Background<Work, ChanceAnswer>;
  readonly #changed: () => void;
  readonly #runs = new Map<Whose, Run>();
  readonly found = new Map<Whose, Found>();
  /** Tolerances and correlations as they are typed, one a line. */
  terms = '';
  /** Why what was asked can't be drawn. */
  problem: string | undefined;
  draws: (typeof fleetDraws)[number] = 1_000;

  constructor(changed: () => void) {
    this.#changed = changed;
    this.#background = new Background(
      (work, answer) => this.#take(work, answer),
      () => this.#ended(),
    );
  }

  /** The share of the draws that is done; undefined where none are under way. */
  share(whose: Whose): number | undefined {
    const run = this.#runs.get(whose);
    return run === undefined ? undefined : run.shares.reduce((sum, share) => sum + share, 0) / run.shares.length;
  }

  /** Draws a belt's true figures, or every belt's. */
  start(whose: Whose, book: Workbook, records: readonly number[], columns: readonly BeltHeader[], draws: number): void {
    this.stop(whose);
    this.problem = undefined;
    const lines = this.terms
      .split(/[\n;]/)
      .map((line) => line.trim())
      .filter((line) => line !== '');
    const task: SimulationTask = {
      state: book.state,
      records,
      columns,
      draws,
      seed: 1,
      tolerances: lines.filter((line) => !line.includes('~')),
      correlations: lines.filter((line) => line.includes('~')),
    };
    try {
      typedTolerances(book, task.tolerances);
      typedCorrelations(book, task.correlations);
    } catch (error) {
      if (!(error instanceof ChangeRefused)) throw error;
      this.problem = error.message;
      this.#changed();
      return;
    }
    const hands = dealtOut(task, Math.min(mostWorkers, navigator.hardwareConcurrency));
    this.#runs.set(whose, { book, task, shares: hands.map(() => 0), parts: hands.map(() => undefined) });
    for (const [place, dealt] of hands.entries()) {
      const worker = new Worker(new URL('./workers/chance-worker.ts', import.meta.url), { type: 'module' });
      this.#background.start(`${whose} ${place}`, worker, { ...task, records: dealt });
    }
  }

  stop(whose: Whose): void {
    const run = this.#runs.get(whose);
    if (run === undefined) return;
    this.#runs.delete(whose);
    for (const place of run.parts.keys()) this.#background.stop(`${whose} ${place}`);
    this.#changed();
  }

  #take(work: Work, answer: ChanceAnswer): void {
    const [whose, place] = [work.startsWith('belt') ? 'belt' : 'fleet', Number(work.split(' ')[1])] as const;
    const run = this.#runs.get(whose);
    if (run === undefined) return;
    if (answer.done === 'share') {
      run.shares[place] = answer.share;
      return;
    }
    run.shares[place] = 1;
    run.parts[place] = answer.draws;
    const parts = run.parts.flatMap((part) => part ?? []);
    if (parts.length < run.task.records.length) return;
    this.#runs.delete(whose);
    // The book may have moved on: what was drawn is of the state that was asked, and is not shown for another.
    if (run.book.state !== run.task.state) return;
    const { records, columns, state } = run.task;
    const simulation = gathered(run.book, simulationAsked(run.book, run.task), parts);
    this.found.set(whose, { state, records, columns, simulation });
  }

  /** A worker that failed ends its whole run: what is missing of it can't be made up. */
  #ended(): void {
    for (const [work, why] of this.#background.problems) {
      this.problem = why;
      this.#background.problems.delete(work);
      this.stop(work.startsWith('belt') ? 'belt' : 'fleet');
    }
    this.#changed();
  }
}

/** The belts of a book: rows that hold something. */
export const fleetRecords = (book: Workbook): number[] =>
  book.sheet(belts.name).rows.flatMap(({ cells }, record) => (isEmptyRecord(cells) ? [] : [record]));

/** What is summed over the fleet. */
export const fleetColumns: readonly BeltHeader[] = totalColumns;
