import { formula, totalRow } from '../order/order-table-cells.ts';
import { columnLetters, sheetRow } from '../formula/address.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import { isoDate } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { budgetDays, type BudgetDay, monthsOf } from './budget-days.ts';
import { type OrderBudget, orderBudget, type Payer } from './budget-lines.ts';
import { budgetNames, lineColumns, lineTable } from './budget-line-table.ts';
import { monthOf, type OrderSchedule, sum } from './schedule-rows.ts';

/** The budgets of an order: by month of order, delivery and payment, by site, cost centre and area. */

const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;

const monthColumns: readonly TableColumn[] = [
  { header: 'Month', kind: 'date', note: 'its first day' },
  ...budgetDays.map(({ header, note }): TableColumn => ({
    header,
    ...bookMoney,
    computed: true,
    bars: true,
    noZeros: true,
    note,
  })),
];

const centreColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the area, in the sheet Budget lines' },
  { header: 'Site', kind: 'text' },
  { header: 'Cost centre', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Goods', ...bookMoney, computed: true },
  { header: 'Freight and charges', ...bookMoney, computed: true },
  { header: 'Cost', ...bookMoney, computed: true },
  {
    header: 'Budgeted',
    ...bookMoney,
    computed: true,
    note: 'cost, raised by the yearly escalation up to the order day',
  },
];

/** What the tables are made of. */
interface Budgeting {
  readonly schedule: OrderSchedule;
  readonly budget: OrderBudget;
  /** Of the sheet Budget lines. */
  readonly lines: TableCells;
}

const dayWithin = (column: string, from: string, to: string): string => `${column},">="&${from},${column},"<"&${to}`;

/** What is ordered, delivered and paid in each month. */
function monthTable({ schedule, budget, lines }: Budgeting): Table {
  const months = monthsOf(schedule);
  const cells = new TableCells(budgetNames.months, monthColumns, months.length);
  const inMonth = ({ dayOf }: BudgetDay, month: number): number =>
    sum(budget.lines.flatMap(({ row, budgeted }) => (monthOf(dayOf(schedule, row)) === month ? [budgeted] : [])));
  const all = sum(budget.lines.map(({ budgeted }) => budgeted));
  return {
    name: budgetNames.months,
    columns: monthColumns,
    keys: 1,
    total: true,
    currency: schedule.figures.order.offered.currency,
    rows: [
      ...months.map((month, place): TableCell[] => {
        const from = cells.cell('Month', place);
        return [
          month,
          ...budgetDays.map((day) =>
            formula(
              `SUMIFS(${lines.column('Budgeted')},${dayWithin(lines.column(day.column), from, `EDATE(${from},1)`)})`,
              inMonth(day, month),
            ),
          ),
        ];
      }),
      totalRow(monthColumns, cells, Object.fromEntries(budgetDays.map(({ header }) => [header, all])), months.length),
    ],
  };
}

/** Rows of payers with a subtotal after each cost centre, after each site where there are several, and a total. */
function grouped(
  payers: readonly Payer[],
  payerRow: (place: number, record: number) => TableCell[],
  sumRow: (title: string, of: readonly number[], records: readonly number[], record: number) => TableCell[],
): TableCell[][] {
  const rows: TableCell[][] = [];
  const several = new Set(payers.map(({ site }) => site)).size > 1;
  const totals: number[] = [];
  const places = [...payers.keys()];
  const called = (text: string, none: string): string => (text === '' ? none : text);
  for (const site of new Set(payers.map((payer) => payer.site))) {
    const ofSite = places.filter((place) => payers[place]?.site === site);
    const subtotals: number[] = [];
    for (const centre of new Set(ofSite.map((place) => payers[place]?.centre ?? ''))) {
      const own = ofSite.filter((place) => payers[place]?.centre === centre);
      const records = own.map((place) => {
        rows.push(payerRow(place, rows.length));
        return rows.length - 1;
      });
      subtotals.push(rows.length);
      rows.push(sumRow(`Total of ${called(centre, 'no cost centre')}`, own, records, rows.length));
    }
    if (several) {
      totals.push(rows.length);
      rows.push(sumRow(`Total of ${called(site, 'no site')}`, ofSite, subtotals, rows.length));
    } else totals.push(...subtotals);
  }
  rows.push(sumRow('Total', places, totals, rows.length));
  return rows;
}

/** A sum of cells of one column, as a formula with what it comes to. */
const added = (letters: string, records: readonly number[], value: number): TableCell =>
  records.length === 0 ? 0 : formula(records.map((record) => `${letters}${sheetRow(record)}`).join('+'), value);

/** What each site, cost centre and area pays in all. */
function centreTable({ schedule, budget: { payers, lines: list }, lines }: Budgeting): Table {
  const headers = ['Goods', 'Freight and charges', 'Cost', 'Budgeted'] as const;
  const first = centreColumns.findIndex(({ header }) => header === headers[0]);
  const figures = (places: readonly number[]): number[] => {
    const own = list.filter(({ payer }) => places.includes(payer));
    const [goods, charges] = [sum(own.map((line) => line.goods)), sum(own.map((line) => line.charges))];
    return [goods, charges, goods + charges, sum(own.map(({ budgeted }) => budgeted))];
  };
  const columnAt = (place: number): string => columnLetters(first + place);
  return {
    name: budgetNames.centres,
    columns: centreColumns,
    keys: 4,
    total: true,
    currency: schedule.figures.order.offered.currency,
    rows: grouped(
      payers,
      (place, record) => {
        const { site = '', centre = '', area = '' } = payers[place] ?? {};
        const values = figures([place]);
        return [
          place + 1,
          site,
          centre,
          area,
          ...headers.map((header, at) =>
            formula(
              header === 'Cost'
                ? `${columnAt(0)}${sheetRow(record)}+${columnAt(1)}${sheetRow(record)}`
                : `SUMIFS(${lines.column(header)},${lines.column('Payer')},$A${sheetRow(record)})`,
              values[at] ?? 0,
            ),
          ),
        ];
      },
      (title, places, records) => {
        const values = figures(places);
        return [null, title, null, null, ...headers.map((_, at) => added(columnAt(at), records, values[at] ?? 0))];
      },
    ),
  };
}

/** The columns of the months in the table of areas stand after these. */
const areaKeys: readonly TableColumn[] = [
  { header: 'By', kind: 'text', note: 'day that decides the month' },
  { header: 'No.', kind: 'count', note: 'of the area, in the sheet Budget lines' },
  { header: 'Site', kind: 'text' },
  { header: 'Cost centre', kind: 'text' },
  { header: 'Area', kind: 'text' },
];

/** What each of them pays in each month by one of the days, below the rows that stand `above`. */
function areaRows({ schedule, budget, lines }: Budgeting, day: BudgetDay, above: number): TableCell[][] {
  const months = monthsOf(schedule);
  const letters = (column: number): string => columnLetters(areaKeys.length + column);
  const amounts = (places: readonly number[]): number[] =>
    months.map((month) =>
      sum(
        budget.lines.flatMap(({ row, payer, budgeted }) =>
          places.includes(payer) && monthOf(day.dayOf(schedule, row)) === month ? [budgeted] : [],
        ),
      ),
    );
  const rowSum = (record: number, values: readonly number[]): TableCell => {
    const at = sheetRow(above + record);
    return values.length === 0 ? 0 : formula(`SUM(${letters(0)}${at}:${letters(months.length - 1)}${at})`, sum(values));
  };
  const firstOf = (month: number): string => {
    const [year, number] = isoDate(month).split('-').map(Number);
    return `DATE(${year ?? 0},${number ?? 0},1)`;
  };
  return grouped(
    budget.payers,
    (place, record) => {
      const { site = '', centre = '', area = '' } = budget.payers[place] ?? {};
      const values = amounts([place]);
      const paid = months.map((month, column) => {
        const days = dayWithin(lines.column(day.column), firstOf(month), `EDATE(${firstOf(month)},1)`);
        const own = `${lines.column('Payer')},$B${sheetRow(above + record)}`;
        return formula(`SUMIFS(${lines.column('Budgeted')},${own},${days})`, values[column] ?? 0);
      });
      return [day.header, place + 1, site, centre, area, ...paid, rowSum(record, values)];
    },
    (title, places, records, record) => {
      const values = amounts(places);
      const summed = records.map((one) => above + one);
      const paid = values.map((value, column) => added(letters(column), summed, value));
      return [day.header, null, title, null, null, ...paid, rowSum(record, values)];
    },
  );
}

/** What each of them pays in each month: of order, of delivery and of payment, one below the other. */
function areaTable(budgeting: Budgeting): Table {
  const { schedule } = budgeting;
  const month = (first: number): TableColumn => ({
    header: isoDate(first).slice(0, 7),
    ...bookMoney,
    computed: true,
    noZeros: true,
  });
  return {
    name: budgetNames.areas,
    columns: [...areaKeys, ...monthsOf(schedule).map(month), { header: 'Total', ...bookMoney, computed: true }],
    keys: areaKeys.length,
    total: true,
    currency: schedule.figures.order.offered.currency,
    rows: budgetDays.reduce<TableCell[][]>((rows, day) => [...rows, ...areaRows(budgeting, day, rows.length)], []),
  };
}

/** The budgets of an order, all from the sheet Budget lines. `days` is where the schedule's days stand. */
export function budgetTables(book: Workbook, schedule: OrderSchedule, days: TableCells): Table[] {
  const budget = orderBudget(book, schedule);
  const lines = new TableCells(budgetNames.lines, lineColumns, budget.lines.length);
  const budgeting: Budgeting = { schedule, budget, lines };
  return [monthTable(budgeting), areaTable(budgeting), centreTable(budgeting), lineTable(schedule, budget, days)];
}
