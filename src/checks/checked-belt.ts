import type { Belt } from '../records/belt.ts';
import { carcassPulleyOf, jointPulleyOf } from '../records/belt-pulleys.ts';
import type { CheckedBelt } from '../../sheets/belts/check-declaration.ts';

/** A belt of a book as the words of its checks read it. */
export const checkedBelt = (belt: Belt): CheckedBelt => ({
  units: belt.units,
  series: String(belt.value('Plate series')),
  number: (header) => belt.number(header),
  text: (header) => belt.text(header),
  shown: (header) => belt.shown(header),
  ofSeries: (header) => belt.ofSeries(header),
  pulley: (decides) => (decides === 'joint' ? jointPulleyOf(belt) : carcassPulleyOf(belt)),
});
