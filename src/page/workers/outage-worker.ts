import runtime from 'highs/runtime?url';
import { loadSolver } from '../../solver/solver.ts';
import { type Progress } from '../../solver/program.ts';
import { Refusal } from '../../formula/define.ts';
import { fleetOutage, type FleetOutage, type OutageTerms } from '../../outage/fleet-outage.ts';
import { outageBook } from '../../outage/outage-files.ts';
import { planOutage } from '../../outage/search/outage-plan.ts';
import { type OutagePlan, OutageRefusal, type RequestFault } from '../../outage/search/outage.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { tableBook } from '../../xlsx/write/table-book.ts';
import { spaced } from './spaced-progress.ts';

/**
 * The outage plan beside the page. The page ends the worker when the user has enough of waiting: the best plan so far
 * was told.
 */

export type OutageTask =
  | { readonly do: 'plan'; readonly state: BookState; readonly terms: OutageTerms; readonly seconds: number }
  | {
      readonly do: 'file';
      readonly state: BookState;
      readonly from: string;
      readonly fleet: FleetOutage;
      readonly plan: OutagePlan;
    };

export type OutageAnswer =
  | { readonly done: 'progress'; readonly progress: Progress }
  | { readonly done: 'asked'; readonly fleet: FleetOutage }
  /** The best so far, in the end the last. */
  | { readonly done: 'found'; readonly plan: OutagePlan }
  | { readonly done: 'faults'; readonly faults: readonly RequestFault[] }
  | { readonly done: 'file'; readonly bytes: Uint8Array }
  | { readonly done: 'end' }
  /** Said to the user as it is. */
  | { readonly done: 'refuse'; readonly why: string };

const tell = (answer: OutageAnswer): void => self.postMessage(answer);

const progress = spaced((one) => tell({ done: 'progress', progress: one }));

async function answer(task: OutageTask): Promise<void> {
  const book = new Workbook(task.state);
  if (task.do === 'plan') {
    const fleet = fleetOutage(book, task.terms);
    tell({ done: 'asked', fleet });
    const plan = await planOutage(fleet.request, {
      solver: () => loadSolver(() => runtime),
      seconds: task.seconds,
      progress,
      found: (best) => tell({ done: 'found', plan: best }),
    });
    tell({ done: 'found', plan });
  } else {
    tell({ done: 'file', bytes: await tableBook(book, outageBook(task.state, task.fleet, task.plan, task.from)) });
  }
  book.destroy();
  tell({ done: 'end' });
}

self.addEventListener('message', (event: MessageEvent<OutageTask>) => {
  answer(event.data).catch((error: unknown) => {
    if (error instanceof OutageRefusal) {
      tell({ done: 'faults', faults: error.faults });
      tell({ done: 'end' });
    } else
      tell({
        done: 'refuse',
        why:
          error instanceof Refusal
            ? `${error.argument} ${error.message}`
            : error instanceof Error
              ? error.message
              : String(error),
      });
  });
});
