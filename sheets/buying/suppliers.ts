import { type Column, declareSheet } from '../../src/sheet/declaration.ts';

/** Discounts by the value of an order at most. */
export const discountTiers = [1, 2] as const;
type DiscountTier = (typeof discountTiers)[number];

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
      doc:
        "value of one unit of the currency in the book's money; blank for BookCurrency, and where another supplier's " +
        'row has it',
    },
    { header: 'Rate date', kind: 'date', doc: 'day of the exchange rate' },
    { header: 'Rate source', kind: 'text', doc: 'who published the exchange rate' },
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
    { header: 'Surcharge', kind: 'money', min: 0, digits: 2, doc: 'charge for an order below Surcharge below' },
    {
      header: 'Surcharge below',
      kind: 'money',
      above: 0,
      digits: 2,
      doc: 'value of goods below which the surcharge is charged; blank: none',
    },
    ...discountTiers.flatMap((number): Column<`Discount ${DiscountTier}` | `Discount ${DiscountTier} from`>[] => [
      {
        header: `Discount ${number} from`,
        kind: 'money',
        above: 0,
        digits: 2,
        doc: 'value of goods from which the next discount applies to all of them; blank: none',
      },
      {
        header: `Discount ${number}`,
        kind: 'ratio',
        min: 0,
        max: 1,
        percent: true,
        digits: 1,
        doc: 'share taken off the value of all goods from that value on; freight is not reduced',
      },
    ]),
    {
      header: 'Payment terms',
      kind: 'number',
      min: 0,
      digits: 0,
      doc: 'days from delivery to payment; default: PaymentTerms',
    },
    { header: 'Address', kind: 'text', doc: 'address, as orders and requests show it' },
    { header: 'Contact', kind: 'text', doc: 'whom orders and requests go to: name, telephone, mail' },
    { header: 'Customer number', kind: 'text', doc: 'our number with the supplier' },
    {
      header: 'Rate used',
      kind: 'number',
      digits: 4,
      background: true,
      doc: "value of one unit of the currency in the book's money, from the row that has it; 1 for BookCurrency",
      formula:
        'IF(LEN({Currency})=0,1,IF({Currency}=BookCurrency,1,' +
        'IF(MAXIFS({Suppliers.Exchange rate},{Suppliers.Currency},{Currency})=0,NA(),' +
        'MAXIFS({Suppliers.Exchange rate},{Suppliers.Currency},{Currency}))))',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
