import type { Table, TableBook } from '../sheet/table.ts';
import { isoDate } from '../units/dates.ts';
import { assumption, reviewDate } from '../workbook/lent-sheets.ts';
import { contentToday } from '../workbook/present-day.ts';
import type { BookState } from '../workbook/state.ts';
import type { ItemPlan } from './fleet-cutting.ts';
import { abcTable } from './abc-table.ts';
import type { FleetOrder, SuppliedOrder } from './fleet-order.ts';
import { comparisonTable, seriesTables } from './fleet-tables.ts';
import { orderTables } from './order-tables.ts';
import type { FleetSeries, SeriesChange } from './fleet-series.ts';
import type { FleetShelf } from './shelf-lines.ts';
import { siteTables } from './site-tables.ts';
import type { FleetComparison } from './square-or-skew.ts';
import { cuttingTables, shelfTable } from './store-tables.ts';

/** An order as a file: its workbook, the same from the page and from the command line. */

/** What is known of an order when it is written; what was not asked for is absent and has no sheet. */
export interface MadeOrder {
  readonly order: FleetOrder;
  readonly supplied: SuppliedOrder;
  readonly shelf?: FleetShelf | undefined;
  readonly plans: readonly ItemPlan[];
  readonly series?: { readonly answer: FleetSeries; readonly changes: readonly SeriesChange[] } | undefined;
  readonly comparison?: FleetComparison | undefined;
}

/** What the order of a book is called. */
const orderTitle = ({ title }: Pick<BookState, 'title'>): string => (title === '' ? 'Order' : `${title}: order`);

/** All in the book's currency. */
const tables = (
  { order, supplied, shelf, plans, series, comparison }: MadeOrder,
  { units }: Pick<BookState, 'units'>,
): Table[] =>
  [
    ...orderTables(order, supplied, units),
    ...siteTables(order, supplied, units),
    ...(shelf === undefined ? [] : [shelfTable(shelf, units), abcTable(shelf, order, units)]),
    ...cuttingTables(plans, order.lines, units),
    ...(series === undefined ? [] : seriesTables(series.answer, series.changes)),
    ...(comparison === undefined ? [] : comparisonTable(comparison)),
  ].map((table) => ({ ...table, currency: order.offered.currency }));

/** The sheets of the order's workbook, with what must be known to read them. `from` is what it was made of. */
export function orderBook(book: BookState, made: MadeOrder, from: string): TableBook {
  const reviewed = contentToday(assumption(book, reviewDate));
  const counted = typeof reviewed === 'number' ? `, joint age counted to ${isoDate(reviewed)}` : '';
  return {
    title: orderTitle(book),
    tables: tables(made, book),
    about: [
      ['Order', `Made by Skewbook from ${from}${counted}.`],
      [
        'Formulas',
        'Columns with italic headings are formulas: quantities are sums of the sheet Belt by belt, packs are rounded ' +
          'up, amounts are packs times price, rounded as invoices are, and costs follow the one cell of each ' +
          'rate in the ' +
          'sheet Rates. Shelf levels, the cutting plan and the choice of suppliers are values as of the export date.',
      ],
      ...(book.invented
        ? [
            [
              'Invented',
              "Plate series, suppliers, prices and stock are invented. Enter your suppliers' figures before you " +
                'order anything.',
            ],
          ]
        : []),
    ],
  };
}
