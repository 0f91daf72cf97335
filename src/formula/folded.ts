import { mapped, type Node, printed } from './syntax.ts';

/** Formulas without what their literals have settled: comparisons of two words, and choices by them. */

const wordOf = (node: Node): string | undefined => {
  if (node.type === 'text') return node.value;
  if (node.type === 'group') return wordOf(node.value);
  const [text] = node.type === 'call' && node.name === 'TRIM' ? node.args : [];
  return text?.type === 'text' ? text.value.trim() : undefined;
};

const truth = (value: boolean): Node => ({ type: 'boolean', value });

/** Comparisons of words take no note of case. */
function foldedNode(node: Node): Node | undefined {
  if (node.type === 'binary' && node.operator === '=') {
    const [left, right] = [wordOf(node.left), wordOf(node.right)];
    return left === undefined || right === undefined ? undefined : truth(left.toLowerCase() === right.toLowerCase());
  }
  if (node.type === 'group' && ['number', 'call', 'placeholder', 'name', 'boolean'].includes(node.value.type))
    return node.value;
  if (node.type !== 'call' || node.name !== 'IF') return undefined;
  const [condition, then, otherwise] = node.args;
  return condition?.type === 'boolean' ? (condition.value ? then : otherwise) : undefined;
}

export const folded = (tree: Node): Node => mapped(tree, foldedNode);

/** What refuses in every program, as a person would have written it. */
export const plainRefusals = (tree: Node, refused: Node): Node => {
  const text = printed(refused);
  return mapped(tree, (node) =>
    node.type === 'binary' && printed(node) === text ? { type: 'call', name: 'NA', args: [] } : undefined,
  );
};
