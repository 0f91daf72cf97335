import { declareSheet } from '../../src/sheet/declaration.ts';

/** Whom offers come from, and what an order there costs beside the goods. */
export const suppliers = declareSheet({
  name: 'Suppliers',
  purpose: 'Suppliers: currency, exchange rate, freight, minimum order',
  record: 'supplier',
  key: 'Supplier',
  columns: [
    { header: 'Supplier', kind: 'text', doc: 'name used by offers, plate series and strips' },
    { header: 'Currency', kind: 'text', doc: 'currency of its prices, freight and minimum order' },
    {
      header: 'Exchange rate',
      formerly: 'Rate',
      kind: 'number',
      above: 0,
      digits: 4,
      doc: "value of one unit of the currency in the book's money; 1 for the book's own currency",
    },
    { header: 'Freight', kind: 'money', min: 0, digits: 2, doc: 'freight per order; default: none' },
    {
      header: 'Freight free from',
      kind: 'money',
      above: 0,
      digits: 2,
      doc: 'value of goods from which freight is free; default: never',
    },
    {
      header: 'Minimum order',
      formerly: 'Least order',
      kind: 'money',
      min: 0,
      digits: 2,
      doc: 'minimum value of goods per order; default: none',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
