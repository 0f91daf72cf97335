import type { MadeOrder } from '../../order/order-files.ts';
import type { FleetOrder, SuppliedOrder } from '../../order/fleet-order.ts';
import { counted } from '../../units/phrases.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { bookType, download, fileName } from '../downloading.ts';
import type { OrderAnswer, OrderTask, OrderTerms } from '../workers/order-worker.ts';
import type { AddedSites } from './added-sites.ts';
import { scopeWords } from './order-words.ts';

/** What the order dialog writes: what a worker is asked for, and how its files reach the user. */

/** What a session knows of its order. */
export interface KnownOrder extends Omit<MadeOrder, 'order' | 'supplied'> {
  readonly book: Workbook;
  /** What it is made of, in words. */
  readonly from: string;
  readonly terms: OrderTerms;
  readonly sites: AddedSites;
  readonly order: FleetOrder;
  readonly supplied: SuppliedOrder;
  /** Searches that are still under way. */
  readonly unfinished: readonly string[];
}

const auditOf = ({ terms, book, sites, unfinished }: KnownOrder): Extract<OrderTask, { do: 'file' }>['audit'] => ({
  options: scopeWords(terms, book, sites),
  unfinished,
  files: sites.inputs,
});

/** The order's workbook. */
export function fileTask(known: KnownOrder): OrderTask {
  const { book, from, order, supplied, shelf, plans, series, comparison } = known;
  return {
    do: 'file',
    state: book.state,
    audit: auditOf(known),
    from,
    made: { order, supplied, shelf, plans, comparison, series },
  };
}

/** An order per supplier, as files that can be sent. */
export const papersTask = (known: KnownOrder): OrderTask => ({
  do: 'papers',
  state: known.book.state,
  from: known.from,
  made: { order: known.order, supplied: known.supplied },
  audit: auditOf(known),
});

/** Hands what was written to the user, and says so. */
export function handedOver(answer: OrderAnswer, title: string): string | undefined {
  switch (answer.done) {
    case 'papers': {
      const name = fileName(title, ' orders.zip');
      download(answer.bytes, 'application/zip', name);
      return [`${name} was written: ${counted(answer.orders, 'order')}.`, answer.lacks].join(' ').trim();
    }
    case 'requests': {
      const name = fileName(title, ' requests.zip');
      if (answer.requests === 0)
        return 'No request was written: the sheet Suppliers has no usable row, or nothing is to be ordered.';
      download(answer.bytes, 'application/zip', name);
      return `${name} was written: ${counted(answer.requests, 'request')}.`;
    }
    case 'file': {
      const name = fileName(title, ' order.xlsx');
      download(answer.bytes, bookType, name);
      return `${name} was written.`;
    }
    default:
      return undefined;
  }
}
