import { dayLength, dayZero, serialOf } from '../../units/dates.ts';
import { noNumber, noValue, standard, type StandardFunction } from './standard-function.ts';

/**
 * Days as serial numbers of the 1900 system, in which 60 is a day that never was, and days written as texts.
 *
 * A text is read as a date only where every program reads the same: by ISO 8601, year first. Which of two numbers is
 * the month is a matter of the reader's country, so "1/2/2026" is refused.
 */

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** Of a day that the month does not have, one that many days on: 30 February is 2 March. */
const counted = ({ year, month, day }: Day): number =>
  Math.round((Date.UTC(year, month - 1, day) - dayZero) / dayLength);

function dayOf(serial: number): Day {
  const date = new Date(dayZero + Math.floor(serial) * dayLength);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

const isoDay = /^\s*(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]+(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?)?\s*$/;
const clock = /^\s*(\d{1,4}):(\d{2})(?::(\d{2}(?:\.\d+)?))?\s*(AM|PM)?\s*$/i;
const ambiguous = /^\s*\d{1,4}[./-]\d{1,2}[./-]\d{1,4}\b/;

/** A part of a day from hours, minutes and seconds; undefined when they are none. */
function timeOfDay(hours: string, minutes: string, seconds: string, half = ''): number | undefined {
  const [h, m, s] = [Number(hours), Number(minutes), Number(seconds)];
  if (m > 59 || s >= 60 || (half !== '' && (h < 1 || h > 12))) return undefined;
  const hour = half === '' ? h : (h % 12) + (half.toUpperCase() === 'PM' ? 12 : 0);
  return hour / 24 + m / 1440 + s / 86_400;
}

/** The serial number of a date written by ISO 8601, with its time of day; undefined for any other text. */
function isoSerial(text: string): number | undefined {
  const found = isoDay.exec(text);
  if (found === null) return undefined;
  const [, year = '', month = '', day = '', hours, minutes = '0', seconds = '0'] = found;
  const serial = serialOf(Number(year), Number(month), Number(day));
  if (serial === undefined) return undefined;
  const time = hours === undefined ? 0 : timeOfDay(hours, minutes, seconds);
  return time === undefined || (hours !== undefined && Number(hours) > 24) ? undefined : serial + time;
}

/** A time of day written as 7:15, 23:59:59 or 7:15 PM, as part of a day; undefined for any other text. */
function clockPart(text: string): number | undefined {
  const found = clock.exec(text);
  if (found === null) return undefined;
  const [, hours = '', minutes = '', seconds = '0', half] = found;
  return timeOfDay(hours, minutes, seconds, half);
}

/** What is wrong with a text that looks like a date; undefined when it does not look like one. */
export function dateFault(text: string): string | undefined {
  if (isoSerial(text) !== undefined || !ambiguous.test(text)) return undefined;
  return isoDay.test(text)
    ? `"${text}" is no day of the calendar, from March 1900 on`
    : `"${text}" may be either of two days, by country: write year, month and day, as in 2026-02-01, or DATE(2026,2,1)`;
}

const dateText = (name: string, text: string): number => {
  const serial = isoSerial(text);
  if (serial === undefined)
    throw noValue(dateFault(text) ?? `${name}: "${text}" is not read as a date: write it as 2026-02-01`);
  return serial;
};

/** Whole months from one day to another. */
const monthsBetween = (from: Day, to: Day): number =>
  (to.year - from.year) * 12 + to.month - from.month - (to.day < from.day ? 1 : 0);

function dateDifference(start: number, end: number, unit: string): number {
  const [first, last] = [Math.floor(start), Math.floor(end)];
  if (first > last)
    throw noNumber(`DATEDIF: the first day must not be after the second; ${start} and ${end} were given`);
  const [from, to] = [dayOf(first), dayOf(last)];
  const months = monthsBetween(from, to);
  switch (unit.toLowerCase()) {
    case 'd':
      return last - first;
    case 'm':
      return months;
    case 'y':
      return Math.trunc(months / 12);
    case 'ym':
      return months % 12;
    case 'md': {
      if (to.day >= from.day) return to.day - from.day;
      return last - counted({ year: to.year, month: to.month - 1, day: from.day });
    }
    case 'yd': {
      const sameYear = counted({ ...from, year: to.year });
      return last - (sameYear > last ? counted({ ...from, year: to.year - 1 }) : sameYear);
    }
    default:
      throw noNumber(`DATEDIF: the unit must be "d", "m", "y", "ym", "md" or "yd"; "${unit}" was given`);
  }
}

export const calendarFunctions: readonly StandardFunction[] = [
  standard('DATEVALUE', ['text'], (text) => Math.floor(dateText('DATEVALUE', text))),
  standard('TIMEVALUE', ['text'], (text) => {
    const part = clockPart(text) ?? isoSerial(text);
    if (part === undefined)
      throw noValue(`TIMEVALUE: "${text}" is not read as a time of day: write it as 7:15 or 19:15:30`);
    return part % 1;
  }),
  standard('ISOWEEKNUM', ['number'], (serial) => {
    if (serial < 1) throw noNumber(`ISOWEEKNUM: a day must be 1 or more; ${serial} was given`);
    // The week belongs to the year in which its Thursday lies (ISO 8601).
    const day = Math.floor(serial);
    const thursday = day - ((day + 5) % 7) + 3;
    const { year } = dayOf(thursday);
    return 1 + Math.floor((thursday - counted({ year, month: 1, day: 1 })) / 7);
  }),
  standard('DATEDIF', ['number', 'number', 'text'], dateDifference),
];
