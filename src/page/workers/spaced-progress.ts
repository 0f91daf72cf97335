import type { Progress } from '../../solver/program.ts';

/** Milliseconds between two words of progress. */
const every = 100;

/** Passes on what a search reports, not oftener than a reader can follow. */
export function spaced(tell: (progress: Progress) => void): (progress: Progress) => void {
  let told = Number.NEGATIVE_INFINITY;
  return (progress) => {
    const now = performance.now();
    if (now - told < every) return;
    told = now;
    tell(progress);
  };
}
