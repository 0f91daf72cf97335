import { formula, totalRow } from '../order/order-table-cells.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { budgetTables } from './budget-tables.ts';
import { type OrderSchedule, orderSchedule, sum } from './schedule-rows.ts';

/** When each line must be ordered, comes and is paid, and what that makes of each month. */

const names = { schedule: 'Schedule' } as const;

const days = { kind: 'number', digits: 0 } as const;
const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;

const scheduleColumns: readonly TableColumn[] = [
  { header: 'Supplier', kind: 'text' },
  { header: 'Item', kind: 'text' },
  { header: 'Joint due', kind: 'date', note: 'first joint that needs it; blank: for the shelf' },
  { header: 'Margin', ...days, note: 'days that goods are wanted before the joint is due: DeliveryMargin' },
  { header: 'Lead time', ...days, note: 'days from order to delivery' },
  { header: 'Order by', kind: 'date', computed: true, note: 'joint due, less margin and lead time' },
  {
    header: 'Days late',
    ...days,
    computed: true,
    alertAbove: 0,
    note: 'an order of today comes after the joint is due',
  },
  { header: 'Today', kind: 'date', note: 'day that the order is counted from' },
  { header: 'Order day', kind: 'date', computed: true, note: 'order by, or today where that has passed' },
  { header: 'Delivery', kind: 'date', computed: true },
  { header: 'Payment terms', ...days, note: 'days from delivery to payment' },
  { header: 'Payment', kind: 'date', computed: true },
  { header: 'Escalation', kind: 'ratio', percent: true, digits: 1, note: 'yearly rise of prices: PriceEscalation' },
  { header: 'Cost', ...bookMoney, computed: true, note: 'with freight and charges, from the sheet Purchases' },
  { header: 'Budgeted', ...bookMoney, computed: true, note: 'cost, raised by the escalation up to the order day' },
];

const scheduleCells = (rows: number): TableCells => new TableCells(names.schedule, scheduleColumns, rows);

/** The days of every line, with what is budgeted for it. */
function scheduleTable({ rows, figures, margin, escalation, day }: OrderSchedule): Table {
  const { cells, order, units } = figures;
  const own = scheduleCells(rows.length);
  return {
    name: names.schedule,
    columns: scheduleColumns,
    keys: 2,
    total: true,
    currency: order.offered.currency,
    rows: [
      ...rows.map(
        ({ record, supplier, line, days: when, ordered, paymentDays, cost, budgeted }, place): TableCell[] => {
          const at = (header: string): string => own.cell(header, place);
          const due = `ISNUMBER(${at('Joint due')})`;
          const [costs, charges] = ['Cost', 'Freight and charges'].map(
            (header) => `INDEX(${cells.purchases.column(header)},${record + 1})`,
          );
          return [
            supplier,
            itemText(line.item, units),
            line.wanted === undefined ? null : Math.floor(line.wanted),
            margin,
            Math.ceil(line.leadDays),
            formula(`IF(${due},${at('Joint due')}-${at('Margin')}-${at('Lead time')},${at('Today')})`, when.orderBy),
            formula(`IF(${due},MAX(0,${at('Today')}+${at('Lead time')}-${at('Joint due')}),0)`, when.late),
            day,
            formula(`MAX(${at('Today')},${at('Order by')})`, ordered),
            formula(`${at('Order day')}+${at('Lead time')}`, when.delivery),
            paymentDays,
            formula(`${at('Delivery')}+${at('Payment terms')}`, when.payment),
            escalation,
            formula(`${costs ?? ''}+${charges ?? ''}`, cost),
            formula(`${at('Cost')}*(1+${at('Escalation')})^((${at('Order day')}-${at('Today')})/365.25)`, budgeted),
          ];
        },
      ),
      totalRow(
        scheduleColumns,
        own,
        { Cost: sum(rows.map(({ cost }) => cost)), Budgeted: sum(rows.map((row) => row.budgeted)) },
        rows.length,
      ),
    ],
  };
}

/** The tables of an order's days and budgets, for its workbook. */
export function scheduleTables(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table[] {
  const schedule = orderSchedule(book, order, supplied);
  return [scheduleTable(schedule), ...budgetTables(book, schedule, scheduleCells(schedule.rows.length))];
}
