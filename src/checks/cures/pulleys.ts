import { standardPulleys } from '../../functions/tables.ts';
import { assumptionValues } from '../../../sheets/values/assumptions.ts';
import { type Belt, beltColumn, type Change } from '../../records/belt.ts';
import type { DecidingPulley } from '../../records/belt-pulleys.ts';
import { amount, listed } from '../../sheet/words.ts';
import { cures, marginToKeep, outcome, type Sought } from './sought.ts';

/** Cures by a larger pulley, or one that stands for less tension. */

/** A standard diameter in the book's unit, and in mm where that is another. */
function standardWords(belt: Belt, diameter: number): string {
  const own = amount(diameter / (belt.named('MillimetresPerShort') ?? 1), beltColumn('Smallest pulley'), belt.units);
  return belt.units === 'metric' ? own : `${own} (${diameter} mm)`;
}

/**
 * The next standard pulley that cures, in mm and in the book's unit; in the place of a listed one where that decides.
 */
export function standardPulleyCure(sought: Sought, place?: DecidingPulley): string[] {
  const { belt } = sought;
  const millimetres = belt.named('MillimetresPerShort') ?? 1;
  if (place !== undefined) {
    const margin = marginToKeep(sought);
    const least =
      place.least === undefined
        ? undefined
        : standardPulleys.find((standard) => standard / millimetres >= (place.least ?? 0) * (1 + margin));
    return least === undefined
      ? []
      : [`Put in a ${place.name} pulley of at least ${standardWords(belt, least)}, a standard diameter.`];
  }
  const change = (diameter: number): Change => ({ inputs: { 'Smallest pulley': diameter / millimetres } });
  const diameter = standardPulleys.find(
    (standard) => standard / millimetres > (belt.number('Smallest pulley') ?? 0) && cures(sought, change(standard)),
  );
  if (diameter === undefined)
    return sought.verdict !== 'fails'
      ? []
      : [`No standard pulley is large enough: the series ends at ${standardPulleys.at(-1) ?? 0} mm.`];
  return [
    `Put in a pulley of at least ${standardWords(belt, diameter)}, the next standard one that will do: ` +
      `${outcome(sought, change(diameter))}.`,
  ];
}

/** Groups of the pulley that stand for less tension, for which the carcass check would pass. */
export function otherGroups(sought: Sought): string[] {
  const groups = assumptionValues.find(({ name }) => name === 'PulleyGroup')?.choices ?? [];
  const present = sought.belt.book.named('PulleyGroup');
  const passing = groups.filter((group) => group !== present && cures(sought, { named: { PulleyGroup: group } }));
  const [first] = passing;
  if (first === undefined) return [];
  return [
    `If the smallest pulley is of group ${listed(passing, 'or')} (see PulleyGroup in Assumptions, which counts for ` +
      `all belts), it will do: ${outcome(sought, { named: { PulleyGroup: first } })}.`,
  ];
}
