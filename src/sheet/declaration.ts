import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { declaredFormula, type FormulaDeclaration, precedents } from './declared-formula.ts';

/**
 * What a sheet is: one object from which engine rows, grid columns, unit labels, .xlsx headers, number formats,
 * validations and formulas, import matching and the reference are made.
 */
export interface Column<Header extends string = string> extends FormulaDeclaration {
  /** Unique in its sheet; other tools may rely on it. The unit follows in brackets where there is one. */
  readonly header: Header;
  /** What it was called in earlier versions: their files, stored books and users still say so. */
  readonly formerly?: string;
  readonly kind: QuantityKind;
  readonly doc: string;
  /** Allowed numbers of an input, in the unit of the metric system for kinds that convert only when 0. */
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  /** Words allowed, or the column whose words are. */
  readonly choices?: readonly string[] | { readonly sheet: string; readonly header: string };
  /** What words in its cells were in earlier versions, by that word: what they are now. */
  readonly formerWords?: Readonly<Record<string, string>>;
  /** Several of the choices may stand in one cell, with commas between. */
  readonly several?: true;
  /** Digits after the decimal point that the grid and number formats show, by system where they differ. */
  readonly digits?: number | Readonly<Record<UnitSystem, number>>;
  /** Other headers that a list may use for it; matching ignores case, order and punctuation. */
  readonly alsoCalled?: readonly string[];
  /** A date with the time of day. */
  readonly timed?: true;
  /** Shown as per cent. */
  readonly percent?: true;
  /** Stands in the book for other columns' use; the grid hides it at first. */
  readonly background?: true;
  /** Where an input's uncertain figure or a computed column's rule comes from, when a function does not say it. */
  readonly source?: string;
}

/**
 * A list of columns whose headers the compiler knows: a union that a sheet's readers take, so that no other compiles.
 * Only headers are inferred; whole columns with their formulas as types would make every check of types slow.
 */
export const columns = <const Header extends string>(list: readonly Column<Header>[]): readonly Column<Header>[] =>
  list;

/** The headers of a sheet's declaration. */
export type HeaderIn<Sheet extends SheetDeclaration> = Sheet['columns'][number]['header'];

export interface SheetDeclaration<Name extends string = string, Header extends string = string> {
  readonly name: Name;
  readonly purpose: string;
  /** What one row is, for messages: 'belt'. */
  readonly record: string;
  /** The column that names a record; names are unique. */
  readonly key: NoInfer<Header>;
  /**
   * For records that are parts of another sheet's: that sheet, and the own column that names the record they belong to.
   * Formulas of the two look into each other by that name only, and the key need not be unique but within one whole.
   */
  readonly partOf?: { readonly sheet: string; readonly header: NoInfer<Header> };
  readonly columns: readonly Column<Header>[];
}

/** A named value of the Assumptions or Units sheet. */
export interface NamedValue<Name extends string = string> {
  /** How formulas call it. */
  readonly name: Name;
  /** How they called it in earlier versions. */
  readonly formerly?: string;
  readonly kind: QuantityKind;
  readonly value: number | string | Readonly<Record<UnitSystem, number>>;
  readonly doc: string;
  /** Standard, 'common practice, no source', 'from memory', 'invented for the demo', 'chosen'. */
  readonly source: string;
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly choices?: readonly string[];
}

/** A list of named values whose names the compiler knows. */
export const namedValues = <const Name extends string>(
  list: readonly NamedValue<Name>[],
): readonly NamedValue<Name>[] => list;

/** The names in a list of named values. */
export type NameIn<Values extends readonly NamedValue[]> = Values[number]['name'];

export const isComputed = (column: Column): column is Column & { readonly formula: string } =>
  column.formula !== undefined;

/** A sheet's declaration, checked: unique headers, formulas that read, no circle. Throws a programmer's error. */
export function declareSheet<Name extends string, const Header extends string>(
  sheet: SheetDeclaration<Name, Header>,
): SheetDeclaration<Name, Header> {
  const headers = new Set<string>();
  for (const { header } of sheet.columns) {
    if (headers.has(header.toLowerCase())) throw new Error(`${sheet.name}: the header ${header} is declared twice`);
    if (/[{}.()[\]!]/.test(header))
      throw new Error(`${sheet.name}: the header ${header} holds a character that formulas or units need`);
    headers.add(header.toLowerCase());
  }
  for (const column of sheet.columns) {
    try {
      declaredFormula(column);
    } catch (error) {
      throw new Error(`${sheet.name}, ${column.header}: ${error instanceof Error ? error.message : String(error)}`, {
        cause: error,
      });
    }
  }
  if (!headers.has(sheet.key.toLowerCase())) throw new Error(`${sheet.name}: the key ${sheet.key} is no column`);
  computingOrder(sheet);
  return sheet;
}

/**
 * Computed columns' positions, each after those it uses. A header that is no column is found when the sheet is
 * compiled, with the argument in which it stands.
 */
export function computingOrder(sheet: SheetDeclaration): number[] {
  const position = new Map(sheet.columns.map((column, index) => [column.header, index]));
  const order: number[] = [];
  const done = new Set<number>();
  const visit = (index: number, way: readonly string[]): void => {
    const column = sheet.columns[index];
    if (column === undefined || !isComputed(column) || done.has(index)) return;
    const { header } = column;
    if (way.includes(header))
      throw new Error(circle(`${sheet.name}, ${header}`, [...way.slice(way.indexOf(header) + 1), header]));
    for (const before of precedents(column)) visit(position.get(before) ?? -1, [...way, header]);
    done.add(index);
    order.push(index);
  };
  sheet.columns.forEach((_, index) => visit(index, []));
  return order;
}

/** A circle of columns in words: what each uses, up to the column itself. */
export const circle = (column: string, way: readonly string[]): string =>
  `${column}: the formula depends on its own result, by way of ${way.join(', then ')}`;
