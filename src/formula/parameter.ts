import type { Dimension } from '../units/quantities.ts';

/** What a parameter of a function takes: its kind, its bounds, and whether it may be left out or take several. */

/**
 * Kinds of argument and result. Lengths are homogeneous: within one call all of them (and masses per length) are in
 * one unit, whichever: the symbol l. 'check' takes anything, errors and blanks included, and hands on undefined for
 * what is not a number within the bounds; all that one call checks is of one quantity, whichever: the symbol q.
 */
export const argumentKinds = {
  length: { says: 'a length', dimension: { l: 1 } },
  millimetres: { says: 'a length in mm', dimension: { mm: 1 } },
  metres: { says: 'a length in m', dimension: { metre: 1 } },
  newtonsPerMillimetre: { says: 'a tension in N/mm', dimension: { metricTension: 1 } },
  angle: { says: 'an angle in degrees', dimension: { A: 1 } },
  lineTension: { says: 'a tension per unit width', dimension: { F: 1, l: -1 } },
  force: { says: 'a force', dimension: { F: 1 } },
  lineMass: { says: 'a mass per unit length', dimension: { M: 1, l: -1 } },
  gravity: { says: 'a weight per unit mass', dimension: { F: 1, M: -1 } },
  money: { says: 'an amount of money', dimension: { $: 1 } },
  hours: { says: 'hours', dimension: { T: 1 } },
  perHour: { says: 'a number per hour', dimension: { T: -1 } },
  hoursPerYear: { says: 'hours per year', dimension: { T: 1, Y: -1 } },
  daysPerYear: { says: 'days per year', dimension: { D: 1, Y: -1 } },
  date: { says: 'a day', dimension: { D: 1 } },
  percent: { says: 'a number in per cent', dimension: {} },
  count: { says: 'a whole number', dimension: {} },
  number: { says: 'a number', dimension: {} },
  text: { says: 'a text', dimension: {} },
  numbers: { says: 'a range of numbers', dimension: {} },
  check: { says: 'a number to check', dimension: { q: 1 } },
  verdict: { says: 'a verdict', dimension: {} },
} as const satisfies Record<string, { says: string; dimension: Dimension }>;
export type ArgumentKind = keyof typeof argumentKinds;

export interface Parameter {
  readonly kind: ArgumentKind;
  readonly doc: string;
  /**
   * Bounds: at least `min`, more than `above`, at most `max`, less than `below`; outside them #NUM!. In a range, of
   * each number.
   */
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly below?: number;
  /** Only whole numbers are allowed. */
  readonly whole?: boolean;
  /** Words that are allowed, compared without case. */
  readonly choices?: readonly string[];
  /** What an argument that is left out stands for. A blank cell in its place is the same as leaving it out. */
  readonly default?: number | string;
  /** True when `calculate` has to know that the argument was left out: it then receives undefined. Has no `default`. */
  readonly optional?: true;
  /**
   * Of the last parameter: it takes one argument or more, each a value or a range whose cells count one by one, and
   * `calculate` receives all of them as a list. Numbers, checks and verdicts can be taken so, texts can't.
   */
  readonly rest?: true;
  /** Of a number to check: it is a share of another argument and has no unit itself. */
  readonly share?: true;
  /** Advice added to the message when a number is out of bounds. */
  readonly advice?: string;
}

export type Parameters = Readonly<Record<string, Parameter>>;

type Basic<P extends Parameter> = P['kind'] extends 'text' | 'verdict'
  ? string
  : P['kind'] extends 'numbers'
    ? readonly number[]
    : P['kind'] extends 'check'
      ? number | undefined
      : number;
type Argument<P extends Parameter> = P extends { readonly rest: true }
  ? readonly Basic<P>[]
  : P extends { readonly optional: true }
    ? Basic<P> | undefined
    : Basic<P>;
export type Arguments<P extends Parameters> = { readonly [Name in keyof P]: Argument<P[Name]> };

export const isOptional = (parameter: Parameter): boolean =>
  parameter.optional === true || parameter.default !== undefined;

/** Whether a range of cells may stand for the parameter. */
export const takesRange = ({ kind, rest }: Parameter): boolean => kind === 'numbers' || rest === true;

type Entry = readonly [string, Parameter];

const knownEntries = new WeakMap<Parameters, readonly Entry[]>();

/** A function's parameters in their order, made once: every argument asks for one of them. */
function entriesOf(parameters: Parameters): readonly Entry[] {
  let entries = knownEntries.get(parameters);
  if (entries === undefined) knownEntries.set(parameters, (entries = Object.entries(parameters)));
  return entries;
}

/** The parameter that an argument stands for, with its name; of `rest` arguments all but the first come after it. */
export function parameterAt(parameters: Parameters, index: number): Entry | undefined {
  const entries = entriesOf(parameters);
  const last = entries.at(-1);
  return entries[index] ?? (last?.[1].rest === true ? last : undefined);
}

/** A parameter's bounds in words, '' when there are none: "more than 0", "from 0 to 60". */
export function boundsInWords({ min, above, max, below, whole, choices }: Parameter): string {
  if (choices !== undefined) return `one of ${choices.join(', ')}`;
  const kind = whole === true ? 'a whole number ' : '';
  if (min !== undefined && max !== undefined) return `${kind}from ${min} to ${max}`;
  const low = min !== undefined ? `at least ${min}` : above !== undefined ? `more than ${above}` : '';
  const high = max !== undefined ? `at most ${max}` : below !== undefined ? `less than ${below}` : '';
  return `${kind}${[low, high].filter((part) => part !== '').join(' and ')}`.trim();
}

/** How often a parameter is given, in words; '' for one that is given once. */
export function timesInWords(parameter: Parameter): string {
  if (parameter.rest === true) return 'one or more, cells or ranges';
  if (parameter.default !== undefined) return `${parameter.default} when left out`;
  return isOptional(parameter) ? 'may be left out' : '';
}

export function outOfBounds(value: number, { min, above, max, below, whole }: Parameter): boolean {
  return (
    (min !== undefined && value < min) ||
    (above !== undefined && value <= above) ||
    (max !== undefined && value > max) ||
    (below !== undefined && value >= below) ||
    (whole === true && !Number.isInteger(value))
  );
}
