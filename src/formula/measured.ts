import { type Dimension, quantities } from '../units/quantities.ts';
import { argumentKinds } from './parameter.ts';

/** What a part of a formula measures, in words too, and what goes together. */

export type Measured =
  /** Goes with everything: 0, a blank, an empty text, an error. */
  | { readonly type: 'neutral' }
  | { readonly type: 'word' }
  | { readonly type: 'truth' }
  | {
      readonly type: 'number';
      readonly dimension: Dimension;
      /**
       * A number that is written out: it may stand beside what has the same unit in both systems, as degrees or hours.
       */
      readonly literal: boolean;
    };

export const neutral: Measured = { type: 'neutral' };
export const word: Measured = { type: 'word' };
export const truth: Measured = { type: 'truth' };
export const measuring = (dimension: Dimension, literal = false): Measured => ({ type: 'number', dimension, literal });

/** Base symbols whose unit is the same in both unit systems. */
const steady = new Set(['A', 'T', 'Y', 'D', '$']);
const isSteady = (dimension: Dimension): boolean => Object.keys(dimension).every((symbol) => steady.has(symbol));

/** A dimension times the power of another. */
export function product(one: Dimension, other: Dimension, power = 1): Dimension {
  const made = { ...one };
  for (const [symbol, exponent] of Object.entries(other)) {
    const sum = (made[symbol] ?? 0) + exponent * power;
    if (sum === 0) delete made[symbol];
    else made[symbol] = sum;
  }
  return made;
}

const isBare = (dimension: Dimension): boolean => Object.keys(dimension).length === 0;
const isSame = (one: Dimension, other: Dimension): boolean => isBare(product(one, other, -1));

const article = (name: string): string =>
  /^(?:hours|days|money)/.test(name) ? name : /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`;

/** Dimensions that have a name, in words; a function's words go first. */
const names: readonly (readonly [Dimension, string])[] = [
  ...Object.values(argumentKinds).flatMap(({ dimension, says }): (readonly [Dimension, string])[] =>
    isBare(dimension) || 'q' in dimension ? [] : [[substituted(dimension, { l: { S: 1 } }), says]],
  ),
  ...Object.entries(quantities).flatMap(([kind, { dimension }]): (readonly [Dimension, string])[] =>
    isBare(dimension) ? [] : [[dimension, article(kind.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`))]],
  ),
];

/** What a measured thing is, in words. */
export function inWords(measured: Measured): string {
  if (measured.type === 'neutral') return 'nothing';
  if (measured.type !== 'number') return measured.type === 'word' ? 'a text' : 'a condition';
  const { dimension } = measured;
  if (isBare(dimension)) return 'a bare number';
  const named = names.find(([other]) => isSame(other, dimension));
  return (
    named?.[1] ??
    `a quantity in ${Object.entries(dimension)
      .map(([symbol, exponent]) => (exponent === 1 ? symbol : `${symbol}^${exponent}`))
      .join(' ')}`
  );
}

/** A dimension with its variables replaced. */
export function substituted(dimension: Dimension, values: Readonly<Record<string, Dimension | undefined>>): Dimension {
  let made: Dimension = {};
  for (const [symbol, exponent] of Object.entries(dimension))
    made = product(made, values[symbol] ?? { [symbol]: 1 }, exponent);
  return made;
}

/** The one kind of two that stand together in a sum, a comparison or as branches; undefined when they can't. */
export function united(one: Measured, other: Measured): Measured | undefined {
  if (one.type === 'neutral') return other;
  if (other.type === 'neutral') return one;
  if (one.type !== 'number' || other.type !== 'number') return one.type === other.type ? one : undefined;
  if (isSame(one.dimension, other.dimension)) return measuring(one.dimension, one.literal && other.literal);
  if (one.literal && isSteady(other.dimension)) return other;
  return other.literal && isSteady(one.dimension) ? one : undefined;
}

/** Whether a dimension is one unit of length, whichever. */
export const isLength = (unit: Dimension): boolean =>
  ['S', 'L', 'mm', 'metre'].some((symbol) => isSame(unit, { [symbol]: 1 }));
