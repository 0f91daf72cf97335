import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { UsageError } from './usage-error.ts';

/** A declared column of Belts by its header, as people type it. Throws UsageError when there is none. */
export function beltHeader(book: Workbook, typed: string): BeltHeader {
  const column = book.findColumn(belts.name, typed);
  const header = column === undefined ? undefined : belts.columns[column]?.header;
  if (header === undefined)
    throw new UsageError(
      `There is no column "${typed}"; the columns are ${belts.columns.map((item) => item.header).join(', ')}.`,
    );
  return header;
}
