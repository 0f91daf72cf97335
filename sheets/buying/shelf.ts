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
  purpose: 'Stock on the shelf and on order, bin by bin, with lead times',
  record: 'bin',
  key: 'Bin',
  columns: [
    { header: 'Bin', kind: 'text', doc: 'storage place; each bin has its own name' },
    ...itemColumns,
    { header: 'On shelf', kind: 'count', min: 0, doc: 'number of pieces, or of rolls or offcuts of strip and belt' },
    {
      header: 'Length each',
      kind: 'distance',
      above: 0,
      digits: 1,
      doc: 'length of one roll or offcut of strip or belt; blank for other items',
    },
    {
      header: 'On order',
      kind: 'count',
      min: 0,
      doc: 'number of pieces, or of rolls of that length, not yet delivered',
    },
    {
      header: 'Lead time',
      formerly: 'Lead days',
      kind: 'number',
      above: 0,
      digits: 0,
      doc: 'days from order to delivery; default: LeadTime',
    },
    {
      header: 'Lead time deviation',
      formerly: 'Lead spread',
      kind: 'number',
      min: 0,
      digits: 0,
      doc: 'standard deviation of the lead time, in days; default: 0',
    },
    {
      header: 'Criticality',
      kind: 'text',
      choices: Object.keys(criticalities),
      formerWords: { usual: 'normal' },
      doc: 'effect of a shortage; sets the target service level; default: normal',
    },
    { header: 'Order cost', kind: 'money', min: 0, digits: 2, doc: 'cost of placing one order; default: OrderCost' },
    {
      header: 'Per joint',
      kind: 'number',
      above: 0,
      digits: 2,
      doc: 'quantity of a consumable used per joint; blank for other items',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
