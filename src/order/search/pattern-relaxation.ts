import { bestPatterns, type Prices } from './cut-patterns.ts';
import type { CutProblem } from './cut-problem.ts';
import { roundedPlan } from './first-fit.ts';
import { anyCounts, boundAt, columnOf, missingColumns, type RollCounts, rowsOf } from './pattern-program.ts';
import type { PatternState } from './pattern-state.ts';
import type { Solver } from '../../solver/program.ts';

/** The linear program over all patterns, which makes them as its prices ask for them. */

/** A linear program's answer, with the patterns' values in the order in which they were made. */
export interface Relaxation {
  readonly prices: Prices;
  readonly cost: number;
  readonly values: readonly number[];
}

/** Lets messages in between two steps of a long computation. */
export const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** The prices of a program's rows, which stand as `rowsOf` has them. */
const pricesOf = ({ sizes, stocks }: CutProblem, rows: readonly number[]): Prices => ({
  pieces: rows.slice(0, sizes.length),
  rolls: rows.slice(sizes.length, sizes.length + stocks.length),
  money: rows[sizes.length + stocks.length] ?? 0,
});

/**
 * The linear program over all patterns; undefined when a limit came before its end. Without counts it is the root,
 * whose bound holds for every plan.
 */
export async function relaxation(
  state: PatternState,
  solver: Solver,
  counts?: RollCounts,
): Promise<Relaxation | undefined> {
  const { search } = state;
  const { problem, aim } = search;
  const missing = missingColumns(search, false);
  const program = solver.growing({ rows: rowsOf(search, counts ?? anyCounts(search)), columns: missing });
  try {
    let fresh = counts === undefined ? state.noted(state.firstPatterns()) : state.patterns;
    for (let paused = performance.now(); ;) {
      program.add(fresh.map((pattern) => columnOf(search, pattern, false)));
      const seconds = state.left;
      const relaxed = seconds > 0 ? program.solve({ ...state.limits, seconds }) : undefined;
      if (relaxed === undefined) return undefined;
      const { cost, values } = relaxed;
      const prices = pricesOf(problem, relaxed.rowPrices);
      const priced = bestPatterns(problem, aim, prices);
      if (counts === undefined)
        state.bound = Math.max(
          state.bound,
          state.lifted(
            boundAt(
              search,
              prices,
              priced.map(({ reduced }) => reduced),
              state.value,
            ),
          ),
        );
      fresh = state.noted(
        priced.filter(({ reduced }) => reduced < -1e-9 * Math.max(1, Math.abs(cost))).map(({ pattern }) => pattern),
      );
      if (fresh.length === 0 || state.value <= state.bound) {
        state.offer(roundedPlan(problem, state.patterns, values.slice(missing.length)));
        return { prices, cost, values: values.slice(missing.length) };
      }
      if (performance.now() - paused > 40) {
        state.report('linear program');
        await pause();
        paused = performance.now();
      }
      if (state.over) return undefined;
    }
  } finally {
    program.dispose();
  }
}
