import { caseCompiled } from '../formula/case-kernel.ts';
import type { CaseFormula } from '../formula/case-values.ts';
import type { ComputingStep } from './compiled-book.ts';

const formulas = new Map<ComputingStep['plan'], Map<number, CaseFormula>>();

/** A computed column's formula over blocks of cases, compiled when it is first asked for. */
export function caseFormula({ plan, column }: Pick<ComputingStep, 'plan' | 'column'>): CaseFormula {
  const ofSheet = formulas.get(plan) ?? new Map<number, CaseFormula>();
  formulas.set(plan, ofSheet);
  const known = ofSheet.get(column);
  if (known !== undefined) return known;
  const tree = plan.trees.get(column)?.guarded;
  if (tree === undefined) throw new Error(`${plan.declaration.name}: column ${column} is not computed`);
  const formula = caseCompiled(tree, plan.scope);
  ofSheet.set(column, formula);
  return formula;
}
