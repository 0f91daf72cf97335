import type { Content } from '../formula/values.ts';
import { dayLength, dayZero, isoDate, readDate } from '../units/dates.ts';

/**
 * How a row or column of contents goes on when it is dragged over further cells, as spreadsheets go on with it:
 * numbers with a constant step, days, and texts that differ by a number in them are continued, anything else is
 * repeated.
 *
 * Where it stops: numbers whose steps differ are repeated instead of being drawn into a line, and names of weekdays and
 * months are words like any other.
 */

interface Filling {
  /** Whether the contents are days, of which one alone goes on day by day. */
  readonly days: boolean;
  /** Whether one text alone that ends in a number goes on counting, as names do. */
  readonly counting: boolean;
}

type Series = (position: number) => Content;

const decimalsOf = (value: number): number => /\.(\d+)$/.exec(String(value))?.[1]?.length ?? 0;

/** Positions of an arithmetic series; undefined when the steps differ. Sums keep the decimals of what was entered. */
function stepped(values: readonly number[], alone: number | undefined): ((position: number) => number) | undefined {
  const [first = 0, second] = values;
  if (second === undefined && alone === undefined) return undefined;
  const decimals = Math.max(...values.map(decimalsOf));
  const rounded = (value: number): number => (decimals === 0 ? value : Number(value.toFixed(decimals)));
  const step = second === undefined ? (alone ?? 0) : second - first;
  const at = (position: number): number => rounded(first + step * position);
  return values.every((value, position) => value === at(position)) ? at : undefined;
}

/** Days that fall on one day of the month, whole months apart: each month's own, or its last when it is shorter. */
function monthly(values: readonly number[]): Series | undefined {
  const dates = values.map((serial) => new Date(dayZero + serial * dayLength));
  const [first] = dates;
  if (first === undefined || values.length < 2 || values.some((serial) => !Number.isInteger(serial))) return undefined;
  const months = stepped(
    dates.map((date) => date.getUTCFullYear() * 12 + date.getUTCMonth()),
    undefined,
  );
  if (months === undefined || months(1) === months(0)) return undefined;
  const wanted = Math.max(...dates.map((date) => date.getUTCDate()));
  const at = (position: number): number => {
    const month = months(position);
    const last = new Date(Date.UTC(Math.floor(month / 12), (month % 12) + 1, 0)).getUTCDate();
    return (Date.UTC(Math.floor(month / 12), month % 12, Math.min(wanted, last)) - dayZero) / dayLength;
  };
  return values.every((serial, position) => serial === at(position)) ? at : undefined;
}

const lastNumber = /^(.*?)(\d{1,15})(\D*)$/su;

/** Texts that are alike but for the last number in them; it keeps its leading zeros. */
function counted(texts: readonly string[], alone: boolean): Series | undefined {
  const parts = texts.map((text) => lastNumber.exec(text));
  const [first] = parts;
  if (first === null || first === undefined) return undefined;
  const [, before = '', digits = '', after = ''] = first;
  if (parts.some((part) => part === null || part[1] !== before || part[3] !== after)) return undefined;
  const numbers = stepped(
    parts.map((part) => Number(part?.[2])),
    alone ? 1 : undefined,
  );
  if (numbers === undefined) return undefined;
  return (position) => {
    const number = numbers(position);
    return number < 0
      ? null
      : `${before}${String(number).padStart(digits.startsWith('0') ? digits.length : 1, '0')}${after}`;
  };
}

const isDayText = (content: Content): boolean => typeof content === 'string' && /^\d{4}-\d\d-\d\d$/.test(content);

/** Days written as texts, as they stand where a column is for no days. */
function dayTexts(texts: readonly string[]): Series | undefined {
  const serials = texts.map((text) => {
    const read = readDate(text);
    return 'serial' in read ? read.serial : Number.NaN;
  });
  if (!serials.every(Number.isInteger)) return undefined;
  const series = monthly(serials) ?? stepped(serials, 1);
  return series === undefined ? undefined : (position) => isoDate(Number(series(position)));
}

function seriesOf(contents: readonly Content[], { days, counting }: Filling): Series | undefined {
  if (contents.every(isDayText)) return dayTexts(contents.map(String));
  if (contents.every((content) => typeof content === 'number'))
    return days ? (monthly(contents) ?? stepped(contents, 1)) : stepped(contents, undefined);
  if (contents.every((content) => typeof content === 'string' && !content.startsWith('=')))
    return counted(contents.map(String), counting);
  return undefined;
}

/**
 * The content at a position of a series that begins with these contents at 0; below 0 it runs backwards. Undefined
 * when they make no series, and are to be repeated.
 */
export function filledSeries(contents: readonly Content[], filling: Filling): Series | undefined {
  return contents.length === 0 ? undefined : seriesOf(contents, filling);
}
