import type { Dimension } from '../units/quantities.ts';
import { type EngineeringFunction } from './define.ts';
import { argumentKinds, isOptional, parameterAt } from './parameter.ts';
import {
  inWords,
  isLength,
  type Measured,
  measuring,
  neutral,
  product,
  substituted,
  truth,
  united,
  word,
} from './measured.ts';
import { standardArguments, takesInWords } from './standard.ts';
import { type Node, printed } from './syntax.ts';

/**
 * Formulas checked without computing anything: the functions and names in them, what functions are given, and units.
 *
 * Every part of a formula measures something: a column what its kind says, a function's result what the function says.
 * Sums and comparisons must be of one kind, arguments of the kind their parameter wants. Short and long lengths (mm and
 * m, in and ft) are different kinds here: only the named values of the Units sheet turn one into the other, so that a
 * formula that passes is right in both unit systems.
 */

/** What formulas may name. */
export interface CheckScope {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  /** What a column (`Width`, `Plate series.Pitch`) measures. */
  readonly column: (placeholder: string) => Measured | undefined;
  readonly named: (name: string) => Measured | undefined;
  /** What to say of a column or a name that there is not. */
  readonly unknown: (node: Node & { readonly type: 'placeholder' | 'name' }) => string;
}

/** What is wrong with a formula: two things in it that do not go together, a name or a call that there is not. */
export class FormulaMistake extends Error {
  /** The message names the function and the parameter where it is. */
  readonly placed: boolean;
  constructor(message: string, placed = false) {
    super(message);
    this.name = 'FormulaMistake';
    this.placed = placed;
  }
}

const together = (nodes: readonly Node[], scope: CheckScope): Measured =>
  oneKind(nodes.map((node) => [node, measured(node, scope)] as const));

/** The one kind of all parts of a sum, a comparison or a choice. */
function oneKind(parts: readonly (readonly [node: Node, measures: Measured])[]): Measured {
  const [first] = parts;
  return parts.reduce<Measured>((sum, [node, next]) => {
    const both = united(sum, next);
    if (both === undefined)
      throw new FormulaMistake(`${shown(first?.[0])} is ${inWords(sum)}, ${shown(node)} is ${inWords(next)}`);
    return both;
  }, neutral);
}

const shown = (node: Node | undefined): string =>
  node === undefined ? 'nothing' : printed(node.type === 'group' ? node.value : node);

/** Checks that a part measures what its place wants. */
function want(node: Node | undefined, dimension: Dimension, place: string, scope: CheckScope): void {
  const given = node === undefined ? neutral : measured(node, scope);
  if (given.type === 'word' || given.type === 'truth' || united(given, measuring(dimension)) === undefined) {
    throw new FormulaMistake(`${place} wants ${inWords(measuring(dimension))}, ${shown(node)} is ${inWords(given)}`);
  }
}

function measuredBinary(node: Node & { readonly type: 'binary' }, scope: CheckScope): Measured {
  const { operator, left, right } = node;
  if (operator === '&') {
    for (const part of [left, right]) measured(part, scope);
    return word;
  }
  const [one, other] = [measured(left, scope), measured(right, scope)];
  const sides = [[left, one] as const, [right, other] as const];
  if (operator === '+' || operator === '-') return numeric(oneKind(sides), node);
  if (operator !== '*' && operator !== '/' && operator !== '^') {
    oneKind(sides);
    return truth;
  }
  const [base, factor] = [numeric(one, left), numeric(other, right)];
  if (base.type !== 'number' || factor.type !== 'number') return neutral;
  if (operator === '^') {
    want(right, {}, 'an exponent', scope);
    const power = right.type === 'number' ? right.value : undefined;
    if (power === undefined) want(left, {}, 'a computed power', scope);
    return measuring(product({}, base.dimension, power ?? 1), base.literal && factor.literal);
  }
  return measuring(
    product(base.dimension, factor.dimension, operator === '*' ? 1 : -1),
    base.literal && factor.literal,
  );
}

function numeric(given: Measured, node: Node): Measured {
  if (given.type === 'number' || given.type === 'neutral') return given;
  throw new FormulaMistake(`${shown(node)} is ${inWords(given)} where a number is needed`);
}

/** The unit that a call's arguments have in common, as its first such argument gives it. */
interface Bound {
  readonly unit: Dimension;
  readonly by: string;
}

/** Symbols for what all arguments of a call have in common: l its unit of length, q the quantity that it checks. */
const common = ['l', 'q'] as const;

/** What an argument measures; what is wrong in it is said with the parameter that it stands for. */
function measuredArgument(argument: Node, place: string, scope: CheckScope): Measured {
  try {
    return measured(argument, scope);
  } catch (error) {
    if (!(error instanceof FormulaMistake) || error.placed) throw error;
    throw new FormulaMistake(`${place}: ${error.message}`, true);
  }
}

/**
 * What a function answers for what it is given. Its lengths are all of one kind, that of the first; so is what it
 * checks.
 */
function measuredCall(
  { name, parameters, result }: EngineeringFunction,
  args: readonly (Node | undefined)[],
  scope: CheckScope,
): Measured {
  const bound = new Map<string, Bound>();
  const entries = Object.entries(parameters);
  const takesMore = entries.at(-1)?.[1].rest === true;
  if (args.length > entries.length && !takesMore)
    throw new FormulaMistake(
      `${name} takes ${entries.length} arguments (${Object.keys(parameters).join(', ')}), not ${args.length}`,
      true,
    );
  for (let index = 0; index < Math.max(entries.length, args.length); index += 1) {
    const [key, parameter] = parameterAt(parameters, index) ?? [];
    if (key === undefined || parameter === undefined) continue;
    const argument = args[index];
    const wants = `${name} wants ${argumentKinds[parameter.kind].says} for ${key}, `;
    if (argument === undefined && !isOptional(parameter)) throw new FormulaMistake(`${wants}which is left out`, true);
    const given = argument === undefined ? neutral : measuredArgument(argument, `${name}, ${key}`, scope);
    if (argument === undefined || given.type === 'neutral') continue;
    const isWord = parameter.kind === 'text' || parameter.kind === 'verdict';
    const mismatch = new FormulaMistake(`${wants}${shown(argument)} is ${inWords(given)}`, true);
    if (isWord && given.type === 'word') continue;
    if (isWord || given.type !== 'number') throw mismatch;
    const wanted: Dimension = parameter.share === true ? {} : argumentKinds[parameter.kind].dimension;
    const variable = common.find((symbol) => symbol in wanted);
    if (variable === undefined) {
      if (united(given, measuring(wanted)) === undefined) throw mismatch;
      continue;
    }
    const before = bound.get(variable);
    if (before === undefined) {
      const power = wanted[variable] ?? 1;
      const rest = product(given.dimension, product(wanted, { [variable]: power }, -1), -1);
      const unit = Object.fromEntries(Object.entries(rest).map(([symbol, exponent]) => [symbol, exponent / power]));
      if (variable === 'l' && !isLength(unit)) throw mismatch;
      bound.set(variable, { unit, by: `${shown(argument)}, ${inWords(given)}` });
    } else if (united(given, measuring(substituted(wanted, { [variable]: before.unit }))) === undefined) {
      throw new FormulaMistake(`${mismatch.message}, which does not go with ${before.by}`, true);
    }
  }
  if (result.kind === 'text' || result.kind === 'verdict') return word;
  const { dimension } = argumentKinds[result.kind];
  const open = common.some((symbol) => symbol in dimension && !bound.has(symbol));
  return open
    ? neutral
    : measuring(substituted(dimension, Object.fromEntries([...bound].map(([symbol, { unit }]) => [symbol, unit]))));
}

const truthful = new Set(['ISWRONG', 'ISNUMBER', 'ISTEXT', 'ISBLANK', 'ISERROR', 'AND', 'OR', 'NOT']);
const alike = new Set(['ABS', 'MAX', 'MIN', 'SUM']);
const counting = new Set(['COUNT', 'LEN', 'ROW', 'SEARCH']);

function measuredStandard(name: string, args: readonly (Node | undefined)[], scope: CheckScope): Measured {
  const takes = standardArguments[name];
  if (takes === undefined) throw new FormulaMistake(`${name} is no function that the sheets' formulas may use`);
  const { least, most = Infinity, step = 1 } = takes;
  if (args.length < least || args.length > most || (args.length - least) % step !== 0)
    throw new FormulaMistake(`${name} takes ${takesInWords(takes)}, not ${args.length}`);
  const given = args.filter((argument) => argument !== undefined);
  const [first, second, third] = args;
  if (name === 'IF') {
    if (first !== undefined) measured(first, scope);
    return together(
      [second, third].filter((branch) => branch !== undefined),
      scope,
    );
  }
  if (name === 'INDEX') {
    want(second, {}, 'INDEX', scope);
    return first === undefined ? neutral : measured(first, scope);
  }
  if (name === 'MATCH') {
    together(
      [first, second].filter((node) => node !== undefined),
      scope,
    );
    return measuring({});
  }
  if (name === 'SUMIFS' || name === 'MINIFS' || name === 'MAXIFS' || name === 'COUNTIFS')
    return measuredConditional(name, given, scope);
  if (name === 'IFERROR' || alike.has(name)) return together(given, scope);
  if (name === 'ROUND' && first !== undefined) {
    want(second, {}, 'ROUND', scope);
    return measured(first, scope);
  }
  for (const argument of given) measured(argument, scope);
  if (truthful.has(name)) return truth;
  if (counting.has(name)) return measuring({});
  switch (name) {
    case 'NA':
      return neutral;
    case 'MID':
    case 'SUBSTITUTE':
      return word;
    case 'RADIANS':
      want(first, { A: 1 }, name, scope);
      return measuring({});
    case 'COS':
      want(first, {}, name, scope);
      return measuring({});
    default:
      throw new FormulaMistake(`${name} is not known to the check of units`);
  }
}

/**
 * A conditional sum or the like: each condition's column and value are of one kind, the result is of the first
 * column's.
 */
function measuredConditional(name: string, given: readonly Node[], scope: CheckScope): Measured {
  const [source, ...rest] = given;
  const conditions = name === 'COUNTIFS' ? given : rest;
  for (let place = 0; place < conditions.length; place += 2) together(conditions.slice(place, place + 2), scope);
  return name === 'COUNTIFS' || source === undefined ? measuring({}) : measured(source, scope);
}

/** What a formula measures. Throws FormulaMistake where two of its parts do not go together. */
export function measured(node: Node, scope: CheckScope): Measured {
  switch (node.type) {
    case 'number':
      return node.value === 0 ? neutral : measuring({}, true);
    case 'text':
      return node.value === '' ? neutral : word;
    case 'boolean':
      return truth;
    case 'error':
      return neutral;
    case 'group':
      return measured(node.value, scope);
    case 'unary':
      return numeric(measured(node.value, scope), node.value);
    case 'percent':
      return measuring({}, true);
    case 'binary':
      return measuredBinary(node, scope);
    case 'placeholder':
    case 'name': {
      const known = node.type === 'name' ? scope.named(node.name) : scope.column(node.name);
      if (known === undefined) throw new FormulaMistake(scope.unknown(node));
      return known;
    }
    case 'call': {
      const definition = scope.functions.get(node.name);
      return definition === undefined
        ? measuredStandard(node.name, node.args, scope)
        : measuredCall(definition, node.args, scope);
    }
    default:
      throw new FormulaMistake(`${printed(node)} can't be checked for units`);
  }
}

/** What is wrong with a formula whose result should measure `wanted`; undefined when nothing is. */
export function formulaFault(formula: Node, wanted: Measured, scope: CheckScope): string | undefined {
  try {
    const result = measured(formula, scope);
    return united(result, wanted) === undefined
      ? `the formula gives ${inWords(result)}, the column holds ${inWords(wanted)}`
      : undefined;
  } catch (error) {
    if (error instanceof FormulaMistake) return error.message;
    throw error;
  }
}
