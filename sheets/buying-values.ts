import type { NamedValue } from '../src/sheet/declaration.ts';

/** Named values of buying: allowances, cutting, stock, and what a year costs. */
const invented = 'invented for the demo: enter your own';
const chosen = 'chosen';

export const buyingValues: readonly NamedValue[] = [
  { name: 'PlateAllowance', kind: 'ratio', value: 0.02, min: 0, max: 1, doc: 'plates ordered on top of the need, for what is spoilt', source: chosen },
  { name: 'BoltAllowance', kind: 'ratio', value: 0.05, min: 0, max: 1, doc: 'bolts ordered on top of the need', source: chosen },
  { name: 'StripAllowance', kind: 'ratio', value: 0.03, min: 0, max: 1, doc: 'strip ordered on top of the need; the cutting plan counts its own waste', source: chosen },
  { name: 'PunchLife', kind: 'count', value: 1500, min: 1, doc: 'holes that a punch makes before it is blunt', source: invented },
  { name: 'SawLoss', kind: 'length', value: { metric: 3, us: 0.125 }, min: 0, doc: 'strip or belt that one cut takes', source: 'common practice, no source' },
  { name: 'KeepFrom', kind: 'distance', value: { metric: 1.5, us: 5 }, above: 0, doc: 'offcuts at least this long go back to the shelf', source: chosen },
  { name: 'LeadDays', kind: 'number', value: 21, above: 0, max: 2000, doc: 'days from order to shelf, where the shelf does not say', source: invented },
  { name: 'OrderCost', kind: 'money', value: 45, min: 0, doc: 'of placing one order, where the shelf does not say', source: invented },
  { name: 'HoldingShare', kind: 'ratio', value: 0.2, min: 0, max: 1, doc: 'share of its price that keeping an item costs in a year', source: invented },
  { name: 'ServiceCritical', kind: 'ratio', value: 0.99, min: 0.5, max: 0.9999, doc: 'chance of no shortage in one lead time, of critical items', source: chosen },
  { name: 'ServiceUsual', kind: 'ratio', value: 0.95, min: 0.5, max: 0.9999, doc: 'the same of usual items', source: chosen },
  { name: 'ServiceLow', kind: 'ratio', value: 0.8, min: 0.5, max: 0.9999, doc: 'the same of items that can wait', source: chosen },
  { name: 'FailureShare', kind: 'ratio', value: 0.1, min: 0, max: 5, doc: 'joints that fail before their time, as a share of the planned ones', source: invented },
  { name: 'LostPerHour', kind: 'moneyPerHour', value: 400, min: 0, doc: 'production lost while a belt stands', source: invented },
  { name: 'BeltPrice', kind: 'moneyPerLength', value: { metric: 0.09, us: 2.3 }, min: 0, doc: 'of belt, per short length, for what a joint takes of it', source: invented },
  { name: 'SeriesKeeping', kind: 'money', value: 350, min: 0, doc: 'a year, for keeping one plate series: its shelf, punches, training', source: invented },
  { name: 'PulleyChange', kind: 'money', value: 6000, min: 0, doc: 'of fitting a larger pulley where a joint does not pass the one there is', source: invented },
  { name: 'PulleyYears', kind: 'number', value: 12, above: 0, max: 100, doc: 'years that such a pulley serves', source: invented },
  { name: 'Interest', kind: 'ratio', value: 0.06, min: 0, max: 1, doc: 'a year, on money spent for years ahead', source: chosen },
];
