import { parentPort, workerData } from 'node:worker_threads';

/** What a command that runs beside its watch (`watched-run.ts`) tells it. Alone it tells nobody, and does the same. */

/** A step that may take only so long has begun, in words such as "reading list.xlsx", or is over. */
export type StepMark =
  | {
      readonly begun: string;
      /** Threads that work on it at a time, each of which takes the processor. */
      readonly threads?: number;
      /** Bytes of the file that it works on. */
      readonly bytes?: number;
    }
  | { readonly ended: true };

/** How far an output is. A number in memory that both see: a message may come too late. */
export const output = { none: 0, writing: 1, written: 2 } as const;

/** What the watch hands to the run that it starts. */
export interface RunData {
  readonly output: Int32Array<SharedArrayBuffer>;
}

const isRunData = (data: unknown): data is RunData =>
  typeof data === 'object' && data !== null && 'output' in data && data.output instanceof Int32Array;

const shared: unknown = workerData;
const watched: RunData | undefined = isRunData(shared) ? shared : undefined;

/** Whether this is a run that is watched already. */
export const isWatched = watched !== undefined;

const tell = (mark: StepMark): void => {
  if (isWatched) parentPort?.postMessage(mark);
};

/** Does a step over a file of so many bytes that the watch ends when it takes too long. */
export function timed<Result>(doing: string, bytes: number, work: () => Result): Result {
  tell({ begun: doing, bytes });
  try {
    return work();
  } finally {
    tell({ ended: true });
  }
}

/** A long run of steps in threads, of which each gets its own time: a step begins whenever this is called. */
export const stepBegun = (doing: string, threads: number): void => tell({ begun: doing, threads });
export const stepsEnded = (): void => tell({ ended: true });

/** Writes an output, which the watch lets come to its end. */
export function writingOutput(work: () => void): void {
  const mark = (state: number): void => {
    if (watched !== undefined) Atomics.store(watched.output, 0, state);
  };
  mark(output.writing);
  try {
    work();
    mark(output.written);
  } catch (error) {
    mark(output.none);
    throw error;
  }
}
