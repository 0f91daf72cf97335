import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

/** Many cases in processes of their own, which are ended when one of them takes too long or too much. */

const mostMegabytes = 1024;
/** Cases that one process tries before a new one goes on. */
const batchLength = 2_000;

/** What a process of its own does: each case by its number. */
export interface Cases {
  /** What a case is, for a message. */
  readonly named: (number: number) => string;
  /** How it ended, in a word; `wrong: …` for what may not be. */
  readonly tried: (number: number) => string;
}

interface Line {
  readonly begun?: number;
  readonly name?: string;
  readonly ended?: number;
  readonly how?: string;
  readonly megabytes?: number;
}

const say = (line: Line): void => void process.stdout.write(`${JSON.stringify(line)}\n`);

/** In the process of its own: a line before each case and one after it, the memory last. */
export function answerCases({ named, tried }: Cases, from: number, to: number): void {
  for (let number = from; number < to; number += 1) {
    say({ begun: number, name: named(number) });
    say({ ended: number, how: tried(number) });
  }
  say({ megabytes: Math.round(process.resourceUsage().maxRSS / 1024) });
}

interface Asked {
  /** The built program whose processes try the cases. */
  readonly program: string;
  /** The word after `--cases` by which the program knows what to try. */
  readonly kind: string;
  readonly seed: number;
  readonly count: number;
  /** Milliseconds that a case may take. */
  readonly longest: number;
}

export interface Watched {
  readonly counts: Readonly<Record<string, number>>;
  readonly wrong: readonly string[];
}

interface Tally {
  readonly hows: Map<string, number>;
  readonly wrong: string[];
  slowest: number;
  megabytes: number;
}

/** Tries cases until the batch ends or its process has to be; answers with which to go on. */
function batch({ program, kind, seed, longest }: Asked, from: number, to: number, tally: Tally): Promise<number> {
  return new Promise((resolve) => {
    const child = spawn(
      process.execPath,
      [`--max-old-space-size=${mostMegabytes}`, program, '--cases', kind, ...[seed, from, to].map(String)],
      { stdio: ['ignore', 'pipe', 'ignore'] },
    );
    let [number, name, begun, late] = [from, '', Number.POSITIVE_INFINITY, false];
    const watch = setInterval(() => {
      // What ends is counted by its time; this ends what does not.
      if (performance.now() - begun < 2 * longest) return;
      late = true;
      child.kill('SIGKILL');
    }, 500);
    createInterface({ input: child.stdout }).on('line', (text) => {
      const line = JSON.parse(text) as Line;
      if (line.begun !== undefined) [number, name, begun] = [line.begun, line.name ?? '', performance.now()];
      if (line.megabytes !== undefined) tally.megabytes = Math.max(tally.megabytes, line.megabytes);
      if (line.ended === undefined || line.how === undefined) return;
      const taken = performance.now() - begun;
      tally.slowest = Math.max(tally.slowest, taken);
      const how = line.how.startsWith('wrong') ? 'wrong' : line.how;
      tally.hows.set(how, (tally.hows.get(how) ?? 0) + 1);
      if (how === 'wrong') tally.wrong.push(`${kind} ${number}, ${name}: ${line.how}`);
      if (taken > longest) tally.wrong.push(`${kind} ${number}, ${name}: took ${Math.round(taken)} ms`);
      [number, begun] = [line.ended + 1, Number.POSITIVE_INFINITY];
    });
    child.on('close', (code) => {
      clearInterval(watch);
      if (code === 0) return resolve(to);
      tally.wrong.push(
        `${kind} ${number}, ${name}: ${late ? 'did not end' : `ended its process with ${String(code)}`}`,
      );
      resolve(number + 1);
    });
  });
}

export async function watchedRuns(asked: Asked): Promise<Watched> {
  const tally: Tally = { hows: new Map(), wrong: [], slowest: 0, megabytes: 0 };
  for (let from = 0; from < asked.count;)
    from = await batch(asked, from, Math.min(asked.count, from + batchLength), tally);
  if (tally.megabytes > mostMegabytes) tally.wrong.push(`${asked.kind}: a process took ${tally.megabytes} MB`);
  return {
    counts: { ...Object.fromEntries(tally.hows), 'slowest ms': Math.round(tally.slowest), 'most MB': tally.megabytes },
    wrong: tally.wrong,
  };
}
