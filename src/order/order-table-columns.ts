import { laterPrices } from '../../sheets/buying/offers.ts';
import { discountTiers } from '../../sheets/buying/suppliers.ts';
import type { TableColumn } from '../sheet/table.ts';

/** The tables of an order: their names and columns. */

export const orderTableNames = {
  list: 'Order list',
  purchases: 'Purchases',
  suppliers: 'Suppliers',
  rates: 'Rates',
  needs: 'Belt by belt',
  budget: 'Budget',
  leftOut: 'Left out',
  remarks: 'Remarks',
} as const;

const amounts = { kind: 'number', digits: 2 } as const;
const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;
const theirMoney = { kind: 'money', digits: 2, currency: 'row' } as const;
const shares = { kind: 'ratio', percent: true, digits: 1 } as const;

export const listColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count' },
  { header: 'Item', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Belts', kind: 'count', computed: true, note: 'entries of the sheet Belt by belt' },
  { header: 'Need', ...amounts, computed: true, note: 'of planned joints: sum of the sheet Belt by belt' },
  { header: 'Allowance rate', ...shares, note: 'added for waste and damage: you can change it' },
  { header: 'Allowance', ...amounts, computed: true },
  { header: 'Shelf level', ...amounts, note: 'what the shelf is to hold beside the planned joints' },
  { header: 'On shelf', ...amounts },
  { header: 'On order', ...amounts },
  { header: 'Too late', ...amounts, note: 'part of on order that planned joints cannot wait for' },
  {
    header: 'For joints',
    ...amounts,
    computed: true,
    note: 'need and allowance less on shelf and on order in time, at least 0',
  },
  { header: 'For shelf', ...amounts, computed: true, note: 'what then lacks of the shelf level, at least 0' },
  {
    header: 'For cutting',
    ...amounts,
    note: 'more strip or belt, so that the pieces can be cut from whole rolls: as of the export date',
  },
  { header: 'To order', ...amounts, computed: true, note: 'for joints, shelf and cutting' },
  { header: 'Bought', ...amounts, computed: true, note: 'whole packs, from the sheet Purchases' },
  { header: 'Surplus', ...amounts, computed: true, note: 'bought beyond to order' },
  { header: 'Not covered', ...amounts, computed: true, note: 'to order and not bought: not in the total' },
  { header: 'Cost', ...bookMoney, computed: true, note: "in the book's money, without freight and charges" },
  {
    header: 'Freight and charges',
    ...bookMoney,
    computed: true,
    note: "share of the suppliers' freight and surcharges less discounts, by value",
  },
];

export const purchaseColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Article', kind: 'text' },
  { header: 'Article number', kind: 'text', note: "the supplier's own" },
  { header: 'Quote', kind: 'text' },
  { header: 'Lead time', kind: 'number', digits: 0, note: 'days from order to delivery' },
  { header: 'Unit', kind: 'text' },
  { header: 'To cover', ...amounts, computed: true, note: 'to order, less quantities bought in rows above' },
  { header: 'Pack', ...amounts, note: 'quantity in one pack' },
  { header: 'Whole packs', kind: 'count', computed: true, note: 'number that covers it' },
  {
    header: 'Minimum packs',
    kind: 'count',
    note: 'more, where that lowers the price or the freight or brings bolts in kits: you can change it',
  },
  { header: 'Packs', kind: 'count', note: 'a formula; a number where another row buys the rest of the item' },
  { header: 'Quantity', ...amounts, computed: true },
  { header: 'Included no.', kind: 'count', note: 'of the order list: bolts that come in the pack' },
  { header: 'Included per pack', ...amounts },
  { header: 'Price 1', ...theirMoney, note: "of one pack, in the supplier's currency" },
  ...laterPrices.flatMap((number): TableColumn[] => [
    { header: `Break ${number}`, kind: 'count', note: 'packs from which the next price holds' },
    { header: `Price ${number}`, ...theirMoney },
  ]),
  { header: 'Price', ...theirMoney, computed: true, note: 'at this number of packs' },
  { header: 'Currency', kind: 'text' },
  { header: 'Amount', ...theirMoney, computed: true, note: "rounded as invoiced, in the supplier's currency" },
  { header: 'Exchange rate', kind: 'number', digits: 4, computed: true, note: 'from the sheet Rates' },
  { header: 'Cost', ...bookMoney, computed: true, note: "the amount in the book's money, rounded" },
  {
    header: 'Freight and charges',
    ...bookMoney,
    computed: true,
    note: "share of the supplier's freight and surcharge less discount, by value",
  },
];

export const supplierColumns: readonly TableColumn[] = [
  { header: 'Supplier', kind: 'text' },
  { header: 'Currency', kind: 'text' },
  { header: 'Exchange rate', kind: 'number', digits: 4, computed: true, note: 'from the sheet Rates' },
  { header: 'Lines', ...theirMoney, computed: true, note: 'amounts of the sheet Purchases' },
  ...discountTiers.flatMap((number): TableColumn[] => [
    { header: `Discount ${number} from`, ...theirMoney },
    { header: `Discount ${number}`, ...shares },
  ]),
  { header: 'Discount', ...theirMoney, computed: true },
  { header: 'Surcharge below', ...theirMoney },
  { header: 'Surcharge per order', ...theirMoney },
  { header: 'Surcharge', ...theirMoney, computed: true },
  { header: 'Freight free from', ...theirMoney },
  { header: 'Freight per delivery', ...theirMoney },
  {
    header: 'Deliveries',
    kind: 'count',
    note: 'each is charged freight; several where sites are delivered to apart: as of the export date',
  },
  { header: 'Freight', ...theirMoney, computed: true },
  { header: 'Total', ...theirMoney, computed: true, note: "of the order, in the supplier's currency, before tax" },
  { header: 'Minimum order', ...theirMoney },
  { header: 'Minimum order reached', kind: 'text', computed: true },
  { header: 'Goods', ...bookMoney, computed: true, note: "in the book's money: costs of the sheet Purchases" },
  {
    header: 'Charges',
    ...bookMoney,
    computed: true,
    note: "freight and surcharge less discount, in the book's money, each rounded",
  },
  { header: 'Cost', ...bookMoney, computed: true },
];

export const rateColumns: readonly TableColumn[] = [
  { header: 'Currency', kind: 'text' },
  {
    header: 'Exchange rate',
    kind: 'number',
    digits: 4,
    note: "one unit in the book's money; every total follows it: you can change it",
  },
  { header: 'Date', kind: 'date' },
  { header: 'Source', kind: 'text' },
];

export const needColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Site', kind: 'text' },
  { header: 'Month', kind: 'text', note: 'in which the joints are made; of the shelf, that of the order' },
  { header: 'Due', kind: 'date' },
  { header: 'Joints', kind: 'count' },
  { header: 'Per joint', kind: 'number', digits: 3 },
  { header: 'Unit', kind: 'text' },
  { header: 'Quantity', kind: 'number', digits: 3, computed: true },
  { header: 'Goods', ...bookMoney, computed: true, note: 'share of the cost of the item' },
  { header: 'Freight and charges', ...bookMoney, computed: true },
];

export const budgetColumns: readonly TableColumn[] = [
  { header: 'Month', kind: 'text', note: 'in which the joints are made; of order and payment: Budget by month' },
  { header: 'Area', kind: 'text' },
  { header: 'Goods', ...bookMoney, computed: true },
  { header: 'Freight and charges', ...bookMoney, computed: true },
  { header: 'Cost', ...bookMoney, computed: true },
];

export const leftOutColumns: readonly TableColumn[] = [
  { header: 'Belt', kind: 'text' },
  { header: 'Reason', kind: 'text' },
  { header: 'Cell of the book', kind: 'text' },
];

export const remarkColumns: readonly TableColumn[] = [
  { header: 'Cell of the book', kind: 'text' },
  { header: 'Remark', kind: 'text' },
];
