import { assumptionValues } from '../../../sheets/values/assumptions.ts';
import { type Belt, beltColumn } from '../../records/belt.ts';
import type { Asking, Trying } from '../../records/belt-trials.ts';
import type { DecidingPulley } from '../../records/belt-pulleys.ts';
import { usualPulleys } from '../../records/usual-pulleys.ts';
import { amount, listed } from '../../sheet/words.ts';
import { type Cure, curing, known, marginToKeep, outcome, type Sought, tried, untried } from './sought.ts';

/** Cures by a larger pulley, or one of a group with less tension. */

const standardDiameter = ({ units }: Belt): string =>
  units === 'metric' ? 'standard diameter' : 'usual inch diameter';

const inWords = (belt: Belt, diameter: number): string => amount(diameter, beltColumn('Smallest pulley'), belt.units);

const placedPulleys = ['Smallest pulley', 'Head pulley', 'Tail pulley'] as const;
type PlacedPulley = (typeof placedPulleys)[number];

/** Which pulleys are to be as large, where it is not the smallest alone. */
const asWhich = (headers: readonly PlacedPulley[]): string =>
  headers.every((header) => header === 'Smallest pulley')
    ? ''
    : ` as ${listed(headers.map((header) => header.replace(' pulley', '').toLowerCase()))} pulley`;

/**
 * The next pulley of the usual diameters that cures; in the place of a listed one where that decides.
 */
export function* standardPulleyCure(sought: Sought, place?: DecidingPulley): Asking<Cure[]> {
  const { belt } = sought;
  const usual = usualPulleys(belt);
  if (place !== undefined) {
    const margin = marginToKeep(sought);
    const least =
      place.least === undefined ? undefined : usual.find((standard) => standard >= (place.least ?? 0) * (1 + margin));
    return least === undefined
      ? []
      : [
          {
            text: `Fit a ${place.name} pulley of ${inWords(belt, least)} or more (${standardDiameter(belt)}).`,
            // A larger pulley lets no other check fail.
            effect: 'cures',
          },
        ];
  }
  const present = belt.number('Smallest pulley used') ?? 0;
  const below = (limit: number): readonly PlacedPulley[] =>
    placedPulleys.filter((header) => (belt.number(header) ?? limit) < limit);
  const enlarged = (headers: readonly PlacedPulley[], diameter: number): Trying => ({
    inputs: Object.fromEntries(headers.map((header) => [header, diameter])),
  });
  // Those that are as small as the smallest, or all that are smaller than the new one.
  const choices = usual
    .filter((standard) => standard > present)
    .flatMap((diameter) => [below(present * (1 + 1e-9)), below(diameter)].map((headers) => ({ diameter, headers })));
  let found: (typeof choices)[number] | undefined;
  for (const choice of choices) {
    [found] = yield* curing(sought, [choice], (one) => enlarged(one.headers, one.diameter));
    if (found === undefined) continue;
    break;
  }
  if (found === undefined)
    return sought.verdict !== 'fails'
      ? []
      : [untried(`No ${standardDiameter(belt)} is large enough: the largest is ${inWords(belt, usual.at(-1) ?? 0)}.`)];
  const { diameter, headers } = found;
  const change = enlarged(headers, diameter);
  yield* known(belt, [change]);
  return [
    tried(
      sought,
      change,
      `Fit a pulley of ${inWords(belt, diameter)} or more${asWhich(headers)} (next ${standardDiameter(belt)}): ` +
        `${outcome(sought, change)}.`,
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
export function* otherGroups(sought: Sought): Asking<Cure[]> {
  const groups = assumptionValues.find(({ name }) => name === 'PulleyGroup')?.choices ?? [];
  const present = sought.belt.book.named('PulleyGroup');
  const named = (group: string | number): Trying => ({ named: { PulleyGroup: group } });
  const others = groups.filter((group) => group !== present);
  const passing = yield* curing(sought, others, named);
  const [first] = passing;
  if (first === undefined) return [];
  yield* known(sought.belt, [named(first)]);
  return [
    untried(
      `If that pulley is ${listed(
        passing.map((group) => groupWords[group] ?? `of group ${group}`),
        'or',
      )}, enter it ` +
        `in the sheet Pulleys with its group, beside the belt's other pulleys: ` +
        `${outcome(sought, named(first))}.`,
    ),
  ];
}
