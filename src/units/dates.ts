import { capital } from './phrases.ts';
import type { NumberRefusal } from './numbers.ts';

/**
 * Days as people write them, as serial numbers of the 1900 system (day 1 of which is 1 January 1900; the count is from
 * 30 December 1899 because the system takes 1900 for a leap year; days before 1 March 1900 are refused).
 *
 * "03/04/2023" is 3 April in most of the world and 4 March in the United States: it is never guessed.
 */
export type DateOrder = 'day first' | 'month first';

interface ReadDay {
  readonly serial: number;
}

export const dayLength = 86_400_000;
/** The day from which serials count, as milliseconds since 1970. */
export const dayZero = Date.UTC(1899, 11, 30);
const leastSerial = 61;
/** 31 December 9999, the last day that spreadsheets count. */
const lastSerial = 2_958_465;

/** Whether a number is the serial of a day. */
export const isDay = (serial: number): boolean => serial >= 1 && serial <= lastSerial;

/** Month names and their usual abbreviations, without accents. */
const months: readonly string[] = [
  'jan january januar janvier janv enero ene januari gennaio gen janeiro',
  'feb february februar fevrier fev febrero februari febbraio fevereiro',
  'mar march marz maerz mrz mars marzo maart mrt marco',
  'apr april avril avr abril abr aprile',
  'may may mai mayo mei maggio mag maio',
  'jun june juni juin junio giugno giu junho',
  'jul july juli juillet juil julio luglio lug julho',
  'aug august aout agosto ago augustus',
  'sep sept september septembre septiembre settembre set setembro',
  'oct october oktober okt octobre octubre ottobre ott outubro out',
  'nov november novembre noviembre novembro',
  'dec december dezember dez decembre diciembre dic dicembre dezembro',
];
const monthOf = new Map(months.flatMap((names, index) => names.split(' ').map((name) => [name, index + 1] as const)));

const clock = String.raw`(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(?:\s*([ap])\.?m\.?)?Z?`;
const numeric = new RegExp(String.raw`^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})\.?(?:[T ,]+${clock})?$`, 'i');
const weekday = String.raw`(?:[\p{L}]{2,}\.?,?\s+)?`;
const dayOfMonth = String.raw`(\d{1,2})(?:st|nd|rd|th|er|o|\.)?[\s./-]*(?:de\s+|of\s+)?`;
const monthAndYear = String.raw`(\p{L}{3,})\.?[\s,./-]*(?:de\s+)?(\d{2}|\d{4})`;
const monthInside = new RegExp(`^${weekday}${dayOfMonth}${monthAndYear}$`, 'u');
const monthBefore = /^(\p{L}{3,})\.?[\s.-]*(\d{1,2})(?:st|nd|rd|th)?[\s,.-]+(\d{4})$/u;

/** The serial of a day of the calendar, undefined when there is no such day. */
export function serialOf(year: number, month: number, day: number): number | undefined {
  const time = Date.UTC(year, month - 1, day);
  const date = new Date(time);
  if (date.getUTCFullYear() !== year || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined;
  const serial = Math.round((time - dayZero) / dayLength);
  return serial < leastSerial ? undefined : serial;
}

/** A serial as an ISO 8601 date, with the time of day when there is one. */
export function isoDate(serial: number): string {
  const text = new Date(dayZero + Math.round(serial * 86_400) * 1000).toISOString();
  return text.endsWith('T00:00:00.000Z') ? text.slice(0, 10) : text.slice(0, 16).replace('T', ' ');
}

/** A year of two digits is taken within fifty years of 2000. */
const fullYear = (text: string): number =>
  text.length > 2 ? Number(text) : Number(text) + (Number(text) < 50 ? 2000 : 1900);

/** A serial as an ISO 8601 date with the time of day, midnight's too. */
export function isoMoment(serial: number): string {
  const text = isoDate(serial);
  return text.includes(' ') ? text : `${text} 00:00`;
}

/** Which order a text's own figures show; undefined when it is no date of figures, or would do in either. */
export function dateOrderShown(text: string): DateOrder | undefined {
  const found = numeric.exec(text.trim());
  if (found === null) return undefined;
  const [, first = '', separator, second = ''] = found;
  if (first.length > 2) return undefined;
  if (Number(first) > 12) return 'day first';
  if (Number(second) > 12) return 'month first';
  return separator === '.' ? 'day first' : undefined;
}

/** A text as a day, or why it is none. */
export function readDate(text: string, order?: DateOrder): ReadDay | NumberRefusal {
  const typed = text.trim();
  const figures = numeric.exec(typed);
  if (figures !== null) return ofFigures(typed, figures, order);
  const plain = typed.toLowerCase().normalize('NFKD').replaceAll(/\p{M}/gu, '');
  const inside = monthInside.exec(plain);
  const before = inside === null ? monthBefore.exec(plain) : null;
  const [day, name, year] =
    inside === null ? [before?.[2], before?.[1], before?.[3]] : [inside[1], inside[2], inside[3]];
  const month = monthOf.get(name ?? '');
  if (day !== undefined && year !== undefined && month !== undefined)
    return checked(typed, fullYear(year), month, Number(day));
  if (/^\d{4}$/.test(typed)) return { reason: 'only a year is given: enter a full date' };
  if (
    (/^\p{L}{3,}\.?[\s/'-]*(?:\d{2}|\d{4})$/u.test(plain) && monthOf.has(/^\p{L}+/u.exec(plain)?.[0] ?? '')) ||
    /^\d{1,2}[/.-]\d{4}$/.test(plain) ||
    /^\d{4}-\d{1,2}$/.test(plain)
  ) {
    return { reason: 'only a month and a year are given: enter a full date' };
  }
  return { reason: 'it is not a date' };
}

function ofFigures(text: string, figures: RegExpExecArray, order: DateOrder | undefined): ReadDay | NumberRefusal {
  const [, first = '', separator, second = '', third = '', hour, minute, seconds, half] = figures;
  const time = hour === undefined ? 0 : timeOfDay(Number(hour), Number(minute), Number(seconds ?? 0), half);
  if (first.length > 2) return checked(text, Number(first), Number(second), Number(third), time);
  if (third.length === 3 || third.length < 2) return { reason: 'the year is not clear' };
  const shown = dateOrderShown(text) ?? order;
  if (shown === undefined) {
    return {
      reason:
        `it may be ${named(Number(first), Number(second), third)} or ` +
        `${named(Number(second), Number(first), third)}, and no other cell of the column decides: select whether the ` +
        `day or the month comes first`,
    };
  }
  const [day, month] = shown === 'day first' || separator === '.' ? [first, second] : [second, first];
  return checked(text, fullYear(third), Number(month), Number(day), time);
}

const named = (day: number, month: number, year: string): string => {
  const name = (months[month - 1] ?? '').split(' ')[1] ?? '';
  return `${day} ${capital(name)} ${fullYear(year)}`;
};

const timeOfDay = (hour: number, minute: number, second: number, half: string | undefined): number =>
  (((half === undefined ? hour : (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0)) * 60 + minute) * 60 + second) /
  86_400;

function checked(text: string, year: number, month: number, day: number, time = 0): ReadDay | NumberRefusal {
  const serial = serialOf(year, month, day);
  return serial === undefined || time >= 1
    ? { reason: `"${text}" is not a date after February 1900` }
    : { serial: serial + time };
}
