import type { CommandWords } from '../reference/options.ts';
import type { Given } from './arguments.ts';

/** A command of the command line; what it does is loaded when it runs, so that a formula need not wait for the rest. */
export interface Command extends CommandWords {
  /** Answers the exit code; it is told of all commands. */
  readonly load: () => Promise<{ readonly run: (typed: Given, commands: readonly Command[]) => Promise<number> }>;
}
