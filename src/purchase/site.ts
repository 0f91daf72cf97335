import { sites } from '../../sheets/buying/sites.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Who orders, and where goods go. */

export interface Site {
  readonly name: string;
  readonly company: string;
  readonly address: string;
  readonly deliverTo: string;
  readonly contact: string;
  readonly taxNumber: string;
  readonly costCentre: string;
  /** Number of the next order; '' when none is told. */
  readonly nextNumber: string;
  /** Name of the tax on goods; '' for none. */
  readonly tax: string;
  readonly taxRate: number;
  readonly text: string;
}

/** The book's site: the first of the sheet; one without an address, and told, where there is none. */
export function bookSite(book: Workbook, remarks: CellRemark[]): Site {
  const row = sheetRows(book, sites.name, remarks)[0];
  if (row === undefined) {
    return {
      name: book.state.title,
      company: '',
      address: '',
      deliverTo: '',
      contact: '',
      taxNumber: '',
      costCentre: '',
      nextNumber: '',
      tax: '',
      taxRate: 0,
      text: '',
    };
  }
  const address = row.text('Address');
  const deliverTo = row.text('Delivery address');
  if (row.text('Company') === '') row.tell('Company', 'Company is empty, so orders do not say who orders: enter it');
  return {
    name: row.text('Site'),
    company: row.text('Company'),
    address,
    deliverTo: deliverTo === '' ? address : deliverTo,
    contact: row.text('Contact'),
    taxNumber: row.text('Company tax number'),
    costCentre: row.text('Cost centre'),
    nextNumber: row.text('Next order number'),
    tax: row.text('Tax'),
    taxRate: row.number('Tax rate') ?? 0,
    text: row.text('Order text'),
  };
}

/** Where goods of several sites go, by the names of the sites; the site's name where it has no address. */
export function deliveryAddresses(book: Workbook, names: readonly string[]): string {
  const rows = sheetRows(book, sites.name, []);
  return names
    .map((name) => {
      const row = rows.find((one) => one.text('Site') === name);
      const [address = ''] = row === undefined ? [] : [row.text('Delivery address') || row.text('Address')];
      return address === '' ? name : `${name}: ${address}`;
    })
    .join('; ');
}

/** What a site lacks that an order needs; '' when it lacks nothing. */
export function siteLacks({ company, address, deliverTo }: Site): string {
  const lacking = [
    ...(company === '' ? ['Company'] : []),
    ...(address === '' ? ['Address'] : []),
    ...(deliverTo === '' ? ['Delivery address'] : []),
  ];
  return lacking.length === 0 ? '' : `Enter ${lacking.join(', ')} in the sheet Sites before you send an order.`;
}

/**
 * The number of an order, counted on from the site's next one by its last digits; without one, of the day and a count.
 */
export function orderNumber(next: string, place: number, day: string): string {
  if (next === '') return `${day.replaceAll('-', '')}-${place + 1}`;
  const [, lead = '', digits = ''] = /^(.*?)(\d*)$/s.exec(next) ?? [];
  if (digits === '') return place === 0 ? next : `${next}-${place + 1}`;
  return `${lead}${String(BigInt(digits) + BigInt(place)).padStart(digits.length, '0')}`;
}
