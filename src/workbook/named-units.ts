import { quantities, type QuantityKind } from '../units/quantities.ts';

/** What a unit that stands beside a named value of the user's measures. */

const isKind = (name: string): name is QuantityKind => Object.hasOwn(quantities, name);

/** Of kinds that are written alike the first counts: the unit is all that is known of such a value. */
const kinds = new Map<string, QuantityKind>(
  Object.entries(quantities)
    .toReversed()
    .flatMap(([kind, { metric, us }]) =>
      isKind(kind) ? [metric, us].flatMap((unit) => (unit === '' ? [] : [[unit, kind] as const])) : [],
    ),
);
/** A day has no unit that one could write, so its value says so itself. */
const dayUnit = 'date';

/** The kind of quantity that a unit measures; 'number' for one that neither system writes. */
export const namedUnitKind = (unit: string): QuantityKind =>
  unit.trim() === dayUnit ? 'date' : (kinds.get(unit.trim()) ?? 'number');
