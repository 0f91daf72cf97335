import { type Program, type Answer, type WholeLimits, type GrowingProgram, type Solver } from './program.ts';
import type { Highs, HighsCallbackMap, Model, ModelData } from 'highs';

/** Linear and integer programs, solved by HiGHS. It is loaded when somebody asks for a solver, not before. */

function matrixOf({ rows, columns }: Program): ModelData['matrix'] {
  const starts = [0];
  for (const { entries } of columns) starts.push((starts.at(-1) ?? 0) + entries.length);
  const entries = columns.flatMap((column) => [...column.entries]);
  return {
    format: 'csc',
    numRows: rows.length,
    numCols: columns.length,
    starts: Int32Array.from(starts),
    indices: Int32Array.from(entries, ([row]) => row),
    values: Float64Array.from(entries, ([, coefficient]) => coefficient),
  };
}

function modelData(program: Program, { infinity, constants }: Highs): ModelData {
  const { rows, columns } = program;
  return {
    numCols: columns.length,
    numRows: rows.length,
    colCost: Float64Array.from(columns, ({ cost }) => cost),
    colLower: Float64Array.from(columns, ({ lower }) => lower ?? 0),
    colUpper: Float64Array.from(columns, ({ upper }) => Math.min(upper ?? infinity, infinity)),
    rowLower: Float64Array.from(rows, ({ lower }) => lower ?? -infinity),
    rowUpper: Float64Array.from(rows, ({ upper }) => Math.min(upper ?? infinity, infinity)),
    integrality: columns.map(({ whole }) =>
      whole === true ? constants.variableType.integer : constants.variableType.continuous,
    ),
    matrix: matrixOf(program),
  };
}

/** Seconds as the solver takes them: finite. Its greatest is months. */
const limit = (seconds = Number.POSITIVE_INFINITY): number => Math.min(1e7, Math.max(0, seconds));

function growing(highs: Highs, program: Program): GrowingProgram {
  const model: Model = highs.createModel(modelData(program, highs));
  model.options.set({ output_flag: false, solver: 'simplex' });
  return {
    add: (columns) => {
      for (const { cost, lower = 0, upper = highs.infinity, entries } of columns) {
        model.addCol(cost, lower, Math.min(upper, highs.infinity), {
          indices: entries.map(([row]) => row),
          values: entries.map(([, coefficient]) => coefficient),
        });
      }
    },
    solve: ({ seconds, signal }) => {
      model.zeroAllClocks();
      model.options.set('time_limit', limit(seconds));
      const { modelStatus } = model.run({
        [highs.constants.callbackType.simplexInterrupt]: (event) => {
          if (signal?.aborted === true) event.interrupt();
          return undefined;
        },
      });
      if (modelStatus !== highs.constants.modelStatus.optimal) return undefined;
      const { colValue, rowDual } = model.getSolution();
      return { cost: model.getObjectiveValue(), values: [...colValue], rowPrices: [...rowDual] };
    },
    dispose: () => model.dispose(),
  };
}

function whole(
  highs: Highs,
  program: Program,
  { seconds, progress, signal, start, gap = 0, target, stage = 'search' }: WholeLimits,
): Answer {
  const { callbackType, modelStatus: status } = highs.constants;
  const watched: HighsCallbackMap = {
    [callbackType.mipInterrupt]: (event) => {
      const { running_time, mip_primal_bound, mip_dual_bound } = event.data;
      progress?.({
        stage,
        seconds: running_time ?? 0,
        ...(mip_primal_bound !== undefined && Math.abs(mip_primal_bound) < highs.infinity
          ? { best: mip_primal_bound }
          : {}),
        ...(mip_dual_bound !== undefined && Math.abs(mip_dual_bound) < highs.infinity ? { bound: mip_dual_bound } : {}),
      });
      if (signal?.aborted === true) event.interrupt();
      return undefined;
    },
  };
  if (program.columns.length === 0) {
    const possible = program.rows.every(({ lower = 0, upper = 0 }) => lower <= 0 && upper >= 0);
    return possible
      ? { outcome: 'optimal', values: [], cost: 0, bound: 0 }
      : { outcome: 'infeasible', values: [], cost: Number.POSITIVE_INFINITY, bound: Number.POSITIVE_INFINITY };
  }
  return highs.withModel(modelData(program, highs), (model): Answer => {
    model.options.set({ output_flag: false, time_limit: limit(seconds), mip_rel_gap: 0, mip_abs_gap: gap });
    if (target !== undefined) model.options.set('objective_target', target);
    if (start !== undefined) model.setSolution({ colValue: Float64Array.from(start) });
    const { modelStatus } = model.run(watched);
    const found = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
    const bound = Number(model.info.get('mip_dual_bound'));
    const nothing = { values: [], cost: Number.POSITIVE_INFINITY };
    if (modelStatus === status.infeasible)
      return { ...nothing, outcome: 'infeasible', bound: Number.POSITIVE_INFINITY };
    if (!found) return { ...nothing, outcome: 'none', bound };
    const values = [...model.getSolution().colValue].map((value, place) =>
      program.columns[place]?.whole === true ? Math.round(value) : value,
    );
    const cost = program.columns.reduce((sum, column, place) => sum + column.cost * (values[place] ?? 0), 0);
    return {
      outcome: modelStatus === status.optimal ? 'optimal' : 'found',
      values,
      cost,
      bound: Math.min(bound, cost),
    };
  });
}

/**
 * Loads the solver, half a second at first use.
 *
 * In a browser the place of its WebAssembly file has to be told. A solve blocks the thread it runs in: in a page, a
 * worker. Source: HiGHS, Q. Huangfu and J. A. J. Hall, Mathematical Programming Computation 10, 2018.
 */
export async function loadSolver(locateFile?: (file: string) => string): Promise<Solver> {
  const { default: load } = await import('highs');
  const highs = await load(locateFile === undefined ? {} : { locateFile });
  return {
    whole: (program, limits = {}) => whole(highs, program, limits),
    growing: (program) => growing(highs, program),
  };
}
