import { patternsWithin } from './cut-patterns.ts';
import type { CutSolution, Pattern } from './cut-problem.ts';
import { anyCounts, columnOf, missingColumns, type RollCounts, rowsOf, type Search } from './pattern-program.ts';
import { pause, type Relaxation, relaxation } from './pattern-relaxation.ts';
import { close, keyOf, PatternState } from './pattern-state.ts';
import type { Limits, Solver } from '../../solver/program.ts';

/**
 * The best cutting plan, by patterns.
 *
 * The linear program over all patterns is solved by making patterns as its prices ask for them; what it comes to,
 * rounded up to a cost that whole rolls can come to, no plan can beat. Then the integer program over the patterns made;
 * and when it does not meet the bound, over every pattern that a better plan could hold, which proves the best. Where
 * these are too many and rolls have several prices, the bound is raised by branching on how many rolls of each are
 * bought.
 */

export interface Found {
  readonly solution: CutSolution;
  /** Of the aim, in whole steps. */
  readonly value: number;
  /** No plan can be less. */
  readonly bound: number;
  readonly proven: boolean;
}

/** Patterns that an integer program may hold in the last, proving run. */
const mostPatterns = 20_000;

/**
 * The same for each second that is left: at the root of its tree the solver does not look at its clock, so a program
 * must be no larger than it can begin in time. Measured: 16,530 patterns took 13 s on one core.
 */
const patternsPerSecond = 1_000;

interface Branch {
  readonly counts: RollCounts;
  /** No plan of the branch costs less. */
  readonly bound: number;
}

/** Branches on the numbers of rolls that are looked at before the search is content with its bound. */
const mostBranches = 300;

class PatternSearch {
  readonly #search: Search;
  readonly #state: PatternState;
  readonly #solver: Solver;

  constructor(search: Search, solver: Solver, limits: Limits) {
    this.#search = search;
    this.#state = new PatternState(search, limits);
    this.#solver = solver;
  }

  /**
   * The integer program over some patterns, with the best plan as its start where they hold it. It takes no more than
   * what is left of the time, whatever it is granted, and is not begun when nothing is.
   */
  #program(
    patterns: readonly Pattern[],
    stage: string,
    granted: number,
    counts: RollCounts = anyCounts(this.#search),
  ): boolean {
    const seconds = Math.min(granted, this.#state.left);
    if (seconds <= 0) return false;
    const missing = missingColumns(this.#search, true);
    const times = new Map(this.#state.best.uses.map(({ pattern, times: number }) => [keyOf(pattern), number]));
    const held = patterns.filter((pattern) => times.has(keyOf(pattern))).length === times.size;
    const answer = this.#solver.whole(
      {
        rows: rowsOf(this.#search, counts),
        columns: [...missing, ...patterns.map((pattern) => columnOf(this.#search, pattern, true))],
      },
      {
        ...this.#state.limits,
        stage,
        seconds,
        // Values are whole: less than one step better is no better.
        gap: 1 - close,
        target: this.#state.bound + close,
        ...(held
          ? { start: [...this.#state.best.missing, ...patterns.map((pattern) => times.get(keyOf(pattern)) ?? 0)] }
          : {}),
      },
    );
    if (answer.values.length > 0) {
      this.#state.offer({
        missing: answer.values.slice(0, missing.length),
        uses: patterns.flatMap((pattern, place) => {
          const number = answer.values[missing.length + place] ?? 0;
          return number === 0 ? [] : [{ pattern, times: number }];
        }),
      });
    }
    return answer.outcome === 'optimal' || answer.outcome === 'infeasible';
  }

  /**
   * Integer programs over the patterns that a better plan could hold: first over those that cost it little, which are
   * few and often hold a plan that meets the bound, last over all of them.
   */
  async #proof({ prices, cost }: Relaxation): Promise<void> {
    const { problem, aim } = this.#search;
    for (const share of [0.01, 0.1, 0.3, 1]) {
      if (this.#state.over) return;
      await pause();
      const patterns = patternsWithin(
        problem,
        aim,
        prices,
        share * (this.#state.attainable.below(this.#state.value) - cost) + close,
        Math.min(mostPatterns, Math.floor(patternsPerSecond * this.#state.left)),
      );
      if (patterns === undefined) return;
      // Nothing better than the best known can be made of other patterns: when the program ends, the best is proven.
      const ended = this.#program(
        patterns,
        'patterns of a better plan',
        share === 1 ? Number.POSITIVE_INFINITY : Math.max(2, this.#state.left / 3),
      );
      if (ended && share === 1) this.#state.bound = this.#state.value;
    }
  }

  /**
   * Raises the bound by branching on the numbers of rolls: a fraction of a dear roll and some of a cheap one may add up
   * to a cost that no whole numbers of them serve for. The branch of the least bound goes first, so that bound is the
   * search's.
   */
  async #branching(root: Relaxation): Promise<void> {
    const { stocks } = this.#search.problem;
    const open: Branch[] = [{ counts: anyCounts(this.#search), bound: this.#state.lifted(root.cost) }];
    const undecided: number[] = [];
    for (let looked = 0; looked < mostBranches && !this.#state.over; looked += 1) {
      open.sort((one, other) => other.bound - one.bound);
      const branch = open.pop();
      this.#state.bound = Math.max(
        this.#state.bound,
        Math.min(branch?.bound ?? this.#state.value, this.#state.value, ...undecided),
      );
      if (branch === undefined || branch.bound >= this.#state.value) return;
      await pause();
      const relaxed = await relaxation(this.#state, this.#solver, branch.counts);
      const bound = relaxed === undefined ? branch.bound : Math.max(branch.bound, this.#state.lifted(relaxed.cost));
      if (bound >= this.#state.value) continue;
      const rolls = relaxed === undefined ? [] : this.#state.rollsIn(relaxed.values);
      const split = rolls.findIndex(
        (number, place) => (stocks[place]?.cost ?? 0) > 0 && Math.abs(number - Math.round(number)) > close,
      );
      if (split < 0) {
        // Whole numbers of rolls: the cost is settled, what is left is whether the pieces fit.
        this.#program(this.#state.patterns, 'numbers of rolls', 3, branch.counts);
        if (bound < this.#state.value) undecided.push(bound);
        continue;
      }
      const number = Math.floor(rolls[split] ?? 0);
      const part = (change: (counts: RollCounts[number]) => RollCounts[number]): RollCounts =>
        branch.counts.map((counts, place) => (place === split ? change(counts) : counts));
      open.push(
        { bound, counts: part(({ lower }) => ({ lower, upper: number })) },
        { bound, counts: part(({ upper }) => ({ lower: number + 1, upper })) },
      );
      this.#state.report('numbers of rolls');
    }
  }

  async run(): Promise<Found> {
    if (this.#search.problem.sizes.length === 0) this.#state.bound = this.#state.value;
    const relaxed = this.#state.over ? undefined : await relaxation(this.#state, this.#solver);
    this.#state.report('linear program');
    if (!this.#state.over) {
      await pause();
      const ended = this.#program(
        this.#state.patterns,
        'patterns made',
        relaxed === undefined ? Number.POSITIVE_INFINITY : Math.max(2, this.#state.left / 4),
      );
      if (relaxed !== undefined) await this.#proof(relaxed);
      if (
        relaxed !== undefined &&
        this.#search.aim === 'cost' &&
        new Set(this.#search.problem.stocks.map(({ cost }) => cost).filter((cost) => cost > 0)).size > 1
      )
        await this.#branching(relaxed);
      if (!ended && !this.#state.over) this.#program(this.#state.patterns, 'patterns made', Number.POSITIVE_INFINITY);
    }
    this.#state.report('end');
    return {
      solution: this.#state.best,
      value: this.#state.value,
      bound: Math.min(this.#state.bound, this.#state.value),
      proven: this.#state.value <= this.#state.bound,
    };
  }
}

export function patternSearch(search: Search, solver: Solver, limits: Limits = {}): Promise<Found> {
  return new PatternSearch(search, solver, limits).run();
}
