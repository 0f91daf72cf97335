import { mapped, type Node, operand } from '../../formula/syntax.ts';

/**
 * Look-ups of a sheet's own formulas as other programs must be told them.
 *
 * The book looks for a name as it stands. Other programs take "?" and "*" in it for patterns, and a condition that
 * begins with a comparison for that comparison: so these signs are marked, and a condition begins with an equals sign
 * of its own. Source: ECMA-376 Part 1, 18.17.7 (MATCH, COUNTIFS, SUMIFS).
 */

const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });
const text = (value: string): Node => ({ type: 'text', value });

/** Signs of patterns; the one that marks the others comes first. */
const patternSigns = ['~', '*', '?'] as const;

const marked = (value: Node): Node =>
  patternSigns.reduce((inner, sign) => call('SUBSTITUTE', inner, text(sign), text(`~${sign}`)), value);

/** Where the conditions of a function begin; each is a range and what it must hold. */
const firstCondition: Readonly<Record<string, number>> = { COUNTIFS: 0, SUMIFS: 1, MINIFS: 1, MAXIFS: 1 };

/** A value that is looked for; of a number no text is made. */
const sought = (value: Node, isNumber: (value: Node) => boolean): Node =>
  isNumber(value)
    ? value
    : value.type === 'binary' && value.operator === '&'
      ? marked(value)
      : call('IF', call('ISTEXT', value), marked(value), value);

const isLiteral = (node: Node): boolean => node.type === 'text' || node.type === 'number';

/** Whether MATCH looks for the place of a number among others: in no program by a pattern. */
const findsNearest = ({ args: [, , how] }: Node & { readonly type: 'call' }): boolean =>
  (how?.type === 'number' && how.value !== 0) || how?.type === 'unary';

/** The tree with every look-up in it taking what it looks for as it stands; `isNumber`: it can be no text. */
export const literalLookups = (tree: Node, isNumber: (value: Node) => boolean): Node =>
  mapped(tree, (node) => {
    if (node.type !== 'call') return undefined;
    if (node.name === 'MATCH' && findsNearest(node)) return undefined;
    if (node.name === 'MATCH')
      return {
        ...node,
        args: node.args.map((argument, index) =>
          index > 0 || argument === undefined || isLiteral(argument) ? argument : sought(argument, isNumber),
        ),
      };
    const first = firstCondition[node.name];
    if (first === undefined) return undefined;
    const condition = (argument: Node): Node => ({
      type: 'binary',
      left: text('='),
      operator: '&',
      right: operand(marked(argument)),
    });
    return {
      ...node,
      args: node.args.map((argument, index) =>
        argument === undefined || isLiteral(argument) || (index - first) % 2 !== 1 ? argument : condition(argument),
      ),
    };
  });
