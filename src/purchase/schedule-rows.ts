import { OrderFigures } from '../order/order-figures.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { purchaseOrders, type PurchaseOrderLine } from '../order/purchase-orders.ts';
import { assumed } from '../records/assumed.ts';
import { isoDate, serialOf } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type LineDays, lineDays } from './delivery-days.ts';
import { supplierAddresses } from './supplier-address.ts';

/** When each line of an order must be ordered, comes and is paid, and what is budgeted for it. */

export interface ScheduleRow {
  /** Of the sheet Purchases. */
  readonly record: number;
  readonly supplier: string;
  readonly line: PurchaseOrderLine;
  readonly days: LineDays;
  /** Day on which it is ordered: the latest that will do, or today. */
  readonly ordered: number;
  readonly paymentDays: number;
  readonly cost: number;
  /** Cost, raised by the yearly escalation up to the day of the order. */
  readonly budgeted: number;
}

export interface OrderSchedule {
  /** Of the order. */
  readonly day: number;
  /** Days that goods are wanted before their joint is due. */
  readonly margin: number;
  /** Yearly rise of prices, as a share. */
  readonly escalation: number;
  readonly rows: readonly ScheduleRow[];
  readonly figures: OrderFigures;
}

/** The first day of a day's month. */
export function monthOf(day: number): number {
  const [year = 0, month = 1] = isoDate(day).split('-').map(Number);
  return serialOf(year, month, 1) ?? day;
}

export const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** The lines of an order, supplier by supplier. */
export function orderSchedule(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): OrderSchedule {
  const figures = new OrderFigures(order, supplied, book.units);
  const { day: counted, orders } = purchaseOrders(book, order, supplied);
  const day = Math.floor(counted);
  const [margin, escalation] = [assumed(book, 'DeliveryMargin'), assumed(book, 'PriceEscalation')];
  const addressOf = supplierAddresses(book);
  const { purchases, supply } = figures;
  const rows = orders.flatMap(({ supplier, lines }): ScheduleRow[] => {
    const own = supply.purchases.filter((purchase) => purchase.supplier === supplier);
    const { paymentDays } = addressOf(supplier);
    return lines.flatMap((line, place) => {
      const record = purchases.findIndex(({ purchase }) => purchase === own[place]);
      const found = purchases[record];
      if (found === undefined) return [];
      const days = lineDays(line, { day, margin, paymentDays });
      const cost = found.purchase.cost + figures.chargesOn(found.purchase);
      const ordered = Math.max(day, days.orderBy);
      const budgeted = cost * (1 + escalation) ** ((ordered - day) / 365.25);
      return { record, supplier, line, days, ordered, paymentDays, cost, budgeted };
    });
  });
  return { day, margin, escalation, rows, figures };
}
