import { loadSolver, type Solver } from '../../src/buying/solver.ts';

let loaded: Promise<Solver> | undefined;

/** The solver, loaded once a test file. */
export function solving(): Promise<Solver> {
  loaded ??= loadSolver();
  return loaded;
}
