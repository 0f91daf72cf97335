import { dayLength, dayZero } from '../../units/dates.ts';

/** Days from a date's serial number in workbooks that count from 1904 to that in those that count from 1900. */
export const days1904 = 1462;

const isoDate = /^(?:(\d{4})-(\d{2})-(\d{2}))?(?:(?:^|T| )(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?)?Z?$/;

/**
 * The serial number, counting from 1900, of a date, time or both in ISO 8601; undefined when it is none.
 *
 * Serial 60 is a 29 February 1900 that never was, so days before it count one less. Source: ECMA-376 Part 1, 18.17.4.
 * Offsets from UTC are not read: a cell has no time zone.
 */
export function dateSerial(text: string): number | undefined {
  const match = isoDate.exec(text.trim());
  if (!match) return undefined;
  const [, year, month, day, hour, minute, second] = match;
  if (year === undefined && hour === undefined) return undefined;
  const time = (Number(hour ?? 0) * 3600 + Number(minute ?? 0) * 60 + Number(second ?? 0)) / 86_400;
  if (Number(hour ?? 0) > 24 || Number(minute ?? 0) > 59 || Number(second ?? 0) >= 60 || time > 1) return undefined;
  if (year === undefined) return time;
  const date = new Date(0);
  date.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  if (date.getUTCMonth() !== Number(month) - 1 || date.getUTCDate() !== Number(day)) return undefined;
  const days = Math.round((date.getTime() - dayZero) / dayLength);
  const serial = days > 60 ? days : days - 1;
  return serial < 1 ? undefined : serial + time;
}
