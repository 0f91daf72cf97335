import { issueAt } from './cell-issue.ts';
import { Refusal } from '../formula/define.ts';
import { valueColumn, valueIn } from '../sheet/named-values.ts';
import { declaredValue } from '../workbook/declared.ts';
import { cellName } from '../formula/address.ts';
import { namedSheets, type ValueName } from '../../sheets/index.ts';
import type { Workbook } from '../workbook/workbook.ts';

/**
 * A named value that planning needs; as it is declared where the book, being older, has no row of it. Throws a Refusal
 * that names the cell when it is no number or not one allowed.
 */
export function assumed(book: Workbook, name: ValueName): number {
  for (const { declaration } of namedSheets) {
    const record = book.sheet(declaration.name).rows.findIndex(({ cells }) => cells[0] === name);
    if (record < 0) continue;
    const place = { sheet: declaration.name, record, column: valueColumn };
    const issue = issueAt(book, place);
    const value = book.value(place);
    if (issue === undefined && typeof value === 'number') return value;
    throw new Refusal(
      name,
      `must be a number; ${cellName(place.sheet, place.record, place.column)}: ` +
        `${issue === undefined ? 'it is not a number' : `${issue.wrong}: ${issue.remedy}`}`,
    );
  }
  const value = valueIn(declaredValue(name), book.units);
  if (typeof value !== 'number') throw new Error(`there is no named number ${name}`);
  return value;
}
