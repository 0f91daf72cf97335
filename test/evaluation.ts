import type { EngineeringFunction } from '../src/formula/define.ts';
import { type Node, parsed } from '../src/formula/syntax.ts';
import { Fault, isFault, type Matrix, type Value } from '../src/formula/values.ts';
import { functions } from '../src/functions/index.ts';

/** Values of formulas that hold only literals, calls of our functions and arithmetic: enough for tables of checks. */

const byName = new Map(functions.map((definition) => [definition.name, definition]));

/** The function of that name; a test that asks for one we do not have fails. */
export function named(name: string): EngineeringFunction {
  const definition = byName.get(name);
  if (definition === undefined) throw new Error(`there is no function ${name}`);
  return definition;
}

const operations: Readonly<Record<string, (left: number, right: number) => number>> = {
  '+': (left, right) => left + right,
  '-': (left, right) => left - right,
  '*': (left, right) => left * right,
  '/': (left, right) => left / right,
};

function numberOf(node: Node): number {
  const value = valueOfNode(node);
  if (typeof value === 'number') return value;
  throw new Error(isFault(value) ? String(value) : `arithmetic on ${String(value)}`);
}

function single(node: Node): Value {
  const value = valueOfNode(node);
  if (Array.isArray(value)) throw new Error('an array inside an array');
  return value as Value;
}

function valueOfNode(node: Node): Value | Matrix {
  switch (node.type) {
    case 'number':
    case 'text':
    case 'boolean':
      return node.value;
    case 'group':
      return valueOfNode(node.value);
    case 'unary':
      return node.operator === '-' ? -numberOf(node.value) : numberOf(node.value);
    case 'binary': {
      const operation = operations[node.operator];
      if (operation === undefined) throw new Error(`no operator ${node.operator} in these tables`);
      return operation(numberOf(node.left), numberOf(node.right));
    }
    case 'array':
      return node.rows.map((row) => row.map(single));
    case 'call':
      return named(node.name).evaluate(
        node.args.map((argument) => (argument === undefined ? undefined : valueOfNode(argument))),
      );
    default:
      throw new Error(`no ${node.type} in these tables`);
  }
}

/** The function that a formula calls, and the values of the arguments written in it. */
export function callOf(formula: string): {
  readonly definition: EngineeringFunction;
  readonly args: readonly (Value | Matrix | undefined)[];
} {
  const call = parsed(formula);
  if (call.type !== 'call') throw new Error(`${formula} is no call`);
  return {
    definition: named(call.name),
    args: call.args.map((argument) => (argument === undefined ? undefined : valueOfNode(argument))),
  };
}

export const valueOf = (formula: string): Value | Matrix => valueOfNode(parsed(formula));

/** The number that a formula gives; anything else fails the test with the fault's message. */
export const answer = (formula: string): number => numberOf(parsed(formula));

/** The fault that a formula gives; a formula that answers fails the test. */
export function refusal(formula: string): Fault {
  const value = valueOf(formula);
  if (isFault(value)) return value;
  throw new Error(`${formula} is not refused: it gives ${String(value)}`);
}

/** The rows that a call of a spilling function fills. */
export function rowsOf(name: string, args: readonly Value[]): readonly (readonly number[])[] {
  const value = named(name).evaluate(args);
  if (!Array.isArray(value)) throw new Error(`${name} gives ${String(value)}`);
  return (value as Matrix).map((row) => row.map((item) => (typeof item === 'number' ? item : Number.NaN)));
}

/** A number that a call gives. */
export function number(name: string, ...args: (Value | Matrix)[]): number {
  const value = named(name).evaluate(args);
  if (typeof value === 'number') return value;
  throw new Error(`${name} gives ${String(value)}`);
}

/** Whether two numbers agree within a share of the larger of their sizes and `scale`. */
export const close = (one: number, other: number, share = 1e-9, scale = 0): boolean =>
  Math.abs(one - other) <= share * Math.max(Math.abs(one), Math.abs(other), scale);
