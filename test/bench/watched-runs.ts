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
  readonly tried: (number: number) => string | Promise<string>;
}

interface Line {
  readonly begun?: number;
  readonly name?: string;
  readonly ended?: number;
  readonly how?: string;
  readonly milliseconds?: number;
  readonly megabytes?: number;
}

const say = (line: Line): void => void process.stdout.write(`${JSON.stringify(line)}\n`);

/** In the process of its own: a line before each case and one after it, the memory last. */
export async function answerCases({ named, tried }: Cases, from: number, to: number): Promise<void> {
  for (let number = from; number < to; number += 1) {
    say({ begun: number, name: named(number) });
    // The processor's time: the machine may be at something else meanwhile.
    const before = process.cpuUsage();
    const how = await tried(number);
    const { user, system } = process.cpuUsage(before);
    say({ ended: number, how, milliseconds: Math.round((user + system) / 1000) });
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
  /** Milliseconds of a processor that a case may take. */
  readonly longest: number;
}

export interface Watched {
  readonly counts: Readonly<Record<string, number>>;
  readonly wrong: readonly string[];
}

interface Tally {
  readonly hows: Map<string, number>;
  readonly wrong: string[];
  /** Notes what may not be, and says it at once: the whole takes hours. */
  readonly note: (problem: string) => void;
  slowest: number;
  megabytes: number;
}

/** Tries cases until the batch ends or its process has to be; answers with which to go on. */
function batch({ program, kind, seed, longest }: Asked, from: number, to: number, tally: Tally): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      [`--max-old-space-size=${mostMegabytes}`, program, '--cases', kind, ...[seed, from, to].map(String)],
      { stdio: ['ignore', 'pipe', 'inherit'] },
    );
    let [number, name, begun, late] = [from, '', Number.POSITIVE_INFINITY, false];
    const watch = setInterval(() => {
      // What ends is counted by its time; this ends what does not.
      if (performance.now() - begun < Math.max(60_000, 10 * longest)) return;
      late = true;
      child.kill('SIGKILL');
    }, 500);
    createInterface({ input: child.stdout }).on('line', (text) => {
      const line = JSON.parse(text) as Line;
      if (line.begun !== undefined) [number, name, begun] = [line.begun, line.name ?? '', performance.now()];
      if (line.megabytes !== undefined) tally.megabytes = Math.max(tally.megabytes, line.megabytes);
      if (line.ended === undefined || line.how === undefined) return;
      const taken = line.milliseconds ?? 0;
      tally.slowest = Math.max(tally.slowest, taken);
      const how = line.how.startsWith('wrong') ? 'wrong' : line.how;
      tally.hows.set(how, (tally.hows.get(how) ?? 0) + 1);
      if (how === 'wrong') tally.note(`${kind} ${number}, ${name}: ${line.how}`);
      if (taken > longest) tally.note(`${kind} ${number}, ${name}: took ${Math.round(taken)} ms`);
      [number, begun] = [line.ended + 1, Number.POSITIVE_INFINITY];
    });
    child.on('close', (code, signal) => {
      clearInterval(watch);
      if (code === 0) return resolve(to);
      if (name === '') return reject(new Error(`${kind}: its cases could not be made`));
      tally.note(
        `${kind} ${number}, ${name}: ${late ? 'did not end' : `ended its process with ${signal ?? String(code)}`}`,
      );
      resolve(number + 1);
    });
  });
}

export async function watchedRuns(asked: Asked): Promise<Watched> {
  const wrong: string[] = [];
  const note = (problem: string): void => {
    wrong.push(problem);
    process.stderr.write(`${problem}\n`);
  };
  const tally: Tally = { hows: new Map(), wrong, note, slowest: 0, megabytes: 0 };
  for (let from = 0; from < asked.count;)
    from = await batch(asked, from, Math.min(asked.count, from + batchLength), tally);
  if (tally.megabytes > mostMegabytes) tally.note(`${asked.kind}: a process took ${tally.megabytes} MB`);
  return {
    counts: { ...Object.fromEntries(tally.hows), 'slowest ms': Math.round(tally.slowest), 'most MB': tally.megabytes },
    wrong: tally.wrong,
  };
}
