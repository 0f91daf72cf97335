import { suppliers } from '../../sheets/buying/suppliers.ts';
import { assumed } from '../records/assumed.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Whom an order or a request goes to. */
export interface SupplierAddress {
  readonly name: string;
  readonly address: string;
  readonly contact: string;
  /** Our number with them. */
  readonly customerNumber: string;
  /** Days from delivery to payment. */
  readonly paymentDays: number;
}

/** The address of each supplier, by name. */
export function supplierAddresses(book: Workbook): (name: string) => SupplierAddress {
  const usual = assumed(book, 'PaymentTerms');
  const byName = new Map(
    sheetRows(book, suppliers.name, []).map((row): [string, SupplierAddress] => [
      row.text('Supplier').toLowerCase(),
      {
        name: row.text('Supplier'),
        address: row.text('Address'),
        contact: row.text('Contact'),
        customerNumber: row.text('Customer number'),
        paymentDays: row.number('Payment terms') ?? usual,
      },
    ]),
  );
  return (name) =>
    byName.get(name.toLowerCase()) ?? { name, address: '', contact: '', customerNumber: '', paymentDays: usual };
}
