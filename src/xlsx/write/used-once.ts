import { mapped, type Node, nodesOf } from '../../formula/syntax.ts';
import { headingsOf, rangeOf } from './adjacent-verdicts.ts';
import { takesRanges } from './file-functions.ts';
import { fileLength } from './shared-parts.ts';
import type { FileSheet, NoFormula, WorkingColumn } from './working-columns.ts';

/**
 * Checked cells that one formula uses, once, in that formula: a column is worth its cell in every row, which programs
 * read, work out and write, only where it is said more than once or where the formula would not be read at a glance.
 */

/** Characters up to which a formula takes a check in. */
const mostWithCheck = 150;

/** Functions of ranges to which a number, or an error, is the same whether it stands in a cell or not. */
const takingEither: ReadonlySet<string> = new Set(['AND', 'MAX', 'MIN', 'OR', 'SUM']);

const asksForCell = (name: string): boolean =>
  name === 'ISBLANK' || name === rangeOf || name === headingsOf || (takesRanges(name) && !takingEither.has(name));

const isSlot = (node: Node | undefined, slot: string): boolean => node?.type === 'placeholder' && node.name === slot;

/** Whether something asks for the cell itself. */
const isAskedFor = (tree: Node, slot: string): boolean =>
  nodesOf(tree).some(
    (node) => node.type === 'call' && asksForCell(node.name) && node.args.some((part) => isSlot(part, slot)),
  );

/** The tree with a check in the place of its cell: in brackets, but where it is all of an argument. */
function taken(tree: Node, slot: string, check: Node): Node {
  const whole = mapped(tree, (node) =>
    node.type === 'call' && node.args.some((part) => isSlot(part, slot))
      ? { ...node, args: node.args.map((part) => (isSlot(part, slot) ? check : part)) }
      : undefined,
  );
  return mapped(whole, (node) => (isSlot(node, slot) ? { type: 'group', value: check } : undefined));
}

const treesOf = ({ formulas, workings }: FileSheet): Node[] => [
  ...[...formulas.values()].flatMap((tree) => ('why' in tree ? [] : [tree])),
  ...workings.map(({ formula }) => formula),
];

/** How often trees name each cell. */
function usesIn(trees: readonly Node[]): ReadonlyMap<string, number> {
  const uses = new Map<string, number>();
  for (const node of trees.flatMap(nodesOf))
    if (node.type === 'placeholder') uses.set(node.name, (uses.get(node.name) ?? 0) + 1);
  return uses;
}

function sheetWithChecks(sheet: FileSheet, isLookedAt: (slot: string) => boolean): FileSheet {
  const formulas = new Map<number, Node | NoFormula>(sheet.formulas);
  const columns = new Map<string, WorkingColumn>(sheet.workings.map((column) => [column.slot, column]));
  const uses = usesIn(treesOf(sheet));
  for (const { slot, of, formula: check } of sheet.workings) {
    if (of === undefined || uses.get(slot) !== 1 || isLookedAt(slot)) continue;
    const withCheck = (tree: Node): Node | undefined => {
      if (!nodesOf(tree).some((node) => isSlot(node, slot)) || isAskedFor(tree, slot)) return undefined;
      const whole = taken(tree, slot, check);
      return fileLength(whole) <= mostWithCheck ? whole : undefined;
    };
    for (const [position, tree] of formulas) {
      const whole = 'why' in tree ? undefined : withCheck(tree);
      if (whole === undefined) continue;
      formulas.set(position, whole);
      columns.delete(slot);
    }
    for (const column of columns.values()) {
      const whole = withCheck(column.formula);
      if (whole === undefined) continue;
      columns.set(column.slot, { ...column, formula: whole });
      columns.delete(slot);
    }
  }
  return { formulas, workings: [...columns.values()] };
}

/** Sheets with the checks that are used once where they are used; a cell at which another sheet looks stays. */
export function withChecksUsedOnce(sheets: ReadonlyMap<string, FileSheet>): ReadonlyMap<string, FileSheet> {
  const uses = usesIn([...sheets.values()].flatMap(treesOf));
  return new Map(
    [...sheets].map(([name, sheet]) => [name, sheetWithChecks(sheet, (slot) => uses.has(`${name}.${slot}`))]),
  );
}
