import { type Content, isFormula } from '../formula/values.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { nodesOf, parsed } from '../formula/syntax.ts';
import { converted, convertible, type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';
import { formulaBelow } from './column-formulas.ts';
import { type BookColumn, bookColumns, cellKind, namedSheetOf } from './declared.ts';
import { namedRow, valueColumn } from '../sheet/named-values.ts';
import { cellName } from '../formula/address.ts';
import type { BookRow, BookState, SheetState } from './state.ts';
import { withoutGuards } from './typed-over.ts';

/** Something that converting a book could not do by itself, for the user to look at. */
export interface UnitReview {
  readonly place: string;
  readonly column: string;
  readonly content: string;
  readonly why: string;
}

const literals = (formula: string): string[] => {
  try {
    return nodesOf(parsed(formula)).flatMap((node) => (node.type === 'number' ? [node.text] : []));
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return [];
    throw error;
  }
};

/** Digits that people type at most: a double holds that many of any number (IEEE 754). */
const typedDigits = 15;

/**
 * A number in the other system's unit, such that it comes back as it was: 3.8 mm would be 3.8000000000000003 mm after
 * inches. Where fewer digits stand for the same, they are taken. Numbers of more digits than people type may come back
 * with their last one otherwise, once.
 */
function turned(value: number, kind: QuantityKind, from: UnitSystem, to: UnitSystem): number {
  const exact = converted(value, kind, from, to);
  const short = Number(exact.toPrecision(typedDigits));
  return converted(short, kind, to, from) === value ? short : exact;
}

/** Whether nothing is known of what a number in a column of the user's measures. */
function unmeasured(sheet: SheetState, columns: number, row: BookRow, column: number): boolean {
  const own = sheet.userColumns[column - columns + sheet.userColumns.length];
  if (own === undefined || row.formats?.[column] !== undefined) return false;
  return own.unit === undefined && own.percent !== true && (own.kind === 'text' || own.kind === 'number');
}

/**
 * The book in the other unit system: every number of a kind that has two units, converted; formulas untouched.
 *
 * The sheets' own formulas need nothing, since they mix kinds only by named values. Users' formulas that hold numbers,
 * and numbers in their own columns, whose unit the book does not know, are listed for review.
 */
export function convertedBook(
  state: BookState,
  units: UnitSystem,
): { readonly state: BookState; readonly review: UnitReview[] } {
  if (state.units === units) return { state, review: [] };
  const review: UnitReview[] = [];
  const from = state.units;
  /** What is told once for all cells of a column. */
  const told = new Set<string>();
  const isFirst = (key: string): boolean => !told.has(key) && told.add(key).has(key);

  const convertedRow = (sheet: SheetState, columns: readonly BookColumn[], row: BookRow, record: number): BookRow => {
    const cells = row.cells.map((content, column): Content => {
      const header = columns[column]?.header ?? '';
      const remark = (why: string): Content => {
        review.push({ place: cellName(sheet.name, record, column), column: header, content: String(content), why });
        return content;
      };
      if (isFormula(content)) {
        const own = sheet.userColumns[column - columns.length + sheet.userColumns.length]?.formula;
        const ruled = own !== undefined && content === formulaBelow(own, record);
        if (ruled && !isFirst(`formula of ${sheet.name}.${column}`)) return content;
        const numbers = literals(withoutGuards(content, { sheet: sheet.name, record, column }, state));
        return numbers.length === 0
          ? content
          : remark(`the formula contains ${numbers.join(', ')}: convert each number that is a measure`);
      }
      if (typeof content !== 'number') return content;
      const kind = cellKind(sheet, record, column);
      if (convertible(kind)) return turned(content, kind, from, units);
      if (unmeasured(sheet, columns.length, row, column) && isFirst(`${sheet.name}.${column}`))
        remark('numbers in your own column were not converted: their unit is unknown');
      return content;
    });
    return { ...row, cells };
  };

  const sheets = state.sheets.map((sheet): SheetState => {
    const named = namedSheetOf(sheet.name);
    const columns = bookColumns(sheet);
    const rows = sheet.rows.map((row, record) => {
      const next = convertedRow(sheet, columns, row, record);
      const declared = named?.values.find(({ name }) => name === row.cells[0]);
      if (named === undefined) return next;
      if (declared === undefined) {
        const unit = unitOf(cellKind(sheet, record, valueColumn), units);
        return unit === '' ? next : { ...next, cells: next.cells.with(valueColumn + 1, unit) };
      }
      const fresh = namedRow(declared, units);
      const value = named.editable ? next.cells[valueColumn] : fresh[valueColumn];
      return {
        ...next,
        cells: next.cells.with(valueColumn, value ?? null).with(valueColumn + 1, fresh[valueColumn + 1] ?? null),
      };
    });
    return { ...sheet, rows };
  });
  return { state: { ...state, units, sheets }, review };
}
