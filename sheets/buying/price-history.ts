import { declareSheet } from '../../src/sheet/declaration.ts';

/** What articles cost before: a dated price a row, entered when a quotation is taken over or an order was sent. */
export const priceHistory = declareSheet({
  name: 'Price history',
  purpose: 'Earlier prices of articles, dated: what orders and quotations are compared with',
  record: 'earlier price',
  key: 'Price entry',
  columns: [
    {
      header: 'Price entry',
      kind: 'text',
      doc: 'name of the entry, such as the article and its day; each has its own',
    },
    {
      header: 'Priced article',
      kind: 'text',
      choices: { sheet: 'Offers', header: 'Article' },
      doc: 'article, as Offers calls it',
    },
    { header: 'Priced on', kind: 'date', doc: 'day of the quotation or order; blank: earlier, no day known' },
    { header: 'Price then', kind: 'money', min: 0, digits: 2, doc: "price of one pack, in the supplier's currency" },
    { header: 'Packs then', kind: 'count', min: 1, doc: 'number of packs that the price was for; blank: 1' },
    { header: 'Price from', kind: 'text', doc: 'where the price is from: number of the quotation or order' },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
