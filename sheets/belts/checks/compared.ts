import type { CheckedBelt, CheckedCell, ComparedNumber, SeriesHeader, Words } from '../check-declaration.ts';
import type { FigureHeader } from '../figures.ts';
import { rounded, withUnit } from '../../../src/sheet/words.ts';

/** What checks of belts compare, and words that several of them use. */

export const ofBelt = (header: FigureHeader, label: Words): ComparedNumber => ({ sheet: 'Belts', header, label });

export const ofSeries = (header: SeriesHeader, label: Words): ComparedNumber => ({
  sheet: 'Plate series',
  header,
  label,
});

/** A number that a formula makes, measured and shown as a column of the belt is. */
export const worked = (formula: string, like: FigureHeader, label: Words): ComparedNumber => ({
  ...ofBelt(like, label),
  formula,
});

export const beltCell = (header: FigureHeader): CheckedCell => ({ sheet: 'Belts', header });
export const seriesCell = (header: SeriesHeader): CheckedCell => ({ sheet: 'Plate series', header });

export const atSkew = (belt: CheckedBelt): string =>
  `at a skew of ${withUnit(rounded(belt.number('Skew') ?? 0, 1), '°')}`;

/** A label with the belt's plate series after it. */
export const seriesLabel =
  (what: string) =>
  (belt: CheckedBelt): string =>
    `${what} of series ${belt.series}`;
