import { fileTables, verdictTables } from '../../../sheets/values/file-tables.ts';
import { usualMargin } from '../../../sheets/values/assumptions.ts';
import { type Answer, answerOf, type AnswerScope } from '../../formula/answers.ts';
import { mapped, type Node, operand } from '../../formula/syntax.ts';
import { notAsked } from '../../functions/checks.ts';

/**
 * Checks as a file says them: the number over its limit, looked up in a table of verdicts.
 *
 * Where the limit is known to be above 0 and the margin is the usual one. A figure that is an error, and a ratio that
 * is none, make the verdict "not known". A check that is silent without a figure asks for it inside: when that figure
 * is an error, so is one that is compared, since the one is made of the other.
 */

type Call = Node & { readonly type: 'call' };
type Kind = 'most' | 'least';

const call = (name: string, ...args: Node[]): Call => ({ type: 'call', name, args });
const text = (value: string): Node => ({ type: 'text', value });
const number = (value: number): Node => ({ type: 'number', value, text: String(value) });
const over = (left: Node, right: Node): Node => ({
  type: 'binary',
  operator: '/',
  left: operand(left),
  right: right.type === 'binary' || right.type === 'unary' ? { type: 'group', value: right } : right,
});
const known = (value: Node): Node => call('IFERROR', value, text('not known'));

const isText = (node: Node | undefined, value: string): boolean => node?.type === 'text' && node.value === value;
const bare = (node: Node): Node => (node.type === 'group' ? bare(node.value) : node);

/** A number so small that no limit but 0 is below it. */
const nearNothing: Node = {
  type: 'binary',
  operator: '^',
  left: number(10),
  right: { type: 'unary', operator: '-', value: number(290) },
};

const isPositive = ({ number, low, open }: Answer): boolean => number && (low > 0 || (low === 0 && open));

class VerdictLookups {
  readonly #answers: AnswerScope;

  constructor(answers: AnswerScope) {
    this.#answers = answers;
  }

  /** A number over a limit, where their ratio says the same as they do; undefined where it does not. */
  #ratio(value: Node | undefined, limit: Node | undefined, kind: Kind): Node | undefined {
    if (value === undefined || limit === undefined) return undefined;
    const [given, bound] = [answerOf(value, this.#answers), answerOf(limit, this.#answers)];
    if (!given.number) return undefined;
    if (isPositive(bound)) return over(value, limit);
    return kind === 'most' && bound.number && bound.low >= 0 ? over(value, call('MAX', limit, nearNothing)) : undefined;
  }

  /** A check's verdict, an error where it is not known; undefined where no table says it. */
  #looked(node: Node, advised: boolean): Node | undefined {
    if (node.type !== 'call') return undefined;
    const { name, args } = node;
    const margin = args.at(-1);
    if (margin?.type !== 'name' || margin.name !== usualMargin || !answerOf(margin, this.#answers).number)
      return undefined;
    const table = (kind: Kind): Node => ({
      type: 'name',
      name: verdictTables[advised ? (`${kind}Advised` as const) : kind].name,
    });
    const [value, first, second] = args;
    if (name === 'MOSTCHECK' || name === 'LEASTCHECK') {
      const kind = name === 'MOSTCHECK' ? 'most' : 'least';
      const ratio = this.#ratio(value, first, kind);
      return ratio === undefined ? undefined : call('VLOOKUP', ratio, table(kind), number(2));
    }
    if (name !== 'RANGECHECK') return undefined;
    const [least, most] = [this.#ratio(value, first, 'least'), this.#ratio(value, second, 'most')];
    if (least === undefined || most === undefined) return undefined;
    const grades = ['fits', 'tight', advised ? 'tight' : 'fails'];
    return call(
      'INDEX',
      { type: 'array', rows: [grades.map(text)] },
      call('MAX', call('VLOOKUP', least, table('least'), number(3)), call('VLOOKUP', most, table('most'), number(3))),
    );
  }

  /** The same of a check that may be advice only. */
  #verdict(node: Node): Node | undefined {
    const [inner, from, to] = node.type === 'call' && node.name === 'SUBSTITUTE' ? node.args : [];
    return inner !== undefined && isText(from, 'fails') && isText(to, 'tight')
      ? this.#looked(inner, true)
      : this.#looked(node, false);
  }

  /** A check that is silent while something is not given; one that no table says, too, where a figure is asked for. */
  silent(node: Node): Node | undefined {
    if (node.type !== 'call' || node.name !== 'IF') return undefined;
    const [condition, silent, check] = node.args;
    if (condition === undefined || silent === undefined || check === undefined || !isText(silent, notAsked))
      return undefined;
    const asked = conditionsOf(condition);
    const verdict = this.#verdict(check);
    if (verdict === undefined && !asked.some(({ type }) => type === 'binary')) return undefined;
    return known(asked.reduceRight<Node>((rest, part) => call('IF', part, silent, rest), verdict ?? check));
  }

  advised(node: Node): Node | undefined {
    const verdict = node.type === 'call' && node.name === 'SUBSTITUTE' ? this.#verdict(node) : undefined;
    return verdict === undefined ? undefined : known(verdict);
  }

  plain(node: Node): Node | undefined {
    const verdict = this.#looked(node, false);
    return verdict === undefined ? undefined : known(verdict);
  }
}

/** What a check is silent without, as conditions each by itself: blank inputs together, empty figures. */
function conditionsOf(condition: Node): Node[] {
  const parts = condition.type === 'call' && condition.name === 'OR' ? condition.args : [condition];
  const figures = parts.map((part) => (part === undefined ? undefined : emptyFigure(part)));
  const blanks = parts.flatMap((part, index) => (part === undefined || figures[index] !== undefined ? [] : [part]));
  const [first] = blanks;
  const asked = blanks.length > 1 ? [call('OR', ...blanks)] : first === undefined ? [] : [first];
  return [
    ...asked,
    ...figures.flatMap((cell) =>
      cell === undefined ? [] : [{ type: 'binary' as const, operator: '=', left: cell, right: text('') }],
    ),
  ];
}

/** The cell of `IFERROR(LEN(cell)=0,FALSE)`. */
function emptyFigure(node: Node): Node | undefined {
  const [asked] = node.type === 'call' && node.name === 'IFERROR' ? node.args : [];
  const length = asked?.type === 'binary' ? bare(asked.left) : undefined;
  return length?.type === 'call' && length.name === 'LEN' ? length.args[0] : undefined;
}

/** Whether every table of verdicts is in the file. */
const tables: ReadonlySet<string> = new Set(Object.values(verdictTables).map(({ name }) => name));

export function verdictLookups(tree: Node, answers: AnswerScope, hasTable: (name: string) => boolean): Node {
  if (!fileTables.every(({ name }) => !tables.has(name) || hasTable(name))) return tree;
  const lookups = new VerdictLookups(answers);
  // From the outside in: what stands around a check is said together with it.
  const said = [lookups.silent, lookups.advised, lookups.plain].map((change) => change.bind(lookups));
  return said.reduce<Node>((rest, change) => mapped(rest, change), tree);
}
