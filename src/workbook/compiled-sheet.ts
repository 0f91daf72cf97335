import { columnLetters, quotedSheet, sheetRow } from '../formula/address.ts';
import { guarded, plainFormula } from '../formula/guard-places.ts';
import { spelledForEngine } from '../formula/guards.ts';
import { compiled, type RowFormula, type Scope } from '../formula/kernel.ts';
import { mapped, type Node, printed } from '../formula/syntax.ts';
import { type Column, computingOrder, type SheetDeclaration } from '../sheet/declaration.ts';
import { declaredFormula, slotParts } from '../sheet/declared-formula.ts';
import type { DeclaredNames } from './declared-names.ts';

/** A declared sheet made ready to compute: compiled formulas in order, and each formula as cell text for a row. */

/** A computed column's formula as trees over `{Column}`. */
interface ColumnTrees {
  /** As people read it. */
  readonly plain: Node;
  /** With its guards, as it is computed. */
  readonly guarded: Node;
}

export interface CompiledSheet {
  readonly declaration: SheetDeclaration;
  readonly columns: readonly Column[];
  readonly position: ReadonlyMap<string, number>;
  /** What its formulas may name. */
  readonly scope: Scope;
  /** The formulas of its computed columns, by position. */
  readonly trees: ReadonlyMap<number, ColumnTrees>;
  /** Computed columns, each after those of the same row that it uses. */
  readonly steps: readonly { readonly column: number; readonly formula: RowFormula }[];
}

export function compileSheet(declaration: SheetDeclaration, names: DeclaredNames): CompiledSheet {
  const { columns, name } = declaration;
  const position = new Map(columns.map(({ header }, index) => [header, index]));
  const scope: Scope = {
    functions: names.functions,
    slot(placeholder) {
      const { sheet, header } = slotParts(placeholder);
      if (sheet !== undefined) return names.column(name, placeholder) === undefined ? undefined : { sheet, header };
      const cell = position.get(header);
      return cell === undefined ? undefined : { cell };
    },
  };
  const trees = new Map<number, ColumnTrees>();
  const steps = computingOrder(declaration).map((column) => {
    const declared = declaredFormula(columns[column] ?? {});
    if (declared === undefined) throw new Error(`${name}: column ${column} is not computed`);
    try {
      const tree = guarded(declared, names.guardScope(name));
      trees.set(column, { plain: plainFormula(declared), guarded: tree });
      return { column, formula: compiled(tree, scope) };
    } catch (error) {
      throw new Error(
        `${name}, ${columns[column]?.header ?? ''}: ${error instanceof Error ? error.message : String(error)}`,
        { cause: error },
      );
    }
  });
  return { declaration, columns, position, scope, trees, steps };
}

/** A computed column's formula, guards and all, as a tree over the cells of one record; undefined for an input. */
function cellTree(
  column: number,
  record: number,
  plan: CompiledSheet,
  plans: ReadonlyMap<string, CompiledSheet>,
): Node | undefined {
  const trees = plan.trees.get(column);
  if (trees === undefined) return undefined;
  return mapped(trees.guarded, (node) => {
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
  column: number,
  record: number,
  plan: CompiledSheet,
  plans: ReadonlyMap<string, CompiledSheet>,
): string | undefined => {
  const tree = cellTree(column, record, plan, plans);
  return tree === undefined ? undefined : `=${printed(spelledForEngine(tree))}`;
};
