import { loadSolver } from '../../../src/solver/solver.ts';
import { type Solver } from '../../../src/solver/program.ts';

let loaded: Promise<Solver> | undefined;

/** The solver, loaded once a test file. */
export function solving(): Promise<Solver> {
  loaded ??= loadSolver();
  return loaded;
}
