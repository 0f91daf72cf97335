import { readDate } from '../units/dates.ts';
import { isRefusal } from '../units/numbers.ts';
import type { ImportChoices, ValueChoice } from '../xlsx/import/import-model.ts';
import { type Given, optionValue, optionWord } from './arguments.ts';
import { UsageError } from './usage-error.ts';

/** What the options of `calc` and `check` say of the list. */
export interface ListOptions {
  readonly choices: ImportChoices;
  /** Serial of the day that joint ages are counted to; absent when none was given. */
  readonly date?: number;
  /** Another book, for plate series, strips and assumptions. */
  readonly series?: string;
  /** Changes to be supposed in the book that was read, as they were typed. */
  readonly set: readonly string[];
  /** Variants of the book to be supposed before these. */
  readonly variants: readonly string[];
}

/** The two sides of "LEFT=RIGHT"; a header may itself hold "=", so there the last one counts. */
function pair(text: string, option: string, at: 'first' | 'last'): readonly [string, string] {
  const place = at === 'first' ? text.indexOf('=') : text.lastIndexOf('=');
  const [left, right] = [text.slice(0, Math.max(0, place)).trim(), text.slice(place + 1).trim()];
  if (place < 0 || left === '' || right === '')
    throw new UsageError(`--${option} takes two names with "=" between them; "${text}" was given`);
  return [left, right];
}

function rowNumber(text: string): number {
  const row = Number(text);
  if (!Number.isInteger(row) || row < 1)
    throw new UsageError(`--header-row must be a row number, 1 or more; "${text}" was given`);
  return row;
}

function day(text: string): number {
  const read = /^\d{4}-\d{2}-\d{2}$/.test(text) ? readDate(text) : undefined;
  if (read === undefined || isRefusal(read))
    throw new UsageError(`--date must be a date as YYYY-MM-DD; "${text}" was given`);
  return read.serial;
}

/** "COLUMN:TEXT=MEANING". */
function valueChoice(text: string): ValueChoice {
  const [left, to] = pair(text, 'value', 'last');
  const colon = left.indexOf(':');
  const [column, from] = [left.slice(0, Math.max(0, colon)).trim(), left.slice(colon + 1).trim()];
  if (colon < 0 || column === '' || from === '')
    throw new UsageError(`--value takes COLUMN:TEXT=MEANING; "${text}" was given`);
  return { column, from, to };
}

export function listOptions(typed: Given): ListOptions {
  const several = (name: string): readonly string[] => typed.options.get(name) ?? [];
  const headerRow = optionValue(typed, 'header-row');
  const decimal = optionWord(typed, 'decimal', ['point', 'comma']);
  const dateOrder = optionWord(typed, 'date-order', ['day-first', 'month-first']);
  const skewFrom = optionWord(typed, 'skew-from', ['square', 'edge']);
  const units = optionWord(typed, 'units', ['metric', 'us']);
  const date = optionValue(typed, 'date');
  const series = optionValue(typed, 'series');
  return {
    choices: {
      map: several('map')
        .map((text) => pair(text, 'map', 'last'))
        .map(([header, to]) => ({ header, to })),
      fill: several('fill')
        .map((text) => pair(text, 'fill', 'first'))
        .map(([column, value]) => ({ column, value })),
      values: several('value').map(valueChoice),
      leaveOut: several('leave-out'),
      takeRows: several('take-row'),
      ...(several('sheet').length === 0 ? {} : { sheets: several('sheet') }),
      ...(headerRow === undefined ? {} : { headerRow: rowNumber(headerRow) }),
      ...(decimal === undefined ? {} : { decimal }),
      ...(dateOrder === undefined ? {} : { dateOrder: dateOrder === 'day-first' ? 'day first' : 'month first' }),
      ...(skewFrom === undefined ? {} : { skewFrom }),
      ...(units === undefined ? {} : { units }),
    },
    ...(date === undefined ? {} : { date: day(date) }),
    ...(series === undefined ? {} : { series }),
    set: several('set'),
    variants: several('variant'),
  };
}
