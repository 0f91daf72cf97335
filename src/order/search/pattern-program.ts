import { type Aim, aimOf, type Prices } from './cut-patterns.ts';
import type { CutProblem, CutSolution, Pattern } from './cut-problem.ts';
import type { Column, Row } from '../../solver/program.ts';

/**
 * The program that chooses patterns: a row for each size's pieces, each stock's rolls and the money, a column for each
 * pattern and for the pieces of a size that are not cut.
 */

/** What to cut, and what a plan has to beat. */
export interface Search {
  readonly problem: CutProblem;
  readonly aim: Aim;
  /** What may be spent, in steps of money. */
  readonly budget: number;
  readonly start: CutSolution;
}

/** How many rolls of each stock a branch of the search uses. */
export type RollCounts = readonly { readonly lower: number; readonly upper: number }[];

/** No branch yet: every count that the stock allows. */
export const anyCounts = ({ problem }: Search): RollCounts =>
  problem.stocks.map(({ available }) => ({ lower: 0, upper: available }));

/** The limits in the order of the columns' entries: pieces, rolls, money. */
export function rowsOf({ problem, budget }: Search, counts: RollCounts): Row[] {
  return [
    ...problem.sizes.map(({ demand }) => ({ lower: demand })),
    // No lower limit of 0: it holds anyway, and a price on it would not be one of the rolls that there are.
    ...counts.map(({ lower, upper }) => (lower > 0 ? { lower, upper } : { upper })),
    Number.isFinite(budget) ? { upper: budget } : {},
  ];
}

/** A pattern as a column; `whole` for the integer program. */
export function columnOf(search: Search, pattern: Pattern, whole: boolean): Column {
  const { sizes, stocks } = search.problem;
  return {
    cost: aimOf(search.problem, search.aim, pattern),
    whole,
    entries: [
      ...pattern.counts,
      [sizes.length + pattern.stock, 1],
      [sizes.length + stocks.length, stocks[pattern.stock]?.cost ?? 0],
    ],
  };
}

/**
 * One column a size: the pieces of it that are not cut.
 *
 * The linear program has no use for more of them than are wanted; a limit that said so would take a price, which the
 * bound does not count.
 */
export function missingColumns({ problem: { sizes, stocks, penalty }, aim }: Search, whole: boolean): Column[] {
  return sizes.map(({ demand }, size) => ({
    cost: aim === 'cost' ? penalty : 0,
    ...(whole ? { upper: demand } : {}),
    whole,
    entries: [
      [size, 1],
      [sizes.length + stocks.length, penalty],
    ],
  }));
}

/** The most rolls of a stock that a plan worth having can use. */
function mostRolls({ problem: { sizes }, budget }: Search, stock: CutProblem['stocks'][number], best: number): number {
  const pieces = sizes.reduce((sum, { demand }) => sum + demand, 0);
  return Math.min(stock.available, pieces, stock.cost > 0 ? Math.floor(Math.min(budget, best) / stock.cost) : pieces);
}

/** What no plan can be less than, whatever the prices: exact when no pattern is worth making at them. */
export function boundAt(search: Search, prices: Prices, reduced: readonly number[], best: number): number {
  const { sizes, stocks } = search.problem;
  const pieces = sizes.reduce((sum, { demand }, size) => sum + demand * (prices.pieces[size] ?? 0), 0);
  const most = search.aim === 'cost' ? best : Number.POSITIVE_INFINITY;
  const rolls = stocks.reduce((sum, stock, place) => {
    const restricted = Number.isFinite(stock.available) ? (prices.rolls[place] ?? 0) * stock.available : 0;
    return sum + restricted + mostRolls(search, stock, most) * Math.min(0, reduced[place] ?? 0);
  }, 0);
  return pieces + rolls + (Number.isFinite(search.budget) ? prices.money * search.budget : 0);
}
