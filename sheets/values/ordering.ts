import { namedValues } from '../../src/sheet/declaration.ts';

/** Named values of orders: days kept in hand, days to pay, and how prices rise. */
export const orderingValues = namedValues([
  {
    name: 'DeliveryMargin',
    kind: 'number',
    value: 7,
    min: 0,
    max: 365,
    doc: 'days by which goods are wanted before the first joint that needs them is due',
    source: 'our choice, no effect on safety: enter your own',
  },
  {
    name: 'PaymentTerms',
    kind: 'number',
    value: 30,
    min: 0,
    max: 365,
    doc: 'days from delivery to payment, of suppliers that give none',
    source: 'common practice, no source',
  },
  {
    name: 'PriceEscalation',
    kind: 'ratio',
    value: 0,
    min: -0.5,
    max: 1,
    doc: 'yearly rise of prices that the budget counts with, from the day of the order on',
    source: 'our choice, no effect on safety: enter your own',
  },
]);
