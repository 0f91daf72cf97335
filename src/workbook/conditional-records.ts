import { compared } from '../formula/standard.ts';
import type { Node } from '../formula/syntax.ts';
import { isFault, type Value } from '../formula/values.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { compiledSheets } from './declared.ts';
import type { CellPlace } from './place.ts';
import type { Workbook } from './workbook.ts';

/** Conditional sums and the like, as formulas call them. */
const conditional = new Set(['COUNTIFS', 'SUMIFS', 'MINIFS', 'MAXIFS']);

export const isConditional = (name: string): boolean => conditional.has(name);

const wholeColumn = (node: Node | undefined): { readonly sheet: string; readonly column: number } | undefined => {
  const { sheet, header } = node?.type === 'placeholder' ? slotParts(node.name) : {};
  const column =
    sheet === undefined || header === undefined ? undefined : compiledSheets.get(sheet)?.position.get(header);
  return sheet === undefined || column === undefined ? undefined : { sheet, column };
};

/**
 * The cells that a conditional sum takes: of its column in the records that meet its conditions. A count takes those of
 * its last condition's column.
 */
export function conditionalCells(
  book: Workbook,
  call: Node & { readonly type: 'call' },
  value: (node: Node) => Value,
): CellPlace[] {
  const pairs = call.name === 'COUNTIFS' ? call.args : call.args.slice(1);
  const conditions = Array.from({ length: pairs.length / 2 }, (_, index) => {
    const wanted = pairs[2 * index + 1];
    return { column: wholeColumn(pairs[2 * index]), wanted: wanted === undefined ? null : value(wanted) };
  });
  const source = call.name === 'COUNTIFS' ? conditions.at(-1)?.column : wholeColumn(call.args[0]);
  if (source === undefined) return [];
  const { sheet, column } = source;
  return book.sheet(sheet).rows.flatMap((_, record) => {
    const holds = conditions.every((condition) => {
      if (condition.column === undefined || condition.wanted === null || isFault(condition.wanted)) return false;
      const held = book.value({ sheet, record, column: condition.column.column });
      return held !== null && !isFault(held) && compared(held, condition.wanted) === 0;
    });
    return holds ? [{ sheet, record, column }] : [];
  });
}
