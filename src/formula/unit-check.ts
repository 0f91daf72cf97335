import type { Dimension } from '../units/quantities.ts';
import type { EngineeringFunction } from './define.ts';
import { argumentKinds, parameterAt } from './parameter.ts';
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
import { type Node, printed } from './syntax.ts';

/**
 * Units of formulas, checked without computing anything.
 *
 * Every part of a formula measures something: a column what its kind says, a function's result what the function says.
 * Sums and comparisons must be of one kind, arguments of the kind their parameter wants. Short and long lengths (mm and
 * m, in and ft) are different kinds here: only the named values of the Units sheet turn one into the other, so that a
 * formula that passes is right in both unit systems.
 */

/** What formulas may name. */
export interface UnitScope {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  /** What a column (`Width`, `Plate series.Pitch`) measures. */
  readonly column: (placeholder: string) => Measured | undefined;
  readonly named: (name: string) => Measured | undefined;
}

/** Two things in a formula that do not go together; the message names both. */
export class UnitMismatch extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UnitMismatch';
  }
}

function together(nodes: readonly Node[], scope: UnitScope): Measured {
  const [first, ...rest] = nodes;
  let sum = first === undefined ? neutral : measured(first, scope);
  for (const node of rest) {
    const next = measured(node, scope);
    const both = united(sum, next);
    if (both === undefined)
      throw new UnitMismatch(`${shown(first)} is ${inWords(sum)}, ${shown(node)} is ${inWords(next)}`);
    sum = both;
  }
  return sum;
}

const shown = (node: Node | undefined): string =>
  node === undefined ? 'nothing' : printed(node.type === 'group' ? node.value : node);

/** Checks that a part measures what its place wants. */
function want(node: Node | undefined, dimension: Dimension, place: string, scope: UnitScope): void {
  const given = node === undefined ? neutral : measured(node, scope);
  if (given.type === 'word' || given.type === 'truth' || united(given, measuring(dimension)) === undefined) {
    throw new UnitMismatch(`${place} wants ${inWords(measuring(dimension))}, ${shown(node)} is ${inWords(given)}`);
  }
}

/** A branch that is an error on purpose: 10^400, or a text added to 0. */
const isPlanted = (node: Node & { readonly type: 'binary' }, right: Measured): boolean =>
  node.left.type === 'number' &&
  ((node.operator === '^' && node.right.type === 'number' && !Number.isFinite(node.left.value ** node.right.value)) ||
    (node.operator === '+' && node.left.value === 0 && right.type === 'word'));

function measuredBinary(node: Node & { readonly type: 'binary' }, scope: UnitScope): Measured {
  const { operator, left, right } = node;
  if (operator === '&') {
    for (const part of [left, right]) measured(part, scope);
    return word;
  }
  const [one, other] = [measured(left, scope), measured(right, scope)];
  if (isPlanted(node, other)) return neutral;
  if (operator === '+' || operator === '-') return numeric(together([left, right], scope), node);
  if (operator !== '*' && operator !== '/' && operator !== '^') {
    together([left, right], scope);
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
  throw new UnitMismatch(`${shown(node)} is ${inWords(given)} where a number is needed`);
}

/** The unit that a call's arguments have in common, as its first such argument gives it. */
interface Bound {
  readonly unit: Dimension;
  readonly by: string;
}

/** Symbols for what all arguments of a call have in common: l its unit of length, q the quantity that it checks. */
const common = ['l', 'q'] as const;

/**
 * What a function answers for what it is given. Its lengths are all of one kind, that of the first; so is what it
 * checks.
 */
function measuredCall(
  { name, parameters, result }: EngineeringFunction,
  args: readonly (Node | undefined)[],
  scope: UnitScope,
): Measured {
  const bound = new Map<string, Bound>();
  for (const [index, argument] of args.entries()) {
    const [key, parameter] = parameterAt(parameters, index) ?? [];
    if (key === undefined || parameter === undefined)
      throw new UnitMismatch(`${name} takes ${Object.keys(parameters).length} arguments, ${args.length} are given`);
    const given = argument === undefined ? neutral : measured(argument, scope);
    if (argument === undefined || given.type === 'neutral') continue;
    const isWord = parameter.kind === 'text' || parameter.kind === 'verdict';
    const mismatch = new UnitMismatch(
      `${name} wants ${argumentKinds[parameter.kind].says} for ${key}, ${shown(argument)} is ${inWords(given)}`,
    );
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
      throw new UnitMismatch(`${mismatch.message}, which does not go with ${before.by}`);
    }
  }
  if (result.kind === 'text' || result.kind === 'verdict') return word;
  const { dimension } = argumentKinds[result.kind];
  const open = common.some((symbol) => symbol in dimension && !bound.has(symbol));
  return open
    ? neutral
    : measuring(substituted(dimension, Object.fromEntries([...bound].map(([symbol, { unit }]) => [symbol, unit]))));
}

const truthful = new Set(['ISNUMBER', 'ISTEXT', 'ISBLANK', 'ISERROR', 'AND', 'OR', 'NOT']);
const alike = new Set(['ABS', 'MAX', 'MIN', 'SUM']);
const counting = new Set(['COUNT', 'LEN', 'ROW', 'SEARCH']);

function measuredStandard(name: string, args: readonly (Node | undefined)[], scope: UnitScope): Measured {
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
      throw new UnitMismatch(`${name} is not known to the check of units`);
  }
}

/**
 * A conditional sum or the like: each condition's column and value are of one kind, the result is of the first
 * column's.
 */
function measuredConditional(name: string, given: readonly Node[], scope: UnitScope): Measured {
  const [source, ...rest] = given;
  const conditions = name === 'COUNTIFS' ? given : rest;
  for (let place = 0; place < conditions.length; place += 2) together(conditions.slice(place, place + 2), scope);
  return name === 'COUNTIFS' || source === undefined ? measuring({}) : measured(source, scope);
}

/** What a formula measures. Throws UnitMismatch where two of its parts do not go together. */
export function measured(node: Node, scope: UnitScope): Measured {
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
      if (known === undefined) throw new UnitMismatch(`${printed(node)} measures nothing that is known`);
      return known;
    }
    case 'call': {
      const definition = scope.functions.get(node.name);
      return definition === undefined
        ? measuredStandard(node.name, node.args, scope)
        : measuredCall(definition, node.args, scope);
    }
    default:
      throw new UnitMismatch(`${printed(node)} can't be checked for units`);
  }
}

/** What is wrong with a formula whose result should measure `wanted`; undefined when its units agree. */
export function unitFault(formula: Node, wanted: Measured, scope: UnitScope): string | undefined {
  try {
    const result = measured(formula, scope);
    return united(result, wanted) === undefined
      ? `the formula gives ${inWords(result)}, the column holds ${inWords(wanted)}`
      : undefined;
  } catch (error) {
    if (error instanceof UnitMismatch) return error.message;
    throw error;
  }
}
