import { createRequire } from 'node:module';
import type { Scope } from '../records/chosen-belts.ts';
import { readDate } from '../units/dates.ts';
import { isRefusal } from '../units/numbers.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { UsageError } from './usage-error.ts';

/** What the commands that plan for many belts have in common: which belts, how long they may search, and with what. */

/** The solver's program file, which the one file of the command line does not hold: that of the installed package. */
export const solverRuntime = createRequire(import.meta.url).resolve('highs/runtime');

/** The belts that are meant; of all where nothing is said. `doing` is what is done for them, for messages. */
export function scopeOf(typed: Given, book: Workbook, file: string, doing: string): Scope {
  const [names, due] = [typed.options.get('belt') ?? [], optionValue(typed, 'due')];
  if (names.length > 0 && due !== undefined)
    throw new UsageError(`--belt and --due are both given: ${doing} for belts, or for joints that are due`);
  if (names.length > 0) return { which: 'belts', records: names.map((name) => beltRecord(book, file, name)) };
  if (due === undefined) return { which: 'all' };
  const read = /^\d{4}-\d{2}-\d{2}$/.test(due) ? readDate(due) : undefined;
  if (read === undefined || isRefusal(read))
    throw new UsageError(`--due must be a date as YYYY-MM-DD; "${due}" was given`);
  return { which: 'due', until: read.serial };
}

/** Seconds that the searches may take together. */
export function secondsOf(typed: Given, usual: number): number {
  const text = optionValue(typed, 'seconds');
  const seconds = text === undefined ? usual : Number(text);
  if (!(Number.isFinite(seconds) && seconds > 0))
    throw new UsageError(`--seconds must be more than 0; "${text ?? ''}" was given`);
  return seconds;
}
