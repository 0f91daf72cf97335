import type { Node } from '../../formula/syntax.ts';
import { isFormula } from '../../formula/values.ts';
import { valueColumn, valueIn } from '../../sheet/named-values.ts';
import { compiledSheets, namedSheetOf, namedValue } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { readsAsPattern } from '../search-patterns.ts';

/** What a book holds that a formula of the file may not take for granted. */
export interface HeldOtherwise {
  /** Computed columns in which numbers stand in place of the formula, by sheet and header. */
  readonly overridden: (sheet: string, header: string) => boolean;
  /** Computed columns in which something else does. */
  readonly mixed: (sheet: string, header: string) => boolean;
  /** Whether a text stands in a column that other programs take for a pattern when they look for it. */
  readonly hasPattern: (sheet: string, header: string) => boolean;
  /** Whether the file has a table, or a list of one, by a name. */
  readonly hasList: (name: string) => boolean;
  /**
   * The only number of a value that the unit system sets, as both bounds; undefined for others, and where it was
   * changed.
   */
  readonly constant: (name: string) => { readonly min: number; readonly max: number } | undefined;
  /** The cell that holds a named value's number or an error, where its name stands for something else. */
  readonly checkedName: (name: string) => Node | undefined;
}

/** Columns, "Belts.Width", in which something else stands than formulas count on. Threads are handed it as it is. */
export interface HeldColumns {
  /** Computed columns in which numbers stand in place of their formula. */
  readonly overridden: ReadonlySet<string>;
  /** Computed columns in which something else does. */
  readonly mixed: ReadonlySet<string>;
  /** Columns with a text that other programs take for a pattern. */
  readonly patterned: ReadonlySet<string>;
}

/** What a book holds in place of its sheets' formulas, and texts that read as patterns. */
export function heldColumns(book: Workbook): HeldColumns {
  const [overridden, mixed, patterned] = [new Set<string>(), new Set<string>(), new Set<string>()];
  for (const { name: sheet, rows } of book.state.sheets) {
    const plan = compiledSheets.get(sheet);
    for (const [column, { header }] of (plan?.columns ?? []).entries()) {
      const key = `${sheet}.${header}`;
      const isComputed = plan?.trees.has(column) === true;
      for (const [record, { cells }] of rows.entries()) {
        const content = cells[column] ?? null;
        if (content === null) continue;
        const value = isFormula(content) ? book.value({ sheet, record, column }) : content;
        if (readsAsPattern(value)) patterned.add(key);
        if (!isComputed) continue;
        overridden.add(key);
        if (typeof content !== 'number' || !Number.isFinite(content)) mixed.add(key);
      }
    }
  }
  return { overridden, mixed, patterned };
}

/** The values that the unit system sets, where the book holds them as they are. */
function constantsOf(book: Workbook): ReadonlyMap<string, { readonly min: number; readonly max: number }> {
  const found = new Map<string, { readonly min: number; readonly max: number }>();
  for (const { name: sheet, rows } of book.state.sheets) {
    if (namedSheetOf(sheet)?.editable !== false) continue;
    for (const { cells } of rows) {
      const [name, value] = [cells[0], cells[valueColumn]];
      const declared = typeof name === 'string' ? namedValue(name) : undefined;
      if (typeof name !== 'string' || typeof value !== 'number' || declared === undefined) continue;
      if (valueIn(declared, book.units) === value) found.set(name, { min: value, max: value });
    }
  }
  return found;
}

/** What a book holds in place of its sheets' formulas, and of named values that nothing may be computed with. */
export function heldOtherwise(
  book: Workbook,
  { overridden, mixed, patterned }: HeldColumns,
  names: Pick<HeldOtherwise, 'checkedName' | 'hasList'>,
): HeldOtherwise {
  const constants = constantsOf(book);
  const among =
    (held: ReadonlySet<string>) =>
    (sheet: string, header: string): boolean =>
      held.has(`${sheet}.${header}`);
  return {
    constant: (name) => constants.get(name),
    hasPattern: among(patterned),
    overridden: among(overridden),
    mixed: among(mixed),
    ...names,
  };
}
