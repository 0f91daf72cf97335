import { formula } from '../order/order-table-cells.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import { budgetDays } from './budget-days.ts';
import type { OrderBudget } from './budget-lines.ts';
import type { OrderSchedule } from './schedule-rows.ts';

/** The sheet that every budget adds up from: each line of the schedule, shared among those who pay. */

export const budgetNames = {
  lines: 'Budget lines',
  months: 'Budget by month',
  areas: 'Budget by area',
  centres: 'Budget by cost centre',
} as const;

const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;

export const lineColumns: readonly TableColumn[] = [
  { header: 'Schedule no.', kind: 'count', note: 'row of the sheet Schedule, without its heading' },
  { header: 'Purchase no.', kind: 'count', note: 'row of the sheet Purchases, without its heading' },
  { header: 'Order no.', kind: 'count', note: 'No. of the order list' },
  { header: 'Payer', kind: 'count', note: 'No. of the area in the other budgets' },
  { header: 'Site', kind: 'text' },
  { header: 'Cost centre', kind: 'text', note: "the area's own, otherwise that of its site" },
  { header: 'Area', kind: 'text' },
  { header: 'Share', kind: 'ratio', percent: true, digits: 1, computed: true, note: 'of the line, by what is needed' },
  ...budgetDays.map(({ column }): TableColumn => ({ header: column, kind: 'date', computed: true })),
  { header: 'Goods', ...bookMoney, computed: true },
  { header: 'Freight and charges', ...bookMoney, computed: true },
  { header: 'Budgeted', ...bookMoney, computed: true, note: 'raised by the yearly escalation' },
];

/** `days` is where the schedule's days stand. */
export function lineTable(schedule: OrderSchedule, { payers, lines }: OrderBudget, days: TableCells): Table {
  const { cells, purchases, order } = schedule.figures;
  const own = new TableCells(budgetNames.lines, lineColumns, lines.length);
  return {
    name: budgetNames.lines,
    columns: lineColumns,
    keys: 4,
    currency: order.offered.currency,
    rows: lines.map(({ row, payer, ofJoints, share, goods, charges, budgeted }, record): TableCell[] => {
      const at = (header: string): string => own.cell(header, record);
      const { site = '', centre = '', area = '' } = payers[payer] ?? {};
      const purchase = schedule.rows[row]?.record ?? 0;
      const ofOrder = (header: string): string => `INDEX(${cells.list.column(header)},${at('Order no.')})`;
      const ofSchedule = (header: string): string => `INDEX(${days.column(header)},${at('Schedule no.')})`;
      const ofPurchase = (header: string): string => `INDEX(${cells.purchases.column(header)},${at('Purchase no.')})`;
      const { needs } = cells;
      const taken =
        `SUMPRODUCT((${needs.column('No.')}=${at('Order no.')})*EXACT(${needs.column('Area')},${at('Area')})*` +
        `EXACT(${needs.column('Site')},${at('Site')})*${needs.column('Quantity')})/${ofOrder('Need')}`;
      const forShelf = `${ofOrder('For shelf')}/${ofOrder('To order')}`;
      return [
        row + 1,
        purchase + 1,
        (purchases[purchase]?.line ?? 0) + 1,
        payer + 1,
        site,
        centre,
        area,
        formula(
          ofJoints
            ? `IF(${ofOrder('To order')}=0,1,1-${forShelf})*${taken}`
            : `IF(${ofOrder('To order')}=0,0,${forShelf})`,
          share,
        ),
        ...budgetDays.map(({ column, dayOf }) => formula(ofSchedule(column), dayOf(schedule, row))),
        formula(`${at('Share')}*${ofPurchase('Cost')}`, goods),
        formula(`${at('Share')}*${ofPurchase('Freight and charges')}`, charges),
        formula(`${at('Share')}*${ofSchedule('Budgeted')}`, budgeted),
      ];
    }),
  };
}
