import { withShownMark } from '../units/shown-mark.ts';
import type { Column } from './declaration.ts';
import { isDay, isoDate, isoMoment } from '../units/dates.ts';
import { type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';

/** How findings write numbers, units and lists for people. */

/** What a number measures and how finely its column shows it. */
export interface Measure {
  readonly kind: QuantityKind;
  readonly digits?: Column['digits'];
  readonly percent?: true;
  readonly timed?: true;
}

/** Digits for a number whose column says nothing of them. */
const usualDigits = 3;
/** Further digits, at most, to tell apart two numbers that round to the same. */
const mostDigits = 9;

/** Digits that a column shows after the point; undefined where it says nothing of them. */
export const digitsOf = ({ digits }: Pick<Measure, 'digits'>, units: UnitSystem): number | undefined =>
  typeof digits === 'object' ? digits[units] : digits;

const shownDigits = (measure: Measure, units: UnitSystem): number => digitsOf(measure, units) ?? usualDigits;

/** A number with at most so many digits after the point. */
export function rounded(value: number, digits: number): string {
  const text = value.toFixed(Math.min(digits, 20));
  const short = text.includes('.') && !text.includes('e') ? text.replace(/\.?0+$/, '') : text;
  return withShownMark(short === '-0' ? '0' : short);
}

/** A unit after a number: a degree sign stands close to it, any other after a space. */
export const withUnit = (number: string, unit: string): string =>
  unit === '' ? number : unit === '°' ? `${number}${unit}` : `${number} ${unit}`;

/** A day number as year-month-day, with the time of day only where it is asked for; what is no day stays a number. */
const day = (value: number, timed: boolean): string =>
  isDay(value) ? (timed ? isoMoment(value) : isoDate(Math.floor(value))) : `day ${value}`;

function written(value: number, measure: Measure, units: UnitSystem, digits: number): string {
  if (measure.kind === 'date') return day(value, measure.timed === true);
  if (measure.percent === true) return `${rounded(value * 100, digits)} %`;
  return withUnit(rounded(value, digits), unitOf(measure.kind, units));
}

/** A number with its unit, as finely as its column shows it. */
export const amount = (value: number, measure: Measure, units: UnitSystem): string =>
  written(value, measure, units, shownDigits(measure, units));

/** Two numbers of one kind, with as many digits as it takes to tell them apart. */
export function amounts(one: number, other: number, measure: Measure, units: UnitSystem): readonly [string, string] {
  for (let digits = shownDigits(measure, units); ; digits += 1) {
    const texts = [written(one, measure, units, digits), written(other, measure, units, digits)] as const;
    if (texts[0] !== texts[1] || one === other || digits >= mostDigits || measure.kind === 'date') return texts;
  }
}

/** A share as per cent: one digit, more when it would round to nothing. */
export function share(value: number): string {
  const percent = value * 100;
  return `${percent !== 0 && Math.abs(percent) < 0.1 ? withShownMark(percent.toPrecision(1)) : rounded(percent, 1)} %`;
}

/** Words as a list: "a, b and c"; of more than `most`, the first ones and how many more. */
export function listed(words: readonly string[], joint: 'and' | 'or' = 'and', most = 6): string {
  const shown = words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  const last = shown.at(-1) ?? '';
  return shown.length < 2 ? last : `${shown.slice(0, -1).join(', ')} ${joint} ${last}`;
}

export const capital = <Text extends string>(text: Text): Capitalize<Text> =>
  // The compiler can't follow the two halves.
  (text.charAt(0).toUpperCase() + text.slice(1)) as Capitalize<Text>;
/** A text within markup; characters that XML has no place for become spaces. */
export const escaped = (text: string): string =>
  text
    .replaceAll(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF\p{Cs}]/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
