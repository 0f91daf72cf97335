import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { assumed } from '../records/assumed.ts';
import type { Table } from '../sheet/table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { auditScope, type AuditTerms } from './audit.ts';
import { historyTable, matrixTable, offerTable } from './offer-tables.ts';

/** What an auditor reads in the order's own workbook: what it was made of, and why one offer won over another. */

function auditTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder, terms: AuditTerms): Table {
  return {
    name: 'Audit',
    columns: [
      { header: 'What', kind: 'text' },
      { header: 'Said', kind: 'text' },
    ],
    keys: 1,
    rows: auditScope(order, supplied, assumed(book, 'ReviewDate'), terms),
  };
}

/** Offers that were compared, and what the order was made of; prices that were left out stand in the sheet Remarks. */
export const auditTables = (book: Workbook, order: FleetOrder, supplied: SuppliedOrder, terms: AuditTerms): Table[] => [
  matrixTable(book, order, supplied),
  offerTable(book, order, supplied),
  historyTable(book, order, supplied),
  auditTable(book, order, supplied, terms),
];
