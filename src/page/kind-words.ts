import { quantities, type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';

/** What a column or a cell of the user's own may hold, in words to choose from. */

/** Kinds that a planner's own figures have; the others are of the program's own columns. */
const words = {
  text: 'text, or what is typed',
  number: 'number',
  count: 'whole number',
  money: 'money',
  date: 'date',
  length: 'length',
  distance: 'distance',
  area: 'area',
  angle: 'angle',
  force: 'force',
  lineTension: 'tension across the width',
  power: 'power',
  speed: 'speed',
  capacity: 'capacity',
  mass: 'mass',
  lineMass: 'mass along the length',
  bulkDensity: 'bulk density',
  acceleration: 'acceleration',
  hours: 'hours',
  hoursPerYear: 'hours a year',
  daysPerYear: 'days a year',
  perYear: 'times a year',
  frequency: 'times an hour',
  moneyPerHour: 'money an hour',
  moneyPerLength: 'money along the length',
} as const satisfies Partial<Record<QuantityKind, string>>;

interface KindChoice {
  /** The kind, or 'percent' for a number that is shown so. */
  readonly value: string;
  readonly says: string;
}

const isKind = (value: string): value is QuantityKind => Object.hasOwn(quantities, value);

export function kindChoices(units: UnitSystem): readonly KindChoice[] {
  const chosen = Object.entries(words).map(([value, says]) => {
    const unit = isKind(value) ? unitOf(value, units) : '';
    return { value, says: unit === '' ? says : `${says} (${unit})` };
  });
  return chosen.toSpliced(3, 0, { value: 'percent', says: 'percent' });
}

export const chosenKind = ({ kind, percent }: { readonly kind: QuantityKind; readonly percent?: true }): string =>
  percent === true ? 'percent' : kind;

/** What a choice makes of a column or a cell. */
export const kindOf = (value: string): { readonly kind: QuantityKind; readonly percent?: true } =>
  value === 'percent' ? { kind: 'number', percent: true } : { kind: isKind(value) ? value : 'text' };
