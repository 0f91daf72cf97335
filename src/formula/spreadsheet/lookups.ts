import { compared } from '../standard.ts';
import { isFault, type Matrix, type Value } from '../values.ts';
import { wildcards } from '../wildcards.ts';
import { valuesIn, widthOf } from './ranges.ts';
import { noValue, notFound, standard, type StandardFunction } from './standard-function.ts';

/**
 * Values found in ranges. Source: ECMA-376 Part 1, 18.17.7.193 (LOOKUP); XMATCH by its public description (from
 * memory).
 */

/** Whether two values may be ordered: numbers go with numbers, texts with texts. */
const alike = (one: Value, other: Value): boolean => typeof one === typeof other && one !== null && other !== null;

const isVector = (range: Matrix): boolean => range.length === 1 || widthOf(range) === 1;

/** The last place of an ascending list that holds no more than a value. */
const lastUpTo = (values: readonly Value[], value: Value): number =>
  values.findLastIndex((other) => !isFault(other) && alike(other, value) && compared(other, value) <= 0);

function lookup(value: Value, range: Matrix, results: Matrix | undefined): Value {
  const wide = widthOf(range) > range.length;
  // Of an area the first column is searched and the last one answers; of one wider than high, the rows.
  const searched =
    results !== undefined || isVector(range)
      ? range.flat()
      : wide
        ? (range[0] ?? [])
        : range.map(([first = null]) => first);
  const place = lastUpTo(searched, value);
  if (place < 0) throw notFound(`LOOKUP: nothing in the range is as small as ${String(value)}`);
  const answers =
    results !== undefined
      ? results.flat()
      : isVector(range)
        ? range.flat()
        : wide
          ? (range.at(-1) ?? [])
          : range.map((row) => row.at(-1) ?? null);
  const answer = answers[place];
  if (answer === undefined) throw notFound('LOOKUP: the range of results is shorter than the one searched');
  return answer;
}

/** The place whose value is nearest to one on a side of it. */
function nearestPlace(values: readonly Value[], value: Value, side: number): number {
  let best = -1;
  values.forEach((other, index) => {
    if (isFault(other) || !alike(other, value)) return;
    const order = compared(other, value);
    if (order === 0 ? false : Math.sign(order) !== side) return;
    const held = values[best];
    if (held === undefined || side * compared(other, held) < 0) best = index;
  });
  return best;
}

function placeOf(value: Value, range: Matrix, mode: number, direction: number): number {
  if (!isVector(range)) throw noValue('XMATCH searches one row or one column');
  if (![-1, 0, 1, 2].includes(mode)) throw noValue(`XMATCH: the match mode must be -1, 0, 1 or 2; ${mode} was given`);
  if (![-2, -1, 1, 2].includes(direction))
    throw noValue(`XMATCH: the search mode must be 1, -1, 2 or -2; ${direction} was given`);
  const values = valuesIn(range);
  const pattern = mode === 2 && typeof value === 'string' ? wildcards(value.toLowerCase(), true) : undefined;
  const matches = (other: Value): boolean =>
    pattern === undefined
      ? alike(other, value) && compared(other, value) === 0
      : typeof other === 'string' && pattern.test(other.toLowerCase());
  const exact = direction === -1 ? values.findLastIndex(matches) : values.findIndex(matches);
  const place = exact >= 0 || mode === 0 || mode === 2 ? exact : nearestPlace(values, value, mode);
  if (place < 0)
    throw notFound(`XMATCH: ${typeof value === 'string' ? `the text "${value}"` : String(value)} is not found`);
  return place + 1;
}

export const lookupFunctions: readonly StandardFunction[] = [
  standard('LOOKUP', ['value', 'range', 'range?'], (value, range, results) => lookup(value ?? 0, range, results)),
  standard('XMATCH', ['value', 'range', 'number?', 'number?'], (value, range, mode = 0, direction = 1) =>
    placeOf(value ?? 0, range, mode, direction),
  ),
];
