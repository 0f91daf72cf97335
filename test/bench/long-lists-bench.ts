import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findings } from '../../src/checks/findings.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { writeLongList } from './long-lists.ts';

/** Seconds of the clock and of the processor, and megabytes at most, of a whole process; by GNU time. */
interface Taken {
  readonly clock: number;
  readonly processor: number;
  readonly megabytes: number;
}

function taken(args: readonly string[], code: readonly number[]): Taken {
  const { status, stderr } = spawnSync(
    '/usr/bin/time',
    ['-f', '%e %U %S %M', process.execPath, 'src/launch/run.mjs', 'src/cli/main.ts', ...args],
    { encoding: 'utf8', stdio: ['ignore', 'ignore', 'pipe'] },
  );
  if (status === null || !code.includes(status)) throw new Error(`${args[0]} ended with ${String(status)}: ${stderr}`);
  const [clock = 0, user = 0, system = 0, kilobytes = 0] = (stderr.trim().split('\n').at(-1) ?? '')
    .split(' ')
    .map(Number);
  return { clock, processor: user + system, megabytes: Math.round(kilobytes / 1024) };
}

/** The command line with long lists: `check` and `calc`, each as a whole process. */
export async function longListsBench(counts: readonly number[], write: (text: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-bench-'));
  try {
    const plates = join(folder, 'plates.xlsx');
    const demo = new Workbook(demoBook('metric'));
    writeFileSync(plates, (await exportedBook(demo, findings(demo))).bytes);
    // Builds the program where it has to be, which is no part of any time.
    taken(['--version'], [0]);
    for (const count of counts) {
      const [list, out] = [join(folder, `list-${count}.xlsx`), join(folder, 'book.xlsx')];
      await writeLongList(list, count);
      const told = (what: string, { clock, processor, megabytes }: Taken, more = ''): void =>
        write(`  ${what} ${clock} s, ${processor.toFixed(1)} s of processors, ${megabytes} MB${more}`);
      write(`${count.toLocaleString('en-US')} belts, list of ${Math.round(statSync(list).size / 1e6)} MB`);
      told('check', taken(['check', list, '--series', plates, '--date', '2026-11-25'], [0, 1]));
      const calc = taken(['calc', list, out, '--series', plates, '--date', '2026-11-25'], [0]);
      told('calc ', calc, `, book of ${Math.round(statSync(out).size / 1e6)} MB`);
      rmSync(out);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
