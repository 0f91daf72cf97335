import type { Parameter } from './parameter.ts';
import {
  asking,
  bare,
  type Call,
  CellUses,
  choosing,
  type GuardScope,
  isCell,
  type Known,
  settled,
  type Use,
  wholeRanges,
} from './guard-uses.ts';
import { spelledWrong } from './guards.ts';
import { type Guard, mapped, type Node, printed } from './syntax.ts';

/**
 * Where guards stand in a declared formula.
 *
 * Around each part that computes with cells: what a branch of IF answers; what IF chooses by, where numbers are
 * compared; what is handed to a check, which makes "not known" of an error. A part is guarded for all its cells in the
 * order in which they are written. Not asked for again is what stands around the part has settled: an outer guard, or a
 * question that IF chose by (ISNUMBER, COUNT of all of them), which settles that a cell is a number, not its bounds.
 *
 * A cell handed straight to a function is left to the function, which refuses it by itself and says what it wants,
 * unless the function would do without it (an argument that may be left out) or would take what the cell's own bounds
 * forbid. What only asks about cells (ISNUMBER, ISBLANK, COUNT, look-ups) or makes texts is not guarded. AND and OR
 * look at all of their conditions in every program: so does a guard.
 */

/** A computed column's formula as it is declared. */
export interface DeclaredFormula {
  readonly formula: Node;
  /** What a blank stands for, by column; null: it is handed on as a blank to the function that may do without. */
  readonly optional: ReadonlyMap<string, Node | null>;
  readonly must: readonly Node[];
  readonly emptyWithout: readonly Node[];
}

/** The formula as people read it: what a blank stands for is said, guards are not. */
export function plainFormula({ formula, optional }: DeclaredFormula): Node {
  const otherwise = (name: string, cell: Node): Node | undefined => {
    const stands = optional.get(name);
    return stands === undefined || stands === null
      ? undefined
      : { type: 'call', name: 'IF', args: [{ type: 'call', name: 'ISBLANK', args: [cell] }, stands, cell] };
  };
  return mapped(formula, (node) => {
    if (node.type === 'placeholder') return node.name.includes('.') ? undefined : otherwise(node.name, node);
    const [column] = node.type === 'call' && node.name === 'INDEX' ? node.args : [];
    return column?.type === 'placeholder' ? otherwise(column.name, node) : undefined;
  });
}

class GuardPlaces {
  readonly #uses: CellUses;
  readonly #wrong: NonNullable<GuardScope['wrong']>;
  readonly #must: readonly { readonly condition: Node; readonly keys: readonly string[] }[];
  readonly #stood = new Set<Node>();

  constructor({ optional, must }: DeclaredFormula, scope: GuardScope) {
    this.#wrong = scope.wrong ?? spelledWrong;
    this.#uses = new CellUses(
      scope,
      new Set([...optional].flatMap(([header, stands]) => (stands === null ? [header] : []))),
    );
    this.#must = must.map((condition) => ({ condition, keys: this.#uses.of(condition).map(({ key }) => key) }));
  }

  /** The first condition between cells that no part computes with. */
  get idle(): Node | undefined {
    return this.#must.find(({ condition }) => !this.#stood.has(condition))?.condition;
  }

  /** What a formula or a branch of it answers; `taker` is the parameter that it is handed to. */
  answer(node: Node, known: Known, taker?: Parameter): Node {
    switch (node.type) {
      case 'group':
        return { ...node, value: this.answer(node.value, known, taker) };
      case 'call':
        if (node.name === 'IF') return this.#choice(node, known, taker);
        if (node.name === 'IFERROR') return this.#arguments(node, (part) => this.answer(part, known, taker));
        break;
      default:
    }
    const uses = this.#uses.of(node, taker);
    const must = this.#must.flatMap(({ condition, keys }) =>
      keys.length > 0 && keys.every((key) => uses.some((use) => use.key === key)) ? [condition] : [],
    );
    for (const condition of must) this.#stood.add(condition);
    return this.#guarded(uses, must, known, (inner) => this.#within(node, inner));
  }

  #choice(node: Call, known: Known, taker: Parameter | undefined): Node {
    const [condition] = node.args;
    if (condition === undefined) return node;
    return this.#guarded(this.#uses.of(condition), [], known, (inner) =>
      this.#arguments(node, (part, index) =>
        index === 0
          ? this.#within(part, inner)
          : this.answer(part, new Map([...settled(condition, index === 1), ...inner]), taker),
      ),
    );
  }

  #guarded(uses: readonly Use[], must: readonly Node[], known: Known, value: (known: Known) => Node): Node {
    const once = new Map<string, Use>();
    for (const use of uses) {
      const before = once.get(use.key);
      once.set(use.key, {
        ...use,
        bounds: before?.bounds ?? use.bounds,
        needed: use.needed || before?.needed === true,
      });
    }
    const open = [...once.values()].filter(
      ({ key, bounds }) => known.get(key) === undefined || (bounds !== undefined && known.get(key) === 'number'),
    );
    if (must.length === 0 && !open.some(({ needed }) => needed)) return value(known);
    const guard: Omit<Guard, 'value'> = {
      type: 'guard',
      cells: open.map(({ key, cell, bounds }) => ({ cell, ...bounds, ...(known.has(key) ? { known: true } : {}) })),
      must,
      without: 'error',
    };
    const learnt = open.map(({ key, bounds }) => [key, bounds === undefined ? 'number' : 'bounds'] as const);
    return { ...guard, value: value(new Map([...known, ...learnt])) };
  }

  #arguments(node: Call, change: (part: Node, index: number) => Node): Node {
    return { ...node, args: node.args.map((part, index) => (part === undefined ? undefined : change(part, index))) };
  }

  /** A part whose cells are guarded, with guards in what it holds: branches, and what is handed to checks. */
  #within(node: Node, known: Known): Node {
    if (isCell(node)) return node;
    const apart = (part: Node, taker?: Parameter): Node =>
      isCell(bare(part)) && taker === undefined ? part : this.answer(part, known, taker);
    switch (node.type) {
      case 'group':
      case 'unary':
      case 'percent':
        return { ...node, value: this.#within(node.value, known) };
      case 'binary':
        return node.operator === '&'
          ? { ...node, left: apart(node.left), right: apart(node.right) }
          : { ...node, left: this.#within(node.left, known), right: this.#within(node.right, known) };
      case 'call':
        break;
      default:
        return node;
    }
    const { name } = node;
    if (name === 'ISWRONG')
      return this.#wrong(
        node.args.flatMap((cell) => (cell === undefined ? [] : [[cell, this.#uses.nature(cell) ?? { words: false }]])),
      );
    if (choosing.has(name)) return this.answer(node, known);
    if (asking.has(name)) return this.#arguments(node, (part) => apart(part));
    const parameters = this.#uses.parameters(node);
    return this.#arguments(node, (part, index) => {
      if (wholeRanges(parameters?.[index])) return part;
      return this.#uses.standsApart(node, index)
        ? this.answer(part, known, parameters?.[index])
        : this.#within(part, known);
    });
  }
}

/** A declared formula with its guards. Throws where a condition between cells is about none that it computes with. */
export function guarded(declared: DeclaredFormula, scope: GuardScope): Node {
  const places = new GuardPlaces(declared, scope);
  const { emptyWithout } = declared;
  const value = places.answer(
    plainFormula(declared),
    new Map(emptyWithout.map((cell) => [printed(cell), 'number'] as const)),
  );
  if (places.idle !== undefined)
    throw new Error(`"${printed(places.idle)}" must hold, but nothing in the formula computes with all of its cells`);
  return emptyWithout.length === 0
    ? value
    : { type: 'guard', cells: emptyWithout.map((cell) => ({ cell })), must: [], without: 'nothing', value };
}
