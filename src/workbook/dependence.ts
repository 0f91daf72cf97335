import { nodesOf, parsed } from '../formula/syntax.ts';
import { isComputed, precedents, slotParts } from '../sheet/declaration.ts';
import { computingSheets, plans } from './layout.ts';
import type { SheetPlan } from './sheet-plan.ts';

/** Which computed columns follow when a column or a named value moves. */
export interface Dependent {
  readonly sheet: string;
  readonly column: number;
  /** True when only the same record follows, false when every record does. */
  readonly sameRecord: boolean;
}

const direct = new Map<string, Dependent[]>();
const columnMark = (sheet: string, header: string): string => `${sheet}.${header}`;
const nameMark = (name: string): string => `=${name}`;

for (const { columns, declaration } of computingSheets) {
  columns.forEach((column, index) => {
    if (!isComputed(column)) return;
    const add = (mark: string, sameRecord: boolean): void => {
      const list = direct.get(mark) ?? [];
      if (!list.some((item) => item.sheet === declaration.name && item.column === index)) list.push({ sheet: declaration.name, column: index, sameRecord });
      direct.set(mark, list);
    };
    for (const header of precedents(column)) add(columnMark(declaration.name, header), true);
    for (const node of nodesOf(parsed(column.formula))) {
      if (node.type === 'name') add(nameMark(node.name), false);
      if (node.type === 'placeholder' && slotParts(node.name).sheet !== undefined) add(node.name, false);
    }
  });
}

const closures = new Map<string, readonly Dependent[]>();

/** All columns that follow, directly or through others; `sameRecord` when each step on the way stays in the record. */
function closure(mark: string): readonly Dependent[] {
  const known = closures.get(mark);
  if (known !== undefined) return known;
  const found = new Map<string, Dependent>();
  const visit = (from: string, sameRecord: boolean): void => {
    for (const next of direct.get(from) ?? []) {
      const stays = sameRecord && next.sameRecord;
      const id = `${next.sheet}.${next.column}`;
      const before = found.get(id);
      if (before !== undefined && (!before.sameRecord || stays)) continue;
      found.set(id, { ...next, sameRecord: stays });
      visit(columnMark(next.sheet, plans.get(next.sheet)?.columns[next.column]?.header ?? ''), stays);
    }
  };
  visit(mark, true);
  const list = [...found.values()];
  closures.set(mark, list);
  return list;
}

export const columnDependents = (sheet: string, column: number): readonly Dependent[] =>
  closure(columnMark(sheet, plans.get(sheet)?.columns[column]?.header ?? ''));

export const nameDependents = (name: string): readonly Dependent[] => closure(nameMark(name)).map((item) => ({ ...item, sameRecord: false }));

const chosen = new Map<string, SheetPlan['steps']>();

/** A sheet's computing steps that follow in a record from changed columns and named values; with `wanted` only those it needs. */
export function followingSteps(sheet: string, columns: readonly number[], names: readonly string[], wanted?: number): SheetPlan['steps'] {
  const mark = `${sheet}.${columns.join(',')}=${names.join(',')}>${wanted ?? ''}`;
  const known = chosen.get(mark);
  if (known !== undefined) return known;
  const followers = [...columns.flatMap((column) => columnDependents(sheet, column)), ...names.flatMap(nameDependents)];
  const following = new Set(followers.flatMap((item) => (item.sheet === sheet ? [item.column] : [])));
  const leads = (column: number): boolean =>
    wanted === undefined || column === wanted || columnDependents(sheet, column).some((item) => item.sheet === sheet && item.column === wanted);
  const steps = plans.get(sheet)?.steps.filter(({ column }) => following.has(column) && leads(column)) ?? [];
  chosen.set(mark, steps);
  return steps;
}
