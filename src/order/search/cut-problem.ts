import { settled } from '../../functions/rounding.ts';

/**
 * Cutting pieces from rolls in whole steps of length, as the search for a plan takes it.
 *
 * Every piece is taken with the kerf of the cut that ends it, and every roll is longer by one such loss: the last
 * piece of a roll that is used up needs no cut. Pieces are rounded up to whole steps and rolls down, so that what fits
 * here fits in truth.
 */

export interface Size {
  /** With its kerf, in steps. */
  readonly length: number;
  readonly demand: number;
  /** The last arrival that it can wait for. */
  readonly due: number;
}

export interface Stock {
  /** With one kerf, in steps. */
  readonly length: number;
  /** Rolls that there are; infinite when they can be bought without limit. */
  readonly available: number;
  /** In steps of money. */
  readonly cost: number;
  /** On the shelf already: a roll that is not begun is kept whole. */
  readonly owned: boolean;
  /** Its place among the days on which rolls come; 0 when it is there from the start. */
  readonly arrives: number;
}

export interface CutProblem {
  /** From the longest to the shortest, no two of one length that can wait for the same rolls. */
  readonly sizes: readonly Size[];
  readonly stocks: readonly Stock[];
  readonly sawLoss: number;
  /** Offcuts from this length on are kept, in steps; infinite when none are. */
  readonly keepFrom: number;
  /** Cost of a piece that is not cut: more than any roll's, so that none is left out while a roll can be had. */
  readonly penalty: number;
}

/** What is cut from one roll. */
export interface Pattern {
  readonly stock: number;
  /** How many of which size. */
  readonly counts: readonly (readonly [size: number, count: number])[];
}

/** How often each pattern is cut. */
interface PatternUse {
  readonly pattern: Pattern;
  readonly times: number;
}

/** Patterns with the pieces of each size that are not cut. */
export interface CutSolution {
  readonly uses: readonly PatternUse[];
  readonly missing: readonly number[];
}

/** Whether a size may be cut from a stock: its rolls must have come by then. */
export const isInTime = ({ arrives }: Pick<Stock, 'arrives'>, { due }: Pick<Size, 'due'>): boolean => arrives <= due;

export const fillOf = ({ sizes }: CutProblem, { counts }: Pattern): number =>
  counts.reduce((sum, [size, count]) => sum + count * (sizes[size]?.length ?? 0), 0);

/** The kept offcut of a roll filled so far: none when the rest is shorter than what is worth keeping. */
export function keptOf({ sawLoss, keepFrom }: CutProblem, stock: Stock, fill: number): number {
  const offcut = stock.length - fill - sawLoss;
  return offcut >= keepFrom ? offcut : 0;
}

/** Useful length that a roll's use takes from the shelf: a bought roll brings what is kept of it. */
export const usefulSpent = (problem: CutProblem, stock: Stock, fill: number): number =>
  (stock.owned ? stock.length - problem.sawLoss : 0) - keptOf(problem, stock, fill);

export const costOf = ({ stocks, penalty }: CutProblem, { uses, missing }: CutSolution): number =>
  uses.reduce((sum, { pattern, times }) => sum + times * (stocks[pattern.stock]?.cost ?? 0), 0) +
  missing.reduce((sum, count) => sum + count * penalty, 0);

export const usefulSpentBy = (problem: CutProblem, { uses }: CutSolution): number =>
  uses.reduce((sum, { pattern, times }) => {
    const stock = problem.stocks[pattern.stock];
    return stock === undefined ? sum : sum + times * usefulSpent(problem, stock, fillOf(problem, pattern));
  }, 0);

/**
 * Without the pieces beyond the demand, which a plan that covers it may hold. Patterns that lose all their pieces go.
 */
export function trimmed(problem: CutProblem, { uses, missing }: CutSolution): CutSolution {
  const left = problem.sizes.map(({ demand }, size) => demand - (missing[size] ?? 0));
  const kept = new Map<string, { pattern: Pattern; times: number }>();
  for (const { pattern, times } of uses) {
    for (let time = 0; time < times; time += 1) {
      const counts = pattern.counts.flatMap(([size, count]) => {
        const taken = Math.min(count, Math.max(0, left[size] ?? 0));
        left[size] = (left[size] ?? 0) - taken;
        return taken === 0 ? [] : [[size, taken] as const];
      });
      if (counts.length === 0) continue;
      const key = `${pattern.stock}:${counts.join(';')}`;
      const same = kept.get(key);
      if (same === undefined) kept.set(key, { pattern: { stock: pattern.stock, counts }, times: 1 });
      else same.times += 1;
    }
  }
  return { uses: [...kept.values()], missing: left.map((count, size) => Math.max(0, count) + (missing[size] ?? 0)) };
}

export const stepsUp = (length: number, step: number): number => Math.ceil(settled(length / step));
export const stepsDown = (length: number, step: number): number => Math.floor(settled(length / step));
