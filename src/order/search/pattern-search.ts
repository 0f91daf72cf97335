import { type AttainableCosts, attainableCosts } from './attainable-costs.ts';
import { bestPatterns, patternsWithin, type Prices } from './cut-patterns.ts';
import { costOf, type CutSolution, type Pattern, trimmed, usefulSpentBy } from './cut-problem.ts';
import { roundedPlan } from './first-fit.ts';
import {
  anyCounts,
  boundAt,
  columnOf,
  missingColumns,
  type RollCounts,
  rowsOf,
  type Search,
} from './pattern-program.ts';
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
const close = 1e-6;

const keyOf = ({ stock, counts }: Pattern): string => `${stock}:${counts.join(';')}`;

const valueOf = ({ problem, aim }: Search, solution: CutSolution): number =>
  aim === 'cost' ? costOf(problem, solution) : usefulSpentBy(problem, solution);

/** A linear program's answer, with the patterns' values in the order in which they were made. */
interface Relaxation {
  readonly prices: Prices;
  readonly cost: number;
  readonly values: readonly number[];
}

interface Branch {
  readonly counts: RollCounts;
  /** No plan of the branch costs less. */
  readonly bound: number;
}

/** Branches on the numbers of rolls that are looked at before the search is content with its bound. */
const mostBranches = 300;

const wholeBound = (bound: number): number => Math.ceil(bound - close * Math.max(1, Math.abs(bound) / 1000));

/** Lets messages in between two steps of a long computation. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

class PatternSearch {
  readonly #search: Search;
  readonly #solver: Solver;
  readonly #limits: Limits;
  readonly #begun = performance.now();
  readonly #patterns = new Map<string, Pattern>();
  readonly #attainable: AttainableCosts;
  #best: CutSolution;
  #value: number;
  #bound = Number.NEGATIVE_INFINITY;

  constructor(search: Search, solver: Solver, limits: Limits) {
    this.#search = search;
    this.#solver = solver;
    this.#limits = limits;
    this.#best = search.start;
    this.#value = valueOf(search, search.start);
    const { stocks, penalty } = search.problem;
    this.#attainable = attainableCosts(
      search.aim === 'cost' ? [...stocks.map(({ cost }) => cost), penalty] : [],
      this.#value,
    );
  }

  get #left(): number {
    return (this.#limits.seconds ?? Number.POSITIVE_INFINITY) - (performance.now() - this.#begun) / 1000;
  }

  get #over(): boolean {
    return this.#value <= this.#bound || this.#left <= 0 || this.#limits.signal?.aborted === true;
  }

  #offer(solution: CutSolution): void {
    const plan = trimmed(this.#search.problem, solution);
    if (costOf(this.#search.problem, plan) > this.#search.budget) return;
    const value = valueOf(this.#search, plan);
    if (value < this.#value) [this.#best, this.#value] = [plan, value];
  }

  #report(stage: string): void {
    this.#limits.progress?.({
      stage,
      seconds: (performance.now() - this.#begun) / 1000,
      best: this.#value,
      bound: this.#bound,
    });
  }

  /** The patterns that every linear program begins with: those of the plan, and each size alone. */
  #firstPatterns(): Pattern[] {
    const { problem, start } = this.#search;
    const alone = problem.sizes.flatMap(({ length, demand }, size) =>
      problem.stocks.flatMap((stock, place) => {
        const count = Math.min(demand, Math.floor(stock.length / length));
        return count === 0 ? [] : [{ stock: place, counts: [[size, count] as const] }];
      }),
    );
    return [...start.uses.map(({ pattern }) => pattern), ...alone];
  }

  #noted(patterns: readonly Pattern[]): Pattern[] {
    return patterns.filter((pattern) => {
      const key = keyOf(pattern);
      if (this.#patterns.has(key)) return false;
      this.#patterns.set(key, pattern);
      return true;
    });
  }

  /** A linear program's cost as a bound on whole plans. */
  #lifted(cost: number): number {
    return this.#attainable.from(wholeBound(cost));
  }

  /**
   * The linear program over all patterns; undefined when a limit came before its end. Without counts it is the root,
   * whose bound holds for every plan.
   */
  async #relaxation(counts?: RollCounts): Promise<Relaxation | undefined> {
    const { problem, aim } = this.#search;
    const { sizes, stocks } = problem;
    const missing = missingColumns(this.#search, false);
    const program = this.#solver.growing({
      rows: rowsOf(this.#search, counts ?? anyCounts(this.#search)),
      columns: missing,
    });
    try {
      let fresh = counts === undefined ? this.#noted(this.#firstPatterns()) : [...this.#patterns.values()];
      for (let paused = performance.now(); ;) {
        program.add(fresh.map((pattern) => columnOf(this.#search, pattern, false)));
        const relaxed = program.solve({ ...this.#limits, seconds: this.#left });
        if (relaxed === undefined) return undefined;
        const { cost, values, rowPrices } = relaxed;
        const prices: Prices = {
          pieces: rowPrices.slice(0, sizes.length),
          rolls: rowPrices.slice(sizes.length, sizes.length + stocks.length),
          money: rowPrices[sizes.length + stocks.length] ?? 0,
        };
        const priced = bestPatterns(problem, aim, prices);
        if (counts === undefined)
          this.#bound = Math.max(
            this.#bound,
            this.#lifted(
              boundAt(
                this.#search,
                prices,
                priced.map(({ reduced }) => reduced),
                this.#value,
              ),
            ),
          );
        fresh = this.#noted(
          priced.filter(({ reduced }) => reduced < -1e-9 * Math.max(1, Math.abs(cost))).map(({ pattern }) => pattern),
        );
        if (fresh.length === 0 || this.#value <= this.#bound) {
          this.#offer(roundedPlan(problem, [...this.#patterns.values()], values.slice(missing.length)));
          return { prices, cost, values: values.slice(missing.length) };
        }
        if (performance.now() - paused > 40) {
          this.#report('linear program');
          await pause();
          paused = performance.now();
        }
        if (this.#over) return undefined;
      }
    } finally {
      program.dispose();
    }
  }

  /** The integer program over some patterns, with the best plan as its start where they hold it. */
  #program(
    patterns: readonly Pattern[],
    stage: string,
    seconds: number,
    counts: RollCounts = anyCounts(this.#search),
  ): boolean {
    const missing = missingColumns(this.#search, true);
    const times = new Map(this.#best.uses.map(({ pattern, times: number }) => [keyOf(pattern), number]));
    const held = patterns.filter((pattern) => times.has(keyOf(pattern))).length === times.size;
    const answer = this.#solver.whole(
      {
        rows: rowsOf(this.#search, counts),
        columns: [...missing, ...patterns.map((pattern) => columnOf(this.#search, pattern, true))],
      },
      {
        ...this.#limits,
        stage,
        seconds,
        // Values are whole: less than one step better is no better.
        gap: 1 - close,
        target: this.#bound + close,
        ...(held
          ? { start: [...this.#best.missing, ...patterns.map((pattern) => times.get(keyOf(pattern)) ?? 0)] }
          : {}),
      },
    );
    if (answer.values.length > 0) {
      this.#offer({
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
      if (this.#over) return;
      await pause();
      const patterns = patternsWithin(
        problem,
        aim,
        prices,
        share * (this.#attainable.below(this.#value) - cost) + close,
        mostPatterns,
      );
      if (patterns === undefined) return;
      // Nothing better than the best known can be made of other patterns: when the program ends, the best is proven.
      const ended = this.#program(
        patterns,
        'patterns of a better plan',
        share === 1 ? this.#left : Math.max(2, this.#left / 3),
      );
      if (ended && share === 1) this.#bound = this.#value;
    }
  }

  /** Rolls of each stock in a fractional plan. */
  #rollsIn(values: readonly number[]): number[] {
    const rolls = this.#search.problem.stocks.map(() => 0);
    for (const [place, { stock }] of [...this.#patterns.values()].entries())
      rolls[stock] = (rolls[stock] ?? 0) + (values[place] ?? 0);
    return rolls;
  }

  /**
   * Raises the bound by branching on the numbers of rolls: a fraction of a dear roll and some of a cheap one may add up
   * to a cost that no whole numbers of them serve for. The branch of the least bound goes first, so that bound is the
   * search's.
   */
  async #branching(root: Relaxation): Promise<void> {
    const { stocks } = this.#search.problem;
    const open: Branch[] = [{ counts: anyCounts(this.#search), bound: this.#lifted(root.cost) }];
    const undecided: number[] = [];
    for (let looked = 0; looked < mostBranches && !this.#over; looked += 1) {
      open.sort((one, other) => other.bound - one.bound);
      const branch = open.pop();
      this.#bound = Math.max(this.#bound, Math.min(branch?.bound ?? this.#value, this.#value, ...undecided));
      if (branch === undefined || branch.bound >= this.#value) return;
      await pause();
      const relaxed = await this.#relaxation(branch.counts);
      const bound = relaxed === undefined ? branch.bound : Math.max(branch.bound, this.#lifted(relaxed.cost));
      if (bound >= this.#value) continue;
      const rolls = relaxed === undefined ? [] : this.#rollsIn(relaxed.values);
      const split = rolls.findIndex(
        (number, place) => (stocks[place]?.cost ?? 0) > 0 && Math.abs(number - Math.round(number)) > close,
      );
      if (split < 0) {
        // Whole numbers of rolls: the cost is settled, what is left is whether the pieces fit.
        this.#program([...this.#patterns.values()], 'numbers of rolls', Math.min(3, this.#left), branch.counts);
        if (bound < this.#value) undecided.push(bound);
        continue;
      }
      const number = Math.floor(rolls[split] ?? 0);
      const part = (change: (counts: RollCounts[number]) => RollCounts[number]): RollCounts =>
        branch.counts.map((counts, place) => (place === split ? change(counts) : counts));
      open.push(
        { bound, counts: part(({ lower }) => ({ lower, upper: number })) },
        { bound, counts: part(({ upper }) => ({ lower: number + 1, upper })) },
      );
      this.#report('numbers of rolls');
    }
  }

  async run(): Promise<Found> {
    if (this.#search.problem.sizes.length === 0) this.#bound = this.#value;
    const relaxed = this.#over ? undefined : await this.#relaxation();
    this.#report('linear program');
    if (!this.#over) {
      await pause();
      const ended = this.#program(
        [...this.#patterns.values()],
        'patterns made',
        relaxed === undefined ? this.#left : Math.max(2, this.#left / 4),
      );
      if (relaxed !== undefined) await this.#proof(relaxed);
      if (
        relaxed !== undefined &&
        this.#search.aim === 'cost' &&
        new Set(this.#search.problem.stocks.map(({ cost }) => cost).filter((cost) => cost > 0)).size > 1
      )
        await this.#branching(relaxed);
      if (!ended && !this.#over) this.#program([...this.#patterns.values()], 'patterns made', this.#left);
    }
    this.#report('end');
    return {
      solution: this.#best,
      value: this.#value,
      bound: Math.min(this.#bound, this.#value),
      proven: this.#value <= this.#bound,
    };
  }
}

export function patternSearch(search: Search, solver: Solver, limits: Limits = {}): Promise<Found> {
  return new PatternSearch(search, solver, limits).run();
}
