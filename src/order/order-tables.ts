import type { Table, TableCell } from '../sheet/table.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { FleetOrder, SuppliedOrder } from './fleet-order.ts';
import { itemText } from './items.ts';
import { OrderFigures } from './order-figures.ts';
import {
  budgetColumns,
  leftOutColumns,
  listColumns,
  needColumns,
  orderTableNames,
  remarkColumns,
} from './order-table-columns.ts';
import { purchaseTable, rateTable, supplierTable } from './purchase-tables.ts';
import { formula, totalRow, unitText } from './order-table-cells.ts';
import { surplusTexts } from './surplus-words.ts';
import { shelfArea } from './search/budget.ts';
import type { OrderLine } from './search/order-list.ts';

/** The order as tables with live formulas: every quantity adds up from belts, every cost from packs and prices. */

/** What is asked for of an item, and what is there and comes, as formulas over its row. */
function askedCells(line: OrderLine, at: (header: string) => string): TableCell[] {
  const asked = `${at('Need')}+${at('Allowance')}`;
  const there = `${at('On shelf')}-${at('On order')}`;
  return [
    line.shelfLevel,
    line.shelf,
    line.onOrder,
    line.late,
    // Units that were converted leave crumbs that are no need.
    formula(
      `IF(${asked}-${there}+${at('Too late')}>10^-9*${at('Need')},${asked}-${there}+${at('Too late')},0)`,
      line.forJoints,
    ),
    formula(
      `IF(${asked}+${at('Shelf level')}-${there}-${at('For joints')}>10^-9*(${at('Need')}+${at('Shelf level')}),` +
        `${asked}+${at('Shelf level')}-${there}-${at('For joints')},0)`,
      line.forShelf,
    ),
    line.forCutting,
    formula(`${at('For joints')}+${at('For shelf')}+${at('For cutting')}`, line.toOrder),
  ];
}

function listRow(figures: OrderFigures, line: OrderLine, record: number): TableCell[] {
  const { order, units, purchases, costs, charges, cells } = figures;
  const none = purchases.length === 0;
  const at = (header: string): string => cells.list.cell(header, record);
  const ofLine = (column: string): string =>
    `SUMIFS(${cells.purchases.column(column)},${cells.purchases.column('No.')},${at('No.')})`;
  const bought = figures.bought(record);
  const open = `${at('To order')}-${at('Bought')}`;
  return [
    record + 1,
    itemText(line.item, units),
    unitText(line, units),
    formula(
      `COUNTIFS(${cells.needs.column('No.')},${at('No.')},${cells.needs.column('Joints')},">0")`,
      line.sources.length,
    ),
    formula(`SUMIFS(${cells.needs.column('Quantity')},${cells.needs.column('No.')},${at('No.')})`, line.need),
    order.waste[line.item.kind] ?? 0,
    formula(`${at('Need')}*${at('Allowance rate')}`, line.allowance),
    ...askedCells(line, at),
    none
      ? 0
      : formula(
          `${ofLine('Quantity')}+SUMPRODUCT((${cells.purchases.column('Included no.')}=${at('No.')})*` +
            `${cells.purchases.column('Packs')}*${cells.purchases.column('Included per pack')})`,
          bought,
        ),
    formula(`MAX(0,${at('Bought')}-${at('To order')})`, Math.max(0, bought - line.toOrder)),
    formula(
      `IF(${open}>10^-9*${at('To order')},${open},0)`,
      line.toOrder - bought > 1e-9 * line.toOrder ? line.toOrder - bought : 0,
    ),
    none ? 0 : formula(ofLine('Cost'), costs[record] ?? 0),
    none ? 0 : formula(ofLine('Freight and charges'), charges[record] ?? 0),
  ];
}

/** Every item once: its need, what is to order of it, what that costs. */
function listTable(figures: OrderFigures): Table {
  const {
    order: { lines, offered },
    supply,
    cells,
  } = figures;
  return {
    name: orderTableNames.list,
    columns: listColumns,
    keys: 2,
    total: true,
    currency: offered.currency,
    rows: [
      ...lines.map((line, record) => listRow(figures, line, record)),
      totalRow(listColumns, cells.list, { Cost: supply.goods, 'Freight and charges': supply.charges }, lines.length),
    ],
  };
}

/** A row's part of what is paid for its line: `text` and `part` say which. */
function paidCells(figures: OrderFigures, line: number, no: string, text: string, part: number): TableCell[] {
  const { purchases, cells, costs, charges } = figures;
  const paid = (header: string, sums: readonly number[]): TableCell =>
    purchases.length === 0 ? 0 : formula(`${text}*INDEX(${cells.list.column(header)},${no})`, part * (sums[line] ?? 0));
  return [paid('Cost', costs), paid('Freight and charges', charges)];
}

function needRow(figures: OrderFigures, need: OrderFigures['needs'][number], record: number): TableCell[] {
  const { order, units, cells } = figures;
  const { line, belt, area, site, month, due, joints, quantity } = need;
  const orderLine = order.lines[line];
  if (orderLine === undefined) return [];
  const { forShelf, toOrder } = orderLine;
  const at = (header: string): string => cells.needs.cell(header, record);
  const of = (header: string): string => `INDEX(${cells.list.column(header)},${at('No.')})`;
  return [
    line + 1,
    itemText(orderLine.item, units),
    belt,
    area,
    site,
    month,
    due ?? null,
    joints,
    quantity / joints,
    unitText(orderLine, units),
    formula(`${at('Joints')}*${at('Per joint')}`, quantity),
    // What comes in kits that were bought for something else is not to order, and is paid for all the same.
    ...paidCells(
      figures,
      line,
      at('No.'),
      `${at('Quantity')}/${of('Need')}*IF(${of('To order')}=0,1,1-${of('For shelf')}/${of('To order')})`,
      (quantity / orderLine.need) * (toOrder === 0 ? 1 : 1 - forShelf / toOrder),
    ),
  ];
}

function shelfNeedRow(figures: OrderFigures, line: number, record: number): TableCell[] {
  const { order, units, cells } = figures;
  const orderLine = order.lines[line];
  if (orderLine === undefined) return [];
  const at = (header: string): string => cells.needs.cell(header, record);
  const of = (header: string): string => `INDEX(${cells.list.column(header)},${at('No.')})`;
  return [
    line + 1,
    itemText(orderLine.item, units),
    '',
    shelfArea,
    figures.shelfSite(orderLine.item),
    order.month,
    null,
    null,
    null,
    unitText(orderLine, units),
    null,
    ...paidCells(
      figures,
      line,
      at('No.'),
      `IF(${of('To order')}=0,0,${of('For shelf')}/${of('To order')})`,
      orderLine.forShelf / orderLine.toOrder,
    ),
  ];
}

/** Every need of every belt, with its share of what is paid, and then what is bought for the shelf. */
const needTable = (figures: OrderFigures): Table => ({
  name: orderTableNames.needs,
  columns: needColumns,
  keys: 3,
  currency: figures.order.offered.currency,
  rows: [
    ...figures.needs.map((need, record) => needRow(figures, need, record)),
    ...figures.shelved.map((line, place) => shelfNeedRow(figures, line, figures.needs.length + place)),
  ],
});

/** What each area pays in each month. */
function budgetTable(figures: OrderFigures): Table {
  const { order, supplied, supply, cells } = figures;
  const { budget } = supplied;
  return {
    name: orderTableNames.budget,
    columns: budgetColumns,
    keys: 2,
    total: true,
    currency: order.offered.currency,
    rows: [
      ...budget.rows.map(({ month, area, goods, charges, cost }, record): TableCell[] => {
        const at = (header: string): string => cells.budget.cell(header, record);
        const ofArea = (header: string): string =>
          `SUMPRODUCT(EXACT(${cells.needs.column('Month')},${at('Month')})*EXACT(${cells.needs.column('Area')},` +
          `${at('Area')})*${cells.needs.column(header)})`;
        return [
          month,
          area,
          formula(ofArea('Goods'), goods),
          formula(ofArea('Freight and charges'), charges),
          formula(`${at('Goods')}+${at('Freight and charges')}`, cost),
        ];
      }),
      totalRow(
        budgetColumns,
        cells.budget,
        { Goods: supply.goods, 'Freight and charges': supply.charges, Cost: supply.total },
        budget.rows.length,
      ),
    ],
  };
}

const leftOutTable = ({ order }: OrderFigures): Table => ({
  name: orderTableNames.leftOut,
  columns: leftOutColumns,
  keys: 1,
  rows: order.joints.leftOut.map(({ belt, reason, cell }) => [belt, reason, cell]),
});

/** What in the book was left out, and what is worth a second look. */
const remarkTable = ({ order, supply, units }: OrderFigures): Table => ({
  name: orderTableNames.remarks,
  columns: remarkColumns,
  keys: 1,
  rows: [
    ...supply.unsupplied.map((item) => [
      '',
      `No offer for ${itemText(item, units)}: it is not in the total. Enter one in the sheet Offers.`,
    ]),
    ...surplusTexts(order, supply, units).map((text) => ['', `${text}.`]),
    ...order.remarks.map(({ cell, message }) => [cell, message]),
  ],
});

/** The tables of an order, in the order of their sheets. */
export function orderTables(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem): Table[] {
  const figures = new OrderFigures(order, supplied, units);
  return [listTable, purchaseTable, supplierTable, rateTable, needTable, budgetTable, leftOutTable, remarkTable].map(
    (table) => table(figures),
  );
}
