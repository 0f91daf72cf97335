import { laterPrices } from '../../sheets/buying/offers.ts';
import type { TableColumn } from '../sheet/table.ts';

/** The tables of an order: their names and columns. */

export const orderTableNames = {
  list: 'Order list',
  purchases: 'Purchases',
  suppliers: 'Suppliers',
  needs: 'Belt by belt',
  budget: 'Budget',
  leftOut: 'Left out',
} as const;

const amounts = { kind: 'number', digits: 2 } as const;
const money = { kind: 'money', digits: 2 } as const;

export const listColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count' },
  { header: 'Item', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Belts', kind: 'count', computed: true, note: 'entries of the sheet Belt by belt' },
  { header: 'Need', ...amounts, computed: true, note: 'sum of the sheet Belt by belt' },
  {
    header: 'Allowance rate',
    kind: 'ratio',
    percent: true,
    digits: 1,
    note: 'added for waste and damage: you can change it',
  },
  { header: 'Allowance', ...amounts, computed: true },
  { header: 'On shelf', ...amounts },
  { header: 'On order', ...amounts },
  { header: 'To order', ...amounts, computed: true, note: 'need and allowance less on shelf and on order, at least 0' },
  { header: 'Bought', ...amounts, computed: true, note: 'whole packs, from the sheet Purchases' },
  { header: 'Surplus', ...amounts, computed: true, note: 'bought less to order' },
  { header: 'Cost', ...money, computed: true, note: "in the book's money, without freight" },
  { header: 'Freight', ...money, computed: true, note: "share of the suppliers' freight, by value" },
];

export const purchaseColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Article', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'To cover', ...amounts, computed: true, note: 'to order, less quantities bought in rows above' },
  { header: 'Pack', ...amounts, note: 'quantity in one pack' },
  { header: 'Whole packs', kind: 'count', computed: true, note: 'number that covers it' },
  {
    header: 'Minimum packs',
    kind: 'count',
    note: 'more, where that lowers the price or the freight: you can change it',
  },
  { header: 'Packs', kind: 'count', note: 'a formula; a number where another row buys the rest of the item' },
  { header: 'Quantity', ...amounts, computed: true },
  { header: 'Price 1', ...money, note: "of one pack, in the supplier's currency" },
  ...laterPrices.flatMap((number): TableColumn[] => [
    { header: `Break ${number}`, kind: 'count', note: 'packs from which the next price holds' },
    { header: `Price ${number}`, ...money },
  ]),
  { header: 'Price', ...money, computed: true, note: 'at this number of packs' },
  { header: 'Currency', kind: 'text' },
  { header: 'Exchange rate', kind: 'number', digits: 4, note: "one unit of the currency in the book's money" },
  { header: 'Cost', ...money, computed: true, note: "in the book's money" },
  { header: 'Freight', ...money, computed: true, note: "share of the supplier's freight, by value" },
];

export const supplierColumns: readonly TableColumn[] = [
  { header: 'Supplier', kind: 'text' },
  { header: 'Currency', kind: 'text' },
  { header: 'Exchange rate', kind: 'number', digits: 4 },
  { header: 'Goods', ...money, computed: true, note: "in the book's money" },
  { header: 'Freight per order', ...money, note: "in the supplier's currency" },
  { header: 'Freight free from', ...money },
  { header: 'Minimum order', ...money },
  { header: 'Freight', ...money, computed: true, note: "in the book's money" },
  { header: 'Cost', ...money, computed: true },
  { header: 'Minimum order reached', kind: 'text', computed: true },
];

export const needColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Month', kind: 'text', note: 'in which the joints are made' },
  { header: 'Joints', kind: 'count' },
  { header: 'Per joint', kind: 'number', digits: 3 },
  { header: 'Unit', kind: 'text' },
  { header: 'Quantity', kind: 'number', digits: 3, computed: true },
  { header: 'Goods', ...money, computed: true, note: 'share of the cost of the item' },
  { header: 'Freight', ...money, computed: true },
];

export const budgetColumns: readonly TableColumn[] = [
  { header: 'Month', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Goods', ...money, computed: true },
  { header: 'Freight', ...money, computed: true },
  { header: 'Cost', ...money, computed: true },
];

export const leftOutColumns: readonly TableColumn[] = [
  { header: 'Belt', kind: 'text' },
  { header: 'Reason', kind: 'text' },
  { header: 'Cell of the book', kind: 'text' },
];
