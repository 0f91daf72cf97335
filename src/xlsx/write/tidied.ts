import { mapped, type Node, nodesOf, printed } from '../../formula/syntax.ts';

/** Formulas as a person would leave them: without steps that change nothing. What was an error stays one. */

const isCall = (node: Node | undefined, name: string): node is Node & { readonly type: 'call' } =>
  node?.type === 'call' && node.name === name;
const isZero = (node: Node): boolean => node.type === 'number' && node.value === 0;
const bare = (node: Node): Node => (node.type === 'group' ? bare(node.value) : node);

/** A sum, difference, product or quotient: never a text. */
const isArithmetic = (node: Node): boolean => {
  const inner = bare(node);
  return inner.type === 'binary' && ['+', '-', '*', '/'].includes(inner.operator);
};

/** A product of which one factor is 0. */
const isNothing = (node: Node): boolean => {
  const inner = bare(node);
  if (inner.type !== 'binary' || inner.operator !== '*') return false;
  return [inner.left, inner.right].some((side) => isZero(bare(side)) || isNothing(side));
};

const cellsIn = (node: Node): string[] =>
  nodesOf(node).flatMap((part) => (part.type === 'placeholder' || part.type === 'name' ? [printed(part)] : []));

/** Two refusals, one behind the other, as one. */
function refusedOnce({ args }: Node & { readonly type: 'call' }): Node | undefined {
  const [condition, refusal, inner] = args;
  if (condition === undefined || refusal === undefined || !isCall(refusal, 'NA') || !isCall(inner, 'IF'))
    return undefined;
  const [further, also, value] = inner.args;
  if (further === undefined || value === undefined || also === undefined || !isCall(also, 'NA')) return undefined;
  const parts = [condition, further].flatMap((part) => (isCall(part, 'OR') ? part.args : [part]));
  return { type: 'call', name: 'IF', args: [{ type: 'call', name: 'OR', args: parts }, refusal, value] };
}

/** What is made of any error, said of a branch once more: it is said of the whole. */
function knownOnce(node: Node & { readonly type: 'call' }): Node | undefined {
  const [value, otherwise] = node.args;
  if (!isCall(value, 'IF') || otherwise?.type !== 'text') return undefined;
  const last = value.args.at(-1);
  const [inner, also] = isCall(last, 'IFERROR') ? last.args : [];
  if (value.args.length < 3 || inner === undefined || also?.type !== 'text' || also.value !== otherwise.value)
    return undefined;
  return { ...node, args: [{ ...value, args: [...value.args.slice(0, -1), inner] }, otherwise] };
}

/** IF that asks whether something is not so, the other way round. */
function turned({ args }: Node & { readonly type: 'call' }): Node | undefined {
  const [condition, then, otherwise] = args;
  if (!isCall(condition, 'NOT') || otherwise === undefined) return undefined;
  return { type: 'call', name: 'IF', args: [condition.args[0], otherwise, then] };
}

const isTruth = (node: Node): boolean =>
  node.type === 'call' ? node.name.startsWith('IS') : node.type === 'binary' && /[<>=]/.test(node.operator);

/** The size of what is below 0 for what is above it. */
function sizeOnly(node: Node & { readonly type: 'call' }): Node | undefined {
  const [size] = node.args;
  const inner = size === undefined ? undefined : bare(size);
  return inner?.type === 'unary' && inner.operator === '-' ? { ...node, args: [inner.value] } : undefined;
}

/** A formula that answers one of some texts or an error, with each of these texts as `change` has it. */
function withTexts(node: Node, change: (text: string) => string): Node | undefined {
  const inner = bare(node);
  if (inner.type === 'text') return { ...inner, value: change(inner.value) };
  if (!isCall(inner, 'IF') && !isCall(inner, 'IFERROR')) return undefined;
  const asked = isCall(inner, 'IF') ? 1 : 0;
  const branches = inner.args.slice(asked).map((branch) => branch && withTexts(branch, change));
  if (branches.length !== 2 || branches.includes(undefined)) return undefined;
  return { ...inner, args: [...inner.args.slice(0, asked), ...branches] };
}

/** Words put in place of others where they are answered. */
function replacedAtOnce({ args }: Node & { readonly type: 'call' }): Node | undefined {
  const [value, old, by] = args;
  if (value === undefined || old?.type !== 'text' || by?.type !== 'text' || args.length !== 3) return undefined;
  if (old.value === '') return undefined;
  return withTexts(value, (text) => text.replaceAll(old.value, () => by.value));
}

const shorter: Readonly<Record<string, (node: Node & { readonly type: 'call' }) => Node | undefined>> = {
  IF: (node) => refusedOnce(node) ?? turned(node),
  IFERROR: knownOnce,
  ABS: sizeOnly,
  SUBSTITUTE: replacedAtOnce,
};

function tidiedNode(node: Node): Node | undefined {
  if (node.type === 'call') {
    const plain = { ...node, args: node.args.map((part) => part && bare(part)) };
    const [only, ...others] = plain.args;
    if (only !== undefined && others.length === 0 && (node.name === 'OR' || node.name === 'AND') && isTruth(only))
      return only;
    return shorter[node.name]?.(plain) ?? plain;
  }
  if (node.type !== 'binary' || node.operator !== '+') return undefined;
  const { left, right } = node;
  if (isZero(right) && isArithmetic(left)) return left;
  const known = new Set(cellsIn(left));
  return isNothing(right) && isArithmetic(left) && cellsIn(right).every((cell) => known.has(cell)) ? left : undefined;
}

export const tidied = (tree: Node): Node => mapped(tree, tidiedNode);
