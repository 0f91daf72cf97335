import type { GuardScope } from '../formula/guard-uses.ts';
import type { RowFormula } from '../formula/kernel.ts';
import { declarations, namedSheets, recordSheets, type SheetName } from '../../sheets/index.ts';
import { type Column, isComputed, type NamedValue, type SheetDeclaration } from '../sheet/declaration.ts';
import { isCalled } from '../sheet/header.ts';
import { lookedInto } from '../sheet/declared-formula.ts';
import { type NamedSheet, namedRow, valueColumn } from '../sheet/named-values.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { standardStepRows, steps } from '../../sheets/work/steps.ts';
import { unitDimensions } from '../../sheets/values/units.ts';
import { functions } from '../functions/index.ts';
import type { BookState, NumberLook, SheetState, UserColumn } from './state.ts';
import { compileBook, compileFormula, type ComputingStep } from './compiled-book.ts';
import type { CompiledSheet } from './compiled-sheet.ts';
import { namedUnitKind } from './named-units.ts';

/** What the program's declared sheets are, made ready once: plans, computing order, named values by name. */

const book = compileBook({
  sheets: declarations,
  named: namedSheets.flatMap(({ values }) => values),
  dimensions: unitDimensions,
  functions,
});

export const compiledSheets: ReadonlyMap<string, CompiledSheet> = book.sheets;

/**
 * The position of a declared sheet's column. Throws a programmer's error for a header that the sheet does not declare:
 * a place that is passed on as none would read as an empty cell, which is what a belt's unknown figure looks like too.
 */
export function headerPosition(sheet: string, header: string): number {
  const column = compiledSheets.get(sheet)?.position.get(header);
  if (column === undefined) throw new Error(`the sheet ${sheet} has no column ${header}`);
  return column;
}

/** A formula over a sheet's columns that stands in none of them, compiled as the sheet's own are. */
export const rowFormula = (sheet: SheetName, formula: string): RowFormula => compileFormula(book, sheet, { formula });

/** What guards in a sheet's formulas need to know of their cells. */
export const guardScope = (sheet: string): GuardScope => book.names.guardScope(sheet);

/** All computed columns of all declared sheets, each after those that it uses, whichever sheet they stand in. */
export const computingSteps: readonly ComputingStep[] = book.steps;

/** Steps of one sheet that can be taken record by record, all of them in one record before the next. */
interface ComputingRun {
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
  /** How its numbers are shown. */
  readonly look: NumberLook;
  /** The unit that the user gave it, where its kind has none. */
  readonly unit?: string;
  /** The formula that the user gave the whole column, as the first record has it. */
  readonly formula?: string;
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
      look: column,
      computed: isComputed(column),
      own: false,
    })),
  ]),
);

const ownColumn = ({ header, kind, doc = 'your own column', unit, formula, ...look }: UserColumn): BookColumn => ({
  header,
  kind,
  doc,
  look,
  ...(unit === undefined ? {} : { unit }),
  ...(formula === undefined ? {} : { formula }),
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

/**
 * The position of a column by its header in any case, as US books spell it, or as earlier versions called it; undefined
 * when the sheet has none.
 */
export function columnNamed(sheet: SheetState, header: string): number | undefined {
  const declared = compiledSheets.get(sheet.name)?.position.get(header);
  if (declared !== undefined) return declared;
  const wanted = header.toLowerCase();
  const columns = bookColumns(sheet);
  const own = columns.findIndex((column) => column.header.toLowerCase() === wanted);
  const found =
    own >= 0 ? own : columns.findIndex(({ declared: item }) => item !== undefined && isCalled(item, header));
  return found < 0 ? undefined : found;
}

/** What a cell measures: a named value's cell by its name, any other by its column. */
export function cellKind(sheet: SheetState, record: number, column: number): QuantityKind {
  if (namedSheetOf(sheet.name) !== undefined && column === valueColumn) {
    const { cells = [] } = sheet.rows[record] ?? {};
    return namedValue(String(cells[0] ?? ''))?.kind ?? namedUnitKind(String(cells[valueColumn + 1] ?? ''));
  }
  const declared = compiledSheets.get(sheet.name)?.columns ?? [];
  return (
    declared[column]?.kind ??
    sheet.rows[record]?.formats?.[column]?.kind ??
    sheet.userColumns[column - declared.length]?.kind ??
    'text'
  );
}

/** How a cell shows its numbers. */
export const cellLook = (sheet: SheetState, record: number, { look, own }: BookColumn, column: number): NumberLook =>
  (own ? sheet.rows[record]?.formats?.[column] : undefined) ?? look;

export const declarationOf = (sheet: string): SheetDeclaration | undefined => compiledSheets.get(sheet)?.declaration;
