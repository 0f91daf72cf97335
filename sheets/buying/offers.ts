import { type Column, columns, declareSheet } from '../../src/sheet/declaration.ts';

/** What is bought for joints, in the order in which it is listed. */
export const itemKinds = ['plates', 'bolts', 'strip', 'punch', 'consumable', 'belt'] as const;

/** Prices of an offer at most: that of a single pack, and three more from larger numbers of packs on. */
export const laterPrices = [2, 3, 4] as const;
type LaterPrice = (typeof laterPrices)[number];

const fine = { metric: 0, us: 2 } as const;

/** The columns that say which item is meant, alike in every sheet that names items. */
export const itemColumns = columns([
  { header: 'Kind', kind: 'text', choices: itemKinds, doc: 'kind of item' },
  {
    header: 'Item',
    kind: 'text',
    doc:
      'plate series for plates and bolts, strip, belt construction, or name of a consumable; a punch is ' +
      'identified by its size',
  },
  {
    header: 'Size',
    kind: 'length',
    above: 0,
    digits: fine,
    doc: 'bolt length, punch diameter, belt width; blank for other items',
  },
]);

export type ItemHeader = (typeof itemColumns)[number]['header'];

/**
 * What suppliers sell, a pack a row. Plates, bolts and strip are also bought as their own sheets say, where no offer is
 * better.
 */
export const offers = declareSheet({
  name: 'Offers',
  purpose: "Suppliers' offers: packs, and prices by quantity",
  record: 'offer',
  key: 'Article',
  columns: [
    { header: 'Article', kind: 'text', doc: 'article name for the order; each offer has its own' },
    {
      header: 'Sold by',
      kind: 'text',
      choices: { sheet: 'Suppliers', header: 'Supplier' },
      doc: 'supplier of this article',
    },
    { header: 'Article number', kind: 'text', doc: "the supplier's own number of the article, of this size" },
    ...itemColumns,
    {
      header: 'Alternative for',
      kind: 'text',
      doc: 'other items of the same kind and size that this article may be used for, separated by commas; blank: none',
    },
    {
      header: 'Pieces in pack',
      kind: 'count',
      min: 1,
      doc: 'plates, bolts, punches or consumables per pack; blank for strip and belt',
    },
    {
      header: 'Length in pack',
      kind: 'distance',
      above: 0,
      digits: 1,
      doc: 'length of strip or belt on one roll; blank for other items',
    },
    {
      header: 'Bolts included',
      kind: 'flag',
      choices: ['yes', 'no'],
      doc:
        'of plates: yes if the pack holds their bolts; Size is then the bolt length, blank for what you ask for. ' +
        'Blank: no',
    },
    { header: 'Minimum packs', kind: 'count', min: 1, doc: 'minimum number of packs per order; default: 1' },
    { header: 'Price', kind: 'money', min: 0, digits: 2, doc: "price of one pack, in the supplier's currency" },
    ...laterPrices.flatMap((number): Column<`Break ${LaterPrice}` | `Price ${LaterPrice}`>[] => [
      {
        header: `Break ${number}`,
        kind: 'count',
        min: 2,
        doc: 'number of packs from which the next price applies to all of them',
      },
      { header: `Price ${number}`, kind: 'money', min: 0, digits: 2, doc: 'price of one pack from that number on' },
    ]),
    {
      header: 'Lead time',
      kind: 'number',
      above: 0,
      digits: 0,
      doc: "days from order to delivery; default: that of the item's bin in Shelf, otherwise LeadTime",
    },
    { header: 'Quote', kind: 'text', doc: 'number of the quotation that the prices are from' },
    { header: 'Valid from', kind: 'date', doc: 'first day on which the prices hold; blank: at once' },
    { header: 'Valid until', kind: 'date', doc: 'last day on which the prices hold; blank: without end' },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
