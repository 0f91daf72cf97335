import { type AttainableCosts, attainableCosts } from './attainable-costs.ts';
import { costOf, type CutSolution, isInTime, type Pattern, trimmed, usefulSpentBy } from './cut-problem.ts';
import type { Search } from './pattern-program.ts';
import type { Limits } from '../../solver/program.ts';

/** What a search for patterns knows so far: the patterns made, the best plan of them, and what no plan can beat. */

/** How far a number may lie from a whole one. */
export const close = 1e-6;

export const keyOf = ({ stock, counts }: Pattern): string => `${stock}:${counts.join(';')}`;

const valueOf = ({ problem, aim }: Search, solution: CutSolution): number =>
  aim === 'cost' ? costOf(problem, solution) : usefulSpentBy(problem, solution);

const wholeBound = (bound: number): number => Math.ceil(bound - close * Math.max(1, Math.abs(bound) / 1000));

export class PatternState {
  readonly search: Search;
  readonly limits: Limits;
  readonly #begun = performance.now();
  readonly #patterns = new Map<string, Pattern>();
  readonly attainable: AttainableCosts;
  best: CutSolution;
  /** Of the best plan, by the aim. */
  value: number;
  bound = Number.NEGATIVE_INFINITY;

  constructor(search: Search, limits: Limits) {
    this.search = search;
    this.limits = limits;
    this.best = search.start;
    this.value = valueOf(search, search.start);
    const { stocks, penalty } = search.problem;
    this.attainable = attainableCosts(
      search.aim === 'cost' ? [...stocks.map(({ cost }) => cost), penalty] : [],
      this.value,
    );
  }

  get patterns(): Pattern[] {
    return [...this.#patterns.values()];
  }

  /** Seconds that are left. */
  get left(): number {
    return (this.limits.seconds ?? Number.POSITIVE_INFINITY) - (performance.now() - this.#begun) / 1000;
  }

  /** Nothing is left to find, or a limit has come. */
  get over(): boolean {
    return this.value <= this.bound || this.left <= 0 || this.limits.signal?.aborted === true;
  }

  /** Takes a plan when it is better than the best. */
  offer(solution: CutSolution): void {
    const plan = trimmed(this.search.problem, solution);
    if (costOf(this.search.problem, plan) > this.search.budget) return;
    const value = valueOf(this.search, plan);
    if (value < this.value) [this.best, this.value] = [plan, value];
  }

  report(stage: string): void {
    this.limits.progress?.({
      stage,
      seconds: (performance.now() - this.#begun) / 1000,
      best: this.value,
      bound: this.bound,
    });
  }

  /** The patterns that every linear program begins with: those of the plan, and each size alone. */
  firstPatterns(): Pattern[] {
    const { problem, start } = this.search;
    const alone = problem.sizes.flatMap((wanted, size) =>
      problem.stocks.flatMap((stock, place) => {
        const count = isInTime(stock, wanted) ? Math.min(wanted.demand, Math.floor(stock.length / wanted.length)) : 0;
        return count === 0 ? [] : [{ stock: place, counts: [[size, count] as const] }];
      }),
    );
    return [...start.uses.map(({ pattern }) => pattern), ...alone];
  }

  /** Keeps patterns; returns those that are new. */
  noted(patterns: readonly Pattern[]): Pattern[] {
    return patterns.filter((pattern) => {
      const key = keyOf(pattern);
      if (this.#patterns.has(key)) return false;
      this.#patterns.set(key, pattern);
      return true;
    });
  }

  /** A linear program's cost as a bound on whole plans. */
  lifted(cost: number): number {
    return this.attainable.from(wholeBound(cost));
  }

  /** Rolls of each stock in a fractional plan. */
  rollsIn(values: readonly number[]): number[] {
    const rolls = this.search.problem.stocks.map(() => 0);
    for (const [place, { stock }] of [...this.#patterns.values()].entries())
      rolls[stock] = (rolls[stock] ?? 0) + (values[place] ?? 0);
    return rolls;
  }
}
