import { declareSheet } from '../../src/sheet/declaration.ts';
import { itemColumns } from './offers.ts';

/** What was ordered and has not come: a line of an order a row. What is open counts as on order from its day on. */
export const orders = declareSheet({
  name: 'Orders',
  purpose: 'Orders placed: what is still to come, and when',
  record: 'order line',
  key: 'Order line',
  columns: [
    { header: 'Order line', kind: 'text', doc: 'number of the order and of its line, such as 4711/2' },
    {
      header: 'Ordered from',
      kind: 'text',
      choices: { sheet: 'Suppliers', header: 'Supplier' },
      doc: 'supplier of the order',
    },
    ...itemColumns,
    { header: 'Article', kind: 'text', doc: 'offer that was ordered, as Offers calls it' },
    { header: 'Packs', kind: 'count', min: 0, doc: 'packs ordered' },
    { header: 'Pieces in pack', kind: 'count', min: 1, doc: 'number in one pack; blank for strip and belt' },
    {
      header: 'Length in pack',
      kind: 'distance',
      above: 0,
      digits: 1,
      doc: 'length of strip or belt on one roll; blank for other items',
    },
    { header: 'Price', kind: 'money', min: 0, digits: 2, doc: "price of one pack, in the supplier's currency" },
    { header: 'Ordered on', kind: 'date', doc: 'day of the order' },
    { header: 'Expected on', kind: 'date', doc: 'day on which it arrives; blank: not known, so it covers no joint' },
    { header: 'Received packs', kind: 'count', min: 0, doc: 'packs that have come so far; default: 0' },
    { header: 'Cancelled packs', kind: 'count', min: 0, doc: 'packs that will not come; default: 0' },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
