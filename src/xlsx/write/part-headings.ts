import { type Node, printed } from '../../formula/syntax.ts';
import { slotParts } from '../../sheet/declared-formula.ts';

/** The headings of working columns that have no name of their own. */

/** Characters of a heading that says what a column works out. */
const mostOfHeader = 120;

/** What a cell is called in a heading. */
const cellWords = (node: Node | undefined, headers: ReadonlyMap<string, string>): string | undefined => {
  if (node?.type === 'call' && node.name === 'INDEX')
    return node.args.map((part) => cellWords(part, headers) ?? '').join(' at ');
  if (node?.type !== 'placeholder') return undefined;
  const { header } = slotParts(node.name);
  return (headers.get(header) ?? header).replace(/, checked$/, '');
};

/** What a part is called that has no name: what is looked up, what stands for a blank, or what it says. */
function wholeHeading(node: Node, headers: ReadonlyMap<string, string>): string {
  const [list, second] = node.type === 'call' ? node.args : [];
  if (node.type === 'call' && node.name === 'INDEX' && list?.type === 'placeholder') {
    const { sheet } = slotParts(list.name);
    return `${sheet === undefined ? '' : `${sheet}: `}${cellWords(list, headers) ?? ''}`;
  }
  if (node.type === 'call' && node.name === 'IF' && list?.type === 'call' && list.name === 'ISBLANK') {
    const cell = cellWords(list.args[0], headers);
    if (cell !== undefined && second !== undefined) return `${cell}, otherwise ${spelledOut(second, headers)}`;
  }
  if (node.type === 'binary' && node.left.type === 'call' && node.left.name === 'COUNT' && node.operator === '=')
    return `All there: ${node.left.args.map((cell) => cellWords(cell, headers) ?? '').join(', ')}`;
  return spelledOut(node, headers);
}

const spelledOut = (node: Node, headers: ReadonlyMap<string, string>): string =>
  printed(node).replaceAll(/\{(?:[^{}".]*\.)?([^{}"]*)\}/g, (_, name: string) =>
    (headers.get(name) ?? name).replace(/, checked$/, ''),
  );

export const partHeading = (node: Node, headers: ReadonlyMap<string, string>): string =>
  wholeHeading(node, headers).slice(0, mostOfHeader).trim();

/** A heading that no other column has: with a number, if need be. */
export function headingBeside(says: string, taken: ReadonlySet<string>): string {
  let heading = says;
  for (let number = 2; taken.has(heading); number += 1) heading = `${says} (${number})`;
  return heading;
}
