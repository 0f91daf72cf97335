import type { ValueName } from '../../sheets/index.ts';
import type { Habit } from '../records/loose-entry.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { namesSheet } from '../workbook/own-names.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** The book's own settings of how typed numbers and dates are read: values of the sheet Assumptions. */

const habitName: Readonly<Record<Habit, ValueName>> = { decimal: 'DecimalMark', dates: 'DateOrder' };

/** The edit that settles a habit. */
export function habitEdit(book: Workbook, habit: Habit, word: string): CellEdit {
  const record = book.sheet(namesSheet).rows.findIndex(({ cells }) => cells[0] === habitName[habit]);
  return { sheet: namesSheet, record, column: valueColumn, content: word };
}
