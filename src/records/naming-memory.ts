import { type Content, isFormula } from '../formula/values.ts';
import { namingColumns } from '../workbook/record-names.ts';
import { differingRecords } from '../workbook/row-lists.ts';
import type { BookRow } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';

interface Remembered<Found> {
  readonly rows: readonly BookRow[];
  readonly found: Found;
}

/**
 * What follows from a sheet's names alone, remembered as long as no name changes.
 *
 * It is asked of every cell that is shown, and finding it goes through all records. Names that formulas make may be
 * others without any content changing: with one of them nothing is remembered.
 */
export class NamingMemory<Found> {
  readonly #find: (book: Workbook, sheet: string, column: number) => Found;
  readonly #remembered = new WeakMap<Workbook, Map<string, Remembered<Found>>>();

  constructor(find: (book: Workbook, sheet: string, column: number) => Found) {
    this.#find = find;
  }

  of(book: Workbook, sheet: string, column: number): Found {
    const { rows } = book.sheet(sheet);
    const known = this.#remembered.get(book) ?? new Map<string, Remembered<Found>>();
    this.#remembered.set(book, known);
    const key = `${column} ${sheet}`;
    const before = known.get(key);
    if (before?.rows === rows) return before.found;
    const columns = [column, ...namingColumns(sheet)];
    const found = before !== undefined && namedAlike(before.rows, rows, columns) ? before.found : undefined;
    const now = found ?? this.#find(book, sheet, column);
    const made = found === undefined && rows.some(({ cells }) => columns.some((at) => isFormula(cells[at] ?? null)));
    if (made) known.delete(key);
    else known.set(key, { rows, found: now });
    return now;
  }
}

/** Whether records have the names that they had; rows that no change touched are the same in both. */
function namedAlike(before: readonly BookRow[], now: readonly BookRow[], columns: readonly number[]): boolean {
  if (before.length !== now.length) return false;
  const name = (row: BookRow | undefined, column: number): Content => row?.cells[column] ?? null;
  return differingRecords(before, now).every((record) =>
    columns.every((column) => name(before[record], column) === name(now[record], column)),
  );
}
