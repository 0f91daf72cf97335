import { knownNumber, numberOf } from '../../formula/answers.ts';
import { mapped, type Node, nodesOf, printed } from '../../formula/syntax.ts';
import { slotParts } from '../../sheet/declared-formula.ts';

/**
 * Parts of a record's formula that are made of another sheet's figures alone: `2*setback+3*punch` of its plate series.
 *
 * They are worked out in that sheet, once for each of its records, and looked up like its other figures. Only where the
 * part is an error whenever the look-up finds no record: ISBLANK of nothing found answers FALSE, and a cell that is
 * looked up would not.
 */

type Call = Node & { readonly type: 'call' };

/** A look-up of one cell of another sheet's record, `INDEX({Plate series.Pitch},{Series row})`. */
function lookUp(node: Node): { readonly sheet: string; readonly header: string; readonly row: Node } | undefined {
  const [list, row] = node.type === 'call' && node.name === 'INDEX' && node.args.length === 2 ? node.args : [];
  if (list?.type !== 'placeholder' || row?.type !== 'placeholder') return undefined;
  const { sheet, header } = slotParts(list.name);
  return sheet === undefined ? undefined : { sheet, header, row };
}

/** Functions of which one that is given an error is an error. */
const strictFunctions = new Set([
  ...'ABS COS INT MAX MIN RADIANS ROUND ROUNDUP SIN SQRT TAN'.split(' '),
  numberOf,
  knownNumber,
]);

const comparisons = new Set(['=', '<>', '<', '>', '<=', '>=']);

/** Whether a part is an error where its look-ups are errors. */
function isStrict(node: Node): boolean {
  if (lookUp(node) !== undefined) return true;
  switch (node.type) {
    case 'group':
    case 'unary':
    case 'percent':
      return isStrict(node.value);
    case 'binary':
      return isStrict(node.left) || isStrict(node.right);
    case 'call': {
      if (node.name === 'IF') {
        const [condition, then, otherwise] = node.args.map((part) => part !== undefined && isStrict(part));
        return condition === true || (otherwise === true && (then === true || asksForBlank(node)));
      }
      return strictFunctions.has(node.name) && node.args.some((part) => part !== undefined && isStrict(part));
    }
    default:
      return false;
  }
}

/** Whether an IF chooses by whether what is looked up is blank: of nothing found it takes what follows last. */
const asksForBlank = ({ args: [condition] }: Call): boolean =>
  condition?.type === 'call' &&
  condition.name === 'ISBLANK' &&
  condition.args[0] !== undefined &&
  lookUp(condition.args[0]) !== undefined;

/**
 * The one sheet and row of whose figures alone, two or more, a part is made, with their headers' cells in place of the
 * look-ups.
 */
function partOfOther(node: Node): { readonly sheet: string; readonly row: Node; readonly formula: Node } | undefined {
  const found: { sheet: string; row: Node }[] = [];
  const formula = mapped(node, (part) => {
    const looked = lookUp(part);
    if (looked === undefined) return undefined;
    found.push(looked);
    return { type: 'placeholder', name: looked.header };
  });
  const [first] = found;
  if (first === undefined) return undefined;
  if (found.length < 2) return undefined;
  const isOne = found.every(({ sheet, row }) => sheet === first.sheet && printed(row) === printed(first.row));
  const cells = nodesOf(formula).filter(({ type }) => type === 'placeholder').length;
  return isOne && cells === found.length ? { ...first, formula } : undefined;
}

/** Gives the column of another sheet that works a part out, as its header; undefined where that sheet has no room. */
type GiveColumn = (sheet: string, formula: Node) => string | undefined;

/** The tree with its largest parts of another sheet's figures looked up there. */
export function withLookedUpParts(node: Node, give: GiveColumn): Node {
  const within = (part: Node | undefined): Node | undefined => (part === undefined ? undefined : inner(part));
  const inner = (part: Node): Node => withLookedUpParts(part, give);
  const isMark = node.type === 'call' && (node.name === numberOf || node.name === knownNumber);
  const isPart =
    (node.type === 'binary' && !comparisons.has(node.operator)) ||
    (node.type === 'call' && !isMark && lookUp(node) === undefined);
  const part = isPart && isStrict(node) ? partOfOther(node) : undefined;
  const header = part === undefined ? undefined : give(part.sheet, part.formula);
  if (part !== undefined && header !== undefined)
    return { type: 'call', name: 'INDEX', args: [{ type: 'placeholder', name: `${part.sheet}.${header}` }, part.row] };
  switch (node.type) {
    case 'group':
    case 'unary':
    case 'percent':
      return { ...node, value: inner(node.value) };
    case 'binary':
      return { ...node, left: inner(node.left), right: inner(node.right) };
    case 'call':
      return lookUp(node) === undefined ? { ...node, args: node.args.map(within) } : node;
    default:
      return node;
  }
}
