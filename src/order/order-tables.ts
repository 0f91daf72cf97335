import { laterPrices } from '../../sheets/buying/offers.ts';
import type { FormulaCell, Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { TableCells } from '../sheet/table-cells.ts';
import { unitOf, type UnitSystem } from '../units/quantities.ts';
import type { FleetOrder, SuppliedOrder } from './fleet-order.ts';
import { amountKind, itemText } from './items.ts';
import { OrderFigures } from './order-figures.ts';
import {
  budgetColumns,
  leftOutColumns,
  listColumns,
  needColumns,
  orderTableNames,
  purchaseColumns,
  supplierColumns,
} from './order-table-columns.ts';
import type { OrderLine } from './search/order-list.ts';

/** The order as tables with live formulas: every quantity adds up from belts, every cost from packs and prices. */

const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });

const unitText = (line: Pick<OrderLine, 'item'>, units: UnitSystem): string => {
  const unit = unitOf(amountKind(line.item), units);
  return unit === '' ? 'pieces' : unit;
};

/** A row of totals under the columns that have one. */
const totalRow = (
  columns: readonly TableColumn[],
  cells: TableCells,
  totals: Readonly<Record<string, number>>,
  rows: number,
): TableCell[] =>
  columns.map(({ header }, place): TableCell => {
    const total = totals[header];
    if (total === undefined) return place === 0 ? 'Total' : null;
    return rows === 0 ? 0 : formula(`SUM(${cells.above(header)})`, total);
  });

/** Every item once: its need, what is to order of it, what that costs. */
function listTable(figures: OrderFigures): Table {
  const { order, units, supply, purchases, costs, freight, cells } = figures;
  const { lines, waste } = order;
  const none = purchases.length === 0;
  return {
    name: orderTableNames.list,
    columns: listColumns,
    keys: 2,
    total: true,
    rows: [
      ...lines.map((line, record): TableCell[] => {
        const at = (header: string): string => cells.list.cell(header, record);
        const ofLine = (column: string): string =>
          `SUMIFS(${cells.purchases.column(column)},${cells.purchases.column('No.')},${at('No.')})`;
        const bought = figures.bought(record);
        return [
          record + 1,
          itemText(line.item, units),
          unitText(line, units),
          formula(`COUNTIFS(${cells.needs.column('No.')},${at('No.')})`, line.sources.length),
          formula(`SUMIFS(${cells.needs.column('Quantity')},${cells.needs.column('No.')},${at('No.')})`, line.need),
          waste[line.item.kind] ?? 0,
          formula(`${at('Need')}*${at('Allowance rate')}`, line.allowance),
          line.shelf,
          line.onOrder,
          // Units that were converted leave crumbs that are no need.
          formula(
            `IF(${at('Need')}+${at('Allowance')}-${at('On shelf')}-${at('On order')}>10^-9*${at('Need')},` +
              `${at('Need')}+${at('Allowance')}-${at('On shelf')}-${at('On order')},0)`,
            line.toOrder,
          ),
          none ? 0 : formula(ofLine('Quantity'), bought),
          formula(`${at('Bought')}-${at('To order')}`, bought - line.toOrder),
          none ? 0 : formula(ofLine('Cost'), costs[record] ?? 0),
          none ? 0 : formula(ofLine('Freight'), freight[record] ?? 0),
        ];
      }),
      totalRow(listColumns, cells.list, { Cost: supply.goods, Freight: supply.freight }, lines.length),
    ],
  };
}

/** What a purchase is to cover, its price at its number of packs, and its share of its supplier's freight. */
function purchaseFormulas(
  { purchases, cells }: OrderFigures,
  record: number,
): Readonly<Record<'cover' | 'price' | 'freight', string>> {
  const at = (header: string): string => cells.purchases.cell(header, record);
  const bySupplier = (header: string): string =>
    `SUMPRODUCT(EXACT(${cells.suppliers.column('Supplier')},${at('Supplier')})*${cells.suppliers.column(header)})`;
  const toOrder = `INDEX(${cells.list.column('To order')},${at('No.')})`;
  const [quantities, numbers] = [cells.purchases.before('Quantity', record), cells.purchases.before('No.', record)];
  const again = purchases[record - 1]?.line === purchases[record]?.line;
  return {
    cover:
      again && quantities !== undefined && numbers !== undefined
        ? `MAX(0,${toOrder}-SUMIFS(${quantities},${numbers},${at('No.')}))`
        : toOrder,
    price: laterPrices.reduce(
      (before, number) =>
        `IF(AND(ISNUMBER(${at(`Break ${number}`)}),${at('Packs')}>=${at(`Break ${number}`)}),` +
        `${at(`Price ${number}`)},${before})`,
      at('Price 1'),
    ),
    freight:
      `${bySupplier('Freight')}*IF(${bySupplier('Goods')}>0,${at('Cost')}/${bySupplier('Goods')},` +
      `1/SUMPRODUCT(--EXACT(${cells.purchases.column('Supplier')},${at('Supplier')})))`,
  };
}

/** Every purchase: packs, price and share of the freight. */
function purchaseTable(figures: OrderFigures): Table {
  const { order, units, supply, purchases, cells } = figures;
  const { suppliers, rates } = order.offered;
  return {
    name: orderTableNames.purchases,
    columns: purchaseColumns,
    keys: 2,
    total: true,
    rows: [
      ...purchases.map(({ line, purchase, cover, whole }, record): TableCell[] => {
        const at = (header: string): string => cells.purchases.cell(header, record);
        const formulas = purchaseFormulas(figures, record);
        const offer = figures.offerOf(purchase);
        const breaks = offer?.breaks ?? [];
        const currency = suppliers.find(({ name }) => name === purchase.supplier)?.currency ?? '';
        return [
          line + 1,
          itemText(purchase.item, units),
          purchase.supplier,
          offer?.article ?? '',
          unitText(purchase, units),
          formula(formulas.cover, cover),
          purchase.pack,
          formula(`ROUNDUP(ROUND(${at('To cover')}/${at('Pack')},9),0)`, whole),
          purchase.packs > whole ? purchase.packs : null,
          purchase.packs >= whole
            ? formula(`MAX(${at('Whole packs')},${at('Minimum packs')})`, purchase.packs)
            : purchase.packs,
          formula(`${at('Packs')}*${at('Pack')}`, purchase.quantity),
          breaks[0]?.price ?? purchase.price,
          ...laterPrices.flatMap((_, place): TableCell[] => [
            breaks[place + 1]?.from ?? null,
            breaks[place + 1]?.price ?? null,
          ]),
          formula(formulas.price, purchase.price),
          currency,
          rates[currency] ?? 1,
          formula(`${at('Packs')}*${at('Price')}*${at('Exchange rate')}`, purchase.cost),
          formula(formulas.freight, figures.freightOn(purchase)),
        ];
      }),
      totalRow(purchaseColumns, cells.purchases, { Cost: supply.goods, Freight: supply.freight }, purchases.length),
    ],
  };
}

/** Every supplier that is ordered from: goods, freight, and whether the minimum order is reached. */
function supplierTable(figures: OrderFigures): Table {
  const { order, supply, cells } = figures;
  const { suppliers, rates } = order.offered;
  return {
    name: orderTableNames.suppliers,
    columns: supplierColumns,
    keys: 1,
    total: true,
    rows: [
      ...supply.orders.map((one, record): TableCell[] => {
        const at = (header: string): string => cells.suppliers.cell(header, record);
        const seller = suppliers.find(({ name }) => name === one.supplier);
        const rate = rates[one.currency] ?? 1;
        const least = seller?.minimumOrder;
        return [
          one.supplier,
          one.currency,
          rate,
          formula(
            `SUMPRODUCT(EXACT(${cells.purchases.column('Supplier')},` +
              `${at('Supplier')})*${cells.purchases.column('Cost')})`,
            one.goods,
          ),
          seller?.freight ?? 0,
          seller?.freightFreeFrom ?? null,
          least ?? null,
          formula(
            `IF(AND(ISNUMBER(${at('Freight free from')}),` +
              `${at('Goods')}/${at('Exchange rate')}>=${at('Freight free from')}*(1-10^-9)),0,` +
              `${at('Freight per order')}*${at('Exchange rate')})`,
            one.freight,
          ),
          formula(`${at('Goods')}+${at('Freight')}`, one.goods + one.freight),
          formula(
            `IF(${at('Goods')}/${at('Exchange rate')}>=N(${at('Minimum order')})*(1-10^-9),"yes","no")`,
            one.goods / rate >= (least ?? 0) * (1 - 1e-9) ? 'yes' : 'no',
          ),
        ];
      }),
      totalRow(
        supplierColumns,
        cells.suppliers,
        { Goods: supply.goods, Freight: supply.freight, Cost: supply.total },
        supply.orders.length,
      ),
    ],
  };
}

/** Every need of every belt, with its share of what is paid. */
function needTable(figures: OrderFigures): Table {
  const { order, units, needs, purchases, costs, freight, cells } = figures;
  const { lines } = order;
  return {
    name: orderTableNames.needs,
    columns: needColumns,
    keys: 3,
    rows: needs.map(({ line, belt, area, month, joints, quantity }, record): TableCell[] => {
      const at = (header: string): string => cells.needs.cell(header, record);
      const orderLine = lines[line];
      const share = `${at('Quantity')}/INDEX(${cells.list.column('Need')},${at('No.')})`;
      const part = orderLine === undefined ? 0 : quantity / orderLine.need;
      return [
        line + 1,
        orderLine === undefined ? '' : itemText(orderLine.item, units),
        belt,
        area,
        month,
        joints,
        quantity / joints,
        orderLine === undefined ? '' : unitText(orderLine, units),
        formula(`${at('Joints')}*${at('Per joint')}`, quantity),
        formula(`${share}*INDEX(${cells.list.column('Cost')},${at('No.')})`, part * (costs[line] ?? 0)),
        purchases.length === 0
          ? 0
          : formula(`${share}*INDEX(${cells.list.column('Freight')},${at('No.')})`, part * (freight[line] ?? 0)),
      ];
    }),
  };
}

/** What each area pays in each month. */
function budgetTable(figures: OrderFigures): Table {
  const { supplied, supply, cells } = figures;
  const { budget } = supplied;
  return {
    name: orderTableNames.budget,
    columns: budgetColumns,
    keys: 2,
    total: true,
    rows: [
      ...budget.rows.map(({ month, area, goods, freight, cost }, record): TableCell[] => {
        const at = (header: string): string => cells.budget.cell(header, record);
        const ofArea = (header: string): string =>
          `SUMPRODUCT(EXACT(${cells.needs.column('Month')},${at('Month')})*EXACT(${cells.needs.column('Area')},` +
          `${at('Area')})*${cells.needs.column(header)})`;
        return [
          month,
          area,
          formula(ofArea('Goods'), goods),
          formula(ofArea('Freight'), freight),
          formula(`${at('Goods')}+${at('Freight')}`, cost),
        ];
      }),
      totalRow(
        budgetColumns,
        cells.budget,
        { Goods: supply.goods, Freight: supply.freight, Cost: supply.total },
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

/** The tables of an order, in the order of their sheets. */
export function orderTables(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem): Table[] {
  const figures = new OrderFigures(order, supplied, units);
  return [listTable, purchaseTable, supplierTable, needTable, budgetTable, leftOutTable].map((table) => table(figures));
}
