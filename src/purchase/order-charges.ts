import type { OrderDocument } from './order-document.ts';

/** What a supplier charges beside the goods, as an order's audit lists it. */

export const chargeNames = {
  freight: 'Freight per delivery',
  deliveries: 'Deliveries',
  freightFreeFrom: 'Freight free from',
  surcharge: 'Surcharge',
  surchargeBelow: 'Surcharge below',
  firstFrom: 'Discount 1 from',
  firstShare: 'Discount 1',
  secondFrom: 'Discount 2 from',
  secondShare: 'Discount 2',
  taxRate: 'Tax rate',
} as const;

export const charges = ({
  terms,
  site,
  order,
}: OrderDocument): Readonly<Record<keyof typeof chargeNames, number | undefined>> => ({
  freight: terms.freight ?? 0,
  deliveries: order.deliveries,
  freightFreeFrom: terms.freightFreeFrom,
  surcharge: terms.surcharge,
  surchargeBelow: terms.surchargeBelow,
  firstFrom: terms.discounts?.[0]?.from,
  firstShare: terms.discounts?.[0]?.share,
  secondFrom: terms.discounts?.[1]?.from,
  secondShare: terms.discounts?.[1]?.share,
  taxRate: site.taxRate,
});
