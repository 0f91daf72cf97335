import { type CommandName, commandWords } from '../reference/commands.ts';
import type { Command } from './command.ts';

/** The file that carries out each command. */
const files: Readonly<Record<CommandName, Command['load']>> = {
  formula: () => import('./formula.ts'),
  calc: () => import('./calc.ts'),
  check: () => import('./check.ts'),
  order: () => import('./order.ts'),
  request: () => import('./request.ts'),
  quote: () => import('./quote.ts'),
  placed: () => import('./placed.ts'),
  outage: () => import('./outage.ts'),
  explain: () => import('./explain.ts'),
  solve: () => import('./solve.ts'),
  effects: () => import('./effects.ts'),
  chance: () => import('./chance.ts'),
  variants: () => import('./variants.ts'),
  picture: () => import('./picture.ts'),
  advise: () => import('./advise.ts'),
  card: () => import('./card.ts'),
  compare: () => import('./compare.ts'),
  merge: () => import('./merge.ts'),
  blank: () => import('./blank.ts'),
  round: () => import('./round.ts'),
  help: () => import('./help.ts'),
};

/** Every command, ready to be carried out. */
export const commands: readonly Command[] = commandWords.map((words) => ({ ...words, load: files[words.name] }));
