import type { Value } from '../formula/values.ts';
import type { Belt, Change } from '../records/belt.ts';
import { headerWithUnit, shownHeader } from '../sheet/header.ts';
import { rounded } from '../sheet/words.ts';
import { isDay, isoDate } from '../units/dates.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { readQuantity } from '../units/reading.ts';
import { type AskedRange, type Factor, factorChoices, factorSteps, factorValue } from '../what-if/factor.ts';
import { factorNamed } from '../what-if/known-factors.ts';
import { atStep, indexes, type Steps } from '../what-if/solutions.ts';
import { changeTo } from '../what-if/solved-belt.ts';
import { ChangeRefused, typedMark } from '../what-if/typed-change.ts';

/** Values of an input or a named value that are tried one after the other for a picture. */

/** An input or named value and its range as they are typed; '' for what the book or custom says of its ends. */
export interface TypedRange {
  readonly by: string;
  readonly from: string;
  readonly to: string;
}

export interface TriedValues {
  readonly name: string;
  /** With its unit. */
  readonly label: string;
  readonly kind: QuantityKind;
  readonly values: readonly (number | string)[];
  /** Whether they are names to choose from. */
  readonly chosen: boolean;
  /** How each is written on an axis that bears its unit. */
  readonly words: readonly string[];
  /** The value that the book has. */
  readonly present: number | string | undefined;
}

/** Steps of a range, all of them or as many as wanted, evenly; both ends are among them. For tests: ends are. */
export function evenSteps(steps: Steps, most: number): number[] {
  const [first, last] = indexes(steps);
  const count = last - first + 1;
  if (count <= 0) return [];
  if (count <= most) return Array.from({ length: count }, (_, index) => atStep(first + index, steps.step));
  const places = Array.from({ length: most }, (_, index) => Math.round(first + (index * (last - first)) / (most - 1)));
  return [...new Set(places)].map((place) => atStep(place, steps.step));
}

function bound(factor: Factor, belt: Belt, typed: TypedRange, end: 'from' | 'to'): AskedRange {
  const text = typed[end].trim();
  if (text === '') return {};
  const reading = readQuantity(text, factor.kind, { system: belt.units, decimal: typedMark(text) });
  if ('reason' in reading)
    throw new ChangeRefused(
      `${factor.name}, ${end}: "${text}" was not understood: ${reading.reason}. Give ${reading.allowed}.`,
    );
  return { [end]: reading.value };
}

/** How far around its value a number is tried, as a share of it, where its cell allows much more. Chosen. */
const [nearLow, nearHigh] = [0.5, 2];

/**
 * The range of a number, its ends drawn in towards the present value where nobody said them: a pulley may have any
 * diameter, but a picture of all of them shows nothing of those that could be meant. Angles have a scale of their own.
 */
function drawnIn({ from, to, step }: Steps, present: Value, typed: TypedRange, kind: QuantityKind): Steps {
  if (typeof present !== 'number' || present <= 0 || kind === 'angle' || kind === 'date') return { from, to, step };
  if (typed.from.trim() !== '' || typed.to.trim() !== '') return { from, to, step };
  return { from: Math.max(from, nearLow * present), to: Math.min(to, nearHigh * present), step };
}

/** Figures that tell any two steps of a picture apart. */
const figures = 6;

const written = (value: number | string, kind: QuantityKind): string =>
  typeof value === 'string'
    ? value
    : kind === 'date' && isDay(value)
      ? isoDate(Math.floor(value))
      : rounded(Number(value.toPrecision(figures)), 12);

/**
 * The values to try for a belt, at most so many. Throws ChangeRefused for a name that there is not, a range that can't
 * be read, and a factor that has none.
 */
export function triedValues(
  belt: Belt,
  typed: TypedRange,
  most: number,
): { readonly factor: Factor; readonly tried: TriedValues } {
  const factor = factorNamed(belt.book, typed.by);
  const present = factorValue(factor, belt);
  const told = {
    name: factor.name,
    label: headerWithUnit(shownHeader({ header: factor.name }, belt.units), factor.kind, belt.units),
    kind: factor.kind,
    present: typeof present === 'number' || typeof present === 'string' ? present : undefined,
  };
  const choices = factorChoices(factor, belt);
  if (choices !== undefined) {
    const values = choices.slice(0, most);
    return { factor, tried: { ...told, values, chosen: true, words: values.map(String) } };
  }
  const steps = factorSteps(factor, belt, {
    ...bound(factor, belt, typed, 'from'),
    ...bound(factor, belt, typed, 'to'),
  });
  if (steps === undefined)
    throw new ChangeRefused(
      typed.from === '' && typed.to === ''
        ? `${factor.name} has no range of its own and no value to go around: give its range, from and to.`
        : `${factor.name}: the range must end after it begins.`,
    );
  const values = evenSteps(drawnIn(steps, present, typed, factor.kind), most);
  if (values.length === 0) throw new ChangeRefused(`${factor.name}: there is no step between from and to.`);
  return {
    factor,
    tried: { ...told, values, chosen: false, words: values.map((value) => written(value, factor.kind)) },
  };
}

/** Changes of several factors of a belt at once. */
export function combined(belt: Belt, changes: readonly (readonly [factor: Factor, value: Value])[]): Change {
  const all = changes.map(([factor, value]) => changeTo(belt, factor, value));
  return all.reduce(
    (sum: Change, one) => ({
      inputs: { ...sum.inputs, ...one.inputs },
      named: { ...sum.named, ...one.named },
      cells: [...(sum.cells ?? []), ...(one.cells ?? [])],
    }),
    {},
  );
}
