import { functions } from '../../functions/index.ts';
import { filled } from '../../formula/define.ts';
import { mapped, type Node } from '../../formula/syntax.ts';
import type { CompiledSheet } from '../../workbook/compiled-sheet.ts';

/** Calls that take any number of cells, over the range of them where they stand side by side. */

/** Marks a range from one cell of the record to another, as a call of the two; what a file's formula may name. */
export const rangeOf = 'CELLS';
/** The same of their headings. */
export const headingsOf = 'HEADINGS';

const overRange = new Map(
  functions.flatMap(({ name, overRange }) => (overRange === undefined ? [] : [[name, overRange]])),
);

/** Whether all are columns of the record, each to the right of the one before. */
function areAdjacent(cells: readonly (Node | undefined)[], { position }: CompiledSheet): boolean {
  const places = cells.map((cell) => (cell?.type === 'placeholder' ? position.get(cell.name) : undefined));
  return places.every((place, index) => place !== undefined && (index === 0 || place === (places[index - 1] ?? 0) + 1));
}

export const adjacentVerdicts = (tree: Node, plan: CompiledSheet): Node =>
  mapped(tree, (node) => {
    const form = node.type === 'call' ? overRange.get(node.name) : undefined;
    if (node.type !== 'call' || form === undefined || node.args.length < 2 || !areAdjacent(node.args, plan))
      return undefined;
    const [first, last] = [node.args[0], node.args.at(-1)];
    const range: Node = { type: 'call', name: rangeOf, args: [first, last] };
    return filled(form, () => range);
  });
