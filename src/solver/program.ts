/** Linear and integer programs: what is asked of a solver and what it answers. */

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

/**
 * optimal: proven. found: a limit ended the search, there may be better. infeasible: proven that there is none. none: a
 * limit came first.
 */
type Outcome = 'optimal' | 'found' | 'infeasible' | 'none';

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

interface Relaxed {
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

/**
 * What planning needs of the solver, handed in by whoever asks for a plan: it is loaded only then, and in a page in a
 * worker.
 */
export type WholeSolver = Pick<Solver, 'whole'>;
