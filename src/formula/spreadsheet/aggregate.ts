import { isFault, type Matrix, Fault } from '../values.ts';
import { NoResult, noDivision, noNumber, noValue, repeated, type StandardFunction } from './standard-function.ts';

/**
 * AGGREGATE: statistics by their number, which may pass over errors. Rows are never hidden from a formula here, so the
 * options that ask for it change nothing. Source: its public description (from memory); ISO/IEC 29500 has it not.
 */

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const ordered = (values: readonly number[]): number[] => values.toSorted((one, other) => one - other);

function variance(values: readonly number[], lacking: number): number {
  if (values.length <= lacking) throw noDivision('AGGREGATE: there are too few numbers');
  const mean = sum(values) / values.length;
  return sum(values.map((value) => (value - mean) ** 2)) / (values.length - lacking);
}

function median(values: readonly number[]): number {
  if (values.length === 0) throw noNumber('AGGREGATE: there are no numbers');
  return between(ordered(values), (values.length - 1) / 2);
}

/** What stands at a place of a list that may lie between two. */
function between(values: readonly number[], place: number): number {
  const below = Math.floor(place);
  const [low, high] = [values[below], values[Math.ceil(place)]];
  if (low === undefined || high === undefined) throw noNumber('AGGREGATE: there is no such place among the numbers');
  return low + (high - low) * (place - below);
}

function modeOf(values: readonly number[]): number {
  const times = new Map<number, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  const most = Math.max(0, ...times.values());
  const [mode] = [...times].find(([, count]) => count === most) ?? [];
  if (mode === undefined || most < 2) throw new NoResult('#N/A', 'AGGREGATE: no number comes twice');
  return mode;
}

const plain: readonly ((values: readonly number[]) => number)[] = [
  (values) => {
    if (values.length === 0) throw noDivision('AGGREGATE: there are no numbers');
    return sum(values) / values.length;
  },
  (values) => values.length,
  (values) => values.length,
  (values) => values.reduce((most, value) => Math.max(most, value), values[0] ?? 0),
  (values) => values.reduce((least, value) => Math.min(least, value), values[0] ?? 0),
  (values) => (values.length === 0 ? 0 : values.reduce((product, value) => product * value, 1)),
  (values) => Math.sqrt(variance(values, 1)),
  (values) => Math.sqrt(variance(values, 0)),
  sum,
  (values) => variance(values, 1),
  (values) => variance(values, 0),
  median,
  modeOf,
];

/** Those with a second number: a place, a share or a quarter. */
const placed: readonly ((values: readonly number[], k: number) => number)[] = [
  (values, k) => between(ordered(values), values.length - Math.ceil(k)),
  (values, k) => between(ordered(values), Math.trunc(k) - 1),
  (values, k) => between(ordered(values), k * (values.length - 1)),
  (values, k) => between(ordered(values), (Math.trunc(k) / 4) * (values.length - 1)),
  (values, k) => between(ordered(values), k * (values.length + 1) - 1),
  (values, k) => between(ordered(values), (Math.trunc(k) / 4) * (values.length + 1) - 1),
];

const countAll = 3;

function aggregated(which: number, option: number, ranges: readonly Matrix[]): number {
  const [number, chosen] = [Math.trunc(which), Math.trunc(option)];
  if (number < 1 || number > 19) throw noValue(`AGGREGATE: the function's number must be 1 to 19; ${which} was given`);
  if (chosen < 0 || chosen > 7) throw noValue(`AGGREGATE: the option must be 0 to 7; ${option} was given`);
  const passesErrors = chosen === 2 || chosen === 3 || chosen >= 6;
  const isPlaced = number > plain.length;
  const values = (isPlaced ? ranges.slice(0, 1) : ranges).flatMap((range) => range.flat());
  const fault = values.find(isFault);
  if (fault instanceof Fault && !passesErrors) throw new NoResult(fault.code, fault.message);
  const kept = values.filter((value) => !isFault(value));
  if (number === countAll) return kept.filter((value) => value !== null).length;
  const numbers = kept.filter((value) => typeof value === 'number');
  if (!isPlaced) return plain[number - 1]?.(numbers) ?? 0;
  const k = ranges[1]?.[0]?.[0];
  if (typeof k !== 'number') throw noValue('AGGREGATE: which place is asked must be a number, as its last argument');
  return placed[number - plain.length - 1]?.(numbers, k) ?? 0;
}

export const aggregateFunctions: readonly StandardFunction[] = [
  repeated('AGGREGATE', ['number', 'number'], 'range', ([which, option], ranges) => aggregated(which, option, ranges)),
];
