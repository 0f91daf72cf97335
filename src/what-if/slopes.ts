import { sheetRow } from '../formula/address.ts';
import type { EngineeringFunction } from '../formula/define.ts';
import { type BookValues, compiled, type Scope } from '../formula/kernel.ts';
import { PlainForms } from '../formula/plain.ts';
import { arithmetic, asNumber, asTruth, compared, standardFunctions } from '../formula/standard.ts';
import { type Node, nodesOf } from '../formula/syntax.ts';
import { Fault, isFault, type Value } from '../formula/values.ts';
import { functions } from '../functions/index.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { measuredSlope, plainValues, standardPartials } from './partial-slopes.ts';

/**
 * How a formula's value grows with one thing that it follows from: its derivative, by the rules of the calculus over
 * the formula's tree (forward differentiation).
 *
 * Exact where the formula is smooth. At a leap (ROUND, a whole number of plates) and on the edge between two branches
 * of a choice there is none; the slope is then that of the branch that was taken. A function of ours is differentiated
 * by its plain equivalent, or by differences where that is no formula of smooth functions.
 */

/** A value and by how much it grows. */
interface Growing {
  readonly value: Value;
  readonly slope: number;
}

/** Slopes of what a formula sees. */
export interface Slopes {
  readonly named: (name: string) => number;
  readonly cell: (sheet: string, header: string, row: number) => number;
}

interface Seen {
  readonly row: readonly Value[];
  readonly book: BookValues;
  readonly at: number;
  readonly sheet: string;
  readonly scope: Scope;
  readonly slopes: Slopes;
}

const level = (value: Value): Growing => ({ value, slope: 0 });
const plainForms = new PlainForms(functions);

function binary(operator: string, left: Growing, right: Growing): Growing {
  const [a, b] = [asNumber(left.value), asNumber(right.value)];
  const compute = arithmetic[operator];
  if (isFault(a) || isFault(b) || compute === undefined) return level(isFault(a) ? a : isFault(b) ? b : null);
  const value = compute(a, b);
  const slope = (): number => {
    switch (operator) {
      case '+':
        return left.slope + right.slope;
      case '-':
        return left.slope - right.slope;
      case '*':
        return left.slope * b + a * right.slope;
      case '/':
        return (left.slope * b - a * right.slope) / b ** 2;
      default:
        return (
          (left.slope === 0 ? 0 : b * a ** (b - 1) * left.slope) +
          (right.slope === 0 ? 0 : Math.log(a) * a ** b * right.slope)
        );
    }
  };
  return { value, slope: isFault(value) || (left.slope === 0 && right.slope === 0) ? 0 : slope() };
}

/** What a tree may call for its slope to be exact. */
const isSmooth = (node: Node): boolean =>
  [...nodesOf(node)].every(
    (part) =>
      part.type !== 'array' &&
      (part.type !== 'call' ||
        part.name === 'IF' ||
        part.name === 'IFERROR' ||
        standardFunctions[part.name] !== undefined ||
        plainValues[part.name] !== undefined),
  );

const plainTrees = new WeakMap<Node, { readonly tree: Node | undefined }>();

/** A call of a function of ours as standard functions; undefined where these are not smooth. */
function plainTree(node: Node): Node | undefined {
  const known = plainTrees.get(node);
  if (known !== undefined) return known.tree;
  const tree = plainForms.tree(node);
  const kept = { tree: tree !== undefined && isSmooth(tree) ? tree : undefined };
  plainTrees.set(node, kept);
  return kept.tree;
}

function ours(
  node: Node,
  definition: EngineeringFunction,
  args: readonly (Growing | undefined)[],
  seen: Seen,
): Growing {
  const given = args.map((argument) => argument?.value);
  const result = definition.evaluate(given);
  const value: Value = Array.isArray(result) ? null : (result as Value);
  if (typeof value !== 'number' || args.every((argument) => argument === undefined || argument.slope === 0))
    return level(value);
  const tree = plainTree(node);
  if (tree !== undefined) return { value, slope: growing(tree, seen).slope };
  const slope = args.reduce(
    (sum, argument, index) =>
      argument === undefined || argument.slope === 0
        ? sum
        : sum + argument.slope * measuredSlope(definition.evaluate, given, index),
    0,
  );
  return { value, slope };
}

/** Conditional sums: of a least or greatest the slope of the row that holds it. */
function conditional(node: Node & { readonly type: 'call' }, seen: Seen): Growing {
  const value = compiled(node, seen.scope)(seen.row, seen.book, seen.at);
  if (typeof value !== 'number' || node.name === 'COUNTIFS') return level(value);
  const column = (part: Node | undefined): { readonly sheet: string; readonly header: string } => {
    const { sheet = seen.sheet, header } = slotParts(part?.type === 'placeholder' ? part.name : '');
    return { sheet, header };
  };
  const source = column(node.args[0]);
  const conditions = Array.from({ length: (node.args.length - 1) / 2 }, (_, index) => {
    const wanted = node.args[2 * index + 2];
    return { ...column(node.args[2 * index + 1]), wanted: wanted === undefined ? null : growing(wanted, seen).value };
  });
  const [first, ...others] = conditions;
  if (first === undefined) return level(value);
  const rows = seen.book.all(first.sheet, first.header, first.wanted).filter((row) =>
    others.every(({ sheet, header, wanted }) => {
      const held = seen.book.cell(sheet, header, row);
      return held !== null && !isFault(held) && compared(held, wanted) === 0;
    }),
  );
  const slopeAt = (row: number): number => seen.slopes.cell(source.sheet, source.header, row);
  if (node.name === 'SUMIFS') return { value, slope: rows.reduce((sum, row) => sum + slopeAt(row), 0) };
  const holder = rows.find((row) => seen.book.cell(source.sheet, source.header, row) === value);
  return { value, slope: holder === undefined ? 0 : slopeAt(holder) };
}

function call(node: Node & { readonly type: 'call' }, seen: Seen): Growing {
  const { name, args } = node;
  const [first, second, third] = args;
  const of = (part: Node | undefined): Growing => (part === undefined ? level(null) : growing(part, seen));
  switch (name) {
    case 'IF': {
      const truth = asTruth(of(first).value);
      return isFault(truth) ? level(truth) : truth ? of(second) : args.length > 2 ? of(third) : level(false);
    }
    case 'IFERROR': {
      const value = of(first);
      return isFault(value.value) ? of(second) : value;
    }
    case 'INDEX': {
      const { sheet, header } = slotParts(first?.type === 'placeholder' ? first.name : '');
      const row = asNumber(of(second).value);
      if (sheet === undefined || isFault(row) || row < 1) return level(isFault(row) ? row : null);
      return {
        value: seen.book.cell(sheet, header, Math.trunc(row)),
        slope: seen.slopes.cell(sheet, header, Math.trunc(row)),
      };
    }
    case 'MATCH':
    case 'ROW':
      return level(compiled(node, seen.scope)(seen.row, seen.book, seen.at));
    case 'COUNTIFS':
    case 'SUMIFS':
    case 'MINIFS':
    case 'MAXIFS':
      return conditional(node, seen);
  }
  const inner = args.map((part) => (part === undefined ? undefined : growing(part, seen)));
  const definition = seen.scope.functions.get(name);
  if (definition !== undefined) return ours(node, definition, inner, seen);
  return standard(name, inner);
}

function standard(name: string, inner: readonly (Growing | undefined)[]): Growing {
  const given = inner.map((argument) => argument?.value ?? null);
  const numbers = given.map(asNumber);
  const plain = plainValues[name];
  const fault = numbers.find(isFault);
  const value =
    standardFunctions[name]?.(given) ??
    fault ??
    plain?.(numbers.map(Number)) ??
    new Fault('#NAME?', `${name} is not known`);
  const partials = standardPartials[name];
  if (partials === undefined || typeof value !== 'number' || inner.every((argument) => (argument?.slope ?? 0) === 0))
    return level(value);
  const shares = partials(numbers.map(Number));
  return {
    value,
    slope: inner.reduce(
      (sum, argument, index) =>
        sum + (argument === undefined || argument.slope === 0 ? 0 : argument.slope * (shares[index] ?? 0)),
      0,
    ),
  };
}

/** A tree's value in a row, and by how much it grows. */
function growing(node: Node, seen: Seen): Growing {
  switch (node.type) {
    case 'number':
    case 'text':
    case 'boolean':
      return level(node.value);
    case 'group':
      return growing(node.value, seen);
    case 'name':
      return { value: seen.book.named(node.name), slope: seen.slopes.named(node.name) };
    case 'placeholder': {
      const slot = seen.scope.slot(node.name);
      if (slot === undefined || !('cell' in slot)) return level(null);
      return { value: seen.row[slot.cell] ?? null, slope: seen.slopes.cell(seen.sheet, node.name, seen.at) };
    }
    case 'unary':
      return binary(node.operator, level(0), growing(node.value, seen));
    case 'percent':
      return binary('/', growing(node.value, seen), level(100));
    case 'binary':
      return arithmetic[node.operator] === undefined
        ? level(compiledBinary(node, seen))
        : binary(node.operator, growing(node.left, seen), growing(node.right, seen));
    case 'call':
      return call(node, seen);
    case 'guard': {
      // What a guard refuses is no number, and has no slope.
      const held = compiled(node, seen.scope)(seen.row, seen.book, seen.at);
      return typeof held === 'number' ? growing(node.value, seen) : level(held);
    }
    default:
      return level(null);
  }
}

/** Comparisons and joined texts: what they are of may be a plain equivalent, which the kernel can't take. */
function compiledBinary(node: Node & { readonly type: 'binary' }, seen: Seen): Value {
  const [left, right] = [growing(node.left, seen).value, growing(node.right, seen).value];
  if (isFault(left)) return left;
  if (isFault(right)) return right;
  const literal = (value: Value): Node =>
    typeof value === 'number'
      ? { type: 'number', value, text: String(value) }
      : typeof value === 'boolean'
        ? { type: 'boolean', value }
        : { type: 'text', value: String(value ?? '') };
  return compiled({ ...node, left: literal(left), right: literal(right) }, seen.scope)([], seen.book, seen.at);
}

/** By how much a sheet's formula grows in one record. */
export const slopeIn = (
  tree: Node,
  sheet: string,
  scope: Scope,
  slopes: Slopes,
  record: number,
): ((row: readonly Value[], book: BookValues) => number) => {
  return (row, book) => growing(tree, { row, book, at: sheetRow(record), sheet, scope, slopes }).slope;
};
