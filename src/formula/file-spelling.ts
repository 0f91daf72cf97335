import { type Answer, answerOf, type AnswerScope, computesByCell, knownNumber, numberOf } from './answers.ts';
import type { EngineeringFunction } from './define.ts';
import { asking, bare, isCell, settled } from './guard-uses.ts';
import { conditionsOf, refused } from './guards.ts';
import { isOptional, type Parameter, parameterAt } from './parameter.ts';
import { type Guard, type Node, printed } from './syntax.ts';

/**
 * Declared formulas as a file spells them: plain arithmetic, with no guard around it.
 *
 * What a guard asks of a cell is asked once in the file, in a column beside it that holds the cell's number where it
 * may be computed with, and an error where not; formulas refer to that column, and the error comes through by itself.
 * A computed cell needs none: it is a number or an error already, or a text, which arithmetic refuses in every program.
 * Which of two wrong cells speaks first is not kept. Where a program would pass over a text (it compares a text with a
 * number, and MAX leaves it out), 0 is added to the cell, which makes an error of a text.
 */

/** What a file's formulas know of the cells that they use. */
interface FileCells {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  /** What cells answer, those beside others included. */
  readonly answers: AnswerScope;
  /** The cell beside another that holds its number or an error; undefined where there is none. */
  readonly checked: (cell: Node) => Node | undefined;
  /** The cells with whose numbers a computed cell is a number or an error, and else an empty text; as printed. */
  readonly numberWith: (cell: Node) => readonly string[] | undefined;
}

type Call = Node & { readonly type: 'call' };

const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });

/** Whether some cells all hold numbers, as a condition: an error or a text in one of them makes it false. */
function allNumbers(cells: readonly Node[]): Node {
  const [first, ...rest] = cells;
  if (first !== undefined && rest.length === 0) return call('ISNUMBER', first);
  const count: Node = { type: 'number', value: cells.length, text: String(cells.length) };
  return { type: 'binary', left: call('COUNT', ...cells), operator: '=', right: count };
}

/** The cell of a column by what is printed of it. */
const placeholderOf = (key: string): Node => ({ type: 'placeholder', name: key.replace(/^\{(.*)\}$/, '$1') });

const all = (conditions: readonly Node[]): Node => {
  const [first, ...rest] = conditions;
  return first !== undefined && rest.length === 0 ? first : call('AND', ...conditions);
};

const takesNumber = (parameter: Parameter | undefined): boolean =>
  parameter !== undefined && !['text', 'verdict', 'numbers'].includes(parameter.kind) && !isOptional(parameter);

/** What stands around a part: cells that must be numbers, and those that are known to be. */
interface Around {
  readonly asked: ReadonlySet<string>;
  readonly known: ReadonlySet<string>;
}

class FileSpelling {
  readonly #cells: FileCells;

  constructor(cells: FileCells) {
    this.#cells = cells;
  }

  spelled(node: Node, around: Around): Node {
    switch (node.type) {
      case 'guard':
        return this.#guard(node, around);
      case 'group':
      case 'unary':
      case 'percent':
        return { ...node, value: this.spelled(node.value, around) };
      case 'binary':
        return { ...node, left: this.spelled(node.left, around), right: this.spelled(node.right, around) };
      case 'placeholder':
      case 'name':
        return around.asked.has(printed(node)) ? this.#number(node, around) : node;
      case 'call':
        return this.#call(node, around);
      default:
        return node;
    }
  }

  #guard({ cells, must, value, without, ...guard }: Guard, around: Around): Node {
    const keys = cells.map(({ cell }) => printed(cell));
    if (without === 'nothing') {
      const inner = { asked: new Set([...around.asked, ...keys]), known: new Set([...around.known, ...keys]) };
      const there = cells.map(({ cell }) => this.#raw(cell, around));
      return call('IF', allNumbers(there), this.spelled(value, inner), { type: 'text', value: '' });
    }
    const inner = { ...around, asked: new Set([...around.asked, ...keys]) };
    if (must.length === 0) return this.spelled(value, inner);
    // Bounds are asked beside the cells.
    const conditions = conditionsOf({ ...guard, cells: [], must, value, without });
    return call('IF', all(conditions.map((part) => this.spelled(part, inner))), this.spelled(value, inner), refused);
  }

  /** A cell that is only asked about: what it is looked up by is computed with all the same. */
  #raw(cell: Node, around: Around): Node {
    const inner = bare(cell);
    if (inner.type !== 'call') return inner;
    return { ...inner, args: inner.args.map((part, index) => (index === 0 ? part : part && this.#row(part, around))) };
  }

  #row(row: Node, around: Around): Node {
    return isCell(bare(row)) ? this.#number(bare(row), around) : this.spelled(row, around);
  }

  #number(cell: Node, around: Around): Node {
    const beside = this.#cells.checked(cell);
    const read = beside ?? cell;
    const found = read.type === 'call' && read.name === 'INDEX' ? this.#raw(read, around) : read;
    if (answerOf(found, this.#cells.answers).number) return found;
    return call(this.#isKnown(cell, around.known) ? knownNumber : numberOf, found);
  }

  /** Whether a cell is known to hold a number, or an error: as such, or since all that it is empty without are. */
  #isKnown(cell: Node, known: ReadonlySet<string>): boolean {
    if (known.has(printed(cell))) return true;
    const needed = this.#cells.numberWith(cell);
    return needed?.every((key) => this.#isKnown(placeholderOf(key), known)) === true;
  }

  #call(node: Call, around: Around): Node {
    if (isCell(node)) return around.asked.has(printed(node)) ? this.#number(node, around) : this.#raw(node, around);
    const { name, args } = node;
    const each = (change: (part: Node, index: number) => Node): Node => ({
      ...node,
      args: args.map((part, index) => part && change(part, index)),
    });
    if (name === 'IF') {
      const [condition] = args;
      return each((part, index) => {
        if (index === 0) return this.spelled(part, around);
        const learnt = [...settled(condition, index === 1).keys()];
        return this.spelled(part, {
          asked: new Set([...around.asked, ...learnt]),
          known: new Set([...around.known, ...learnt]),
        });
      });
    }
    if (asking.has(name))
      return each((part) => (isCell(bare(part)) ? this.#raw(part, around) : this.spelled(part, around)));
    const parameters = this.#cells.functions.get(name)?.parameters;
    return each((part, index) =>
      isCell(bare(part)) && parameters !== undefined && takesNumber(parameterAt(parameters, index)?.[1])
        ? this.#number(bare(part), around)
        : this.spelled(part, around),
    );
  }
}

/** A guarded tree in plain arithmetic, with calls of our functions still in it, and marks for `withoutMarks`. */
export const plainArithmetic = (tree: Node, cells: FileCells): Node =>
  new FileSpelling(cells).spelled(tree, { asked: new Set(), known: new Set() });

const onlyAsks = new Set(['ISNUMBER', 'ISTEXT', 'ISBLANK', 'ISERROR', 'COUNT', 'LEN']);
const compares = new Set(['=', '<>', '<', '>', '<=', '>=']);

/** The tree with every mark resolved: a cell that must be a number, where a program would let a text pass. */
export function withoutMarks(node: Node, refusesTexts = false): Node {
  const inner = (part: Node, refuses: boolean): Node => withoutMarks(part, refuses);
  switch (node.type) {
    case 'group':
      return { ...node, value: inner(node.value, refusesTexts) };
    case 'unary':
    case 'percent':
      return { ...node, value: inner(node.value, true) };
    case 'binary': {
      const refuses = !compares.has(node.operator);
      return { ...node, left: inner(node.left, refuses), right: inner(node.right, refuses) };
    }
    case 'call': {
      const [cell] = node.args;
      if (node.name === knownNumber && cell !== undefined) return inner(cell, refusesTexts);
      if (node.name === numberOf && cell !== undefined) {
        const zero: Node = { type: 'number', value: 0, text: '0' };
        return refusesTexts ? cell : { type: 'binary', left: zero, operator: '+', right: inner(cell, true) };
      }
      const refuses = computesByCell(node.name) || onlyAsks.has(node.name);
      return { ...node, args: node.args.map((part) => part && inner(part, refuses)) };
    }
    default:
      return node;
  }
}

/** Whether a function's parameter takes whatever an argument can answer, so that nothing needs to be asked. */
export const takesAll = ({ min, above, max, below }: Parameter, { number, low, open, high }: Answer): boolean =>
  number &&
  (min === undefined || low >= min) &&
  (above === undefined || low > above || (low === above && open)) &&
  (max === undefined || high <= max) &&
  (below === undefined || high < below);
