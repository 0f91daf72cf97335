import type { EngineeringFunction } from '../formula/define.ts';
import type { RowFormula } from '../formula/kernel.ts';
import {
  type Column,
  isComputed,
  lookedInto,
  type NamedValue,
  precedents,
  type SheetDeclaration,
} from '../sheet/declaration.ts';
import { type NamedSheet, namedRow, valueColumn } from '../sheet/named-values.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { declarations, namedSheets, recordSheets } from '../../sheets/index.ts';
import { standardStepRows, steps } from '../../sheets/work/steps.ts';
import { functions } from '../functions/index.ts';
import type { BookState, SheetState, UserColumn } from './state.ts';
import { type CompiledSheet, compileSheet } from './compiled-sheet.ts';

/** What the program's declared sheets are, made ready once: plans, computing order, named values by name. */

const engineering: readonly EngineeringFunction[] = functions;

export const compiledSheets: ReadonlyMap<string, CompiledSheet> = new Map(
  declarations.map((declaration) => [declaration.name, compileSheet(declaration, declarations, engineering)]),
);

/**
 * The position of a declared sheet's column. Throws a programmer's error for a header that the sheet does not declare:
 * a place that is passed on as none would read as an empty cell, which is what a belt's unknown figure looks like too.
 */
export function headerPosition(sheet: string, header: string): number {
  const column = compiledSheets.get(sheet)?.position.get(header);
  if (column === undefined) throw new Error(`the sheet ${sheet} has no column ${header}`);
  return column;
}

/** One computed column to work out. */
export interface ComputingStep {
  readonly plan: CompiledSheet;
  readonly column: number;
  readonly formula: RowFormula;
}

/** All computed columns of all declared sheets, each after those that it uses, whichever sheet they stand in. */
export const computingSteps: readonly ComputingStep[] = (() => {
  const formulas = new Map(
    [...compiledSheets.values()].map((plan) => [
      plan,
      new Map(plan.steps.map(({ column, formula }) => [column, formula])),
    ]),
  );
  const order: ComputingStep[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const visit = (plan: CompiledSheet | undefined, column: number | undefined): void => {
    const declared = plan?.columns[column ?? -1];
    if (plan === undefined || column === undefined || declared === undefined || !isComputed(declared)) return;
    const mark = `${plan.declaration.name}.${declared.header}`;
    if (state.get(mark) === 'done') return;
    if (state.get(mark) === 'open') throw new Error(`${mark} depends on itself`);
    state.set(mark, 'open');
    for (const header of precedents(declared)) visit(plan, plan.position.get(header));
    for (const { sheet, header } of lookedInto(declared))
      visit(compiledSheets.get(sheet), compiledSheets.get(sheet)?.position.get(header));
    state.set(mark, 'done');
    const formula = formulas.get(plan)?.get(column);
    if (formula !== undefined) order.push({ plan, column, formula });
  };
  for (const plan of compiledSheets.values()) plan.columns.forEach((_, column) => visit(plan, column));
  return order;
})();

/** Steps of one sheet that can be taken record by record, all of them in one record before the next. */
export interface ComputingRun {
  readonly sheet: string;
  readonly steps: readonly ComputingStep[];
}

/** The computing steps in the same order, cut where a step looks into a whole column that its own run computes. */
export const computingRuns: readonly ComputingRun[] = (() => {
  const runs: { readonly sheet: string; readonly headers: Set<string>; readonly steps: ComputingStep[] }[] = [];
  for (const step of computingSteps) {
    const { name: sheet } = step.plan.declaration;
    const declared = step.plan.columns[step.column];
    if (declared === undefined) throw new Error(`the sheet ${sheet} has no column ${step.column}`);
    const last = runs.at(-1);
    const goesOn =
      last?.sheet === sheet &&
      !lookedInto(declared).some((looked) => looked.sheet === sheet && last.headers.has(looked.header));
    const run = goesOn && last !== undefined ? last : { sheet, headers: new Set<string>(), steps: [] };
    if (run !== last) runs.push(run);
    run.headers.add(declared.header);
    run.steps.push(step);
  }
  return runs;
})();

const namedByName = new Map<string, NamedValue>(
  namedSheets.flatMap(({ values }) => values.map((value) => [value.name.toLowerCase(), value] as const)),
);
/** A declared named value; formulas write names in any case. */
export const namedValue = (name: string): NamedValue | undefined => namedByName.get(name.toLowerCase());

/** A declared named value. Throws a programmer's error when there is none. */
export function declaredValue(name: string): NamedValue {
  const declared = namedValue(name);
  if (declared === undefined) throw new Error(`there is no named value ${name}`);
  return declared;
}

export const namedSheetOf = (sheet: string): NamedSheet | undefined =>
  namedSheets.find(({ declaration }) => declaration.name === sheet);

/** A book without records: the declared sheets, the standard steps of the work, named values as declared. */
export function emptyBook(units: UnitSystem): BookState {
  return {
    title: '',
    units,
    invented: false,
    sheets: [
      ...recordSheets.map(({ name }): SheetState => ({
        name,
        userColumns: [],
        rows: name === steps.name ? standardStepRows.map((cells) => ({ cells })) : [],
      })),
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

const declaredColumns: ReadonlyMap<string, readonly BookColumn[]> = new Map(
  [...compiledSheets].map(([sheet, { columns }]) => [
    sheet,
    columns.map((column) => ({
      header: column.header,
      kind: column.kind,
      doc: column.doc,
      declared: column,
      computed: isComputed(column),
      own: false,
    })),
  ]),
);

const ownColumn = ({ header, kind }: UserColumn): BookColumn => ({
  header,
  kind,
  doc: 'your own column',
  computed: false,
  own: true,
});

export const bookColumns = ({ name, userColumns }: SheetState): BookColumn[] => [
  ...(declaredColumns.get(name) ?? []),
  ...userColumns.map(ownColumn),
];

/** One column alone: a sheet may have a hundred and more. */
export function bookColumn({ name, userColumns }: SheetState, column: number): BookColumn | undefined {
  const declared = declaredColumns.get(name) ?? [];
  const own = userColumns[column - declared.length];
  return declared[column] ?? (own === undefined ? undefined : ownColumn(own));
}

/** The position of a column by its header, a user's own in any case; undefined when the sheet has none. */
export function columnNamed(sheet: SheetState, header: string): number | undefined {
  const declared = compiledSheets.get(sheet.name)?.position.get(header);
  if (declared !== undefined) return declared;
  const found = bookColumns(sheet).findIndex((column) => column.header.toLowerCase() === header.toLowerCase());
  return found < 0 ? undefined : found;
}

/** What a cell measures: a named value's cell by its name, any other by its column. */
export function cellKind(sheet: SheetState, record: number, column: number): QuantityKind {
  if (namedSheetOf(sheet.name) !== undefined && column === valueColumn) {
    return namedValue(String(sheet.rows[record]?.cells[0] ?? ''))?.kind ?? 'number';
  }
  const declared = compiledSheets.get(sheet.name)?.columns ?? [];
  return declared[column]?.kind ?? sheet.userColumns[column - declared.length]?.kind ?? 'text';
}

export const declarationOf = (sheet: string): SheetDeclaration | undefined => compiledSheets.get(sheet)?.declaration;
