import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { listFile } from './lists.ts';
import { book, ran, ready } from './program.ts';

/** Runs of the command line that write a file and are killed at random moments, and what they leave. */

interface Killed {
  readonly runs: number;
  /** Runs that were over before the kill came. */
  readonly finished: number;
  /** Drafts that a kill has left, which the next run sweeps. */
  readonly drafts: number;
  /** What must not be, in words. */
  readonly wrong: readonly string[];
}

const outputs = [
  ['calc', 'list.xlsx', 'out.xlsx'],
  ['card', 'list.xlsx', 'B1', 'card.dxf', '--cut-only'],
  ['card', 'list.xlsx', 'cards.pdf', '--all'],
  ['order', 'list.xlsx', 'order.xlsx', '--seconds', '1'],
] as const;

const signals = ['SIGKILL', 'SIGKILL', 'SIGTERM', 'SIGINT', 'SIGHUP'] as const;

/** What stands in a file must be one of these: nothing, what was there before, or a whole file. */
function whole(path: string, before: Buffer | undefined): boolean {
  let now: Buffer;
  try {
    now = readFileSync(path);
  } catch {
    return before === undefined;
  }
  if (before?.equals(now) === true) return true;
  if (path.endsWith('.xlsx')) {
    try {
      return readBook(now).sheets.length > 0;
    } catch {
      return false;
    }
  }
  const text = now.toString('latin1').trimEnd();
  return text.endsWith(path.endsWith('.pdf') ? '%%EOF' : 'EOF');
}

export async function killedRuns({ count, seed }: { readonly count: number; readonly seed: number }): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'killed-'));
  const chance = randomNumbers(seed);
  const at = (name: string): string => join(folder, name);
  const wrong: string[] = [];
  let [finished, drafts] = [0, 0];
  try {
    await listFile(at('list.xlsx'), {
      Belts: [
        ['Belt', 'Width (mm)', 'Thickness (mm)', 'Skew'],
        ...Array.from({ length: 40 }, (_, index) => [`B${index + 1}`, 500 + 10 * index, 10, 45]),
      ],
    });
    await ready();
    /** How long each output takes when nothing ends it. */
    const usual = new Map<string, number>();
    const usualTime = async (args: readonly string[]): Promise<number> => {
      const known = usual.get(args.join());
      if (known !== undefined) return known;
      const begun = performance.now();
      await ran(args, { folder });
      const time = performance.now() - begun;
      usual.set(args.join(), time);
      return time;
    };
    for (let run = 0; run < count; run += 1) {
      const args = outputs[Math.floor(chance() * outputs.length)] ?? outputs[0];
      const target = args.find((word) => /^(out|card|cards|order)\./.test(word)) ?? '';
      const signal = signals[Math.floor(chance() * signals.length)] ?? 'SIGKILL';
      const time = await usualTime(args);
      if (chance() < 0.5) rmSync(at(target), { force: true });
      let before: Buffer | undefined;
      try {
        before = readFileSync(at(target));
      } catch {
        // There is none yet.
      }
      const child = spawn(process.execPath, [...book, ...args], { cwd: folder, stdio: 'ignore' });
      // One that heard the signal ends by itself, with 128 and the signal's number.
      const ended = new Promise<boolean>((resolve) =>
        child.on('close', (code, sent) => resolve(sent === null && (code ?? 0) < 128)),
      );
      // Half of the kills come at the end, when the file is written.
      const share = chance() < 0.5 ? chance() : 0.8 + 0.25 * chance();
      await Promise.race([ended, setTimeout(time * share)]);
      child.kill(signal);
      if (await ended) finished += 1;
      const case_ = `run ${run}, ${args.join(' ')}, ${signal}`;
      if (!whole(at(target), before)) wrong.push(`${case_}: ${target} is neither whole nor as it was`);
      const left = readdirSync(folder).filter((name) => name.startsWith('.'));
      drafts += left.length;
      if (left.length > 0 && signal !== 'SIGKILL') wrong.push(`${case_}: left ${left.join(', ')}`);
      if (left.length > 0) {
        await ran(['calc', 'list.xlsx', 'swept.xlsx'], { folder });
        const still = readdirSync(folder).filter((name) => name.startsWith('.'));
        if (still.length > 0) wrong.push(`${case_}: ${still.join(', ')} stayed after the next run`);
      }
    }
    return { runs: count, finished, drafts, wrong };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
