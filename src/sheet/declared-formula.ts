import { type DeclaredFormula } from '../formula/guard-places.ts';
import { type Node, nodesOf, parsed } from '../formula/syntax.ts';

/** What a computed column's declaration says of its formula, as trees; each text is read once. */

/** What a column declares of its formula. */
export interface FormulaDeclaration {
  /**
   * The formula of a computed column over `{Column}`, `{Sheet.Column}` and named values; absent for an input. Plain
   * arithmetic: what a missing or absurd input does to it is said below and put in when it is compiled.
   */
  readonly formula?: string;
  /**
   * Cells that may be blank, by column, with what the formula takes then: a number or a formula; null hands the blank
   * on to a function whose argument may be left out. Without any other number there is an error.
   */
  readonly optional?: Readonly<Record<string, number | string | null>>;
  /**
   * What must hold between cells, as `{Skive depth}<{Thickness}`, wherever all of them are computed with; else an
   * error.
   */
  readonly must?: readonly string[];
  /** Cells, as `{Capacity}`, without whose numbers there is nothing (an empty text) instead of an error. */
  readonly emptyWithout?: readonly string[];
  /** How an exported file works it out, where the formula would be long there. */
  readonly inFile?: FileForm;
}

/** A column as a file has it: the same value by other formulas, which a test has another program recalculate. */
export interface FileForm {
  /** In place of the formula: over the same columns, over parts, and over the lists of a table of lines. */
  readonly formula?: string;
  /**
   * Parts that stand in columns of their own beside the sheet, by their headings: formulas that the column's formula,
   * or a part after them, holds, or names as `{Heading}`.
   */
  readonly parts?: Readonly<Record<string, string>>;
  /**
   * What the column's number is more than, or at least, where its formula does not show it: exact arithmetic gives no
   * other. What the file need not ask then, it does not.
   */
  readonly above?: number;
  readonly min?: number;
}

/** A formula with its parts. */
export type FormulaInFile = Required<Pick<FileForm, 'formula' | 'parts'>>;

const trees = new Map<string, Node>();

function treeOf(text: string): Node {
  let tree = trees.get(text);
  if (tree === undefined) trees.set(text, (tree = parsed(text)));
  return tree;
}

/** A column's formula with what is declared beside it; undefined for an input. */
export function declaredFormula(column: FormulaDeclaration): DeclaredFormula | undefined {
  const { formula, optional = {}, must = [], emptyWithout = [] } = column;
  if (formula === undefined) return undefined;
  return {
    formula: treeOf(formula),
    optional: new Map(
      Object.entries(optional).map(([header, stands]) => [header, stands === null ? null : treeOf(String(stands))]),
    ),
    must: must.map(treeOf),
    emptyWithout: emptyWithout.map(treeOf),
  };
}

/** What a file has in place of a column's formula, as trees. */
export function fileForm({ inFile }: FormulaDeclaration): {
  readonly formula: Node | undefined;
  readonly parts: ReadonlyMap<string, Node>;
  readonly above: number | undefined;
  readonly min: number | undefined;
} {
  const { formula, parts = {}, above, min } = inFile ?? {};
  return {
    above,
    min,
    formula: formula === undefined ? undefined : treeOf(formula),
    parts: new Map(Object.entries(parts).map(([header, part]) => [header, treeOf(part)])),
  };
}

/** A reference in a declared formula: a column of the same sheet, or a whole column of another. */
export function slotParts(placeholder: string): { readonly sheet?: string; readonly header: string } {
  const dot = placeholder.indexOf('.');
  return dot < 0 ? { header: placeholder } : { sheet: placeholder.slice(0, dot), header: placeholder.slice(dot + 1) };
}

interface Used {
  readonly placeholders: readonly string[];
  readonly names: readonly string[];
}

const uses = new WeakMap<FormulaDeclaration, Used>();

/** What all that is declared of a column's formula names, each once. */
function used(column: FormulaDeclaration): Used {
  let found = uses.get(column);
  if (found === undefined) {
    const { formula = [], optional = [], must = [], emptyWithout = [] } = declaredFormula(column) ?? {};
    const parts = [formula, ...[...optional].map(([, stands]) => stands ?? []), ...must, ...emptyWithout].flat();
    const nodes = parts.flatMap((part) => nodesOf(part));
    const named = (type: 'placeholder' | 'name'): string[] => [
      ...new Set(nodes.flatMap((node) => (node.type === type ? [node.name] : []))),
    ];
    uses.set(column, (found = { placeholders: named('placeholder'), names: named('name') }));
  }
  return found;
}

/** Columns of the same sheet that a computed column's formula uses. */
export const precedents = (column: FormulaDeclaration): readonly string[] =>
  used(column).placeholders.filter((name) => !name.includes('.'));

/** Whole columns that a computed column's formula looks into. */
export const lookedInto = (
  column: FormulaDeclaration,
): readonly { readonly sheet: string; readonly header: string }[] =>
  used(column).placeholders.flatMap((name) => {
    const { sheet, header } = slotParts(name);
    return sheet === undefined ? [] : [{ sheet, header }];
  });

/** Named values that a computed column's formula uses. */
export const namesUsed = (column: FormulaDeclaration): readonly string[] => used(column).names;
