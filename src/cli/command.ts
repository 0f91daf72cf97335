import type { Given, Taken } from './arguments.ts';

/** A command of the command line; what it does is loaded when it runs, so that a formula need not wait for the rest. */
export interface Command extends Taken {
  readonly summary: string;
  /** Further lines of its help. */
  readonly notes: readonly string[];
  /** Answers the exit code; it is told of all commands. */
  readonly load: () => Promise<{ readonly run: (typed: Given, commands: readonly Command[]) => Promise<number> }>;
}

/** How the command line is called from the repository. */
export const program = 'npm run -s book --';
