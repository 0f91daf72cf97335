import { format, isDateFormat, isValidFormat } from 'numfmt';
import { rounded } from '../decimal-rounding.ts';
import { numberText } from '../number-text.ts';
import type { Value } from '../values.ts';
import { noNumber, noValue, standard, type StandardFunction } from './standard-function.ts';

/** Numbers as texts by number formats. Source: ECMA-376 Part 1, 18.8.30 and 18.8.31. */

const english = { locale: 'en-US', nbsp: false, dateErrorThrows: true } as const;
const general = /^general$/i;

const fraction = /^([#?0,]*)( ?)([?#0]+)\/([?#0]{1,4})$/;

/** Digits in a place as wide as its marks: "?" leaves a blank where a digit is missing, "0" a nought. */
const inPlace = (digits: string, marks: string, atEnd: boolean): string => {
  const missing = marks.length - digits.length;
  if (missing <= 0 || marks.startsWith('#')) return digits;
  const filler = (marks.startsWith('0') ? '0' : ' ').repeat(missing);
  return atEnd ? digits + filler : filler + digits;
};

/**
 * A number as a fraction with the denominator that comes nearest to it; undefined for a pattern of another kind, and
 * for a number that is nearest to a whole one. The formatter stops at the first denominator that comes near.
 */
function asFraction(pattern: string, value: number): string | undefined {
  const [, whole = '', gap = '', above = '', below = ''] = fraction.exec(pattern) ?? [];
  if (below === '') return undefined;
  const size = Math.abs(value);
  const share = size % 1;
  let [best, error] = [1, Infinity];
  for (let denominator = 1; denominator < 10 ** below.length; denominator += 1) {
    const off = Math.abs(share - Math.round(share * denominator) / denominator);
    if (off < error - 1e-12) [best, error] = [denominator, off];
  }
  if (best === 1) return undefined;
  const part = Math.round(share * best) + (whole === '' ? Math.trunc(size) * best : 0);
  const before = whole === '' ? '' : format(whole, Math.trunc(size), english);
  return (
    `${value < 0 ? '-' : ''}${before}${gap}${inPlace(String(part), above, false)}/` + inPlace(String(best), below, true)
  );
}

function shown(name: string, value: Value, pattern: string): string {
  if (!isValidFormat(pattern))
    throw noValue(`${name}: "${pattern}" is not a number format. Examples: "0.00", "yyyy-mm-dd"`);
  if (pattern === '') return '';
  if (typeof value === 'number' && value < 0 && isDateFormat(pattern))
    throw noValue(`${name}: there is no day or time before 0; ${value} was given`);
  if (general.test(pattern.trim()) && typeof value === 'number') return numberText(value);
  try {
    if (typeof value !== 'number') return format(pattern, value, english);
    const number = Number(value.toPrecision(15));
    return asFraction(pattern, number) ?? format(pattern, number, english);
  } catch {
    throw noValue(`${name}: ${String(value)} can't be shown as "${pattern}"`);
  }
}

/** A number as a cell of that format shows it; undefined for a format that shows no number, or none that is known. */
export function formattedNumber(pattern: string, value: number): string | undefined {
  if (!isValidFormat(pattern) || isDateFormat(pattern) || general.test(pattern.trim())) return undefined;
  try {
    return shown('', value, pattern);
  } catch {
    return undefined;
  }
}

const mostPlaces = 127;

/** A number with a fixed count of places, thousands parted or not. */
function fixed(name: string, value: number, digits: number, plain: boolean): string {
  const places = Math.trunc(digits);
  if (places > mostPlaces) throw noNumber(`${name}: it shows ${mostPlaces} places at most; ${digits} were asked`);
  const number = rounded(value, places);
  return new Intl.NumberFormat('en-US', {
    minimumFractionDigits: Math.min(100, Math.max(0, places)),
    maximumFractionDigits: Math.min(100, Math.max(0, places)),
    useGrouping: !plain,
  }).format(number);
}

const asNumber = (value: Value): Value =>
  typeof value === 'string' && /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?\s*$/i.test(value) ? Number(value) : value;

export const formatFunctions: readonly StandardFunction[] = [
  standard('TEXT', ['value', 'text'], (value, pattern) =>
    typeof value === 'boolean' ? String(value).toUpperCase() : shown('TEXT', asNumber(value ?? 0), pattern),
  ),
  standard('FIXED', ['number', 'number?', 'truth?'], (value, digits = 2, plain = false) =>
    fixed('FIXED', value, digits, plain),
  ),
];
