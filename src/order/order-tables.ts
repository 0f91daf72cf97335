import { itemKey, type OrderLine } from './search/order-list.ts';
import { packsFor } from './search/offers.ts';
import type { Purchase } from './search/supply.ts';
import { laterPrices } from '../../sheets/buying/offers.ts';
import { unitOf, type UnitSystem } from '../units/quantities.ts';
import type { FormulaCell, Table, TableCell, TableColumn } from '../sheet/table.ts';
import { chosenSupply, type FleetOrder, type SuppliedOrder } from './fleet-order.ts';
import { amountKind, itemText } from './items.ts';
import type { BookOffer } from './offered.ts';
import { TableCells } from '../sheet/table-cells.ts';

/** The order as tables with live formulas: every quantity adds up from belts, every cost from packs and prices. */

const orderTableNames = {
  list: 'Order list',
  purchases: 'Purchases',
  suppliers: 'Suppliers',
  needs: 'Belt by belt',
  budget: 'Budget',
  leftOut: 'Left out',
} as const;

const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });
const amounts = { kind: 'number', digits: 2 } as const;
const money = { kind: 'money', digits: 2 } as const;

const unitText = (line: Pick<OrderLine, 'item'>, units: UnitSystem): string => {
  const unit = unitOf(amountKind(line.item), units);
  return unit === '' ? 'pieces' : unit;
};

/** The offer that a purchase was made of. */
export const offerOf = (
  { item, supplier, pack, price, packs }: Purchase,
  offers: readonly BookOffer[],
): BookOffer | undefined =>
  offers.find(
    (offer) =>
      offer.supplier === supplier &&
      offer.pack === pack &&
      itemKey(offer.item) === itemKey(item) &&
      offer.breaks.findLast(({ from }) => from <= packs)?.price === price,
  );

interface NeedRow {
  readonly line: number;
  readonly belt: string;
  readonly area: string;
  readonly month: string;
  readonly joints: number;
  readonly quantity: number;
}

/** Needs in the order of the lines, each with the number of its line. */
function needRows({ joints, lines }: FleetOrder): NeedRow[] {
  const place = new Map(lines.map(({ item }, index) => [itemKey(item), index]));
  return joints.belts
    .flatMap((one) =>
      one.needs.map(({ item, belt, area, month, quantity }) => ({
        line: place.get(itemKey(item)) ?? -1,
        belt,
        area,
        month,
        joints: item.kind === 'belt' ? 1 : one.joints,
        quantity,
      })),
    )
    .toSorted((one, other) => one.line - other.line);
}

/** Purchases in the order of the lines: of an item from several suppliers, the last one covers what is left. */
function purchaseRows(
  order: FleetOrder,
  purchases: readonly Purchase[],
): { readonly line: number; readonly purchase: Purchase; readonly cover: number; readonly whole: number }[] {
  return order.lines.flatMap((orderLine, line) => {
    let bought = 0;
    return purchases
      .filter(({ item }) => itemKey(item) === itemKey(orderLine.item))
      .map((purchase) => {
        const cover = Math.max(0, orderLine.toOrder - bought);
        const offer = offerOf(purchase, order.offered.offers);
        bought += purchase.quantity;
        return { line, purchase, cover, whole: offer === undefined ? purchase.packs : packsFor(cover, offer) };
      });
  });
}

const listColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count' },
  { header: 'Item', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Belts', kind: 'count', computed: true, note: 'entries of the sheet Belt by belt' },
  { header: 'Need', ...amounts, computed: true, note: 'added up from the sheet Belt by belt' },
  { header: 'Allowance', kind: 'ratio', percent: true, digits: 1, note: 'on top, for what is spoilt: yours to change' },
  { header: 'Spare', ...amounts, computed: true },
  { header: 'On shelf', ...amounts },
  { header: 'On order', ...amounts },
  { header: 'To order', ...amounts, computed: true, note: 'need and spare less shelf and on order, not below 0' },
  { header: 'Bought', ...amounts, computed: true, note: 'whole packs, from the sheet Purchases' },
  { header: 'Beyond', ...amounts, computed: true, note: 'bought beyond what is to order' },
  { header: 'Cost', ...money, computed: true, note: "in the book's money, without freight" },
  { header: 'Freight', ...money, computed: true, note: "its share of the suppliers' freight, by value" },
];

const purchaseColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Article', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'To cover', ...amounts, computed: true, note: 'to order, less what rows above buy of it' },
  { header: 'Pack', ...amounts, note: 'how much one pack holds' },
  { header: 'Whole packs', kind: 'count', computed: true, note: 'that cover it' },
  {
    header: 'Packs at least',
    kind: 'count',
    note: 'more than that where the price or the freight falls by it: yours to change',
  },
  { header: 'Packs', kind: 'count', note: 'a formula; a number where the rest of the item comes from another row' },
  { header: 'Quantity', ...amounts, computed: true },
  { header: 'Price 1', ...money, note: "of one pack, in the supplier's currency" },
  ...laterPrices.flatMap((number): TableColumn[] => [
    { header: `Break ${number}`, kind: 'count', note: 'packs from which the next price holds' },
    { header: `Price ${number}`, ...money },
  ]),
  { header: 'Price', ...money, computed: true, note: 'at this number of packs' },
  { header: 'Currency', kind: 'text' },
  { header: 'Rate', kind: 'number', digits: 4, note: "one unit of the currency in the book's money" },
  { header: 'Cost', ...money, computed: true, note: "in the book's money" },
  { header: 'Freight', ...money, computed: true, note: "its share of the supplier's freight, by value" },
];

const supplierColumns: readonly TableColumn[] = [
  { header: 'Supplier', kind: 'text' },
  { header: 'Currency', kind: 'text' },
  { header: 'Rate', kind: 'number', digits: 4 },
  { header: 'Goods', ...money, computed: true, note: "in the book's money" },
  { header: 'Freight of an order', ...money, note: "in the supplier's currency" },
  { header: 'Freight free from', ...money },
  { header: 'Least order', ...money },
  { header: 'Freight', ...money, computed: true, note: "in the book's money" },
  { header: 'Cost', ...money, computed: true },
  { header: 'Least order reached', kind: 'text', computed: true },
];

const needColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Month', kind: 'text', note: 'when the joints are made' },
  { header: 'Joints', kind: 'count' },
  { header: 'Per joint', kind: 'number', digits: 3 },
  { header: 'Unit', kind: 'text' },
  { header: 'Quantity', kind: 'number', digits: 3, computed: true },
  { header: 'Goods', ...money, computed: true, note: 'its share of what is paid for the item' },
  { header: 'Freight', ...money, computed: true },
];

const budgetColumns: readonly TableColumn[] = [
  { header: 'Month', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Goods', ...money, computed: true },
  { header: 'Freight', ...money, computed: true },
  { header: 'Cost', ...money, computed: true },
];

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

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

/** The tables of an order, in the order of their sheets. */
export function orderTables(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem): Table[] {
  const supply = chosenSupply(supplied);
  const needs = needRows(order);
  const rows = purchaseRows(order, supply.purchases);
  const {
    lines,
    waste,
    offered: { offers, suppliers, rates },
  } = order;
  const { budget } = supplied;
  const cells = {
    list: new TableCells(orderTableNames.list, listColumns, lines.length),
    purchases: new TableCells(orderTableNames.purchases, purchaseColumns, rows.length),
    suppliers: new TableCells(orderTableNames.suppliers, supplierColumns, supply.orders.length),
    needs: new TableCells(orderTableNames.needs, needColumns, needs.length),
    budget: new TableCells(orderTableNames.budget, budgetColumns, budget.rows.length),
  };
  const costs = lines.map(({ item }) =>
    sum(supply.purchases.filter((purchase) => itemKey(purchase.item) === itemKey(item)).map(({ cost }) => cost)),
  );
  const goodsOf = (supplier: string): string =>
    `SUMPRODUCT(EXACT(${cells.suppliers.column('Supplier')},${supplier})*${cells.suppliers.column('Goods')})`;
  const freightOn = ({ supplier, cost }: Purchase): number => {
    const one = supply.orders.find((seller) => seller.supplier === supplier);
    return one === undefined
      ? 0
      : one.freight *
          (one.goods > 0 ? cost / one.goods : 1 / rows.filter(({ purchase }) => purchase.supplier === supplier).length);
  };
  const freightPaid = lines.map((_, line) =>
    sum(rows.filter((row) => row.line === line).map(({ purchase }) => freightOn(purchase))),
  );
  const list: Table = {
    name: orderTableNames.list,
    columns: listColumns,
    keys: 2,
    total: true,
    rows: [
      ...lines.map((line, record): TableCell[] => {
        const at = (header: string): string => cells.list.cell(header, record);
        const own = (column: string): string =>
          `SUMIFS(${cells.purchases.column(column)},${cells.purchases.column('No.')},${at('No.')})`;
        const bought = sum(rows.filter((row) => row.line === record).map(({ purchase }) => purchase.quantity));
        return [
          record + 1,
          itemText(line.item, units),
          unitText(line, units),
          formula(`COUNTIFS(${cells.needs.column('No.')},${at('No.')})`, line.sources.length),
          formula(`SUMIFS(${cells.needs.column('Quantity')},${cells.needs.column('No.')},${at('No.')})`, line.need),
          waste[line.item.kind] ?? 0,
          formula(`${at('Need')}*${at('Allowance')}`, line.allowance),
          line.shelf,
          line.onOrder,
          // Units that were converted leave crumbs that are no need.
          formula(
            `IF(${at('Need')}+${at('Spare')}-${at('On shelf')}-${at('On order')}>10^-9*${at('Need')},` +
              `${at('Need')}+${at('Spare')}-${at('On shelf')}-${at('On order')},0)`,
            line.toOrder,
          ),
          rows.length === 0 ? 0 : formula(own('Quantity'), bought),
          formula(`${at('Bought')}-${at('To order')}`, bought - line.toOrder),
          rows.length === 0 ? 0 : formula(own('Cost'), costs[record] ?? 0),
          rows.length === 0 ? 0 : formula(own('Freight'), freightPaid[record] ?? 0),
        ];
      }),
      totalRow(listColumns, cells.list, { Cost: supply.goods, Freight: supply.freight }, lines.length),
    ],
  };
  const purchases: Table = {
    name: orderTableNames.purchases,
    columns: purchaseColumns,
    keys: 2,
    total: true,
    rows: [
      ...rows.map(({ line, purchase, cover, whole }, record): TableCell[] => {
        const at = (header: string): string => cells.purchases.cell(header, record);
        const toOrder = `INDEX(${cells.list.column('To order')},${at('No.')})`;
        const [quantities, numbers] = [
          cells.purchases.before('Quantity', record),
          cells.purchases.before('No.', record),
        ];
        const earlier =
          rows[record - 1]?.line === line && quantities !== undefined && numbers !== undefined
            ? `-SUMIFS(${quantities},${numbers},${at('No.')})`
            : '';
        const offer = offerOf(purchase, offers);
        const breaks = offer?.breaks ?? [];
        const currency = suppliers.find(({ name }) => name === purchase.supplier)?.currency ?? '';
        const price = laterPrices.reduce(
          (before, number) =>
            `IF(AND(ISNUMBER(${at(`Break ${number}`)}),${at('Packs')}>=${at(`Break ${number}`)}),` +
            `${at(`Price ${number}`)},${before})`,
          at('Price 1'),
        );
        return [
          line + 1,
          itemText(purchase.item, units),
          purchase.supplier,
          offer?.article ?? '',
          unitText(purchase, units),
          formula(earlier === '' ? toOrder : `MAX(0,${toOrder}${earlier})`, cover),
          purchase.pack,
          formula(`ROUNDUP(ROUND(${at('To cover')}/${at('Pack')},9),0)`, whole),
          purchase.packs > whole ? purchase.packs : null,
          purchase.packs >= whole
            ? formula(`MAX(${at('Whole packs')},${at('Packs at least')})`, purchase.packs)
            : purchase.packs,
          formula(`${at('Packs')}*${at('Pack')}`, purchase.quantity),
          breaks[0]?.price ?? purchase.price,
          ...laterPrices.flatMap((_, place): TableCell[] => [
            breaks[place + 1]?.from ?? null,
            breaks[place + 1]?.price ?? null,
          ]),
          formula(price, purchase.price),
          currency,
          rates[currency] ?? 1,
          formula(`${at('Packs')}*${at('Price')}*${at('Rate')}`, purchase.cost),
          formula(
            `SUMPRODUCT(EXACT(${cells.suppliers.column('Supplier')},` +
              `${at('Supplier')})*${cells.suppliers.column('Freight')})*` +
              `IF(${goodsOf(at('Supplier'))}>0,${at('Cost')}/${goodsOf(at('Supplier'))},` +
              `1/SUMPRODUCT(--EXACT(${cells.purchases.column('Supplier')},${at('Supplier')})))`,
            freightOn(purchase),
          ),
        ];
      }),
      totalRow(purchaseColumns, cells.purchases, { Cost: supply.goods, Freight: supply.freight }, rows.length),
    ],
  };
  const sellers: Table = {
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
              `${at('Goods')}/${at('Rate')}>=${at('Freight free from')}*(1-10^-9)),0,` +
              `${at('Freight of an ' + 'order')}*${at('Rate')})`,
            one.freight,
          ),
          formula(`${at('Goods')}+${at('Freight')}`, one.goods + one.freight),
          formula(
            `IF(${at('Goods')}/${at('Rate')}>=N(${at('Least order')})*(1-10^-9),"yes","no")`,
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
  const beltByBelt: Table = {
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
        rows.length === 0
          ? 0
          : formula(`${share}*INDEX(${cells.list.column('Freight')},${at('No.')})`, part * (freightPaid[line] ?? 0)),
      ];
    }),
  };
  const budgetTable: Table = {
    name: orderTableNames.budget,
    columns: budgetColumns,
    keys: 2,
    total: true,
    rows: [
      ...budget.rows.map(({ month, area, goods, freight, cost }, record): TableCell[] => {
        const at = (header: string): string => cells.budget.cell(header, record);
        const own = (header: string): string =>
          `SUMPRODUCT(EXACT(${cells.needs.column('Month')},${at('Month')})*EXACT(${cells.needs.column('Area')},` +
          `${at('Area')})*${cells.needs.column(header)})`;
        return [
          month,
          area,
          formula(own('Goods'), goods),
          formula(own('Freight'), freight),
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
  const leftOut: Table = {
    name: orderTableNames.leftOut,
    columns: [
      { header: 'Belt', kind: 'text' },
      { header: 'Nothing is ordered, since', kind: 'text' },
      { header: 'Cell of the book', kind: 'text' },
    ],
    keys: 1,
    rows: order.joints.leftOut.map(({ belt, reason, cell }) => [belt, reason, cell]),
  };
  return [list, purchases, sellers, beltByBelt, budgetTable, leftOut];
}
