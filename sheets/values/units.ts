import { namedValues, type NameIn } from '../../src/sheet/declaration.ts';
import { foot, inch, pound, poundForce } from '../../src/units/quantities.ts';

/**
 * Named values by which formulas mix kinds of quantity; their numbers depend on the book's unit system, their names do
 * not. Source: NIST SP 811.
 */
const source = 'NIST SP 811';

export const unitValues = namedValues([
  { name: 'ShortPerLong', kind: 'number', value: { metric: 1000, us: 12 }, doc: 'mm per m | in per ft', source },
  {
    name: 'PullPerPower',
    kind: 'number',
    value: { metric: 1000, us: 33000 },
    doc: 'N per kW/(m/s) | lbf per hp/(ft/min)',
    source,
  },
  {
    name: 'TravelPerHour',
    kind: 'number',
    value: { metric: 3600, us: 60 },
    doc: 'm/h per m/s | ft/h per ft/min',
    source,
  },
  {
    name: 'LoadPerRate',
    kind: 'number',
    value: { metric: 1 / 3.6, us: 2000 / 60 },
    doc: 'kg/m per (t/h)/(m/s) | lb/ft per (short ton/h)/(ft/min)',
    source,
  },
  {
    name: 'Gravity',
    kind: 'number',
    value: { metric: 9.81, us: 1 },
    doc: 'N per kg | lbf per lb',
    source: 'definition of standard gravity, rounded to 9.81 m/s² in metric books; a pound weighs a pound-force',
  },
  {
    name: 'ForcePerAcceleration',
    kind: 'number',
    value: { metric: 1, us: (pound * foot) / poundForce },
    doc: 'N per kg m/s² | lbf per lb ft/s²',
    source,
  },
  { name: 'MetresPerLong', kind: 'number', value: { metric: 1, us: foot }, doc: 'm per m | m per ft', source },
  { name: 'MillimetresPerShort', kind: 'number', value: { metric: 1, us: inch }, doc: 'mm per mm | mm per in', source },
  { name: 'OneMetre', kind: 'number', value: { metric: 1, us: 1 / foot }, doc: 'm | ft in a metre', source },
  {
    name: 'TensionPerMetric',
    kind: 'number',
    value: { metric: 1, us: 1 / (poundForce / inch) },
    doc: 'N/mm per N/mm | lbf/in per N/mm',
    source,
  },
]);

/** Each named value's dimension: what a formula multiplies by. */
export const unitDimensions: Readonly<Record<NameIn<typeof unitValues>, Readonly<Record<string, number>>>> = {
  ShortPerLong: { S: 1, L: -1 },
  PullPerPower: { F: 1, V: 1, P: -1 },
  TravelPerHour: { L: 1, V: -1, T: -1 },
  LoadPerRate: { M: 1, L: -1, V: 1, R: -1 },
  Gravity: { F: 1, M: -1 },
  ForcePerAcceleration: { F: 1, M: -1, acceleration: -1 },
  MetresPerLong: { metre: 1, L: -1 },
  MillimetresPerShort: { mm: 1, S: -1 },
  OneMetre: { L: 1 },
  TensionPerMetric: { F: 1, S: -1, metricTension: -1 },
};
