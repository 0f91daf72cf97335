import { sectionsPdf } from '../card/card-pdf.ts';
import type { CardPaper } from '../card/card-flow.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { purchaseOrders } from '../order/purchase-orders.ts';
import type { CellRemark } from '../records/sheet-rows.ts';
import { plainNames } from '../sheet/file-names.ts';
import type { LaidSheet } from '../sheet/laid-sheet.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { auditRemarks, auditScope, type AuditTerms } from './audit.ts';
import { orderCalendar } from './order-calendar.ts';
import { type OrderDocument, orderDocuments } from './order-document.ts';
import { orderForm } from './order-form.ts';
import { orderLinesCsv } from './order-lines-csv.ts';
import { orderSections } from './order-sections.ts';
import { orderFileName, orderTitle } from './order-words.ts';

/** The papers of an order, three to a supplier: what is sent, what is printed, what is entered elsewhere. */

/** For tests: each is recalculated. */
export interface OrderPaper {
  readonly document: OrderDocument;
  /** Of its files, without their endings. */
  readonly name: string;
  readonly title: string;
  readonly sheets: readonly LaidSheet[];
  readonly csv: string;
}

interface OrderPapers {
  readonly papers: readonly OrderPaper[];
  /** Cells of the sheet Sites that could not be used. */
  readonly remarks: readonly CellRemark[];
}

/** Sheets of paper by what a book's users put into their printers. */
export const usualPaper = (units: UnitSystem): CardPaper => (units === 'us' ? 'Letter' : 'A4');

/** Of what was left out, the part that a supplier may read: cells of other suppliers' offers are none of it. */
function ownRemarks(book: Workbook, order: FleetOrder, supplier: string): CellRemark[] {
  const column = book.column('Offers', 'Sold by');
  return order.remarks.filter(
    ({ sheet, record }) =>
      sheet === 'Offers' &&
      String(book.value({ sheet, record, column }) ?? '').toLowerCase() === supplier.toLowerCase(),
  );
}

export function orderPapers(
  book: Workbook,
  order: FleetOrder,
  supplied: SuppliedOrder,
  terms: AuditTerms,
): OrderPapers {
  const orders = purchaseOrders(book, order, supplied);
  const { documents, remarks } = orderDocuments(book, order, orders);
  const scope = auditScope(order, supplied, orders.day, terms);
  const names = plainNames(documents.map(orderFileName), 'Order');
  return {
    remarks,
    papers: documents.map((document, place): OrderPaper => {
      const own = {
        ...order,
        remarks: ownRemarks(book, order, document.address.name),
        joints: { belts: [], leftOut: [] },
      };
      return {
        document,
        name: names[place] ?? '',
        title: `${orderTitle} ${document.number}`,
        sheets: orderForm(document, scope, auditRemarks(own, [], [], book.units)),
        csv: orderLinesCsv(document),
      };
    }),
  };
}

/** The order as it is printed. For tests: it is looked at on either paper. */
export const orderPdf = ({ document }: OrderPaper, paper: CardPaper): Promise<Uint8Array> =>
  sectionsPdf(orderSections(document), paper, { name: orderTitle, of: `${document.number}, ${document.site.company}` });

/** Writes laid sheets as a workbook: this part knows no file format of its own. */
export type SheetWriter = (
  sheets: readonly LaidSheet[],
  options: { readonly title: string; readonly paper: 9 | 1; readonly units: UnitSystem },
) => Promise<Uint8Array>;

export interface PaperFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Number of a paper size as workbooks give it. Source: ECMA-376 Part 1, 18.3.1.63 (pageSetup). */
export const paperNumber = (paper: CardPaper): 9 | 1 => (paper === 'A4' ? 9 : 1);

/** The files of all papers, three to an order, and a calendar of their days. */
export async function orderFiles(
  papers: readonly OrderPaper[],
  units: UnitSystem,
  write: SheetWriter,
): Promise<PaperFile[]> {
  const paper = usualPaper(units);
  const files: PaperFile[] = [];
  for (const one of papers) {
    files.push(
      {
        name: `${one.name}.xlsx`,
        bytes: await write(one.sheets, { title: one.title, paper: paperNumber(paper), units }),
      },
      { name: `${one.name}.pdf`, bytes: await orderPdf(one, paper) },
      { name: `${one.name}.csv`, bytes: new TextEncoder().encode(one.csv) },
    );
  }
  const calendar = orderCalendar(
    papers.map(({ document }) => document),
    Date.now(),
  );
  if (calendar !== undefined) files.push({ name: 'Orders.ics', bytes: new TextEncoder().encode(calendar) });
  return files;
}
