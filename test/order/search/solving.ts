import { loadSolver } from '../../../src/solver/solver.ts';
import { type Program, type Solver } from '../../../src/solver/program.ts';

let loaded: Promise<Solver> | undefined;

/** The solver, loaded once a test file. */
export function solving(): Promise<Solver> {
  loaded ??= loadSolver();
  return loaded;
}

export interface Asked {
  /** Restrictions of the program, and the seconds that it may take. */
  readonly rows: number;
  readonly seconds: number;
}

/** The solver, and in `asked` every program that it is given, in order. */
export async function watchedSolver(): Promise<{ readonly solver: Solver; readonly asked: readonly Asked[] }> {
  const solver = await solving();
  const asked: Asked[] = [];
  const note = ({ rows }: Program, seconds = Number.POSITIVE_INFINITY): void =>
    void asked.push({ rows: rows.length, seconds });
  return {
    asked,
    solver: {
      whole: (program, limits) => {
        note(program, limits?.seconds);
        return solver.whole(program, limits);
      },
      growing: (program) => {
        const growing = solver.growing(program);
        return {
          ...growing,
          solve: (limits) => {
            note(program, limits.seconds);
            return growing.solve(limits);
          },
        };
      },
    },
  };
}
