import { Refusal } from '../../formula/define.ts';
import type { Progress } from '../../solver/program.ts';
import type { Told } from '../background.ts';
import { type Handed, isHanded, RowsAhead } from '../handing-over.ts';

/** How a worker answers the page: what it found as it comes, its end, or why there is none. */

type Tell<Answer> = (answer: Answer | Told) => void;

/** Said to the user as it is. */
const why = (error: unknown): string =>
  error instanceof Refusal
    ? `${error.argument} ${error.message}`
    : error instanceof Error
      ? error.message
      : String(error);

/** Answers every task that the page gives. */
export function answering<Task extends object, Answer extends { readonly done: string }>(
  answer: (task: Task, tell: Tell<Answer>) => Promise<void>,
): void {
  const tell: Tell<Answer> = (told) => self.postMessage(told);
  const ahead = new RowsAhead();
  self.addEventListener('message', ({ data }: MessageEvent<Task | Handed>) => {
    if (isHanded(data)) {
      ahead.take(data);
      return;
    }
    answer(ahead.whole(data), tell).then(
      () => tell({ done: 'end' }),
      (error: unknown) => tell({ done: 'refuse', why: why(error) }),
    );
  });
}

/** Milliseconds between two words of progress. */
const every = 100;

/** Passes on what a search reports, not oftener than a reader can follow. */
export function spaced(tell: (told: Told) => void): (progress: Progress) => void {
  let told = Number.NEGATIVE_INFINITY;
  return (progress) => {
    const now = performance.now();
    if (now - told < every) return;
    told = now;
    tell({ done: 'progress', progress });
  };
}
