import { showMarkOf } from '../number-mark.ts';
import runtime from 'highs/runtime?url';
import type { Solver } from '../../solver/program.ts';
import { loadSolver } from '../../solver/solver.ts';
import type { SimulatedShelf } from '../../order/search/shelf-simulation.ts';
import type { ItemPlan } from '../../order/fleet-cutting.ts';
import { settledOrder } from '../../order/settled-order.ts';
import type { FleetOrder, SuppliedOrder } from '../../order/fleet-order.ts';
import { type AuditTerms, type HashedInput, sha256Of } from '../../purchase/audit.ts';
import { orderFiles, orderPapers } from '../../purchase/order-papers.ts';
import { auditTables } from '../../purchase/audit-tables.ts';
import { requestDocuments } from '../../purchase/request-document.ts';
import { requestFiles } from '../../purchase/request-papers.ts';
import { withReturnedFiles } from '../../purchase/returned-files.ts';
import { scheduleTables } from '../../purchase/schedule-tables.ts';
import { siteLacks } from '../../purchase/site.ts';
import type { Scope } from '../../records/chosen-belts.ts';
import { type MadeOrder, orderBook } from '../../order/order-files.ts';
import { type FeasibleFleet, feasibleFleet, type FleetSeries, fleetSeries } from '../../order/fleet-series.ts';
import { fleetShelf, type FleetShelf, played } from '../../order/shelf-lines.ts';
import { type FleetComparison, fleetComparison } from '../../order/square-or-skew.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { readBook, UnreadableFile } from '../../xlsx/read/read.ts';
import { archive } from '../../xlsx/write/archive.ts';
import { laidBook } from '../../xlsx/write/laid-book.ts';
import { tableBook } from '../../xlsx/write/table-book.ts';
import type { Told } from '../background.ts';
import { type SiteBooks, siteBooks, type SiteFile } from '../order/site-books.ts';
import { answering, spaced } from './answering.ts';

/**
 * Buying beside the page: suppliers, shelf, cutting plan, series. The page ends the worker when the user has enough of
 * waiting.
 */

export interface OrderTerms {
  readonly scope: Scope;
  readonly failing: boolean;
  readonly from: 'split' | 'single';
}

/** An audit whose hashes are still to be made: that of the book's contents before those of `files`. */
type PageAudit = Omit<AuditTerms, 'inputs'> & { readonly files: readonly HashedInput[] };

export type OrderTask =
  | {
      readonly do: 'join';
      readonly state: BookState;
      readonly name: string;
      readonly files: readonly SiteFile[];
      readonly ownFigures: boolean;
    }
  | {
      readonly do: 'order';
      readonly state: BookState;
      readonly order: FleetOrder;
      readonly terms: OrderTerms;
      /** Milliseconds since 1970 at which the search ends: making the worker ready counts too. */
      readonly until: number;
    }
  | { readonly do: 'series'; readonly state: BookState; readonly anySkew: boolean; readonly seconds: number }
  | { readonly do: 'compare'; readonly state: BookState }
  | {
      readonly do: 'papers';
      readonly state: BookState;
      readonly from: string;
      readonly made: Pick<MadeOrder, 'order' | 'supplied'>;
      readonly audit: PageAudit;
    }
  | { readonly do: 'requests'; readonly state: BookState; readonly order: FleetOrder }
  | {
      readonly do: 'take';
      readonly state: BookState;
      readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
    }
  | {
      readonly do: 'file';
      readonly state: BookState;
      readonly from: string;
      readonly made: MadeOrder;
      readonly audit: PageAudit;
    };

export type OrderAnswer =
  | { readonly done: 'joined'; readonly books: SiteBooks }
  | { readonly done: 'supply'; readonly order: FleetOrder; readonly supplied: SuppliedOrder }
  | { readonly done: 'shelf'; readonly shelf: FleetShelf; readonly played: readonly (SimulatedShelf | undefined)[] }
  | { readonly done: 'cut'; readonly plan: ItemPlan; readonly of: number }
  | { readonly done: 'series'; readonly fleet: FeasibleFleet; readonly series: FleetSeries }
  | { readonly done: 'comparison'; readonly comparison: FleetComparison }
  | { readonly done: 'papers'; readonly bytes: Uint8Array; readonly orders: number; readonly lacks: string }
  | { readonly done: 'requests'; readonly bytes: Uint8Array; readonly requests: number }
  | { readonly done: 'taken'; readonly state: BookState; readonly changed: boolean; readonly said: readonly string[] }
  | { readonly done: 'file'; readonly bytes: Uint8Array };

type Tell = (answer: OrderAnswer | Told) => void;

let solver: Promise<Solver> | undefined;
const solving = (): Promise<Solver> => (solver ??= loadSolver(() => runtime));

async function supply(
  book: Workbook,
  list: FleetOrder,
  { from }: OrderTerms,
  until: number,
  tell: Tell,
): Promise<void> {
  const solver = await solving();
  const settled = await settledOrder(book, list, solver, {
    seconds: Math.max(0, (until - Date.now()) / 1000),
    from,
    progress: spaced(tell),
    supply: (order, supplied) => {
      tell({ done: 'supply', order, supplied });
      if (order !== list || supplied.first === true) return;
      // The shelf is known with the first search; cutting may take long.
      const shelf = fleetShelf(book, order);
      tell({ done: 'shelf', shelf, played: shelf.lines.map((line) => played(line)) });
    },
    plan: (plan, of) => tell({ done: 'cut', plan, of }),
  });
  tell({ done: 'supply', order: settled.order, supplied: settled.supplied });
}

/** What an order was made of: the book, which is no file, is told by what it holds. */
const auditOf = async (state: BookState, from: string, { files, ...audit }: PageAudit): Promise<AuditTerms> => ({
  ...audit,
  inputs: [
    { name: `${from} (the book's contents)`, sha256: await sha256Of(new TextEncoder().encode(JSON.stringify(state))) },
    ...files,
  ],
});

async function orderFile(
  book: Workbook,
  { state, from, made, audit }: Extract<OrderTask, { readonly do: 'file' }>,
): Promise<Uint8Array> {
  const written = orderBook(state, made, from);
  const terms = await auditOf(state, from, audit);
  return tableBook(book, {
    ...written,
    tables: [
      ...written.tables,
      ...scheduleTables(book, made.order, made.supplied),
      ...auditTables(book, made.order, made.supplied, terms),
    ],
  });
}

/** The orders of all suppliers in one archive. */
async function papers(
  book: Workbook,
  { state, from, made, audit }: Extract<OrderTask, { readonly do: 'papers' }>,
): Promise<OrderAnswer> {
  const { papers: list } = orderPapers(book, made.order, made.supplied, await auditOf(state, from, audit));
  return {
    done: 'papers',
    bytes: archive(await orderFiles(list, state.units, laidBook), new Date()),
    orders: list.length,
    lacks: list[0] === undefined ? '' : siteLacks(list[0].document.site),
  };
}

/** A request for quotation per supplier in one archive. */
async function requests(
  book: Workbook,
  { state, order }: Extract<OrderTask, { readonly do: 'requests' }>,
): Promise<OrderAnswer> {
  const documents = requestDocuments(book, order, { suppliers: [], everything: false });
  const files = await requestFiles(documents, state.units, laidBook);
  return { done: 'requests', bytes: archive(files, new Date()), requests: files.length };
}

/** The book with what came back; a file that cannot be read is told like one that is none of ours. */
function taken({ state, files }: Extract<OrderTask, { readonly do: 'take' }>): OrderAnswer {
  const unread: string[] = [];
  const read = files.flatMap(({ name, bytes }) => {
    try {
      return [{ name, sheets: readBook(bytes).sheets }];
    } catch (error) {
      if (!(error instanceof UnreadableFile)) throw error;
      unread.push(`${name} could not be used: ${error.message}`);
      return [];
    }
  });
  const after = withReturnedFiles(state, read);
  return { done: 'taken', state: after.state, changed: after.changed, said: [...unread, ...after.said] };
}

answering(async (task: OrderTask, tell: Tell) => {
  if (task.do === 'join') {
    tell({ done: 'joined', books: await siteBooks(task.state, task.name, task.files, task.ownFigures) });
    return;
  }
  const book = new Workbook(task.state);
  showMarkOf(book);
  switch (task.do) {
    case 'order':
      await supply(book, task.order, task.terms, task.until, tell);
      break;
    case 'series': {
      const progress = spaced(tell);
      const fleet = await feasibleFleet(book, { anySkew: task.anySkew, progress });
      tell({
        done: 'series',
        fleet,
        series: await fleetSeries(book, fleet, await solving(), { seconds: task.seconds, progress }),
      });
      break;
    }
    case 'compare':
      tell({ done: 'comparison', comparison: fleetComparison(book) });
      break;
    case 'papers':
      tell(await papers(book, task));
      break;
    case 'requests':
      tell(await requests(book, task));
      break;
    case 'take':
      tell(taken(task));
      break;
    case 'file':
      tell({ done: 'file', bytes: await orderFile(book, task) });
      break;
  }
  book.destroy();
});
