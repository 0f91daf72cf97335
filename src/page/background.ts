import type { Progress } from '../solver/program.ts';
import { handOver } from './handing-over.ts';

/** Work beside the page, one worker each: what is under way, by what it is. */

export interface Running {
  readonly worker: Worker;
  readonly patience: ReturnType<typeof setTimeout> | undefined;
  progress: Progress | undefined;
}

/** What every worker may answer beside its own: how far it is, that it is done, or why it can't be. */
export type Told =
  | { readonly done: 'progress'; readonly progress: Progress }
  | { readonly done: 'end' }
  | { readonly done: 'refuse'; readonly why: string };

export interface TimeLimit {
  readonly milliseconds: number;
  /** What is said when it has come. */
  readonly why: string;
}

export class Background<Work extends string, Answer extends { readonly done: string }> {
  readonly #running = new Map<Work, Running>();
  readonly #take: (work: Work, answer: Answer) => void;
  readonly #changed: () => void;
  /** Why something could not be done. */
  readonly problems = new Map<Work, string>();

  constructor(take: (work: Work, answer: Answer) => void, changed: () => void) {
    this.#take = take;
    this.#changed = changed;
  }

  get(work: Work): Running | undefined {
    return this.#running.get(work);
  }

  has(work: Work): boolean {
    return this.#running.has(work);
  }

  /** Ends a work; what it had answered so far stays. */
  stop(work: Work): void {
    const running = this.#running.get(work);
    if (running === undefined) return;
    // A limit that is still to come would hold the closed dialog until then.
    clearTimeout(running.patience);
    running.worker.terminate();
    this.#running.delete(work);
    this.#changed();
  }

  end(): void {
    for (const work of this.#running.keys()) this.stop(work);
  }

  /** Gives a further task to a worker that goes on until it is stopped. */
  goOn(work: Work, task: object): void {
    this.#running.get(work)?.worker.postMessage(task);
  }

  /** Gives a worker its task; one that is at the same work is ended. Where it has a limit, it is ended with that. */
  start(work: Work, worker: Worker, task: object, limit?: TimeLimit): void {
    this.stop(work);
    this.problems.delete(work);
    const patience = limit === undefined ? undefined : setTimeout(() => end(limit.why), limit.milliseconds);
    const running: Running = { worker, patience, progress: undefined };
    this.#running.set(work, running);
    const end = (why?: string): void => {
      clearTimeout(patience);
      worker.terminate();
      if (this.#running.get(work) === running) this.#running.delete(work);
      if (why !== undefined) this.problems.set(work, why);
      this.#changed();
    };
    worker.addEventListener('message', ({ data }: MessageEvent<Told | Answer>) => {
      // What comes after it was ended is of no use.
      if (this.#running.get(work) !== running) return;
      if (isTold(data)) {
        if (data.done === 'refuse') return end(data.why);
        if (data.done === 'end') return end();
        running.progress = data.progress;
      } else this.#take(work, data);
      this.#changed();
    });
    worker.addEventListener('error', (event) => end(event.message));
    handOver(worker, task, () => this.#running.get(work) === running);
    this.#changed();
  }
}

const isTold = (answer: { readonly done: string }): answer is Told =>
  answer.done === 'progress' || answer.done === 'end' || answer.done === 'refuse';
