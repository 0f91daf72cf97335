import { formula, totalRow } from '../order/order-table-cells.ts';
import { OrderFigures } from '../order/order-figures.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { purchaseOrders, type PurchaseOrderLine } from '../order/purchase-orders.ts';
import { assumed } from '../records/assumed.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import { isoDate, serialOf } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { costCentreTable } from './cost-centre-table.ts';
import { type LineDays, lineDays } from './delivery-days.ts';
import { supplierAddresses } from './supplier-address.ts';

/** When each line must be ordered, comes and is paid, and what that makes of each month. */

const names = { schedule: 'Schedule', months: 'Budget by month' } as const;

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

const monthColumns: readonly TableColumn[] = [
  { header: 'Month', kind: 'date', note: 'its first day' },
  { header: 'Ordered', ...bookMoney, computed: true, note: 'by the order day' },
  { header: 'Delivered', ...bookMoney, computed: true },
  { header: 'Paid', ...bookMoney, computed: true },
];

interface ScheduleRow {
  /** Of the sheet Purchases. */
  readonly record: number;
  readonly supplier: string;
  readonly line: PurchaseOrderLine;
  readonly days: LineDays;
  readonly paymentDays: number;
  readonly cost: number;
  readonly budgeted: number;
}

/** The first day of a day's month. */
function monthOf(day: number): number {
  const [year = 0, month = 1] = isoDate(day).split('-').map(Number);
  return serialOf(year, month, 1) ?? day;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

class Schedule {
  readonly #figures: OrderFigures;
  readonly #day: number;
  readonly #margin: number;
  readonly #escalation: number;
  readonly #rows: readonly ScheduleRow[];
  readonly #cells: TableCells;

  constructor(book: Workbook, order: FleetOrder, supplied: SuppliedOrder) {
    this.#figures = new OrderFigures(order, supplied, book.units);
    const { day, orders } = purchaseOrders(book, order, supplied);
    this.#day = Math.floor(day);
    this.#margin = assumed(book, 'DeliveryMargin');
    this.#escalation = assumed(book, 'PriceEscalation');
    const addressOf = supplierAddresses(book);
    const { purchases, supply } = this.#figures;
    this.#rows = orders.flatMap(({ supplier, lines }): ScheduleRow[] => {
      const own = supply.purchases.filter((purchase) => purchase.supplier === supplier);
      const { paymentDays } = addressOf(supplier);
      return lines.flatMap((line, place) => {
        const record = purchases.findIndex(({ purchase }) => purchase === own[place]);
        const found = purchases[record];
        if (found === undefined) return [];
        const when = lineDays(line, { day: this.#day, margin: this.#margin, paymentDays });
        const cost = found.purchase.cost + this.#figures.chargesOn(found.purchase);
        const ordered = Math.max(this.#day, when.orderBy);
        return {
          record,
          supplier,
          line,
          days: when,
          paymentDays,
          cost,
          budgeted: cost * (1 + this.#escalation) ** ((ordered - this.#day) / 365.25),
        };
      });
    });
    this.#cells = new TableCells(names.schedule, scheduleColumns, this.#rows.length);
  }

  table(): Table {
    const { cells, order, units } = this.#figures;
    return {
      name: names.schedule,
      columns: scheduleColumns,
      keys: 2,
      total: true,
      currency: order.offered.currency,
      rows: [
        ...this.#rows.map(({ record, supplier, line, days: when, paymentDays, cost, budgeted }, place): TableCell[] => {
          const at = (header: string): string => this.#cells.cell(header, place);
          const due = `ISNUMBER(${at('Joint due')})`;
          const lead = Math.ceil(line.leadDays);
          const [costs, charges] = ['Cost', 'Freight and charges'].map(
            (header) => `INDEX(${cells.purchases.column(header)},${record + 1})`,
          );
          return [
            supplier,
            itemText(line.item, units),
            line.wanted === undefined ? null : Math.floor(line.wanted),
            this.#margin,
            lead,
            formula(`IF(${due},${at('Joint due')}-${at('Margin')}-${at('Lead time')},${at('Today')})`, when.orderBy),
            formula(`IF(${due},MAX(0,${at('Today')}+${at('Lead time')}-${at('Joint due')}),0)`, when.late),
            this.#day,
            formula(`MAX(${at('Today')},${at('Order by')})`, Math.max(this.#day, when.orderBy)),
            formula(`${at('Order day')}+${at('Lead time')}`, when.delivery),
            paymentDays,
            formula(`${at('Delivery')}+${at('Payment terms')}`, when.payment),
            this.#escalation,
            formula(`${costs ?? ''}+${charges ?? ''}`, cost),
            formula(`${at('Cost')}*(1+${at('Escalation')})^((${at('Order day')}-${at('Today')})/365.25)`, budgeted),
          ];
        }),
        totalRow(
          scheduleColumns,
          this.#cells,
          { Cost: sum(this.#rows.map(({ cost }) => cost)), Budgeted: sum(this.#rows.map((row) => row.budgeted)) },
          this.#rows.length,
        ),
      ],
    };
  }

  months(): Table {
    const dayOf = {
      Ordered: ['Order day', ({ days: when }: ScheduleRow) => Math.max(this.#day, when.orderBy)],
      Delivered: ['Delivery', ({ days: when }: ScheduleRow) => when.delivery],
      Paid: ['Payment', ({ days: when }: ScheduleRow) => when.payment],
    } as const;
    const kinds = Object.entries(dayOf);
    const months = [...new Set(this.#rows.flatMap((row) => kinds.map(([, [, day]]) => monthOf(day(row)))))].toSorted(
      (one, other) => one - other,
    );
    const cells = new TableCells(names.months, monthColumns, months.length);
    return {
      name: names.months,
      columns: monthColumns,
      keys: 1,
      total: true,
      currency: this.#figures.order.offered.currency,
      rows: [
        ...months.map((month, place): TableCell[] => [
          month,
          ...kinds.map(([, [header, day]]) => {
            const [column, from] = [this.#cells.column(header), cells.cell('Month', place)];
            return formula(
              `SUMIFS(${this.#cells.column('Budgeted')},${column},">="&${from},${column},"<"&EDATE(${from},1))`,
              sum(this.#rows.filter((row) => monthOf(day(row)) === month).map(({ budgeted }) => budgeted)),
            );
          }),
        ]),
        totalRow(
          monthColumns,
          cells,
          Object.fromEntries(kinds.map(([header]) => [header, sum(this.#rows.map(({ budgeted }) => budgeted))])),
          months.length,
        ),
      ],
    };
  }
}

/** The tables of an order's days and budgets, for its workbook. */
export function scheduleTables(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table[] {
  const schedule = new Schedule(book, order, supplied);
  return [schedule.table(), schedule.months(), costCentreTable(book, order, supplied)];
}
