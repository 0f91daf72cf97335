import { isoDate } from '../units/dates.ts';
import type { OrderDocument } from './order-document.ts';
import { lineText } from './order-words.ts';

/**
 * An order's lines for the program that orders are entered into: RFC 4180, one line a row, dates as ISO 8601, decimal
 * points.
 */

const headers = [
  'Order number',
  'Date',
  'Supplier',
  'Customer number',
  'Line',
  'Supplier article',
  'Own article',
  'Description',
  'Deliver by',
  'Packs',
  'Pack of',
  'Unit',
  'Price',
  'Currency',
  'Amount',
  'Quotation',
  'Cost centre',
  'Deliver to',
] as const;

/**
 * A text as a field. Programs run a text that begins like a formula, so such a one gets an apostrophe before it, as
 * people type it to keep a text one; ends of lines inside a text become spaces.
 */
function field(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const line = value.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ').replaceAll(/\p{Cs}/gu, '\uFFFD');
  const harmless = /^\s*[=+\-@]/.test(line) ? `'${line}` : line;
  return /[",;']/.test(harmless) || harmless !== harmless.trim() ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

const rowsOf = ({ number, day, site, address, order, lines, deliverTo }: OrderDocument): (string | number)[][] =>
  lines.map((line) => [
    number,
    isoDate(day),
    address.name,
    address.customerNumber,
    line.number,
    line.article,
    line.ownArticle,
    lineText(line),
    isoDate(line.days.delivery),
    line.packs,
    Number(line.pack.toPrecision(9)),
    line.unit,
    line.price,
    order.currency,
    line.amount,
    line.quote,
    site.costCentre,
    deliverTo,
  ]);

/** Begins with the mark by which spreadsheet programs know UTF-8. */
export const orderLinesCsv = (document: OrderDocument): string =>
  `\uFEFF${[[...headers], ...rowsOf(document)].map((row) => `${row.map(field).join(',')}\r\n`).join('')}`;
