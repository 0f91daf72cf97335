import type { Content } from '../formula/values.ts';
import { type DateOrder, readDate } from '../units/dates.ts';
import { type DecimalMark, isRefusal, readNumber } from '../units/numbers.ts';
import type { CellFormat } from '../workbook/state.ts';

/** A text typed where nothing says what it measures, as a spreadsheet reads it: number, share, price, day or text. */

/** How the book's people write numbers and dates, as far as that is settled. */
export interface Habits {
  readonly decimal?: DecimalMark | undefined;
  readonly dates?: DateOrder | undefined;
}

export type Habit = keyof Habits;

interface LooseEntry {
  readonly content: Content;
  /** How the cell is to show it, where its text says so. */
  readonly format?: CellFormat;
  /** What has to be settled before it can be read: it is kept as a text until then. */
  readonly asks?: Habit;
  /** The sign of the currency that was typed with it. */
  readonly currency?: string;
}

const plain = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;
/** A number of a form, an order or a key: its zeros belong to it. */
const leadingZero = /^[-+]?0\d/;
const digitsAndMarks = /^[-+\u2212]?(?:\d[\d.,'’ \u00a0\u202f]*|[.,]\d+)$/u;
/** Thousands parted, and decimals behind them. */
const parted = /\d[,.'’ \u00a0\u202f]\d{3}[,.]\d+$/u;
const percent = /^(.*\d)\s*%$/u;
const currencyBefore = /^([-+\u2212]?)\s*(€|\$|£)\s*(.*\d)$/u;
const currencyAfter = /^([-+\u2212]?)(\d.*?)\s*(€|\$|£)$/u;
/** Days as figures with a whole year; two dots with less are a version or a chapter. */
const dayOfFigures = /^(?:\d{4}([-/.])\d{1,2}\1\d{1,2}|\d{1,2}([-/.])\d{1,2}\2\d{4})(?:[T ,]+\d{1,2}:\d{2}.*)?$/u;
const dayWithMonth = /^(?:\d{1,2}[\s./-]*\p{L}{3,}\.?[\s,./-]*\d{4}|\p{L}{3,}\.?\s*\d{1,2},?\s+\d{4})$/u;

/** Digits behind the decimal mark, as they were typed. */
function decimalsOf(text: string, value: number): number {
  const typed = /[.,](\d+)$/u.exec(text.trim())?.[1]?.length ?? 0;
  return Number.isInteger(value) && /[.,]\d{3}$/u.test(text.trim()) && Math.abs(value) >= 1000 ? 0 : typed;
}

/** A number with whatever marks; 'asks' when a point or comma in it may part thousands or decimals. */
function marked(text: string, decimal: DecimalMark | undefined): number | 'asks' | undefined {
  const typed = text.replaceAll('\u2212', '-').trim();
  if (leadingZero.test(typed)) return undefined;
  if (plain.test(typed) && (!typed.includes('.') || /\.$|e/i.test(typed)))
    return Number.isFinite(Number(typed)) ? Number(typed) : undefined;
  if (!digitsAndMarks.test(typed)) return undefined;
  const read = (mark?: DecimalMark): number | undefined => {
    const reading = readNumber(typed, mark === undefined ? {} : { decimal: mark });
    return typeof reading === 'number' ? reading : undefined;
  };
  // What can be read one way only is read so, whatever the habit.
  const value = read() ?? (decimal === undefined ? undefined : read(decimal));
  if (value !== undefined || decimal !== undefined) return value;
  return read('point') !== undefined && read('comma') !== undefined ? 'asks' : undefined;
}

function day(text: string, dates: DateOrder | undefined): LooseEntry | undefined {
  if (!dayOfFigures.test(text) && !dayWithMonth.test(text)) return undefined;
  const reading = readDate(text, dates);
  if (!isRefusal(reading)) return { content: reading.serial, format: { kind: 'date' } };
  if (dates !== undefined) return undefined;
  const both = (['day first', 'month first'] as const).map((order) => readDate(text, order));
  return both.every((one) => !isRefusal(one)) ? { content: text, asks: 'dates' } : undefined;
}

/** A number before a sign, with how it is to be shown. */
function signed(
  whole: string,
  text: string,
  { decimal }: Habits,
  shown: (value: number, digits: number) => LooseEntry,
): LooseEntry | undefined {
  const value = marked(text, decimal);
  if (value === undefined) return undefined;
  return value === 'asks' ? { content: whole, asks: 'decimal' } : shown(value, decimalsOf(text, value));
}

/** The number and the sign of a price, whichever stood first. */
function moneyIn([, sign = '', one = '', other = '']: RegExpExecArray): {
  readonly number: string;
  readonly currency: string;
} {
  const [number, currency] = /\d/.test(one) ? [one, other] : [other, one];
  return { number: `${sign}${number}`, currency };
}

/** A share typed per cent, to 15 digits: 7 % is 0.07 and not 0.07000000000000001. */
const ofHundred = (value: number): number => Number((value / 100).toPrecision(15));

/** `asPercent`: a number alone is meant per cent, since the cell shows it so. */
export function looseEntry(text: string, habits: Habits, asPercent: boolean): LooseEntry {
  if (/^(?:true|false)$/i.test(text)) return { content: text.toLowerCase() === 'true' };
  const share = percent.exec(text);
  const money = currencyBefore.exec(text) ?? currencyAfter.exec(text);
  const read =
    share !== null
      ? signed(text, share[1] ?? '', habits, (value, digits) => ({
          content: ofHundred(value),
          format: { kind: 'number', digits, percent: true },
        }))
      : money !== null
        ? signed(text, moneyIn(money).number, habits, (value, digits) => ({
            content: value,
            format: { kind: 'money', digits },
            currency: moneyIn(money).currency,
          }))
        : undefined;
  if (read !== undefined) return read;
  const value = marked(text, habits.decimal);
  if (value === 'asks') return { content: text, asks: 'decimal' };
  if (value !== undefined && asPercent) return { content: ofHundred(value) };
  if (value !== undefined) {
    const digits = decimalsOf(text, value);
    // Somebody who parts thousands and writes cents wants to see them.
    return parted.test(text) && digits > 0
      ? { content: value, format: { kind: 'number', digits } }
      : { content: value };
  }
  return day(text, habits.dates) ?? { content: text };
}
