import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { UnusableList } from '../../xlsx/import/import-model.ts';
import { type UnreadableReason, UnreadableFile } from '../../xlsx/read/unreadable-file.ts';
import { FileError } from '../usage-error.ts';
import type { LookAsked } from '../../xlsx/write/file-numbers.ts';
import type { ListThreadData } from './list-thread-data.ts';
import type { ListData, LookedPart, NumberLooks, PartAnswer, PartResult, PartTask, PartWorkers } from './part-model.ts';
import { PartWork } from './part-work.ts';
import { NotPlain } from './row-runs.ts';

/** Threads that work on parts of a list at a time; each has a gigabyte's fifth of its own. Ours. */
const mostThreads = 4;

/** Of what lives on in one thread. */
const threadMegabytes = 500;

/**
 * Of what is young in one thread. With two thirds of it the processor spends a twentieth more, on making room, and the
 * threads take 130 MB less (10,000 belts).
 */
const youngMegabytes = 144;

/** Why a thread could not do a task, as far as it is the list's own fault. */
type Refused =
  | { readonly kind: 'unreadable'; readonly reason: UnreadableReason; readonly message: string }
  | { readonly kind: 'unusable' | 'not plain'; readonly message: string };

function errorOf(refused: Refused): Error {
  if (refused.kind === 'unreadable') return new UnreadableFile(refused.reason, refused.message);
  return refused.kind === 'unusable' ? new UnusableList(refused.message) : new NotPlain(refused.message);
}

function refusedBy(error: unknown): Refused | undefined {
  if (error instanceof UnreadableFile) return { kind: 'unreadable', reason: error.reason, message: error.message };
  if (error instanceof UnusableList) return { kind: 'unusable', message: error.message };
  return error instanceof NotPlain ? { kind: 'not plain', message: error.message } : undefined;
}

type Numbers = (looks: readonly LookAsked[]) => Promise<readonly number[]>;

async function done(work: PartWork, task: PartTask, numbers: Numbers): Promise<PartAnswer> {
  if (task.do === 'look') return work.look(task);
  if (task.do === 'calculate') return work.calculate(task, numbers);
  work.plan(task.plan);
  return undefined;
}

/** What a thread is told: a task, or the numbers that it asked for meanwhile. */
type Told = PartTask | { readonly numbers: readonly number[] };
type Answered =
  { readonly answer: PartAnswer } | { readonly refused: Refused } | { readonly asks: readonly LookAsked[] };

interface Port {
  readonly on: (event: 'message', listener: (told: Told) => void) => unknown;
  readonly postMessage: (answer: Answered, moved?: readonly ArrayBuffer[]) => void;
}

/** Bytes of an answer that need no copy. */
const moved = (answer: PartAnswer): ArrayBuffer[] =>
  answer !== undefined && 'made' in answer && answer.made !== undefined
    ? answer.made.pieces.map(({ bytes }) => bytes.buffer)
    : [];

/** Answers the tasks of a thread, one after the other, until it is ended. */
export function answerTasks(data: ListData, port: Port): void {
  let work: PartWork | undefined;
  let numbered: ((numbers: readonly number[]) => void) | undefined;
  const numbers: Numbers = (asks) =>
    new Promise((take) => {
      numbered = take;
      port.postMessage({ asks });
    });
  const answer = async (task: PartTask): Promise<void> => {
    try {
      work ??= new PartWork(data);
      const found = await done(work, task, numbers);
      port.postMessage({ answer: found }, moved(found));
    } catch (error) {
      const refused = refusedBy(error);
      if (refused === undefined) throw error;
      port.postMessage({ refused });
    }
  };
  let before = Promise.resolve();
  port.on('message', (told) => {
    if ('numbers' in told) numbered?.(told.numbers);
    else before = before.then(() => answer(told));
  });
}

interface Waiting {
  readonly take: (answer: PartAnswer) => void;
  readonly fail: (error: Error) => void;
  readonly numbers: NumberLooks;
}

const noNumbers: NumberLooks = () => [];

/** One thread, which does a task after the other. */
class PartThread {
  readonly #worker: Worker;
  readonly #waiting: Waiting[] = [];
  #fault: Error | undefined;

  constructor(data: ListData) {
    // The program that runs is the one that its threads run.
    this.#worker = new Worker(process.argv[1] ?? '', {
      workerData: { listThread: data } satisfies ListThreadData,
      resourceLimits: { maxOldGenerationSizeMb: threadMegabytes, maxYoungGenerationSizeMb: youngMegabytes },
    });
    this.#worker.on('message', (answered: Answered) => {
      if ('asks' in answered) {
        this.#worker.postMessage({ numbers: this.#waiting[0]?.numbers(answered.asks) ?? [] } satisfies Told);
        return;
      }
      const waiting = this.#waiting.shift();
      if ('answer' in answered) waiting?.take(answered.answer);
      else waiting?.fail(errorOf(answered.refused));
    });
    this.#worker.on('error', (error: NodeJS.ErrnoException) =>
      this.#fail(
        error.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? new FileError(
              `${data.file} could not be used: a part of it takes more than ${threadMegabytes} MB of memory. ` +
                `Delete columns and sheets that the list of belts does not need.`,
            )
          : error,
      ),
    );
    this.#worker.on('exit', () => this.#fail(new Error('a thread ended before it had answered')));
  }

  #fail(error: Error): void {
    this.#fault ??= error;
    for (const { fail } of this.#waiting.splice(0)) fail(this.#fault);
  }

  do(task: PartTask, numbers = noNumbers): Promise<PartAnswer> {
    return new Promise((take, fail) => {
      if (this.#fault !== undefined) fail(this.#fault);
      else {
        this.#waiting.push({ take, fail, numbers });
        this.#worker.postMessage(task satisfies Told);
      }
    });
  }

  get load(): number {
    return this.#waiting.length;
  }

  async end(): Promise<void> {
    await this.#worker.terminate();
  }
}

const isFacts = (answer: PartAnswer): answer is LookedPart => answer !== undefined && 'sample' in answer;
const isResult = (answer: PartAnswer): answer is PartResult => answer !== undefined && 'counts' in answer;

const unasked = (): Error => new Error('a thread did not answer what it was asked');

type Do = (task: PartTask, numbers?: NumberLooks) => Promise<PartAnswer>;

const dealer = (doTask: Do): Pick<PartWorkers, 'look' | 'calculate'> => ({
  async look(task) {
    const answer = await doTask(task);
    if (!isFacts(answer)) throw unasked();
    return answer;
  },
  async calculate(task, numbers) {
    const answer = await doTask(task, numbers);
    if (!isResult(answer)) throw unasked();
    return answer;
  },
});

/** Threads for the parts of a list: as many as there are processors. */
export function threads(data: ListData): PartWorkers {
  const all = Array.from({ length: Math.min(mostThreads, availableParallelism()) }, () => new PartThread(data));
  const idlest = (): PartThread | undefined => all.toSorted((one, other) => one.load - other.load)[0];
  return {
    ...dealer((task, numbers) => idlest()?.do(task, numbers) ?? Promise.reject(new Error('there is no thread'))),
    count: all.length,
    plan: async (task) => {
      await Promise.all(all.map((thread) => thread.do(task)));
    },
    end: async () => {
      await Promise.all(all.map((thread) => thread.end()));
    },
  };
}

/** The same in the thread that asks. For tests: they compare lists in parts with lists read whole. */
export function withoutThreads(data: ListData): PartWorkers {
  const work = new PartWork(data);
  let before: Promise<unknown> = Promise.resolve();
  const doTask: Do = (task, numbers = noNumbers) => {
    // What goes to a thread is a copy: what could not be copied must not work here either.
    const copied = structuredClone(task);
    const next = before.then(async () =>
      structuredClone(await done(work, copied, (looks) => Promise.resolve(numbers(looks)))),
    );
    before = next.catch(() => undefined);
    return next;
  };
  return {
    ...dealer(doTask),
    count: 1,
    plan: async (task) => {
      await doTask(task);
    },
    end: () => Promise.resolve(),
  };
}
