import { isFault, type Value } from '../formula/values.ts';
import type { Belt } from '../records/belt.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import { standardSteps, stepHeaders, type StepRow } from '../../sheets/work/standard-steps.ts';
import { shownValue, type ShowValue, type StepValue, type StepValues } from '../job/step-places.ts';
import { type LengthUnit, tapeText } from '../drawing/tape.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** One belt's values as a card needs them: a cell that holds an error or nothing is not known. */

const plain = (value: Value): StepValue =>
  isFault(value) || value === '' ? undefined : typeof value === 'boolean' ? String(value) : value;

/** Places of the steps' texts that are columns of Belts, and of Plate series. */
const ofBelts = [
  'Belt',
  'Plate series',
  'Width',
  'Thickness',
  'Skew',
  'Cut length',
  'Edge offset',
  'Belt lost to skew',
  'Joint takes',
  'Travel needed',
  'Take-up travel',
  'Plates',
  'Bolts',
  'Bolt length',
  'Edge clearance',
  'Skive depth',
  'Clamped thickness',
  'Strip length each',
  'Smallest pulley',
] as const;
const ofSeries = ['Punch size', 'Hole setback', 'Pitch'] as const;

/** Values for the places in the steps' texts, by the names of the places. */
export function stepValues(belt: Belt): StepValues {
  const holes = belt.number('Holes');
  return {
    ...Object.fromEntries(ofBelts.map((name) => [name, plain(belt.value(name))])),
    ...Object.fromEntries(ofSeries.map((name) => [name, plain(belt.ofSeries(name))])),
    'Skew hand': belt.text('Skew hand') === 'left' ? 'left' : 'right',
    'Holes per end': holes === undefined ? undefined : holes / 2,
    'Strip pieces': belt.number('Strips'),
    'Strips below': plain(belt.ofSeries('Strips laid below')),
    'Strips above': plain(belt.ofSeries('Strips laid above')),
    'First hours': belt.named('FirstHours'),
  };
}

export const lengthUnit = (units: UnitSystem): LengthUnit => (units === 'metric' ? 'mm' : 'in');

/** Lengths that a tape measures as a tape shows them, all others in decimals. */
export const tapeValue: ShowValue = (value, place, units) =>
  place.kind === 'length' && place.digits?.metric === 0
    ? tapeText(value, lengthUnit(units))
    : shownValue(value, place, units);

/** The rows of the book's Steps sheet; the standard ones for a book that has none. */
export function stepRows(book: Workbook): readonly StepRow[] {
  const sheet = book.state.sheets.find(({ name }) => name === stepsSheet.name);
  if (sheet === undefined) return standardSteps;
  return sheet.rows.map((_, record) =>
    Object.fromEntries(
      stepHeaders.map((header) => [header, plain(book.read(stepsSheet.name, record, header)) ?? null]),
    ),
  );
}
