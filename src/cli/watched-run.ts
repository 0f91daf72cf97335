import { constants } from 'node:os';
import type { Readable } from 'node:stream';
import { setTimeout as later } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { output, type RunData, type StepMark } from './run-progress.ts';
import { Stillness } from './stillness.ts';

/**
 * A command run beside a watch, which can end it whatever it is at.
 *
 * A file, or a formula in it, may ask for more time or memory than anybody has: no check within the run could tell
 * while it is busy. The run is a thread of its own; the watch stays awake, counts its time and answers to Ctrl+C.
 */

/** What a run may take; for tests less. */
interface Patience {
  /** Milliseconds of the processor for a timed step: the machine may be at something else meanwhile. */
  readonly processor: number;
  /** The same for each MiB of the file that the step works on: some three times what a book of ours takes. */
  readonly perMebi: number;
  /** Milliseconds of the clock in which a timed step stands still, should a disk not answer. */
  readonly clock: number;
  /** Of what lives on; with what is young and what lies outside the heap a process stays below 1 GB. */
  readonly megabytes: number;
}

const usual: Patience = { processor: 20_000, perMebi: 2000, clock: 120_000, megabytes: 700 };

const mebi = 1024 * 1024;

/** Milliseconds between two looks at the time. */
const every = 200;

/** Milliseconds of the processor that the process has taken. */
function taken(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Signals that ask a program to end. */
const endingSignals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

const smaller =
  'Delete sheets and rows that the list of belts does not need, save it with values in place of formulas, or split ' +
  'it into several files.';

const isStepMark = (message: unknown): message is StepMark =>
  typeof message === 'object' && message !== null && ('begun' in message || 'ended' in message);

interface Ended {
  readonly code: number;
  /** Why the watch ended the run; undefined when it came to its own end. */
  readonly why?: string;
}

class Watch {
  readonly #worker: Worker;
  readonly #output: RunData['output'];
  readonly #patience: Patience;
  readonly #done: (ended: Ended) => void;
  /** The step that goes on, what the processor had done before it, and what it may do for it. */
  #step: { readonly doing: string; readonly processor: number; readonly most: number } | undefined;

  #ending = false;
  #stillness = new Stillness(0, 0);

  constructor(worker: Worker, shared: RunData['output'], patience: Patience, done: (ended: Ended) => void) {
    this.#worker = worker;
    this.#output = shared;
    this.#patience = patience;
    this.#done = done;
  }

  #written(): string {
    return Atomics.load(this.#output, 0) === output.written
      ? 'The output was already written.'
      : 'Nothing was written.';
  }

  take(message: unknown): void {
    if (!isStepMark(message)) return;
    const [at, processor] = [performance.now(), taken()];
    this.#stillness = new Stillness(at, processor);
    if (!('begun' in message)) {
      this.#step = undefined;
      return;
    }
    const { begun: doing, threads = 1, bytes = 0 } = message;
    const most = threads * this.#patience.processor + Math.round((bytes / mebi) * this.#patience.perMebi);
    this.#step = { doing, processor, most };
  }

  /** Ends a timed step that takes too long. */
  look(): void {
    const step = this.#step;
    if (step === undefined) return;
    const [at, processor] = [performance.now(), taken()];
    const still = this.#stillness.until(at, processor);
    const { clock } = this.#patience;
    if (processor - step.processor > step.most)
      this.#stop(`${step.doing} took more than ${Math.round(step.most / 100) / 10} s. Nothing was written. ${smaller}`);
    else if (still > clock)
      this.#stop(
        `${step.doing} stood still for ${clock / 1000} s, as when a disk does not answer. Nothing was written. ` +
          `Copy the file to a disk of this machine, and try again.`,
      );
  }

  #stop(why: string): void {
    void this.end({ code: 2, why: `The command was stopped: ${why}` });
  }

  outOfMemory(): void {
    const of = this.#step === undefined ? 'it' : this.#step.doing;
    this.#done({
      code: 2,
      why:
        `The command was stopped: ${of} takes more than ${this.#patience.megabytes} MB of memory. ` +
        `${this.#written()} ${smaller}`,
    });
  }

  async asked(signal: (typeof endingSignals)[number]): Promise<void> {
    while (Atomics.load(this.#output, 0) === output.writing) await later(10);
    const why = `The command was stopped before its end, as asked. ${this.#written()}`;
    await this.end({ code: 128 + constants.signals[signal], why });
  }

  /** Of two ends the first counts: a thread that is ended tells of an end of its own. */
  async end(ended: Ended): Promise<void> {
    if (this.#ending) return;
    this.#ending = true;
    await this.#worker.terminate();
    this.#done(ended);
  }
}

/** Hands an answer on as fast as it is taken: the run waits, else a long answer would stand in memory meanwhile. */
function handOn(from: Readable, to: NodeJS.WriteStream): void {
  from.on('data', (piece: Uint8Array) => {
    if (to.write(piece) || !to.writable) return;
    from.pause();
    const goOn = (): void => {
      for (const event of goingOn) to.off(event, goOn);
      from.resume();
    };
    for (const event of goingOn) to.once(event, goOn);
  });
}

/** A reader that takes more, or one that has gone: what is written to it then goes nowhere. */
const goingOn = ['drain', 'error', 'close'] as const;

/**
 * Runs a program's command and answers its exit code. What the watch had to end has 2, as any other refusal, and what
 * was asked to end 128 and the number of the signal, as shells have it.
 */
export async function watchedRun(
  program: string,
  args: readonly string[],
  told: (text: string) => void,
  patience: Patience = usual,
): Promise<number> {
  const shared = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const worker = new Worker(program, {
    argv: [...args],
    workerData: { output: shared } satisfies RunData,
    stdout: true,
    stderr: true,
    // What is young is kept small: left to itself it doubles what a long run takes. With half of this the processor
    // spends a fifth more, all of it on making room (10,000 belts, 50 MB).
    resourceLimits: { maxOldGenerationSizeMb: patience.megabytes, maxYoungGenerationSizeMb: 64 },
  });
  handOn(worker.stdout, process.stdout);
  handOn(worker.stderr, process.stderr);
  const { code, why } = await new Promise<Ended>((done, fail) => {
    const watch = new Watch(worker, shared, patience, (ended) => {
      clearInterval(looking);
      for (const [signal, listener] of listeners) process.off(signal, listener);
      done(ended);
    });
    const looking = setInterval(() => watch.look(), every);
    const listeners = endingSignals.map((signal) => [signal, () => void watch.asked(signal)] as const);
    for (const [signal, listener] of listeners) process.on(signal, listener);
    worker.on('message', (message) => watch.take(message));
    worker.on('exit', (exit) => void watch.end({ code: exit }));
    worker.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') watch.outOfMemory();
      else fail(error);
    });
  });
  if (why !== undefined) told(why);
  return code;
}
