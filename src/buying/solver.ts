import type { Highs, HighsCallbackMap, Model, ModelData } from 'highs';

/** Linear and integer programs, solved by HiGHS. It is loaded when somebody asks for a solver, not before. */

/** A variable with its coefficients, row by row. */
export interface Column {
  readonly cost: number;
  readonly lower?: number;
  readonly upper?: number;
  /** Only whole numbers are allowed. */
  readonly whole?: boolean;
  readonly entries: readonly (readonly [row: number, coefficient: number])[];
}

/** A restriction of what a row adds up to. */
export interface Row {
  readonly lower?: number;
  readonly upper?: number;
}

/** Least total cost under the rows' bounds. Variables are at least 0 unless they say otherwise. */
export interface Program {
  readonly rows: readonly Row[];
  readonly columns: readonly Column[];
}

/** What a long computation reports while it goes on. Costs are those of the question, `bound` the proven least. */
export interface Progress {
  readonly stage: string;
  readonly seconds: number;
  readonly best?: number;
  readonly bound?: number;
}

export interface Limits {
  /** Seconds after which the best answer found so far is given. */
  readonly seconds?: number;
  readonly progress?: (progress: Progress) => void;
  /**
   * Ends the computation with the best answer found so far. A solve blocks its thread: a message that arrives meanwhile
   * is seen when the solve is over. To stop at once, set the signal from `progress`, or end the worker.
   */
  readonly signal?: { readonly aborted: boolean };
}

/** optimal: proven. found: a limit ended the search, there may be better. infeasible: proven that there is none. none: a limit came first. */
export type Outcome = 'optimal' | 'found' | 'infeasible' | 'none';

export interface Answer {
  readonly outcome: Outcome;
  readonly values: readonly number[];
  readonly cost: number;
  /** No answer can cost less than this. */
  readonly bound: number;
}

export interface WholeLimits extends Limits {
  /** An answer to begin with. */
  readonly start?: readonly number[];
  /** Costs nearer together than this count as equal. */
  readonly gap?: number;
  /** A cost that cannot be beaten: the search ends there. */
  readonly target?: number;
  readonly stage?: string;
}

export interface Relaxed {
  readonly cost: number;
  readonly values: readonly number[];
  /** What one more of a row's bound adds to the cost. */
  readonly rowPrices: readonly number[];
}

/** A linear program that columns are added to between solves. Dispose of it: the solver's memory is not collected. */
export interface GrowingProgram {
  readonly add: (columns: readonly Column[]) => void;
  /** undefined when a limit came before the answer, or there is none. */
  readonly solve: (limits: Limits) => Relaxed | undefined;
  readonly dispose: () => void;
}

export interface Solver {
  /** Solves a program with whole variables. */
  readonly whole: (program: Program, limits?: WholeLimits) => Answer;
  readonly growing: (program: Program) => GrowingProgram;
}

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
    integrality: columns.map(({ whole }) => (whole === true ? constants.variableType.integer : constants.variableType.continuous)),
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
        model.addCol(cost, lower, Math.min(upper, highs.infinity), { indices: entries.map(([row]) => row), values: entries.map(([, coefficient]) => coefficient) });
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

function whole(highs: Highs, program: Program, { seconds, progress, signal, start, gap = 0, target, stage = 'search' }: WholeLimits): Answer {
  const { callbackType, modelStatus: status } = highs.constants;
  const watched: HighsCallbackMap = {
    [callbackType.mipInterrupt]: (event) => {
      const { running_time, mip_primal_bound, mip_dual_bound } = event.data;
      progress?.({
        stage,
        seconds: running_time ?? 0,
        ...(mip_primal_bound !== undefined && Math.abs(mip_primal_bound) < highs.infinity ? { best: mip_primal_bound } : {}),
        ...(mip_dual_bound !== undefined && Math.abs(mip_dual_bound) < highs.infinity ? { bound: mip_dual_bound } : {}),
      });
      if (signal?.aborted === true) event.interrupt();
      return undefined;
    },
  };
  if (program.columns.length === 0) {
    const possible = program.rows.every(({ lower = 0, upper = 0 }) => lower <= 0 && upper >= 0);
    return possible ? { outcome: 'optimal', values: [], cost: 0, bound: 0 } : { outcome: 'infeasible', values: [], cost: Number.POSITIVE_INFINITY, bound: Number.POSITIVE_INFINITY };
  }
  return highs.withModel(modelData(program, highs), (model): Answer => {
    model.options.set({ output_flag: false, time_limit: limit(seconds), mip_rel_gap: 0, mip_abs_gap: gap });
    if (target !== undefined) model.options.set('objective_target', target);
    if (start !== undefined) model.setSolution({ colValue: Float64Array.from(start) });
    const { modelStatus } = model.run(watched);
    const found = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
    const bound = Number(model.info.get('mip_dual_bound'));
    const nothing = { values: [], cost: Number.POSITIVE_INFINITY };
    if (modelStatus === status.infeasible) return { ...nothing, outcome: 'infeasible', bound: Number.POSITIVE_INFINITY };
    if (!found) return { ...nothing, outcome: 'none', bound };
    const values = [...model.getSolution().colValue].map((value, place) => (program.columns[place]?.whole === true ? Math.round(value) : value));
    const cost = program.columns.reduce((sum, column, place) => sum + column.cost * (values[place] ?? 0), 0);
    return { outcome: modelStatus === status.optimal ? 'optimal' : 'found', values, cost, bound: Math.min(bound, cost) };
  });
}

/**
 * Loads the solver, half a second at first use.
 *
 * In a browser the place of its WebAssembly file has to be told. A solve blocks the thread it runs in: in a page, a worker.
 * Source: HiGHS, Q. Huangfu and J. A. J. Hall, Mathematical Programming Computation 10, 2018.
 */
export async function loadSolver(locateFile?: (file: string) => string): Promise<Solver> {
  const { default: load } = await import('highs');
  const highs = await load(locateFile === undefined ? {} : { locateFile });
  return {
    whole: (program, limits = {}) => whole(highs, program, limits),
    growing: (program) => growing(highs, program),
  };
}
