import { type BeltDraws, simulatedPart } from '../../what-if/simulated-part.ts';
import { simulationAsked, type SimulationTask } from '../../what-if/simulation-task.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { answering } from './answering.ts';

/** A part of a simulation beside the page, which ends the worker when the user has enough of waiting. */

export type ChanceAnswer =
  { readonly done: 'share'; readonly share: number } | { readonly done: 'drawn'; readonly draws: readonly BeltDraws[] };

/** Milliseconds between two words of progress. */
const every = 100;

answering<SimulationTask, ChanceAnswer>(async ({ state, ...task }, tell) => {
  await Promise.resolve();
  const book = new Workbook(state);
  const run = simulatedPart(book, simulationAsked(book, task));
  let told = performance.now();
  for (;;) {
    const step = run.next();
    if (step.done === true) {
      tell({ done: 'drawn', draws: step.value });
      break;
    }
    if (performance.now() - told < every) continue;
    told = performance.now();
    tell({ done: 'share', share: step.value });
  }
  book.destroy();
});
