/**
 * A least-cost program with whole variables, and what solves one. The solver itself is no part of planning: whoever asks for
 * a plan hands in its loader, so that it is loaded only then, and where it may block: in a page, a worker.
 */

/** A variable, at least 0, with its coefficients row by row. */
export interface ProgramColumn {
  readonly cost: number;
  readonly upper?: number;
  readonly whole?: boolean;
  readonly entries: readonly (readonly [row: number, coefficient: number])[];
}

/** Bounds of what a row adds up to. */
export interface ProgramRow {
  readonly lower?: number;
  readonly upper?: number;
}

export interface SolverProgress {
  readonly stage: string;
  readonly seconds: number;
  readonly best?: number;
  readonly bound?: number;
}

export interface SolverLimits {
  readonly seconds?: number;
  readonly progress?: (progress: SolverProgress) => void;
  /** Looked at while the solver runs: set from `progress`, it ends the search with the best found so far. */
  readonly signal?: { readonly aborted: boolean };
}

export interface WholeSolver {
  readonly whole: (
    program: { readonly rows: readonly ProgramRow[]; readonly columns: readonly ProgramColumn[] },
    limits?: SolverLimits & { readonly start?: readonly number[]; readonly stage?: string },
  ) => {
    readonly outcome: 'optimal' | 'found' | 'infeasible' | 'none';
    readonly values: readonly number[];
    readonly cost: number;
    readonly bound: number;
  };
}

/** A program that is built row by row, its columns known first. */
export class ProgramBuilder {
  readonly rows: ProgramRow[] = [];
  readonly #columns: { readonly upper: number; readonly whole: boolean; readonly entries: [number, number][] }[] = [];

  /** A variable from 0 to `upper`; answers its place. */
  column(upper: number, whole: boolean): number {
    this.#columns.push({ upper, whole, entries: [] });
    return this.#columns.length - 1;
  }

  row(bounds: ProgramRow, entries: Iterable<readonly [column: number, coefficient: number]>): void {
    const row = this.rows.push(bounds) - 1;
    for (const [column, coefficient] of entries) if (coefficient !== 0) this.#columns[column]?.entries.push([row, coefficient]);
  }

  get size(): number {
    return this.#columns.length;
  }

  withCosts(costs: readonly number[]): { readonly rows: readonly ProgramRow[]; readonly columns: readonly ProgramColumn[] } {
    return { rows: this.rows, columns: this.#columns.map((column, place) => ({ ...column, cost: costs[place] ?? 0 })) };
  }
}
