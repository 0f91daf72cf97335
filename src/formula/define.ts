import { casesOf, givenAtOnce } from './argument-takers.ts';
import { accepted, acceptedRest, boundFault, unequalRanges } from './arguments.ts';
import type { Among } from './among.ts';
import { type ArgumentKind, type Arguments, isOptional, type Parameters } from './parameter.ts';
import { mapped, type Node, nodesOf, operand, parsed } from './syntax.ts';
import { Fault, isFault, type Matrix, quoted, type Value } from './values.ts';

/**
 * What an engineering function is: one object from which engine registration, argument checks, messages, help,
 * the reference, the Functions sheet of an exported book and the tests are made.
 */

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

type Figures = Readonly<Record<string, number>>;

interface Definition<P extends Parameters> {
  readonly name: string;
  readonly summary: string;
  readonly parameters: P;
  readonly result: { readonly kind: ArgumentKind; readonly doc: string };
  /** Standard and clause, handbook, or the mark 'common practice, no source' or 'from memory'. */
  readonly source: string;
  /** A formula with literal arguments and its value; a spilling function's value is its rows. */
  readonly example: readonly [string, number | string | readonly (readonly number[])[]];
  /** Printed figures that a book may change: the named value that holds each, and what is printed. */
  readonly figures?: Figures;
  readonly calculate: (
    given: Arguments<P>,
    figure: (name: string) => number,
  ) => number | string | readonly (readonly number[])[];
  /**
   * The plain-spreadsheet equivalent over `{parameter}` placeholders, or one chosen by which optional arguments are
   * given. Bounds and types of the parameters are guarded around it; `{refused}` stands for #NUM!. A spilling function
   * uses `{row}` and `{column}` (from 1) for the place in the spill and is "" beyond its end. An `optional` argument
   * that is given may still be a blank cell: ISBLANK({parameter}) tells. A `rest` parameter stands inside EACH(…),
   * itself an argument of a call: that argument is written once for each of those given, cell or range. Array
   * arithmetic stands inside SUMPRODUCT, where every program does it; powers of ten are written 10^n, since not every
   * reader takes 1E9. null: there is none, the export writes values. A printed figure is written by `figure`, which
   * gives its name or its number.
   */
  readonly formula: string | ((given: ReadonlySet<string>, figure: (name: string) => string) => string) | null;
  /**
   * A shorter plain equivalent for arguments of which each is a number within its bounds, or an error, and nothing
   * else; told of each whether it can be below 0.
   */
  readonly ofNumbers?: (isPositive: (name: string) => boolean) => string;
  /** A shorter plain equivalent over `{range}`, for arguments that are cells side by side. */
  readonly overRange?: string;
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
  /** Printed figures that it reads, by the names of the values that hold them. */
  readonly figures: Figures;
  /**
   * The value for arguments as cells give them; undefined stands for one that was left out. With the book's figures
   * where it has them, else with the printed ones.
   */
  readonly evaluate: (
    args: readonly (Value | Matrix | undefined)[],
    figures?: ReadonlyMap<string, Value>,
  ) => Value | Matrix;
  /**
   * The same for rows of numbers, of which some cases are asked for: the value of each case, with the printed figures.
   * Undefined where an argument is not as it should be in every case.
   */
  readonly overCases: (
    args: readonly (Value | Float64Array | undefined)[],
    among: Among,
  ) => ((index: number) => Value | Matrix) | undefined;
  /**
   * The plain equivalent of a call with the optional arguments named in `given`; null when there is none. `named`: with
   * the names of printed figures, not their numbers.
   */
  readonly plain: (given: ReadonlySet<string>, named?: boolean) => Node | null;
  /** The plain equivalent of a call whose arguments are numbers within their bounds, or errors. */
  readonly ofNumbers?: (isPositive: (name: string) => boolean) => Node;
  /** The plain equivalent over `{range}`, where the arguments are the cells of one. */
  readonly overRange?: Node;
  /** NAME(width, skew, [pieces]) as help shows it; NAME(verdict, …) where any number is taken. */
  readonly signature: string;
}

/** A book holds no number where a function needs a figure. */
class NoFigure extends Error {}

function figureOf(name: string, figure: string, printed: Figures, held?: ReadonlyMap<string, Value>): number {
  const value = held?.has(figure) === true ? held.get(figure) : printed[figure];
  if (value === undefined) throw new Error(`${name} declares no figure ${figure}`);
  if (typeof value !== 'number')
    throw new NoFigure(`${name}: ${figure}, a figure of the sheet Tables, must be a number; ${quoted(value)} is there`);
  return value;
}

// oxlint-disable-next-line max-lines-per-function -- what one declaration becomes, each part made once.
export function define<const P extends Parameters>(definition: Definition<P>): EngineeringFunction {
  const { name, parameters } = definition;
  if (name !== name.toUpperCase()) throw new Error(`${name}: a function's name is written in capitals`);
  const entries = Object.entries(parameters);
  const takesRanges = entries.some(([, { kind }]) => kind === 'numbers');
  const single = entries.filter(([, { rest }]) => rest !== true);
  const [rest] = entries.slice(single.length);
  const { figures = {} } = definition;
  const atOnce = takesRanges ? undefined : givenAtOnce(single, rest);
  const printed = (figure: string): number => figureOf(name, figure, figures);
  const worked = (given: Record<string, unknown>, held: ReadonlyMap<string, Value> | undefined): Value | Matrix => {
    try {
      const figure = held === undefined ? printed : (key: string) => figureOf(name, key, figures, held);
      const value = definition.calculate(given as Arguments<P>, figure);
      if (typeof value === 'number' && !Number.isFinite(value))
        return new Fault('#NUM!', `${name}: the result is too large to be a number`);
      return value;
    } catch (error) {
      if (error instanceof NoFigure) return new Fault('#VALUE!', error.message);
      if (!(error instanceof Refusal)) throw error;
      const was = quoted(given[error.argument]);
      return new Fault(error.code, `${name}: ${error.argument} ${error.message}; ${was} was given`);
    }
  };
  const evaluate: EngineeringFunction['evaluate'] = (args, held) => {
    const usual = atOnce?.(args);
    if (usual !== undefined) return worked(usual, held);
    if (rest === undefined && args.length > entries.length) {
      return new Fault(
        '#VALUE!',
        `${name} takes ${entries.length} arguments (${entries.map(([key]) => key).join(', ')}); ${args.length} were ` +
          `given`,
      );
    }
    const given: Record<string, unknown> = {};
    for (const [index, [key, parameter]] of single.entries()) {
      const value = accepted(name, key, parameter, args[index]);
      if (isFault(value)) return value;
      given[key] = value;
    }
    if (rest !== undefined) {
      const [key, parameter] = rest;
      const list = acceptedRest(name, key, parameter, args.slice(single.length));
      if (isFault(list)) return list;
      given[key] = list;
    }
    const unequal = takesRanges ? unequalRanges(name, entries, args) : undefined;
    if (unequal !== undefined) return unequal;
    for (const [key, parameter] of entries) {
      const fault = boundFault(name, key, parameter, given[key]);
      if (fault !== undefined) return fault;
    }
    return worked(given, held);
  };
  const plain = (optional: ReadonlySet<string>, named = false): Node | null => {
    const figure = (key: string): string => (named ? key : String(figures[key]));
    const text = typeof definition.formula === 'function' ? definition.formula(optional, figure) : definition.formula;
    return text === null ? null : parsed(text);
  };
  const { ofNumbers, overRange } = definition;
  checkRest(definition);
  checkPlaceholders(definition, plain(new Set(entries.map(([key]) => key))));
  return {
    name,
    summary: definition.summary,
    parameters,
    result: definition.result,
    source: definition.source,
    example: definition.example,
    figures,
    spills: definition.spills === true,
    evaluate,
    overCases:
      rest !== undefined || takesRanges ? () => undefined : (args, among) => casesOf(single, args, among, worked),
    plain,
    ...(ofNumbers === undefined ? {} : { ofNumbers: (isPositive) => parsed(ofNumbers(isPositive)) }),
    ...(overRange === undefined ? {} : { overRange: parsed(overRange) }),
    signature:
      `${name}(` +
      `${entries.map(([key, parameter]) => (isOptional(parameter) ? `[${key}]` : key)).join(', ')}` +
      `${rest === undefined ? '' : ', …'})`,
  };
}

/** Refuses a parameter of any number of arguments where there can be none: a programmer's error. */
function checkRest<P extends Parameters>({ name, parameters }: Definition<P>): void {
  for (const [index, [key, parameter]] of Object.entries(parameters).entries()) {
    if (parameter.rest !== true) continue;
    if (index < Object.keys(parameters).length - 1 || isOptional(parameter))
      throw new Error(`${name}: ${key} takes any number of arguments, so it must be the last and can't be left out`);
    if (parameter.kind === 'text' || parameter.kind === 'numbers')
      throw new Error(`${name}: ${key} can't take any number of arguments of the kind ${parameter.kind}`);
  }
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
  const rest = Object.keys(parameters).find((key) => parameters[key]?.rest === true);
  const left = [...nodesOf(rest === undefined ? formula : spread(formula, rest, []))];
  if (left.some((node) => (node.type === 'placeholder' && node.name === rest) || isEach(node)))
    throw new Error(
      rest === undefined
        ? `${name}: the plain formula has EACH, and no parameter takes any number of arguments`
        : `${name}: the plain formula names {${rest}} outside EACH(…), or has EACH where it is no argument of a call`,
    );
}

/** A call that marks, among the arguments of another, what is written once for each `rest` argument. */
const isEach = (node: Node | undefined): node is Node & { readonly type: 'call' } =>
  node?.type === 'call' && node.name === 'EACH';

/** A plain formula with its EACH(…) written once for each of the arguments that a `rest` parameter was given. */
export const spread = (formula: Node, rest: string, values: readonly Node[]): Node =>
  mapped(formula, (node) =>
    node.type === 'call' && node.args.some(isEach)
      ? {
          ...node,
          args: node.args.flatMap((argument) =>
            isEach(argument)
              ? values.flatMap((value) =>
                  argument.args.map((inner) => inner && filled(inner, (name) => (name === rest ? value : undefined))),
                )
              : [argument],
          ),
        }
      : undefined,
  );

/** A tree with its placeholders filled. */
export const filled = (formula: Node, fill: (name: string) => Node | undefined): Node =>
  mapped(formula, (node) => {
    if (node.type !== 'placeholder') return undefined;
    const value = fill(node.name);
    return value === undefined ? undefined : operand(value);
  });
