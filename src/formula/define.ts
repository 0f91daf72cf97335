import type { Dimension } from '../units/quantities.ts';
import { mapped, type Node, nodesOf, operand, parsed } from './syntax.ts';
import { Fault, isFault, type Matrix, quoted, type Value } from './values.ts';

/**
 * What an engineering function is: one object from which engine registration, argument checks, messages, help,
 * the README's table, the Functions sheet of an exported book and the tests are made.
 */

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
type Argument<P extends Parameter> = P extends { readonly optional: true } ? Basic<P> | undefined : Basic<P>;
export type Arguments<P extends Parameters> = { readonly [Name in keyof P]: Argument<P[Name]> };

/**
 * Thrown by `calculate` when arguments are each in bounds but impossible together. Becomes #NUM! (or the code given).
 */
export class Refusal extends Error {
  readonly argument: string;
  readonly code: '#NUM!' | '#VALUE!' | '#N/A';
  constructor(argument: string, must: string, code: '#NUM!' | '#VALUE!' | '#N/A' = '#NUM!') {
    super(must);
    this.name = 'Refusal';
    this.argument = argument;
    this.code = code;
  }
}

export interface Definition<P extends Parameters> {
  readonly name: string;
  readonly summary: string;
  readonly parameters: P;
  readonly result: { readonly kind: ArgumentKind; readonly doc: string };
  /** Standard and clause, handbook, or the mark 'common practice, no source' or 'from memory'. */
  readonly source: string;
  /** A formula with literal arguments and its value; a spilling function's value is its rows. */
  readonly example: readonly [string, number | string | readonly (readonly number[])[]];
  readonly calculate: (given: Arguments<P>) => number | string | readonly (readonly number[])[];
  /**
   * The plain-spreadsheet equivalent over `{parameter}` placeholders, or one chosen by which optional arguments are
   * given. Bounds and types of the parameters are guarded around it; `{refused}` stands for #NUM!. A spilling function
   * uses `{row}` and `{column}` (from 1) for the place in the spill and is "" beyond its end. An `optional` argument
   * that is given may still be a blank cell: ISBLANK({parameter}) tells. Array arithmetic stands inside SUMPRODUCT,
   * where every program does it; powers of ten are written 10^n, since not every reader takes 1E9. null: there is none,
   * the export writes values.
   */
  readonly formula: string | ((given: ReadonlySet<string>) => string) | null;
  /** True when the value is rows and columns that fill the cells below and beside. */
  readonly spills?: true;
}

/** A defined function, its parameters' types forgotten: what registries and tables hold. */
export interface EngineeringFunction {
  readonly name: string;
  readonly summary: string;
  readonly parameters: Parameters;
  readonly result: { readonly kind: ArgumentKind; readonly doc: string };
  readonly source: string;
  readonly example: readonly [string, number | string | readonly (readonly number[])[]];
  readonly spills: boolean;
  /** The value for arguments as cells give them; undefined stands for one that was left out. */
  readonly evaluate: (args: readonly (Value | Matrix | undefined)[]) => Value | Matrix;
  /** The plain equivalent of a call with the optional arguments named in `given`; null when there is none. */
  readonly plain: (given: ReadonlySet<string>) => Node | null;
  /** NAME(width, skew, [pieces]) as help shows it. */
  readonly signature: string;
}

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);

export const isOptional = (parameter: Parameter): boolean =>
  parameter.optional === true || parameter.default !== undefined;

/** A parameter's bounds in words, '' when there are none: "more than 0", "from 0 to 60". */
export function boundsInWords({ min, above, max, below, whole, choices }: Parameter): string {
  if (choices !== undefined) return `one of ${choices.join(', ')}`;
  const kind = whole === true ? 'a whole number ' : '';
  if (min !== undefined && max !== undefined) return `${kind}from ${min} to ${max}`;
  const low = min !== undefined ? `at least ${min}` : above !== undefined ? `more than ${above}` : '';
  const high = max !== undefined ? `at most ${max}` : below !== undefined ? `less than ${below}` : '';
  return `${kind}${[low, high].filter((part) => part !== '').join(' and ')}`.trim();
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

/**
 * One argument as `calculate` takes it, or the fault it gives. `wrong` types come before `#NUM!` in the caller's order.
 */
function accepted(call: string, name: string, parameter: Parameter, given: Value | Matrix | undefined): unknown {
  const { kind } = parameter;
  const left = given === undefined || given === null;
  if (left && parameter.optional === true) return undefined;
  const value = left ? (parameter.default ?? given) : given;
  if (value === undefined)
    return new Fault('#VALUE!', `${call}: ${name} is missing; it must be ${argumentKinds[kind].says}`);
  if (kind === 'check')
    return typeof value === 'number' && Number.isFinite(value) && !outOfBounds(value, parameter) ? value : undefined;
  if (kind === 'verdict') return typeof value === 'string' ? value : 'not known';
  if (kind === 'numbers') return acceptedNumbers(call, name, value);
  if (isMatrix(value))
    return new Fault('#VALUE!', `${call}: ${name} must be ${argumentKinds[kind].says}; a range of cells was given`);
  if (isFault(value)) return value;
  if (kind === 'text') {
    if (typeof value !== 'string' || value === '')
      return new Fault('#VALUE!', `${call}: ${name} must be a text; ${quoted(value === '' ? null : value)} was given`);
    const word =
      parameter.choices === undefined
        ? value
        : parameter.choices.find((choice) => choice.toLowerCase() === value.trim().toLowerCase());
    return (
      word ?? new Fault('#VALUE!', `${call}: ${name} must be ${boundsInWords(parameter)}; ${quoted(value)} was given`)
    );
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    return new Fault('#VALUE!', `${call}: ${name} must be ${argumentKinds[kind].says}; ${quoted(value)} was given`);
  }
  return value;
}

function acceptedNumbers(call: string, name: string, value: Value | Matrix): unknown {
  const rows = isMatrix(value) ? value : [[value]];
  if (rows.length > 1 && (rows[0]?.length ?? 0) > 1) {
    return new Fault('#VALUE!', `${call}: ${name} must be one row or one column; ${shapeOf(value)} was given`);
  }
  const numbers: number[] = [];
  for (const item of rows.flat()) {
    if (isFault(item)) return item;
    if (typeof item !== 'number')
      return new Fault('#VALUE!', `${call}: ${name} must hold only numbers; ${quoted(item)} is among them`);
    numbers.push(item);
  }
  return numbers;
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** A range's size in words; a single cell is a range of one. */
function shapeOf(value: Value | Matrix | undefined): string {
  const rows = isMatrix(value) ? value : [[value]];
  return `a range of ${counted(rows.length, 'row')} and ${counted(rows[0]?.length ?? 0, 'column')}`;
}

/** The fault of ranges that are not the same size and the same way round, as pairs of quantity and price must be. */
function unequalRanges(
  call: string,
  entries: readonly (readonly [string, Parameter])[],
  args: readonly (Value | Matrix | undefined)[],
): Fault | undefined {
  const shapes = entries.flatMap(([name, { kind }], index) =>
    kind === 'numbers' ? [{ name, shape: shapeOf(args[index]) }] : [],
  );
  const [first] = shapes;
  const other = shapes.find(({ shape }) => shape !== first?.shape);
  if (first === undefined || other === undefined) return undefined;
  return new Fault(
    '#VALUE!',
    `${call}: ${other.name} must have the size of ${first.name}, ${first.shape}; ${other.shape} was given`,
  );
}

function boundFault(call: string, name: string, parameter: Parameter, value: unknown): Fault | undefined {
  if (parameter.kind === 'check') return undefined;
  const numbers: readonly unknown[] = Array.isArray(value) ? value : [value];
  const wrong = numbers.find((number) => typeof number === 'number' && outOfBounds(number, parameter));
  if (wrong === undefined) return undefined;
  const advice = parameter.advice === undefined ? '' : `. ${parameter.advice}`;
  const which = parameter.kind === 'numbers' ? `each number of ${name}` : name;
  return new Fault(
    '#NUM!',
    `${call}: ${which} must be ${boundsInWords(parameter)}; ${quoted(wrong)} was given${advice}`,
  );
}

export function define<const P extends Parameters>(definition: Definition<P>): EngineeringFunction {
  const { name, parameters } = definition;
  if (name !== name.toUpperCase()) throw new Error(`${name}: a function's name is written in capitals`);
  const entries = Object.entries(parameters);
  const takesRanges = entries.some(([, { kind }]) => kind === 'numbers');
  const evaluate = (args: readonly (Value | Matrix | undefined)[]): Value | Matrix => {
    if (args.length > entries.length) {
      return new Fault(
        '#VALUE!',
        `${name} takes ${entries.length} arguments (${entries.map(([key]) => key).join(', ')}); ${args.length} were ` +
          `given`,
      );
    }
    const given: Record<string, unknown> = {};
    for (const [index, [key, parameter]] of entries.entries()) {
      const value = accepted(name, key, parameter, args[index]);
      if (isFault(value)) return value;
      given[key] = value;
    }
    const unequal = takesRanges ? unequalRanges(name, entries, args) : undefined;
    if (unequal !== undefined) return unequal;
    for (const [key, parameter] of entries) {
      const fault = boundFault(name, key, parameter, given[key]);
      if (fault !== undefined) return fault;
    }
    try {
      const value = definition.calculate(given as Arguments<P>);
      if (typeof value === 'number' && !Number.isFinite(value))
        return new Fault('#NUM!', `${name}: the result is too large to be a number`);
      return value;
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      const was = quoted(given[error.argument]);
      return new Fault(error.code, `${name}: ${error.argument} ${error.message}; ${was} was given`);
    }
  };
  const plain = (optional: ReadonlySet<string>): Node | null => {
    const text = typeof definition.formula === 'function' ? definition.formula(optional) : definition.formula;
    return text === null ? null : parsed(text);
  };
  checkPlaceholders(definition, plain(new Set(entries.map(([key]) => key))));
  return {
    name,
    summary: definition.summary,
    parameters,
    result: definition.result,
    source: definition.source,
    example: definition.example,
    spills: definition.spills === true,
    evaluate,
    plain,
    signature: `${name}(${entries.map(([key, parameter]) => (isOptional(parameter) ? `[${key}]` : key)).join(', ')})`,
  };
}

/** Refuses a plain formula that names an unknown parameter or leaves one out: a programmer's error. */
function checkPlaceholders<P extends Parameters>(
  { name, parameters, spills }: Definition<P>,
  formula: Node | null,
): void {
  if (formula === null) return;
  const used = new Set(nodesOf(formula).flatMap((node) => (node.type === 'placeholder' ? [node.name] : [])));
  const allowed = new Set([...Object.keys(parameters), 'refused', ...(spills === true ? ['row', 'column'] : [])]);
  for (const key of used)
    if (!allowed.has(key)) throw new Error(`${name}: the plain formula names {${key}}, which is no parameter`);
  for (const key of Object.keys(parameters))
    if (!used.has(key)) throw new Error(`${name}: the plain formula leaves {${key}} out`);
}

/** A tree with its placeholders filled. */
export const filled = (formula: Node, fill: (name: string) => Node | undefined): Node =>
  mapped(formula, (node) => {
    if (node.type !== 'placeholder') return undefined;
    const value = fill(node.name);
    return value === undefined ? undefined : operand(value);
  });
