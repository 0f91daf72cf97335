import type { PurchaseOrderLine } from '../order/purchase-orders.ts';

/** When a line must be ordered, comes and is paid: serial numbers of days. */
export interface LineDays {
  /** Latest day of the order: wanted, less the margin and the lead time; today where no joint waits for it. */
  readonly orderBy: number;
  /** When it is asked for. */
  readonly delivery: number;
  readonly payment: number;
  /** Days that an order of today comes after it is wanted; 0 when it comes in time. */
  readonly late: number;
}

interface DayTerms {
  /** Day of the order. */
  readonly day: number;
  /** Days that goods are wanted before their joint is due. */
  readonly margin: number;
  readonly paymentDays: number;
}

/**
 * The days of a line.
 *
 * It is asked for the margin before its first joint is due, or as soon as the lead time allows; what no joint waits
 * for comes a lead time from now. Late is what comes after the joint's own day: the margin may be used up.
 */
export function lineDays(
  { wanted, leadDays }: Pick<PurchaseOrderLine, 'wanted' | 'leadDays'>,
  { day, margin, paymentDays }: DayTerms,
): LineDays {
  const lead = Math.ceil(leadDays);
  const soonest = day + lead;
  if (wanted === undefined) return { orderBy: day, delivery: soonest, payment: soonest + paymentDays, late: 0 };
  const needed = Math.floor(wanted);
  const asked = Math.max(needed - margin, soonest);
  return {
    orderBy: needed - margin - lead,
    delivery: asked,
    payment: asked + paymentDays,
    late: Math.max(0, soonest - needed),
  };
}
