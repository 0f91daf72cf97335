import { recordInRow } from '../formula/address.ts';
import { isFault, type Value } from '../formula/values.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader, SeriesHeader, ValueName } from '../../sheets/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import { standardSteps, stepHeaders, type StepRow } from '../../sheets/work/step-list.ts';
import { shownValue, type ShowValue, type StepValue, type StepValues } from '../job/step-places.ts';
import { type LengthUnit, tapeText } from '../drawing/tape.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** One belt's values as a card needs them: a cell that holds an error or nothing is not known. */

const plain = (value: Value): StepValue =>
  isFault(value) || value === '' ? undefined : typeof value === 'boolean' ? String(value) : value;

export interface BeltReader {
  /** A column of the belt; undefined for what is not known. */
  readonly value: (header: BeltHeader) => StepValue;
  readonly number: (header: BeltHeader) => number | undefined;
  /** '' for what is not known. */
  readonly text: (header: BeltHeader) => string;
  /** A column of the belt's plate series. */
  readonly series: (header: SeriesHeader) => StepValue;
  readonly named: (name: ValueName) => number | undefined;
}

export function beltReader(book: Workbook, record: number): BeltReader {
  const value = (header: BeltHeader): StepValue => plain(book.read(belts.name, record, header));
  const number = (header: BeltHeader): number | undefined => {
    const read = value(header);
    return typeof read === 'number' && Number.isFinite(read) ? read : undefined;
  };
  const row = number('Series row');
  return {
    value,
    number,
    text: (header) => String(value(header) ?? '').trim(),
    series: (header) => (row === undefined ? undefined : plain(book.read(plateSeries.name, recordInRow(row), header))),
    named(name) {
      const read = book.named(name);
      return typeof read === 'number' && Number.isFinite(read) ? read : undefined;
    },
  };
}

/** Places of the steps' texts that are columns of Belts, and of Plate series. */
const ofBelts = [
  'Belt',
  'Plate series',
  'Width',
  'Thickness',
  'Skew',
  'Cut length',
  'Edge offset',
  'Belt consumed',
  'Take-up travel',
  'Plates',
  'Bolts',
  'Bolt length',
  'Edge left',
  'Skive',
  'Clamped thickness',
  'Strip per piece',
  'Smallest pulley',
] as const;
const ofSeries = ['Punch size', 'Hole distance', 'Pitch'] as const;

/** Values for the places in the steps' texts, by the names of the places. */
export function stepValues({ value, number, text, series, named }: BeltReader): StepValues {
  const holes = number('Holes');
  return {
    ...Object.fromEntries(ofBelts.map((name) => [name, value(name)])),
    ...Object.fromEntries(ofSeries.map((name) => [name, series(name)])),
    'Skew hand': text('Skew hand') === 'left' ? 'left' : 'right',
    'Holes per end': holes === undefined ? undefined : holes / 2,
    'Strip pieces': named('StripPieces'),
    'First hours': named('FirstHours'),
  };
}

export const lengthUnit = (units: UnitSystem): LengthUnit => (units === 'metric' ? 'mm' : 'in');

/** Lengths that a tape measures as a tape shows them, all else in decimals. */
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
