import { spawnSync } from 'node:child_process';
import { median, milliseconds, timed, times } from './timing.ts';

/** A formula on the command line, from the call to the answer, against a process of Node that does nothing. */

const rounds = 7;

export function startBench(write: (text: string) => void): void {
  const run = (args: readonly string[]): number =>
    timed(() => {
      const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
      if (status !== 0) throw new Error(`${args.join(' ')} ended with ${String(status)}: ${stderr}`);
    });
  const formula = ['src/launch/run.mjs', 'src/cli/main.ts', 'formula', '=SKEWLENGTH(650,45)'];
  run(formula);
  const [formulas, nothings]: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round += 1) {
    formulas.push(run(formula));
    nothings.push(run(['--eval', '']));
  }
  write(`A formula as a whole process (medians of ${rounds}, in turn)`);
  write(
    `  ${milliseconds(median(formulas))}, Node alone ${milliseconds(median(nothings))}: ` +
      times(median(formulas) / median(nothings)),
  );
}
