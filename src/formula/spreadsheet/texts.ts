import { numberText } from '../number-text.ts';
import { isFault, type Matrix, type Value } from '../values.ts';
import { valuesIn } from './ranges.ts';
import { noValue, notFound, repeated, standard, type StandardFunction } from './standard-function.ts';

/**
 * Texts: joined, searched, cut and read as numbers.
 *
 * Source: ECMA-376 Part 1, 18.17.7; of functions newer than it, their public descriptions (from memory).
 */

/** A value as a text within others. */
function joined(value: Value): string {
  if (value === null || isFault(value)) return '';
  return typeof value === 'number'
    ? numberText(value)
    : typeof value === 'boolean'
      ? String(value).toUpperCase()
      : value;
}

const mostCharacters = 32_767;

function sized(name: string, text: string): string {
  if (text.length > mostCharacters)
    throw noValue(
      `${name}: the text has more than ${mostCharacters.toLocaleString('en-US')} characters, the most that a cell ` +
        `holds`,
    );
  return text;
}

/** A text with other marks for the decimals and the groups than the book's, as a number. */
function numberValue(text: string, decimal: string, group: string): number {
  const [point = '.', comma = ','] = [decimal.charAt(0), group.charAt(0)];
  const [whole = '', ...places] = text.replaceAll(/\s/g, '').split(point || '.');
  if (whole === '' && places.length === 0) return 0;
  if (places.length > 1 || places.some((part) => comma !== '' && part.includes(comma)))
    throw noValue(`NUMBERVALUE: "${text}" is not a number with "${point}" before its decimals`);
  const digits =
    (comma === '' ? whole : whole.replaceAll(comma, '')) + (places.length === 1 ? `.${places[0] ?? ''}` : '');
  const [, number = '', percents = ''] = /^(.*?)(%*)$/.exec(digits) ?? [];
  if (!/^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(number))
    throw noValue(`NUMBERVALUE: "${text}" is not a number with "${point}" before its decimals`);
  return Number(number) / 100 ** percents.length;
}

interface Cut {
  readonly text: string;
  readonly delimiters: readonly string[];
  readonly instance: number;
  readonly anyCase: boolean;
  readonly atEnd: boolean;
}

/** Where a text is to be cut: before and behind the delimiter's chosen occurrence. */
function cutAt({
  text,
  delimiters,
  instance,
  anyCase,
  atEnd,
}: Cut): { readonly from: number; readonly to: number } | undefined {
  const hay = anyCase ? text.toLowerCase() : text;
  const places: { from: number; to: number }[] = [];
  for (let at = 0; at <= hay.length;) {
    const hit = delimiters
      .map((delimiter) => ({
        at: hay.indexOf(anyCase ? delimiter.toLowerCase() : delimiter, at),
        size: delimiter.length,
      }))
      .filter((one) => one.at >= 0)
      .toSorted((one, other) => one.at - other.at || other.size - one.size)[0];
    if (hit === undefined || hit.size === 0) break;
    places.push({ from: hit.at, to: hit.at + hit.size });
    at = hit.at + hit.size;
  }
  if (atEnd) {
    if (instance > 0) places.push({ from: text.length, to: text.length });
    else places.unshift({ from: 0, to: 0 });
  }
  return instance > 0 ? places[instance - 1] : places.at(instance);
}

function cutText(
  name: string,
  text: string,
  by: Matrix,
  [instance, mode, end, missing]: readonly (Value | undefined)[],
  part: (place: { readonly from: number; readonly to: number }) => string,
): Value {
  const which = typeof instance === 'number' ? Math.trunc(instance) : 1;
  if (which === 0) throw noValue(`${name}: the occurrence counts from 1, or back from -1; 0 was given`);
  const place = cutAt({
    text,
    delimiters: valuesIn(by).map(joined),
    instance: which,
    anyCase: mode === 1 || mode === true,
    atEnd: end === 1 || end === true,
  });
  if (place !== undefined) return part(place);
  if (missing !== undefined && missing !== null) return missing;
  throw notFound(`${name}: the text does not hold the delimiter so often`);
}

const cutTakes = ['text', 'range', 'value?', 'value?', 'value?', 'value?'] as const;

export const textFunctions: readonly StandardFunction[] = [
  repeated('CONCAT', [], 'range', (_, ranges) =>
    sized(
      'CONCAT',
      valuesIn(...ranges)
        .map(joined)
        .join(''),
    ),
  ),
  standard('FIND', ['text', 'text', 'number?'], (sought, text, start = 1) => {
    const from = Math.trunc(start);
    if (from < 1 || from > text.length + 1)
      throw noValue(`FIND starts at a character from 1 to ${text.length}; ${start} was given`);
    const at = text.indexOf(sought, from - 1);
    if (at < 0) throw noValue(`FIND: the text "${sought}" is not found`);
    return at + 1;
  }),
  standard('SUBSTITUTE', ['text', 'text', 'text', 'number?'], (text, old, by, which) => {
    if (which !== undefined && which < 1) throw noValue(`SUBSTITUTE counts occurrences from 1; ${which} was given`);
    if (old === '') return text;
    if (which === undefined) return text.replaceAll(old, () => by);
    let at = -1;
    for (let count = Math.trunc(which); count > 0; count -= 1) {
      at = text.indexOf(old, at < 0 ? 0 : at + old.length);
      if (at < 0) return text;
    }
    return text.slice(0, at) + by + text.slice(at + old.length);
  }),
  standard('NUMBERVALUE', ['text', 'text?', 'text?'], (text, decimal = '.', group = ',') =>
    numberValue(text, decimal, group),
  ),
  standard('TEXTBEFORE', cutTakes, (text, by, ...options) =>
    cutText('TEXTBEFORE', text, by, options, ({ from }) => text.slice(0, from)),
  ),
  standard('TEXTAFTER', cutTakes, (text, by, ...options) =>
    cutText('TEXTAFTER', text, by, options, ({ to }) => text.slice(to)),
  ),
];
