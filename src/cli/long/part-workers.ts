import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { UnusableList } from '../../xlsx/import/import-model.ts';
import { type UnreadableReason, UnreadableFile } from '../../xlsx/read/unreadable-file.ts';
import { FileError } from '../usage-error.ts';
import type { ListThreadData } from './list-thread-data.ts';
import type { ListData, PartAnswer, PartTask, PartWorkers } from './part-model.ts';
import { PartWork } from './part-work.ts';
import { NotPlain } from './row-runs.ts';

/** Threads that work on parts of a list at a time; each has a gigabyte's fifth of its own. Ours. */
const mostThreads = 4;

/** Of what lives on in one thread. */
const threadMegabytes = 500;

/** Why a thread could not do a task, as far as it is the list's own fault. */
type Refused =
  | { readonly kind: 'unreadable'; readonly reason: UnreadableReason; readonly message: string }
  | { readonly kind: 'unusable' | 'not plain'; readonly message: string };

type Answered = { readonly answer: PartAnswer } | { readonly refused: Refused };

function errorOf(refused: Refused): Error {
  if (refused.kind === 'unreadable') return new UnreadableFile(refused.reason, refused.message);
  return refused.kind === 'unusable' ? new UnusableList(refused.message) : new NotPlain(refused.message);
}

function refusedBy(error: unknown): Refused | undefined {
  if (error instanceof UnreadableFile) return { kind: 'unreadable', reason: error.reason, message: error.message };
  if (error instanceof UnusableList) return { kind: 'unusable', message: error.message };
  return error instanceof NotPlain ? { kind: 'not plain', message: error.message } : undefined;
}

function done(work: PartWork, task: PartTask): PartAnswer {
  if (task.do === 'look') return work.look(task);
  if (task.do === 'calculate') return work.calculate(task);
  work.plan(task.plan);
  return undefined;
}

/** Answers the tasks of a thread until it is ended. */
export function answerTasks(
  data: ListData,
  port: {
    readonly on: (event: 'message', listener: (task: PartTask) => void) => unknown;
    readonly postMessage: (answer: Answered) => void;
  },
): void {
  let work: PartWork | undefined;
  port.on('message', (task) => {
    try {
      work ??= new PartWork(data);
      port.postMessage({ answer: done(work, task) });
    } catch (error) {
      const refused = refusedBy(error);
      if (refused === undefined) throw error;
      port.postMessage({ refused });
    }
  });
}

/** One thread, which does a task after the other. */
class PartThread {
  readonly #worker: Worker;
  readonly #waiting: { readonly take: (answer: PartAnswer) => void; readonly fail: (error: Error) => void }[] = [];
  #fault: Error | undefined;

  constructor(data: ListData) {
    // The program that runs is the one that its threads run.
    this.#worker = new Worker(process.argv[1] ?? '', {
      workerData: { listThread: data } satisfies ListThreadData,
      resourceLimits: { maxOldGenerationSizeMb: threadMegabytes, maxYoungGenerationSizeMb: 32 },
    });
    this.#worker.on('message', (answered: Answered) => {
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

  do(task: PartTask): Promise<PartAnswer> {
    return new Promise((take, fail) => {
      if (this.#fault !== undefined) fail(this.#fault);
      else {
        this.#waiting.push({ take, fail });
        this.#worker.postMessage(task);
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

const isResult = <Answer extends PartAnswer>(answer: PartAnswer, mark: string): answer is Answer =>
  answer !== undefined && mark in answer;

function workers(
  count: number,
  doTask: (task: PartTask) => Promise<PartAnswer>,
  planAll: (task: PartTask) => Promise<void>,
  end: () => Promise<void>,
): PartWorkers {
  const asked = async <Answer extends PartAnswer>(
    task: PartTask,
    mark: keyof NonNullable<Answer> & string,
  ): Promise<NonNullable<Answer>> => {
    const answer = await doTask(task);
    if (!isResult<NonNullable<Answer>>(answer, mark)) throw new Error(`a thread answered something else than asked`);
    return answer;
  };
  return {
    count,
    look: (task) => asked(task, 'sample'),
    calculate: (task) => asked(task, 'counts'),
    plan: planAll,
    end,
  };
}

/** Threads for the parts of a list: as many as there are processors. */
export function threads(data: ListData): PartWorkers {
  const all = Array.from({ length: Math.min(mostThreads, availableParallelism()) }, () => new PartThread(data));
  const idlest = (): PartThread | undefined => all.toSorted((one, other) => one.load - other.load)[0];
  return workers(
    all.length,
    (task) => idlest()?.do(task) ?? Promise.reject(new Error('there is no thread')),
    async (task) => {
      await Promise.all(all.map((thread) => thread.do(task)));
    },
    async () => {
      await Promise.all(all.map((thread) => thread.end()));
    },
  );
}

/** The same in the thread that asks. For tests: they compare lists in parts with lists read whole. */
export function withoutThreads(data: ListData): PartWorkers {
  const work = new PartWork(data);
  // What goes to a thread is a copy: what could not be copied must not work here either.
  const answer = (task: PartTask): PartAnswer => structuredClone(done(work, structuredClone(task)));
  return workers(
    1,
    (task) => new Promise((take) => take(answer(task))),
    (task) => Promise.resolve(void answer(task)),
    () => Promise.resolve(),
  );
}
