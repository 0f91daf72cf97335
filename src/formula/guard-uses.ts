import { type EngineeringFunction } from './define.ts';
import { isOptional, type Parameter } from './parameter.ts';
import type { Allowed, Bounds } from './guards.ts';
import { type Node, nodesOf, printed } from './syntax.ts';

/** Which cells the parts of a declared formula compute with, and what a condition settles about them. */

export interface GuardScope {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  /** A column, `Width` or `Plate series.Pitch`. */
  readonly column: (placeholder: string) => Allowed | undefined;
  readonly named: (name: string) => Allowed | undefined;
  /** How ISWRONG is told, where it is otherwise than in guards.ts. */
  readonly wrong?: (cells: readonly (readonly [cell: Node, allowed: Allowed])[]) => Node;
}

export type Call = Node & { readonly type: 'call' };

/** What is known of a cell where a part stands; 'bounds': that its number is within them, too. */
export type Known = ReadonlyMap<string, 'number' | 'bounds'>;

/** A cell that a part computes with. */
export interface Use {
  readonly key: string;
  readonly cell: Node;
  /** Bounds to be asked for. */
  readonly bounds: Bounds | undefined;
  /** Nothing but a guard refuses it. */
  readonly needed: boolean;
}

const asks = 'ISNUMBER ISTEXT ISBLANK ISERROR ISWRONG COUNT LEN ROW NA MID COUNTIFS SUMIFS MINIFS MAXIFS';
const finds = 'MATCH VLOOKUP FIND SEARCH';
/** Functions that ask about cells, look them up or make texts of them: they compute with none. */
export const asking = new Set([asks, finds].flatMap((names) => names.split(' ')));
export const choosing = new Set(['IF', 'IFERROR']);
const comparisons = new Set(['=', '<>', '<', '>', '<=', '>=']);
export const wholeRanges = (parameter: Parameter | undefined): boolean => parameter?.kind === 'numbers';

/** Parameters whose arguments are guarded by themselves: an error there is no error of the call. */
const isolated = (parameter: Parameter | undefined): boolean =>
  parameter !== undefined && ['check', 'verdict', 'text'].includes(parameter.kind);

const holdsChoice = (part: Node | undefined): boolean =>
  part !== undefined && nodesOf(part).some((node) => node.type === 'call' && choosing.has(node.name));

export const bare = (node: Node): Node => (node.type === 'group' ? bare(node.value) : node);

/** A cell as formulas are matched by: a column of the record, a named value, a look-up of one cell. */
export const isCell = (node: Node): boolean =>
  (node.type === 'placeholder' && !node.name.includes('.')) ||
  node.type === 'name' ||
  (node.type === 'call' && node.name === 'INDEX');

/** The column or named value whose declaration holds for a cell. */
const sourceOf = (cell: Node): Node | undefined => (cell.type === 'call' ? cell.args[0] : cell);

const hasBounds = ({ min, above, max }: Bounds): boolean =>
  min !== undefined || above !== undefined || max !== undefined;

/** Whether a function refuses whatever is out of bounds. */
const refuses = (parameter: Parameter, { min, above, max }: Bounds): boolean =>
  (min === undefined || (parameter.min ?? -Infinity) >= min || (parameter.above ?? -Infinity) >= min) &&
  (above === undefined || (parameter.above ?? -Infinity) >= above || (parameter.min ?? -Infinity) > above) &&
  (max === undefined || (parameter.max ?? Infinity) <= max || (parameter.below ?? Infinity) <= max);

/** Cells that a condition settles when it holds, or when it does not. */
export function settled(condition: Node | undefined, holds: boolean): Map<string, 'number' | 'bounds'> {
  const all = (cells: readonly (Node | undefined)[], as: 'number' | 'bounds'): Map<string, 'number' | 'bounds'> =>
    new Map(cells.flatMap((cell) => (cell === undefined ? [] : [[printed(cell), as] as const])));
  switch (condition?.type) {
    case 'group':
      return settled(condition.value, holds);
    case 'call':
      if (condition.name === 'ISNUMBER' && holds) return all(condition.args, 'number');
      // An error needs no guard to come through.
      if (condition.name === 'ISERROR' && holds) return all(condition.args, 'bounds');
      if (condition.name === 'NOT') return settled(condition.args[0], !holds);
      return condition.name === (holds ? 'AND' : 'OR')
        ? new Map(condition.args.flatMap((part) => [...settled(part, holds)]))
        : new Map();
    case 'binary': {
      const { left, operator, right } = condition;
      const counts =
        left.type === 'call' && left.name === 'COUNT' && right.type === 'number' && right.value === left.args.length;
      return counts && operator === (holds ? '=' : '<') ? all(left.args, 'number') : new Map();
    }
    default:
      return new Map();
  }
}

/** Looks for cells in the formulas of one sheet. */
export class CellUses {
  readonly #scope: GuardScope;
  /** Columns whose blank is handed on to a function that may do without. */
  readonly #handedOn: ReadonlySet<string>;

  constructor(scope: GuardScope, handedOn: ReadonlySet<string>) {
    this.#scope = scope;
    this.#handedOn = handedOn;
  }

  /** What is declared of a cell. */
  nature(cell: Node): Allowed | undefined {
    const source = sourceOf(cell);
    return source?.type === 'placeholder'
      ? this.#scope.column(source.name)
      : source?.type === 'name'
        ? this.#scope.named(source.name)
        : undefined;
  }

  /** A cell handed to a parameter, or computed with. */
  #useOf(cell: Node, taker: Parameter | undefined): Use[] {
    const source = sourceOf(cell);
    const allowed: Allowed = this.nature(cell) ?? { words: false };
    const mayBeLeftOut = taker !== undefined && taker.kind !== 'check' && isOptional(taker);
    const handedOn = mayBeLeftOut && source?.type === 'placeholder' && this.#handedOn.has(source.name);
    if (allowed.words || handedOn) return [];
    const { min, above, max } = allowed;
    const left = taker !== undefined && refuses(taker, allowed);
    const bounds = hasBounds(allowed) && !left ? { min, above, max } : undefined;
    const needed = taker === undefined || bounds !== undefined || mayBeLeftOut;
    return [{ key: printed(cell), cell, bounds, needed }];
  }

  /** The cells that a part computes with, in the order in which they are written. */
  of(node: Node, taker?: Parameter): Use[] {
    if (isCell(node)) {
      const row = node.type === 'call' ? node.args[1] : undefined;
      return [...(row === undefined || isCell(bare(row)) ? [] : this.of(row)), ...this.#useOf(node, taker)];
    }
    switch (node.type) {
      case 'group':
        return this.of(node.value, taker);
      case 'unary':
      case 'percent':
        return this.of(node.value);
      case 'binary':
        return node.operator === '&' || (comparisons.has(node.operator) && this.#compareWords(node.left, node.right))
          ? []
          : [...this.of(node.left), ...this.of(node.right)];
      case 'call':
        return this.#usesOfCall(node);
      default:
        return [];
    }
  }

  #usesOfCall(node: Call): Use[] {
    const { name, args } = node;
    if (asking.has(name) || choosing.has(name)) return [];
    if (name === 'AND') {
      // A cell that one condition asks about may be compared in the next.
      const asked = settled(node, true);
      return args.flatMap((part) => (part === undefined ? [] : this.of(part))).filter(({ key }) => !asked.has(key));
    }
    const parameters = this.parameters(node);
    return args.flatMap((argument, index) => {
      const parameter = parameters?.[index];
      return argument === undefined || wholeRanges(parameter) || this.standsApart(node, index)
        ? []
        : this.of(argument, isCell(bare(argument)) ? parameter : undefined);
    });
  }

  /** The parameters of a function of our own. */
  parameters(node: Call): readonly Parameter[] | undefined {
    const definition = this.#scope.functions.get(node.name);
    return definition === undefined ? undefined : Object.values(definition.parameters);
  }

  /**
   * Whether an argument of a function is guarded by itself: an error there is no error of the call; or it holds, or
   * stands behind, a choice, whose error goes before.
   */
  standsApart(node: Call, index: number): boolean {
    const parameters = this.parameters(node);
    return parameters !== undefined && (isolated(parameters[index]) || node.args.slice(0, index + 1).some(holdsChoice));
  }

  /** Whether a comparison is one of texts. */
  #compareWords(...sides: readonly Node[]): boolean {
    return sides.some((side) => this.#isWord(side));
  }

  #isWord(node: Node): boolean {
    if (isCell(node)) return this.nature(node)?.words === true;
    switch (node.type) {
      case 'text':
        return true;
      case 'group':
        return this.#isWord(node.value);
      case 'binary':
        return node.operator === '&';
      case 'call': {
        if (choosing.has(node.name))
          return node.args.some((part, index) => part !== undefined && index > 0 && this.#isWord(part));
        const result = this.#scope.functions.get(node.name)?.result.kind;
        return node.name === 'MID' || result === 'text' || result === 'verdict';
      }
      default:
        return false;
    }
  }
}
