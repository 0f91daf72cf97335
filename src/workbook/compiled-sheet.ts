import { columnLetters, sheetRow, quotedSheet } from '../formula/address.ts';
import type { EngineeringFunction } from '../formula/define.ts';
import { type RowFormula, type Scope, compiled } from '../formula/kernel.ts';
import { mapped, type Node, parsed, printed } from '../formula/syntax.ts';
import { type Column, computingOrder, isComputed, type SheetDeclaration, slotParts } from '../sheet/declaration.ts';

/** A declared sheet made ready to compute: compiled formulas in order, and each formula as cell text for a row. */

export interface CompiledSheet {
  readonly declaration: SheetDeclaration;
  readonly columns: readonly Column[];
  readonly position: ReadonlyMap<string, number>;
  /** What its formulas may name. */
  readonly scope: Scope;
  /** Computed columns, each after those of the same row that it uses. */
  readonly steps: readonly { readonly column: number; readonly formula: RowFormula }[];
}

/**
 * Refuses what a declaration names outside its formulas and no sheet has: a column whose words another allows, the
 * sheet that its records are parts of. The compiler can't: sheets name each other both ways.
 */
function checkNamed({ name, columns, partOf }: SheetDeclaration, sheets: readonly SheetDeclaration[]): void {
  if (partOf !== undefined && !sheets.some((other) => other.name === partOf.sheet))
    throw new Error(`${name}: there is no sheet ${partOf.sheet} to be part of`);
  for (const { header, choices } of columns) {
    if (choices === undefined || !('sheet' in choices)) continue;
    const other = sheets.find((sheet) => sheet.name === choices.sheet);
    if (other?.columns.some((column) => column.header === choices.header) !== true)
      throw new Error(`${name}, ${header}: the sheet ${choices.sheet} has no column ${choices.header} to choose from`);
  }
}

export function compileSheet(
  declaration: SheetDeclaration,
  sheets: readonly SheetDeclaration[],
  functions: readonly EngineeringFunction[],
): CompiledSheet {
  const { columns, name } = declaration;
  checkNamed(declaration, sheets);
  const position = new Map(columns.map(({ header }, index) => [header, index]));
  const scope: Scope = {
    functions: new Map(functions.map((item) => [item.name, item])),
    slot(placeholder) {
      const { sheet, header } = slotParts(placeholder);
      if (sheet !== undefined) {
        const target = sheets.find((other) => other.name === sheet)?.columns.some((column) => column.header === header);
        return target === true ? { sheet, header } : undefined;
      }
      const cell = position.get(header);
      return cell === undefined ? undefined : { cell };
    },
  };
  const steps = computingOrder(declaration).map((column) => {
    const declared = columns[column];
    if (declared === undefined || !isComputed(declared)) throw new Error(`${name}: column ${column} is not computed`);
    try {
      return { column, formula: compiled(parsed(declared.formula), scope) };
    } catch (error) {
      throw new Error(`${name}, ${declared.header}: ${error instanceof Error ? error.message : String(error)}`, {
        cause: error,
      });
    }
  });
  return { declaration, columns, position, scope, steps };
}

const trees = new Map<string, Node>();

/** A declared formula as a tree, read once. */
export function treeOf(formula: string): Node {
  let tree = trees.get(formula);
  if (tree === undefined) trees.set(formula, (tree = parsed(formula)));
  return tree;
}

/** A computed column's formula as a tree over the cells of one record; undefined for an input. */
export function cellTree(
  column: Column,
  record: number,
  plan: CompiledSheet,
  plans: ReadonlyMap<string, CompiledSheet>,
): Node | undefined {
  if (!isComputed(column)) return undefined;
  return mapped(treeOf(column.formula), (node) => {
    if (node.type !== 'placeholder') return undefined;
    const { sheet, header } = slotParts(node.name);
    const place = (sheet === undefined ? plan : plans.get(sheet))?.position.get(header);
    if (place === undefined) throw new Error(`{${node.name}} is no column`);
    const letters = columnLetters(place);
    return {
      type: 'reference',
      text: sheet === undefined ? `${letters}${sheetRow(record)}` : `${quotedSheet(sheet)}!$${letters}:$${letters}`,
    };
  });
}

export const cellFormula = (
  column: Column,
  record: number,
  plan: CompiledSheet,
  plans: ReadonlyMap<string, CompiledSheet>,
): string | undefined => {
  const tree = cellTree(column, record, plan, plans);
  return tree === undefined ? undefined : `=${printed(tree)}`;
};
