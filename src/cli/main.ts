import { fileURLToPath } from 'node:url';
import { listThread } from './long/list-thread-data.ts';
import { RefusedKey } from '../formula/engine-key.ts';
import { FormulasTooSlow } from '../formula/slow-formulas.ts';
import type { CommandName } from '../reference/commands.ts';
import { program } from '../reference/options.ts';
import { legalNotice } from '../workbook/legal-notice.ts';
import { given } from './arguments.ts';
import { fileFault } from './file-fault.ts';
import { isWatched } from './run-progress.ts';
import { commands } from './runnable-commands.ts';
import { isSimulationPart } from './simulation-part-data.ts';
import { FileError, UsageError } from './usage-error.ts';
import { showControls, visibleLines } from './visible-text.ts';
import { watchedRun } from './watched-run.ts';

/**
 * Commands that read no file are answered at once; all others are watched, as a file may ask for any time or memory.
 */
const unwatched: ReadonlySet<string> = new Set<CommandName>(['formula', 'help']);

/**
 * The command line: finds the command, hands it what was typed, turns what goes wrong into a message and exit code 2.
 */

/** Whether another thread answers, whose exit code is still to come. */
let watching = false;

async function answer(args: readonly string[]): Promise<number> {
  const [name = 'help', ...rest] = args;
  if (name === '--version') {
    process.stdout.write(`${legalNotice.join('\n')}\n`);
    return 0;
  }
  if (name === '--help' || name === '-h') return answer(['help', ...rest]);
  const command = commands.find((item) => item.name === name);
  if (command === undefined) {
    throw new UsageError(
      `there is no command ${name}. Commands: ${commands.map((item) => item.name).join(', ')}. Help: ${program} help`,
    );
  }
  if (rest.some((word) => word === '--help' || word === '-h')) return answer(['help', name]);
  const typed = given(rest, command);
  if (!unwatched.has(name) && !isWatched) {
    watching = true;
    return watchedRun(fileURLToPath(import.meta.url), args, (text) => void process.stderr.write(visibleLines([text])));
  }
  const { run } = await command.load();
  return run(typed, commands);
}

for (const stream of [process.stdout, process.stderr]) showControls(stream);
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // A reader that stops early, as `head` does, is no error; the command's own exit code stands once it is known.
  if (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED') {
    if (!watching) setImmediate(() => process.exit());
    return;
  }
  process.stderr.write(`${fileFault('The answer', 'written', error).message}\n`);
  process.exit(2);
});
process.stderr.on('error', () => undefined);

try {
  if (listThread !== undefined) (await import('./long/list-thread.ts')).answerParts(listThread);
  else if (isSimulationPart) (await import('./simulation-threads.ts')).answerPart();
  else process.exitCode = await answer(process.argv.slice(2));
} catch (error) {
  const known =
    error instanceof UsageError ||
    error instanceof FileError ||
    error instanceof RefusedKey ||
    error instanceof FormulasTooSlow;
  const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(
    known
      ? visibleLines([error.message])
      : `This is a fault of Skewbook itself, not of your input. Please report it with the command you ` +
          `typed:\n${fault}\n`,
  );
  process.exitCode = known ? 2 : 3;
}
