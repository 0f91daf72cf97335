import type { EngineeringFunction } from '../formula/define.ts';
import type { Column, NamedValue, SheetDeclaration } from '../sheet/declaration.ts';
import { isComputed } from '../sheet/declaration.ts';
import { type NamedSheet, namedRow, valueColumn } from '../sheet/named-values.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { declarations, namedSheets, recordSheets } from '../../sheets/index.ts';
import { functions } from '../functions/index.ts';
import type { BookState, SheetState } from './state.ts';
import { type SheetPlan, sheetPlan } from './sheet-plan.ts';

/** What the program's declared sheets are, made ready once: plans, computing order, named values by name. */

const engineering: readonly EngineeringFunction[] = functions;

export const plans: ReadonlyMap<string, SheetPlan> = new Map(
  declarations.map((declaration) => [declaration.name, sheetPlan(declaration, declarations, engineering)]),
);

/** Declared sheets, each after those it looks into. */
export const computingSheets: readonly SheetPlan[] = (() => {
  const order: SheetPlan[] = [];
  const visit = (plan: SheetPlan): void => {
    if (order.includes(plan)) return;
    for (const name of plan.looksInto) {
      const before = plans.get(name);
      if (before !== undefined && before !== plan) visit(before);
    }
    order.push(plan);
  };
  for (const plan of plans.values()) visit(plan);
  return order;
})();

const namedByName = new Map<string, NamedValue>(namedSheets.flatMap(({ values }) => values.map((value) => [value.name.toLowerCase(), value] as const)));
/** A declared named value; formulas write names in any case. */
export const namedValue = (name: string): NamedValue | undefined => namedByName.get(name.toLowerCase());

export const namedSheetOf = (sheet: string): NamedSheet | undefined => namedSheets.find(({ declaration }) => declaration.name === sheet);

/** A book without records: the declared sheets, named values as declared. */
export function emptyBook(units: UnitSystem): BookState {
  return {
    title: '',
    units,
    invented: false,
    sheets: [
      ...recordSheets.map(({ name }): SheetState => ({ name, userColumns: [], rows: [] })),
      ...namedSheets.map(({ declaration, values }): SheetState => ({
        name: declaration.name,
        userColumns: [],
        rows: values.map((value) => ({ cells: namedRow(value, units) })),
      })),
    ],
  };
}

/** One column of a sheet as the book has it: declared, or the user's own. */
export interface BookColumn {
  readonly header: string;
  readonly kind: QuantityKind;
  readonly doc: string;
  readonly declared?: Column;
  readonly computed: boolean;
  readonly own: boolean;
}

export function bookColumns(sheet: SheetState): BookColumn[] {
  const declared = plans.get(sheet.name)?.columns ?? [];
  return [
    ...declared.map((column) => ({ header: column.header, kind: column.kind, doc: column.doc, declared: column, computed: isComputed(column), own: false })),
    ...sheet.userColumns.map(({ header, kind }) => ({ header, kind, doc: 'your own column', computed: false, own: true })),
  ];
}

/** What a cell measures: a named value's cell by its name, any other by its column. */
export function cellKind(sheet: SheetState, record: number, column: number): QuantityKind {
  if (namedSheetOf(sheet.name) !== undefined && column === valueColumn) {
    return namedValue(String(sheet.rows[record]?.cells[0] ?? ''))?.kind ?? 'number';
  }
  const declared = plans.get(sheet.name)?.columns ?? [];
  return declared[column]?.kind ?? sheet.userColumns[column - declared.length]?.kind ?? 'text';
}

export const declarationOf = (sheet: string): SheetDeclaration | undefined => plans.get(sheet)?.declaration;
