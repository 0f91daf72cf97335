import { declareSheet } from '../../src/sheet/declaration.ts';
import { itemColumns } from './offers.ts';

/** How badly an item is missed, with the assumption that holds the service asked for it. */
export const criticalities = { critical: 'ServiceCritical', normal: 'ServiceNormal', low: 'ServiceLow' } as const;

/**
 * What lies on the shelf and is on order, a bin a row; an item may have several, and is ordered by the figures of its
 * first.
 */
export const shelf = declareSheet({
  name: 'Shelf',
  purpose: 'What is on the shelf and on order, bin by bin, and how long a new order takes',
  record: 'bin',
  key: 'Bin',
  columns: [
    { header: 'Bin', kind: 'text', doc: 'storage place; different for each row' },
    ...itemColumns,
    { header: 'On shelf', kind: 'count', min: 0, doc: 'pieces; rolls or offcuts of strip and belt' },
    {
      header: 'Length each',
      kind: 'distance',
      above: 0,
      digits: 1,
      doc: 'length of one roll or offcut of strip or belt; blank for the rest',
    },
    { header: 'On order', kind: 'count', min: 0, doc: 'pieces, or rolls of that length, ordered but not received' },
    {
      header: 'Lead time',
      formerly: 'Lead days',
      kind: 'number',
      above: 0,
      digits: 0,
      doc: 'days from order to shelf; blank: LeadTime',
    },
    {
      header: 'Lead time deviation',
      formerly: 'Lead spread',
      kind: 'number',
      min: 0,
      digits: 0,
      doc: 'standard deviation of the lead time in days; blank: 0',
    },
    {
      header: 'Criticality',
      kind: 'text',
      choices: Object.keys(criticalities),
      formerWords: { usual: 'normal' },
      doc: 'criticality, which sets the target service level; blank: normal',
    },
    { header: 'Order cost', kind: 'money', min: 0, digits: 2, doc: 'cost of placing one order; blank: OrderCost' },
    {
      header: 'Per joint',
      kind: 'number',
      above: 0,
      digits: 2,
      doc: 'quantity of a consumable per joint; blank for the rest',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
