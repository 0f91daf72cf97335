import { monthOf, type OrderSchedule } from './schedule-rows.ts';

/** The days by which an order is budgeted. */
export interface BudgetDay {
  /** What money is called that falls on it. */
  readonly header: 'Ordered' | 'Delivered' | 'Paid';
  /** The schedule's column. */
  readonly column: 'Order day' | 'Delivery' | 'Payment';
  readonly note: string;
  readonly dayOf: (schedule: Pick<OrderSchedule, 'rows'>, row: number) => number;
}

export const budgetDays: readonly BudgetDay[] = [
  {
    header: 'Ordered',
    column: 'Order day',
    note: 'by the order day',
    dayOf: ({ rows }, row) => rows[row]?.ordered ?? 0,
  },
  {
    header: 'Delivered',
    column: 'Delivery',
    note: 'by the day of delivery',
    dayOf: ({ rows }, row) => rows[row]?.days.delivery ?? 0,
  },
  {
    header: 'Paid',
    column: 'Payment',
    note: 'by the day of payment',
    dayOf: ({ rows }, row) => rows[row]?.days.payment ?? 0,
  },
];

/** The first days of all months that anything falls into. */
export const monthsOf = (schedule: Pick<OrderSchedule, 'rows'>): number[] =>
  [
    ...new Set(schedule.rows.flatMap((_, row) => budgetDays.map(({ dayOf }) => monthOf(dayOf(schedule, row))))),
  ].toSorted((one, other) => one - other);
