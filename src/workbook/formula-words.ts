import { quotedSheet } from '../formula/address.ts';
import { mapped, type Node, operand, printed } from '../formula/syntax.ts';
import { shownHeader } from '../sheet/header.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { withCellsOfColumns } from './column-references.ts';
import { compiledSheets } from './declared.ts';
import type { CellPlace } from './place.ts';
import type { BookState } from './state.ts';

/**
 * Sheets' own formulas as people read and type them: columns by their names, `[Width]`, `'Plate series'[Pitch]`, and
 * without the guards against missing and wrong inputs, which typing puts in again (`typed-over.ts`). Typed into a cell,
 * such a text gives what it gives in the sheet.
 */

const isWholeColumn = (node: Node | undefined): boolean =>
  node?.type === 'placeholder' && slotParts(node.name).sheet !== undefined;

const one: Node = { type: 'number', value: 1, text: '1' };

/** A place found in a column, counted as rows of the sheet are. */
const isFoundRow = (node: Node | undefined): node is Node & { readonly type: 'binary' } =>
  node?.type === 'binary' && node.right === one;

/**
 * A tree in which places in columns count from the first record, as they do in columns that are typed by their names.
 * The sheets' own columns begin with their headers, so that places in them are rows of the sheet.
 */
const countedFromRecords = (tree: Node): Node =>
  mapped(tree, (node) => {
    if (node.type === 'binary' && [node.left, node.right].some(isFoundRow))
      return { ...node, left: operand(node.left), right: operand(node.right) };
    if (node.type !== 'call') return undefined;
    const [first, second, ...rest] = node.args;
    if (node.name === 'MATCH' && isWholeColumn(second))
      return { type: 'binary', left: node, operator: '+', right: one };
    if (node.name !== 'INDEX' || !isWholeColumn(first) || second === undefined) return undefined;
    const place: Node = isFoundRow(second)
      ? second.left
      : { type: 'binary', left: operand(second), operator: '-', right: { ...one } };
    return { ...node, args: [first, place, ...rest] };
  });

const columnWords = (tree: Node, units: UnitSystem): string =>
  printed(
    mapped(countedFromRecords(tree), (node) => {
      if (node.type !== 'placeholder') return undefined;
      const { sheet, header } = slotParts(node.name);
      return {
        type: 'reference',
        text: `${sheet === undefined ? '' : quotedSheet(sheet)}[${shownHeader({ header }, units)}]`,
      };
    }),
  );

/** The formula of a computed column in words; undefined for a column that is none. */
export function ownFormulaWords(sheet: string, column: number, units: UnitSystem): string | undefined {
  const trees = compiledSheets.get(sheet)?.trees.get(column);
  return trees === undefined ? undefined : `=${columnWords(trees.plain, units)}`;
}

/** Whether a formula typed into a computed cell is the sheet's own. */
export function isOwnFormula(formula: string, place: CellPlace, state: BookState): boolean {
  const words = ownFormulaWords(place.sheet, place.column, state.units);
  return (
    words !== undefined &&
    (formula === words || withCellsOfColumns(formula, place, state) === withCellsOfColumns(words, place, state))
  );
}
