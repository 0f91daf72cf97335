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
import { type OrderDocument, orderDocuments } from './order-document.ts';
import { orderForm } from './order-form.ts';
import { orderLinesCsv } from './order-lines-csv.ts';
import { orderSections } from './order-sections.ts';
import { orderFileName, orderTitle } from './order-words.ts';

/** The papers of an order, three to a supplier: what is sent, what is printed, what is entered elsewhere. */

export interface OrderPaper {
  readonly document: OrderDocument;
  /** Of its files, without their endings. */
  readonly name: string;
  readonly title: string;
  readonly sheets: readonly LaidSheet[];
  readonly csv: string;
}

export interface OrderPapers {
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

/** The order as it is printed. */
export const orderPdf = ({ document }: OrderPaper, paper: CardPaper): Promise<Uint8Array> =>
  sectionsPdf(orderSections(document), paper, { name: orderTitle, of: `${document.number}, ${document.site.company}` });
