import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { mutant, outcome, realFiles } from '../xlsx/mutants.ts';

/** Mutants in a process of their own, which is ended when one of them takes too long or too much. */

const longest = 20_000;
const mostMegabytes = 1024;

/** What the process of its own does: a line a mutant, and the memory that it took at most. */
export async function answerMutants(seed: number, from: number, to: number): Promise<void> {
  const files = await realFiles();
  for (let number = from; number < to; number += 1) {
    const { name, bytes } = mutant(files, seed, number);
    process.stdout.write(`${JSON.stringify({ number, name })}\n`);
    process.stdout.write(`${JSON.stringify({ number, outcome: outcome(bytes) })}\n`);
  }
  process.stdout.write(`${JSON.stringify({ megabytes: Math.round(process.resourceUsage().maxRSS / 1024) })}\n`);
}

interface Line {
  readonly number?: number;
  readonly name?: string;
  readonly outcome?: ReturnType<typeof outcome>;
  readonly megabytes?: number;
}

interface Batch {
  /** The mutant at which it stopped; `to` when it came to its end. */
  readonly reached: number;
  readonly lines: readonly Line[];
  readonly slowest: number;
  readonly problem: string | undefined;
}

function batch(seed: number, from: number, to: number): Promise<Batch> {
  return new Promise((resolve) => {
    const child = spawn(
      process.execPath,
      [`--max-old-space-size=${mostMegabytes}`, process.argv[1] ?? '', '--mutants', ...[seed, from, to].map(String)],
      { stdio: ['ignore', 'pipe', 'ignore'] },
    );
    const lines: Line[] = [];
    let [reached, slowest, begun, late] = [from, 0, performance.now(), false];
    const watch = setInterval(() => {
      // The files themselves are made first.
      if (lines.length === 0 || performance.now() - begun < longest) return;
      late = true;
      child.kill('SIGKILL');
    }, 500);
    createInterface({ input: child.stdout }).on('line', (text) => {
      const line = JSON.parse(text) as Line;
      lines.push(line);
      if (line.outcome !== undefined) slowest = Math.max(slowest, performance.now() - begun);
      if (line.outcome !== undefined && line.number !== undefined) reached = line.number + 1;
      begun = performance.now();
    });
    child.on('close', (code) => {
      clearInterval(watch);
      const why = late ? `took more than ${longest / 1000} s` : `ended its process with ${String(code)}`;
      resolve({ reached, lines, slowest, problem: code === 0 ? undefined : why });
    });
  });
}

export async function mutantRuns({
  count,
  seed,
}: {
  readonly count: number;
  readonly seed: number;
}): Promise<{ readonly counts: Readonly<Record<string, number>>; readonly wrong: readonly string[] }> {
  const counts = { read: 0, refused: 0, slowestMilliseconds: 0, mostMegabytes: 0 };
  const wrong: string[] = [];
  for (let from = 0; from < count;) {
    const { reached, lines, slowest, problem } = await batch(seed, from, Math.min(count, from + 2_000));
    for (const { number, outcome: what, megabytes } of lines) {
      if (what === 'read' || what === 'refused') counts[what] += 1;
      else if (what !== undefined) wrong.push(`mutant ${number}: ${what.wrong}`);
      counts.mostMegabytes = Math.max(counts.mostMegabytes, megabytes ?? 0);
    }
    counts.slowestMilliseconds = Math.max(counts.slowestMilliseconds, Math.round(slowest));
    if (problem !== undefined) wrong.push(`mutant ${reached} (${lines.at(-1)?.name ?? 'none'}): ${problem}`);
    from = problem === undefined ? reached : reached + 1;
  }
  if (counts.mostMegabytes > mostMegabytes) wrong.push(`a process took ${counts.mostMegabytes} MB`);
  return { counts, wrong };
}
