import { groupedText } from '../units/shown-mark.ts';
import { rounded } from '../sheet/words.ts';
import { isoDate } from '../units/dates.ts';
import { spelt } from '../units/spelling.ts';
import { deferrals } from '../workbook/safety.ts';
import type { DocumentLine, OrderDocument } from './order-document.ts';
import { siteLacks } from './site.ts';

/** What an order says in words, alike in all its documents. */

/** An amount as invoices print it. */
export const money = (value: number): string =>
  groupedText(value, { minimumFractionDigits: 2, maximumFractionDigits: 2 });

export const orderTitle = 'Purchase order';

/** The name of an order's files, without their ending: its number and supplier. */
export const orderFileName = ({ number, address }: OrderDocument): string => `${number} ${address.name}`;

/** What stands at the head of an order, name by name; what is not told is left out. */
export function orderHead({
  number,
  day,
  units,
  site,
  address,
  order,
  deliverTo,
}: OrderDocument): readonly (readonly [string, string])[] {
  const quotes = [...new Set(order.lines.map(({ quote }) => quote).filter((quote) => quote !== ''))];
  const head: readonly (readonly [string, string])[] = [
    ['Order number', number],
    ['Date', isoDate(day)],
    ['Ordered by', [site.company, site.address].filter((part) => part !== '').join(', ')],
    ['Supplier', [address.name, address.address].filter((part) => part !== '').join(', ')],
    ['Contact', site.contact],
    ['Attention', address.contact],
    ['Deliver to', deliverTo],
    ['Your quotation', quotes.join(', ')],
    [spelt('Cost centre', units), site.costCentre],
    ['Customer number', address.customerNumber],
    ['Our tax number', site.taxNumber],
    ['Payment', `${rounded(address.paymentDays, 0)} days after delivery`],
    ['Currency', order.currency],
  ];
  return head.filter(([, value]) => value !== '');
}

/** What a line is: kits with what they hold, and how much goes to which of several sites. */
export function lineText({ description, included, deliveries, unit }: DocumentLine): string {
  const to = deliveries.map(({ site, quantity }) => `${rounded(quantity, 2)} ${unit} to ${site}`);
  return [included.length === 0 ? description : `${description}, bolts included`, to.join(', ')]
    .filter((part) => part !== '')
    .join(': ');
}

/** What stands below an order's total. */
export function orderNotes({ site, lines, invented }: OrderDocument): string[] {
  const lacks = siteLacks(site);
  const late = lines.filter(({ days }) => days.late > 0);
  return [
    ...(late.length === 0
      ? []
      : [
          `Urgent: ${late.map(({ number }) => `line ${number}`).join(', ')}. We need these earlier than your lead ` +
            `time ` +
            'allows: tell us the earliest day.',
        ]),
    ...(site.text === '' ? [] : [site.text]),
    `Confirm prices and delivery days, and for plates and bolts the series, bolt length and rating.`,
    ...(lacks === '' ? [] : [lacks]),
    ...(invented ? [`Invented figures: not an order. ${deferrals.order}`] : []),
  ];
}
