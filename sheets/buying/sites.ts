import { declareSheet } from '../../src/sheet/declaration.ts';

/** Who orders, where goods go, and how an order is numbered and taxed: what stands on every order that is sent. */
export const sites = declareSheet({
  name: 'Sites',
  purpose: 'Who orders and where goods are delivered: address, cost centre, order number and tax, as orders show them',
  record: 'site',
  key: 'Site',
  columns: [
    { header: 'Site', kind: 'text', doc: 'name of the site; orders are made out for the first one' },
    { header: 'Company', kind: 'text', doc: 'who orders and pays' },
    { header: 'Address', kind: 'text', doc: 'address of the company, to which the invoice goes' },
    { header: 'Delivery address', kind: 'text', doc: 'where goods are delivered; default: Address' },
    { header: 'Contact', kind: 'text', doc: 'whom the supplier asks: name, telephone, mail' },
    { header: 'Company tax number', kind: 'text', doc: 'tax or registration number of the company' },
    { header: 'Cost centre', kind: 'text', doc: 'cost centre or account that pays' },
    {
      header: 'Next order number',
      kind: 'text',
      doc:
        'number of the next order; further orders of a run count on from it. Default: the day of the order and ' +
        'a count',
    },
    { header: 'Tax', kind: 'text', doc: 'name of the tax on goods, such as VAT; blank: orders have no tax line' },
    {
      header: 'Tax rate',
      kind: 'ratio',
      min: 0,
      max: 1,
      percent: true,
      digits: 1,
      doc: 'rate of the tax on goods and freight; blank: 0',
    },
    { header: 'Order text', kind: 'text', doc: 'text that every order shows, such as terms of delivery' },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
