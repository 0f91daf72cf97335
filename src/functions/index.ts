import type { EngineeringFunction } from '../formula/define.ts';
import * as belt from './belt.ts';
import * as beltOrder from './belt-order.ts';
import * as buying from './buying.ts';
import { leastCheck, mostCheck, rangeCheck, worstVerdict } from './checks.ts';
import * as construction from './construction.ts';
import * as layout from './cut.ts';
import * as lengths from './lengths.ts';
import * as life from './life.ts';
import { loadArea, slopeAngle } from './load-section.ts';
import * as path from './path.ts';
import * as plateEdges from './plate-edges.ts';
import * as plates from './plates.ts';
import * as pulleys from './pulleys.ts';
import { jointPulley, ratedPulley, serviceCheck } from './series.ts';
import * as slack from './slack.ts';
import { tableValue } from './table-value.ts';
import * as tension from './tension.ts';

/**
 * Functions in the order of their names: what a module exports comes in another order from the source than from a
 * bundle.
 */
const byName = (...definitions: readonly EngineeringFunction[]): EngineeringFunction[] =>
  definitions.toSorted((one, other) => (one.name < other.name ? -1 : 1));

/** Every engineering function, by subject; the order is that of help and of the Functions sheet. */
export const subjects: readonly { readonly subject: string; readonly functions: readonly EngineeringFunction[] }[] = [
  { subject: 'Cut', functions: byName(...Object.values(layout)) },
  { subject: 'Plates', functions: byName(...Object.values(plates), ...Object.values(plateEdges)) },
  {
    subject: 'Pulleys',
    functions: byName(...Object.values(pulleys), jointPulley, ratedPulley, ...Object.values(construction)),
  },
  { subject: 'Belt', functions: byName(...Object.values(belt), loadArea, slopeAngle) },
  { subject: 'Tension', functions: byName(...Object.values(tension), ...Object.values(slack)) },
  {
    subject: 'Lengths',
    functions: byName(...Object.values(lengths), ...Object.values(path), ...Object.values(beltOrder)),
  },
  { subject: 'Life', functions: byName(...Object.values(life)) },
  { subject: 'Buying', functions: byName(...Object.values(buying)) },
  { subject: 'Tables', functions: byName(tableValue) },
  { subject: 'Verdicts', functions: byName(leastCheck, mostCheck, rangeCheck, serviceCheck, worstVerdict) },
];

export const functions: readonly EngineeringFunction[] = subjects.flatMap((subject) => subject.functions);
