import { guarded } from '../formula/guard-places.ts';
import { compiled, type RowFormula } from '../formula/kernel.ts';
import { circle, isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { declaredFormula, type FormulaDeclaration, lookedInto, precedents } from '../sheet/declared-formula.ts';
import { type CompiledSheet, compileSheet } from './compiled-sheet.ts';
import { type Declarations, DeclaredNames } from './declared-names.ts';
import { formulaFaults } from './formula-faults.ts';

/** Declared sheets made ready to compute together. What is wrong with a declaration is found here, before any book. */

/** One computed column to work out. */
export interface ComputingStep {
  readonly plan: CompiledSheet;
  readonly column: number;
  readonly formula: RowFormula;
}

/** All computed columns of all sheets, each after those that it uses, whichever sheet they stand in. */
function computingSteps(sheets: ReadonlyMap<string, CompiledSheet>): readonly ComputingStep[] {
  const order: ComputingStep[] = [];
  const done = new Set<string>();
  const visit = (plan: CompiledSheet | undefined, header: string, way: readonly string[]): void => {
    const column = plan?.position.get(header) ?? -1;
    const declared = plan?.columns[column];
    if (plan === undefined || declared === undefined || !isComputed(declared)) return;
    const mark = `${plan.declaration.name}, ${header}`;
    if (done.has(mark)) return;
    if (way.includes(mark)) {
      const others = [...way.slice(way.indexOf(mark) + 1), mark].map((name) => name.replace(', ', '.'));
      throw new Error(circle(mark, others));
    }
    const here = [...way, mark];
    for (const own of precedents(declared)) visit(plan, own, here);
    for (const { sheet, header: other } of lookedInto(declared)) visit(sheets.get(sheet), other, here);
    done.add(mark);
    const step = plan.steps.find((item) => item.column === column);
    if (step !== undefined) order.push({ plan, ...step });
  };
  for (const plan of sheets.values()) for (const { header } of plan.columns) visit(plan, header, []);
  return order;
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

interface CompiledBook {
  readonly names: DeclaredNames;
  readonly sheets: ReadonlyMap<string, CompiledSheet>;
  readonly steps: readonly ComputingStep[];
}

/** Throws a programmer's error that names sheet, column and parameter of everything that is wrong. */
export function compileBook(declarations: Declarations): CompiledBook {
  const names = new DeclaredNames(declarations);
  for (const sheet of declarations.sheets) checkNamed(sheet, declarations.sheets);
  const faults = formulaFaults(names);
  if (faults.length > 0) throw new Error(faults.join('\n'));
  const sheets = new Map(declarations.sheets.map((sheet) => [sheet.name, compileSheet(sheet, names)]));
  return { names, sheets, steps: computingSteps(sheets) };
}

/** A formula over a sheet's columns that stands in none of them, with its guards, as the sheet's own are compiled. */
export function compileFormula(
  { names, sheets }: CompiledBook,
  sheet: string,
  declared: FormulaDeclaration,
): RowFormula {
  const [plan, formula] = [sheets.get(sheet), declaredFormula(declared)];
  if (plan === undefined || formula === undefined) throw new Error(`there is no sheet ${sheet}, or no formula`);
  return compiled(guarded(formula, names.guardScope(sheet)), plan.scope);
}
