import { carcassPulleyOf, jointPulleyOf } from '../../records/belt-pulleys.ts';
import type { Asking } from '../../records/belt-trials.ts';
import type { CureKind } from '../../../sheets/belts/check-declaration.ts';
import { beltCarries, insertedBelt, neededTravel, plateCarries, renewed, seriesCarries, skiveRange } from './inputs.ts';
import { otherGroups, standardPulleyCure } from './pulleys.ts';
import { otherSeries } from './series.ts';
import { greatestSkewCure, leastSkew, nearestSkews } from './skews.ts';
import type { Cure, Sought } from './sought.ts';

/** How each kind of cure that a check may name is found: its cures, or a search for them; none where it is no use. */
export const cureKinds: Readonly<Record<CureKind, (sought: Sought) => Asking<readonly Cure[]> | readonly Cure[]>> = {
  'minimum skew': leastSkew,
  'maximum skew': greatestSkewCure,
  'nearest skews': nearestSkews,
  'other series': otherSeries,
  'larger pulley for the joint': (sought) => standardPulleyCure(sought, jointPulleyOf(sought.belt)),
  'larger pulley for the carcass': (sought) => standardPulleyCure(sought, carcassPulleyOf(sought.belt)),
  'other pulley group': otherGroups,
  skive: skiveRange,
  'lower tension': seriesCarries,
  'lower tension for the belt': beltCarries,
  'lower tension for a plate': plateCarries,
  'more take-up travel': neededTravel,
  insert: insertedBelt,
  'new joint': renewed,
};
