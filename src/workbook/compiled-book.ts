import type { RowFormula } from '../formula/kernel.ts';
import { circle, isComputed } from '../sheet/declaration.ts';
import { lookedInto, precedents } from '../sheet/declared-formula.ts';
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

export interface CompiledBook {
  readonly sheets: ReadonlyMap<string, CompiledSheet>;
  readonly steps: readonly ComputingStep[];
}

/** Throws a programmer's error that names sheet, column and parameter of everything that is wrong. */
export function compileBook(declarations: Declarations): CompiledBook {
  const names = new DeclaredNames(declarations);
  const faults = formulaFaults(names);
  if (faults.length > 0) throw new Error(faults.join('\n'));
  const sheets = new Map(declarations.sheets.map((sheet) => [sheet.name, compileSheet(sheet, names)]));
  return { sheets, steps: computingSteps(sheets) };
}
