import { declareSheet } from '../../src/sheet/declaration.ts';

/** Whom offers come from, and what an order there costs beside the goods. */
export const suppliers = declareSheet({
  name: 'Suppliers',
  purpose: 'Who sells: currency and its rate, freight, least order',
  record: 'supplier',
  key: 'Supplier',
  columns: [
    { header: 'Supplier', kind: 'text', doc: 'the name that offers, plate series and strips refer to' },
    { header: 'Currency', kind: 'text', doc: 'of its prices, freight and least order' },
    {
      header: 'Exchange rate',
      formerly: 'Rate',
      kind: 'number',
      above: 0,
      digits: 4,
      doc: "what one unit of the currency is in the book's money; 1 when it is that",
    },
    { header: 'Freight', kind: 'money', min: 0, digits: 2, doc: 'of one order; none when it is blank' },
    {
      header: 'Freight free from',
      kind: 'money',
      above: 0,
      digits: 2,
      doc: 'value of goods from which freight is free; never when it is blank',
    },
    {
      header: 'Minimum order',
      formerly: 'Least order',
      kind: 'money',
      min: 0,
      digits: 2,
      doc: 'least value of goods of one order; none when it is blank',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
