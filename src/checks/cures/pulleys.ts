import { standardPulleys } from '../../functions/tables.ts';
import { assumptionValues } from '../../../sheets/values/assumptions.ts';
import { type Belt, beltColumn, type Change } from '../../records/belt.ts';
import type { DecidingPulley } from '../../records/belt-pulleys.ts';
import { amount, listed } from '../../sheet/words.ts';
import { type Cure, cures, marginToKeep, outcome, type Sought, tried, untried } from './sought.ts';

/** Cures by a larger pulley, or one of a group with less tension. */

/** The standard diameters are whole millimetres: a book in inches is told why its figures are odd. */
const standardDiameter = ({ units }: Belt): string =>
  units === 'metric' ? 'standard diameter' : 'metric standard diameter';

/** A standard diameter in the book's unit, and in mm where that is another. */
function standardWords(belt: Belt, diameter: number): string {
  const own = amount(diameter / (belt.named('MillimetresPerShort') ?? 1), beltColumn('Smallest pulley'), belt.units);
  return belt.units === 'metric' ? own : `${own} (${diameter} mm)`;
}

/**
 * The next standard pulley that cures, in mm and in the book's unit; in the place of a listed one where that decides.
 */
export function standardPulleyCure(sought: Sought, place?: DecidingPulley): Cure[] {
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
      : [
          {
            text: `Fit a ${place.name} pulley of ${standardWords(belt, least)} or more (${standardDiameter(belt)}).`,
            // A larger pulley lets no other check fail.
            effect: 'cures',
          },
        ];
  }
  const change = (diameter: number): Change => ({ inputs: { 'Smallest pulley': diameter / millimetres } });
  const diameter = standardPulleys.find(
    (standard) => standard / millimetres > (belt.number('Smallest pulley') ?? 0) && cures(sought, change(standard)),
  );
  if (diameter === undefined)
    return sought.verdict !== 'fails'
      ? []
      : [untried(`No standard pulley is large enough: the largest is ${standardPulleys.at(-1) ?? 0} mm.`)];
  return [
    tried(
      sought,
      change(diameter),
      `Fit a pulley of ${standardWords(belt, diameter)} or more (next ${standardDiameter(belt)}): ` +
        `${outcome(sought, change(diameter))}.`,
    ),
  ];
}

const groupWords: Readonly<Record<string, string>> = {
  A: 'a drive or high-tension pulley (group A)',
  B: 'a low-tension bend (group B)',
  C: 'a snub (group C)',
};

/**
 * Groups of the pulley that have less tension, for which the carcass check would pass. Which group it is of is a
 * fact of this one pulley: PulleyGroup, which counts for all belts, is never the cure.
 */
export function otherGroups(sought: Sought): Cure[] {
  const groups = assumptionValues.find(({ name }) => name === 'PulleyGroup')?.choices ?? [];
  const present = sought.belt.book.named('PulleyGroup');
  const passing = groups.filter((group) => group !== present && cures(sought, { named: { PulleyGroup: group } }));
  const [first] = passing;
  if (first === undefined) return [];
  return [
    untried(
      `If that pulley is ${listed(
        passing.map((group) => groupWords[group] ?? `of group ${group}`),
        'or',
      )}, enter it ` +
        `in the sheet Pulleys with its group, beside the belt's other pulleys: ` +
        `${outcome(sought, { named: { PulleyGroup: first } })}.`,
    ),
  ];
}
