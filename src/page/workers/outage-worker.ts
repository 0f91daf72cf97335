import { showMarkOf } from '../number-mark.ts';
import runtime from 'highs/runtime?url';
import { loadSolver } from '../../solver/solver.ts';
import { fleetOutage, type FleetOutage, type OutageTerms } from '../../outage/fleet-outage.ts';
import { outageBook } from '../../outage/outage-files.ts';
import { planOutage } from '../../outage/search/plan.ts';
import { type OutagePlan, OutageRefusal, type RequestFault } from '../../outage/search/request.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { tableBook } from '../../xlsx/write/table-book.ts';
import type { Told } from '../background.ts';
import { answering, spaced } from './answering.ts';

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
  | { readonly done: 'asked'; readonly fleet: FleetOutage }
  /** The best so far, in the end the last. */
  | { readonly done: 'found'; readonly plan: OutagePlan }
  | { readonly done: 'faults'; readonly faults: readonly RequestFault[] }
  | { readonly done: 'file'; readonly bytes: Uint8Array };

async function plan(
  book: Workbook,
  { terms, seconds }: Extract<OutageTask, { readonly do: 'plan' }>,
  tell: (answer: OutageAnswer | Told) => void,
): Promise<void> {
  try {
    const fleet = fleetOutage(book, terms);
    tell({ done: 'asked', fleet });
    const found = await planOutage(fleet.request, {
      solver: () => loadSolver(() => runtime),
      seconds,
      progress: spaced(tell),
      found: (best) => tell({ done: 'found', plan: best }),
    });
    tell({ done: 'found', plan: found });
  } catch (error) {
    if (!(error instanceof OutageRefusal)) throw error;
    tell({ done: 'faults', faults: error.faults });
  }
}

answering(async (task: OutageTask, tell: (answer: OutageAnswer | Told) => void) => {
  const book = new Workbook(task.state);
  showMarkOf(book);
  if (task.do === 'plan') await plan(book, task, tell);
  else tell({ done: 'file', bytes: await tableBook(book, outageBook(task.state, task.fleet, task.plan, task.from)) });
  book.destroy();
});
