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
    { header: 'Bin', kind: 'text', doc: 'where it lies; each has its own name' },
    ...itemColumns,
    { header: 'On shelf', kind: 'count', min: 0, doc: 'pieces; rolls or offcuts of strip and belt' },
    {
      header: 'Length each',
      kind: 'distance',
      above: 0,
      digits: 1,
      doc: 'of one roll or offcut of strip or belt; blank for the rest',
    },
    { header: 'On order', kind: 'count', min: 0, doc: 'pieces, or rolls of that length, that have not come yet' },
    {
      header: 'Lead time',
      formerly: 'Lead days',
      kind: 'number',
      above: 0,
      digits: 0,
      doc: 'days from order to shelf; LeadTime when it is blank',
    },
    {
      header: 'Lead time deviation',
      formerly: 'Lead spread',
      kind: 'number',
      min: 0,
      digits: 0,
      doc: 'days by which that varies, as a standard deviation; 0 when it is blank',
    },
    {
      header: 'Criticality',
      kind: 'text',
      choices: Object.keys(criticalities),
      formerWords: { usual: 'normal' },
      doc: 'how badly it is missed, which sets the service; normal when it is blank',
    },
    { header: 'Order cost', kind: 'money', min: 0, digits: 2, doc: 'of placing one order; OrderCost when it is blank' },
    {
      header: 'Per joint',
      kind: 'number',
      above: 0,
      digits: 2,
      doc: 'how many of a consumable one joint takes; blank for the rest',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
