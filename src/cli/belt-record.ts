import { belts } from '../../sheets/belts/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { UsageError } from './usage-error.ts';

/** The record of a belt of a list by its name, in any case. Throws UsageError when the list has none. */
export function beltRecord(book: Workbook, file: string, name: string): number {
  const key = book.column(belts.name, belts.key);
  const record = book
    .sheet(belts.name)
    .rows.findIndex((row) => String(row.cells[key] ?? '').toLowerCase() === name.toLowerCase());
  if (record < 0) throw new UsageError(`${file} has no belt "${name}".`);
  return record;
}
