import type { EngineeringFunction } from '../formula/define.ts';
import * as belt from './belt.ts';
import * as beltOrder from './belt-order.ts';
import * as buying from './buying.ts';
import { leastCheck, mostCheck, rangeCheck, worstVerdict } from './checks.ts';
import * as construction from './construction.ts';
import * as layout from './layout.ts';
import * as lengths from './lengths.ts';
import * as life from './life.ts';
import * as path from './path.ts';
import * as plates from './plates.ts';
import * as pulleys from './pulleys.ts';
import { jointPulley, serviceCheck } from './series.ts';
import * as slack from './slack.ts';
import * as tension from './tension.ts';

/** Every engineering function, by subject; the order is that of help and of the Functions sheet. */
export const subjects: readonly { readonly subject: string; readonly functions: readonly EngineeringFunction[] }[] = [
  { subject: 'Cut', functions: Object.values(layout) },
  { subject: 'Plates', functions: Object.values(plates) },
  { subject: 'Pulleys', functions: [...Object.values(pulleys), jointPulley, ...Object.values(construction)] },
  { subject: 'Belt', functions: Object.values(belt) },
  { subject: 'Tension', functions: [...Object.values(tension), ...Object.values(slack)] },
  { subject: 'Lengths', functions: [...Object.values(lengths), ...Object.values(path), ...Object.values(beltOrder)] },
  { subject: 'Life', functions: Object.values(life) },
  { subject: 'Buying', functions: Object.values(buying) },
  { subject: 'Verdicts', functions: [leastCheck, mostCheck, rangeCheck, serviceCheck, worstVerdict] },
];

export const functions: readonly EngineeringFunction[] = subjects.flatMap((subject) => subject.functions);
