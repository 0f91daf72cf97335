import { isoDate } from '../../units/dates.ts';
import { today } from '../../workbook/present-day.ts';

/** Days and moments as people of any country read them. */

const two = (number: number): string => String(number).padStart(2, '0');

export const dayOf = (at: Date): string => isoDate(today(at));

export const momentOf = (at: Date): string => `${dayOf(at)} ${two(at.getHours())}:${two(at.getMinutes())}`;

/** "1.2 MB", for what is kept. */
export const sizeOf = (bytes: number): string =>
  bytes < 1e6
    ? `${Math.max(1, Math.round(bytes / 1e3))} kB`
    : bytes < 1e9
      ? `${(bytes / 1e6).toFixed(1)} MB`
      : `${(bytes / 1e9).toFixed(1)} GB`;
