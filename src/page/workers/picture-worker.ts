import { showMarkOf } from '../number-mark.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { drawnFigures, type FailingChances, failingChances } from '../../pictures/failing-chances.ts';
import { type SweepAsked, type SweptFigure, sweptFigure } from '../../pictures/swept-figure.ts';
import { type MapAsked, type VerdictMap, verdictMap } from '../../pictures/verdict-map.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import type { Told } from '../background.ts';
import { answering, spaced } from './answering.ts';

/** Figures for pictures beside the page, which ends the worker when the user has enough of waiting. */

export type PictureTask = { readonly state: BookState } & (
  | { readonly do: 'chances' }
  | { readonly do: 'draws'; readonly record: number; readonly header: BeltHeader }
  | { readonly do: 'sweep'; readonly asked: SweepAsked }
  | { readonly do: 'map'; readonly asked: MapAsked }
);

export type PictureAnswer =
  | { readonly done: 'chances'; readonly found: FailingChances }
  | {
      readonly done: 'draws';
      readonly record: number;
      readonly header: BeltHeader;
      readonly figures: readonly number[];
    }
  | { readonly done: 'sweep'; readonly found: SweptFigure }
  | { readonly done: 'map'; readonly found: VerdictMap };

/** Takes all steps and tells how many of a hundred are done. */
function followed<Answer>(steps: Generator<number, Answer>, tell: (told: Told) => void): Answer {
  const progress = spaced(tell);
  const begun = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    progress({ stage: `${Math.floor(step.value * 100)} %`, seconds: (performance.now() - begun) / 1000 });
  }
}

answering(async (task: PictureTask, tell: (answer: PictureAnswer | Told) => void) => {
  await Promise.resolve();
  const book = new Workbook(task.state);
  showMarkOf(book);
  switch (task.do) {
    case 'chances':
      tell({ done: 'chances', found: followed(failingChances(book), tell) });
      break;
    case 'draws': {
      const { record, header } = task;
      tell({ done: 'draws', record, header, figures: drawnFigures(book, record, header) });
      break;
    }
    case 'sweep':
      tell({ done: 'sweep', found: followed(sweptFigure(book, task.asked), tell) });
      break;
    case 'map':
      tell({ done: 'map', found: followed(verdictMap(book, task.asked), tell) });
      break;
  }
  book.destroy();
});
