import type { CheckedBelt, CheckedCell, ComparedNumber, Words } from '../../../src/sheet/check-declaration.ts';
import { rounded, withUnit } from '../../../src/sheet/words.ts';

/** What checks of belts compare, and words that several of them use. */

export const ofBelt = (header: string, label: Words): ComparedNumber => ({ sheet: 'Belts', header, label });

export const ofSeries = (header: string, label: Words): ComparedNumber => ({ sheet: 'Plate series', header, label });

/** A number that a formula makes, measured and shown as a column of the belt is. */
export const worked = (formula: string, like: string, label: Words): ComparedNumber => ({
  ...ofBelt(like, label),
  formula,
});

export const beltCell = (header: string): CheckedCell => ({ sheet: 'Belts', header });
export const seriesCell = (header: string): CheckedCell => ({ sheet: 'Plate series', header });

export const atSkew = (belt: CheckedBelt): string =>
  `at a skew of ${withUnit(rounded(belt.number('Skew') ?? 0, 1), '°')}`;

/** A label with the belt's plate series after it. */
export const seriesLabel =
  (what: string) =>
  (belt: CheckedBelt): string =>
    `${what} of series ${belt.series}`;
