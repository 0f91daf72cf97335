import { quotedSheet } from '../../formula/address.ts';
import { mapped, type Node, nodesOf, printed } from '../../formula/syntax.ts';
import { slotParts } from '../../sheet/declared-formula.ts';
import { headingsOf, rangeOf } from './adjacent-verdicts.ts';
import { arrayUse } from './array-use.ts';
import { headingBeside, partHeading } from './part-headings.ts';
import type { FileSheet, NoFormula, WorkingColumn } from './working-columns.ts';

/**
 * Formulas of one sheet cut into parts that stand in working columns of their own: what several formulas, or one of
 * them twice, work out alike, and what makes a formula too long to read.
 */

/** Characters that a formula should not exceed. */
const mostCharacters = 255;

/** Characters of what is cut from a longer one: fewer would leave it long, and more would be long itself. */
const mostOfCut = 200;
const leastOfCut = 30;

/** Characters of a row that a part has to save to be worth a column. */
const leastSaving = 24;

type Slot = Node & { readonly type: 'placeholder' };
const isSlot = (node: Node): node is Slot => node.type === 'placeholder';

/** A reference to a cell of the record takes about so many. */
const cellLength = 4;

/** A formula about as long as it will be in the file, of the cells in it and its text. */
const lengthOf = (slots: readonly Slot[], text: string): number =>
  slots.reduce((length, { name }) => {
    const { sheet } = slotParts(name);
    const inFile = sheet === undefined ? cellLength : quotedSheet(sheet).length + '!$AA:$AA'.length;
    return length - (name.length + 2) + inFile;
  }, text.length);

/** What may be a blank cell when it is read, which a formula of its own would show as 0. */
const mayBeBlank = ({ args: [list] }: Node & { readonly type: 'call' }): boolean =>
  list?.type === 'placeholder' && !/, (?:checked|allowed)$|\.looked up \d+$/.test(list.name);

const isPart = (node: Node): boolean =>
  node.type === 'binary' ||
  (node.type === 'call' &&
    node.name !== rangeOf &&
    node.name !== headingsOf &&
    !(node.name === 'INDEX' && mayBeBlank(node)) &&
    node.args.length > 0);

export const fileLength = (tree: Node): number => lengthOf(nodesOf(tree).filter(isSlot), printed(tree));

interface Part {
  readonly node: Node;
  readonly key: string;
  count: number;
  readonly trees: Set<number>;
}

/** What is told of a part once: most trees stay as they are while others are cut. */
interface Known {
  readonly key: string;
  readonly length: number;
  readonly isOfRecord: boolean;
}

const known = new WeakMap<Node, Known>();

function knownOf(node: Node): Known {
  let found = known.get(node);
  if (found === undefined) {
    const key = printed(node);
    const slots = nodesOf(node).filter(isSlot);
    found = { key, length: lengthOf(slots, key), isOfRecord: slots.length > 0 && !arrayUse(node).many };
    known.set(node, found);
  }
  return found;
}

const partsWithin = new WeakMap<Node, readonly Node[]>();

/** What in a tree could be a part, found once as well. */
function partNodes(tree: Node): readonly Node[] {
  let found = partsWithin.get(tree);
  if (found === undefined)
    partsWithin.set(tree, (found = nodesOf(tree).filter((node) => node !== tree && isPart(node))));
  return found;
}

/** Parts that may stand by themselves, those of the record alone: named values need no column in every row. */
function partsOf(tree: Node, index: number, found: Map<string, Part>): void {
  for (const node of partNodes(tree)) {
    const { key, isOfRecord } = knownOf(node);
    const before = found.get(key);
    if (before !== undefined) {
      before.count += 1;
      before.trees.add(index);
    } else if (isOfRecord) found.set(key, { node, key, count: 1, trees: new Set([index]) });
  }
}

/** The tree with a part of it read from its column. */
const replaced = (tree: Node, key: string, header: string): Node =>
  mapped(
    mapped(tree, (node) =>
      isPart(node) && knownOf(node).key === key ? { type: 'placeholder', name: header } : undefined,
    ),
    (node) => (node.type === 'group' && node.value.type === 'placeholder' ? node.value : undefined),
  );

class SheetParts {
  readonly formulas: Map<number, Node | NoFormula>;
  readonly workings: WorkingColumn[];

  constructor(formulas: ReadonlyMap<number, Node | NoFormula>, workings: readonly WorkingColumn[]) {
    this.formulas = new Map(formulas);
    this.workings = [...workings];
  }

  /** Every tree with what puts another in its place. */
  #trees(): { readonly tree: Node; readonly put: (tree: Node) => void }[] {
    return [
      ...[...this.formulas].flatMap(([position, tree]) =>
        'why' in tree ? [] : [{ tree, put: (other: Node): void => void this.formulas.set(position, other) }],
      ),
      ...this.workings.map((working, index) => ({
        tree: working.formula,
        put: (formula: Node): void => void (this.workings[index] = { ...working, formula }),
      })),
    ];
  }

  #split({ node, key, trees: within }: Part): void {
    const headers = new Map(this.workings.map(({ slot, header }) => [slot, header]));
    const taken = new Set(headers.values());
    const header = headingBeside(partHeading(node, headers), taken);
    const slot = `part ${this.workings.length}`;
    for (const [index, { tree, put }] of this.#trees().entries()) if (within.has(index)) put(replaced(tree, key, slot));
    this.workings.push({ slot, header, doc: 'part of other formulas of this sheet', formula: node });
  }

  /** Gives a column to what is worked out several times, what saves most first. */
  share(): void {
    for (;;) {
      const found = new Map<string, Part>();
      for (const [index, { tree }] of this.#trees().entries()) partsOf(tree, index, found);
      const worth = [...found.values()]
        .filter(({ count }) => count > 1)
        .map((part) => {
          const { length } = knownOf(part.node);
          return { part, saving: part.count * (length - cellLength) - length };
        })
        .filter(({ saving }) => saving >= leastSaving)
        .toSorted((one, other) => other.saving - one.saving);
      if (worth.length === 0) return;
      // One part may hold another: each tree is cut once before all are looked at anew.
      const cut = new Set<number>();
      for (const { part } of worth) {
        if ([...part.trees].some((index) => cut.has(index))) continue;
        for (const index of part.trees) cut.add(index);
        this.#split(part);
      }
    }
  }

  /** Cuts what is too long, as far as it has parts that can be cut. */
  shorten(): void {
    for (let cut = this.#nextCut(); cut !== undefined; cut = this.#nextCut()) this.#split(cut);
  }

  /** The largest part that can be cut from the first formula that is too long and has one. */
  #nextCut(): Part | undefined {
    for (const [index, { tree }] of this.#trees().entries()) {
      if (knownOf(tree).length <= mostCharacters) continue;
      const found = new Map<string, Part>();
      partsOf(tree, index, found);
      const [cut] = [...found.values()]
        .map((part) => ({ part, length: knownOf(part.node).length }))
        .filter(({ length }) => length <= mostOfCut && length >= leastOfCut)
        .toSorted((one, other) => other.length * other.part.count - one.length * one.part.count);
      if (cut !== undefined) return cut.part;
    }
    return undefined;
  }
}

/**
 * A sheet's formulas and working columns with what they share in columns of its own.
 *
 * Not where records look into each other's rows: LibreOffice, made to recalculate, worked a shared part of the first
 * such row out before the cells that it rests on, and kept what came of it. What is too long is cut there all the same.
 */
export function sharedParts(
  formulas: ReadonlyMap<number, Node | NoFormula>,
  workings: readonly WorkingColumn[],
  looksAcross: boolean,
): FileSheet {
  const parts = new SheetParts(formulas, workings);
  if (!looksAcross) parts.share();
  parts.shorten();
  return { formulas: parts.formulas, workings: parts.workings };
}
