import type { Among } from './among.ts';
import { outOfBounds, type Parameter } from './parameter.ts';
import type { Matrix, Value } from './values.ts';

/**
 * Arguments that are as they should be, as they nearly always are: taken without a word of what could be wrong.
 *
 * Whatever is not taken here goes the long way (arguments.ts), which says what is wrong with it.
 */

/** Stands for an argument that must be looked at more closely. */
const notAtOnce = Symbol('not at once');

/** What `accepted` makes of an argument that is as it should be, in its bounds too; `notAtOnce` for any other. */
function takenAtOnce(parameter: Parameter): (given: Value | Matrix | undefined) => unknown {
  const { kind, optional, choices, default: stands } = parameter;
  const { min = -Infinity, above = -Infinity, max = Infinity, below = Infinity, whole = false } = parameter;
  if (kind === 'numbers') return () => notAtOnce;
  if (kind === 'verdict') return (given) => (typeof given === 'string' ? given : notAtOnce);
  if (kind === 'text')
    return (given) => {
      if (typeof given === 'string' && given !== '')
        return choices === undefined || choices.includes(given) ? given : notAtOnce;
      return (given === undefined || given === null) && optional === true ? undefined : notAtOnce;
    };
  const within = (value: number): boolean =>
    value >= min &&
    value > above &&
    value <= max &&
    value < below &&
    value - value === 0 &&
    (!whole || Number.isInteger(value));
  const left =
    optional === true
      ? undefined
      : kind !== 'check' && typeof stands === 'number' && within(stands)
        ? stands
        : notAtOnce;
  return (given) => {
    if (typeof given === 'number') return within(given) ? given : notAtOnce;
    return given === undefined || given === null ? left : notAtOnce;
  };
}

type Entry = readonly [string, Parameter];

/** Arguments as they nearly always are, without a word of what could be wrong with them; undefined for any others. */
export function givenAtOnce(
  single: readonly Entry[],
  rest: Entry | undefined,
): (args: readonly (Value | Matrix | undefined)[]) => Record<string, unknown> | undefined {
  const blank: Record<string, unknown> = Object.fromEntries(single.map(([key]) => [key, undefined]));
  const takers = single.map(([key, parameter]) => ({ key, take: takenAtOnce(parameter) }));
  const further = rest === undefined ? undefined : takenAtOnce(rest[1]);
  return (args) => {
    if (rest === undefined ? args.length > takers.length : args.length <= takers.length) return undefined;
    const given = { ...blank };
    for (let index = 0; index < takers.length; index += 1) {
      const taker = takers[index];
      const value = taker?.take(args[index]);
      if (taker === undefined || value === notAtOnce) return undefined;
      given[taker.key] = value;
    }
    if (rest === undefined || further === undefined) return given;
    const list: unknown[] = [];
    for (let index = takers.length; index < args.length; index += 1) {
      const value = further(args[index]);
      if (value === notAtOnce) return undefined;
      list.push(value);
    }
    given[rest[0]] = list;
    return given;
  };
}

/** Whether every case asked for holds a number within a parameter's bounds. */
function allWithin(parameter: Parameter, values: Float64Array, { at, count }: Among): boolean {
  let [least, most, whole] = [Infinity, -Infinity, true];
  for (let place = 0; place < count; place += 1) {
    const value = values[at[place] ?? 0] ?? 0;
    if (value < least) least = value;
    if (value > most) most = value;
    if (parameter.whole === true) whole &&= Number.isInteger(value);
  }
  return whole && (count === 0 || (!outOfBounds(least, parameter) && !outOfBounds(most, parameter)));
}

/** What is the same in all cases is looked at once; `calculate` keeps nothing of what it is given. */
export function casesOf(
  single: readonly Entry[],
  args: readonly (Value | Float64Array | undefined)[],
  among: Among,
  worked: (given: Record<string, unknown>, held: undefined) => Value | Matrix,
): ((index: number) => Value | Matrix) | undefined {
  if (args.length > single.length) return undefined;
  const given: Record<string, unknown> = {};
  const varied: { readonly key: string; readonly values: Float64Array }[] = [];
  for (const [place, [key, parameter]] of single.entries()) {
    const argument = args[place];
    if (argument instanceof Float64Array) {
      if (parameter.kind === 'text' || parameter.kind === 'verdict') return undefined;
      if (!allWithin(parameter, argument, among)) return undefined;
      given[key] = 0;
      varied.push({ key, values: argument });
    } else {
      const value = takenAtOnce(parameter)(argument);
      if (value === notAtOnce) return undefined;
      given[key] = value;
    }
  }
  return (index) => {
    for (const { key, values } of varied) given[key] = values[index];
    return worked(given, undefined);
  };
}
