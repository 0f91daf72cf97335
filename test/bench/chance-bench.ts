import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { belts } from '../../sheets/belts/index.ts';
import { findings } from '../../src/checks/findings.ts';
import { simulated } from '../../src/what-if/simulation.ts';
import { simulationAsked } from '../../src/what-if/simulation-task.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { fleet } from './fleet.ts';
import { milliseconds, timed } from './timing.ts';

const columns = ['Working tension', 'Joint cost', 'Labour hours'] as const;

/** Every number of every belt in one thread; then the whole command, from file to answer, with its threads. */
async function measured(state: BookState, draws: number, write: (text: string) => void): Promise<void> {
  const book = new Workbook(state);
  const records = [...book.sheet(belts.name).rows.keys()];
  const asked = simulationAsked(book, { records, columns, draws, seed: 1, tolerances: [], correlations: [] });
  const alone = timed(() => simulated(book, { ...asked, everyColumn: true }));
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-chance-'));
  try {
    const file = join(folder, 'fleet.xlsx');
    writeFileSync(file, (await exportedBook(book, findings(book))).bytes);
    const words = ['chance', file, '--draws', String(draws), ...columns.flatMap((column) => ['--column', column])];
    const whole = timed(() => {
      const { status, stderr } = spawnSync(process.execPath, ['src/launch/run.mjs', 'src/cli/main.ts', ...words]);
      if (status !== 0) throw new Error(String(stderr));
    });
    const each = (1000 * alone) / (records.length * draws);
    write(
      `\n${records.length} belts x ${draws} draws: every number in one thread ${milliseconds(alone)} ` +
        `(${each.toFixed(1)} microseconds each); the command in threads ${milliseconds(whole)}`,
    );
  } finally {
    rmSync(folder, { recursive: true });
    book.destroy();
  }
}

export async function chanceBench(write: (text: string) => void): Promise<void> {
  await measured(demoBook('metric'), 10_000, write);
  await measured(fleet(1000), 1000, write);
}
