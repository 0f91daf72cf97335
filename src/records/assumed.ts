import { issueAt } from './cell-issue.ts';
import { Refusal } from '../formula/define.ts';
import { valueColumn, valueIn } from '../sheet/named-values.ts';
import { declaredValue } from '../workbook/declared.ts';
import { cellName } from '../formula/address.ts';
import { namedSheets, type ValueName } from '../../sheets/index.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** The cell of a named value, in whichever sheet it stands; undefined where the book, being older, has no row of it. */
function placeOf(book: Workbook, name: ValueName): CellPlace | undefined {
  for (const { declaration } of namedSheets) {
    const record = book.sheet(declaration.name).rows.findIndex(({ cells }) => cells[0] === name);
    if (record >= 0) return { sheet: declaration.name, record, column: valueColumn };
  }
  return undefined;
}

/** A named word; as it is declared where the book has no row of it, or one that cannot be used. */
export function assumedText(book: Workbook, name: ValueName): string {
  const place = placeOf(book, name);
  const value = place === undefined || issueAt(book, place) !== undefined ? null : book.value(place);
  return typeof value === 'string' && value.trim() !== ''
    ? value.trim()
    : String(valueIn(declaredValue(name), book.units));
}

/**
 * A named value that planning needs; as it is declared where the book, being older, has no row of it. Throws a Refusal
 * that names the cell when it is no number or not one allowed.
 */
export function assumed(book: Workbook, name: ValueName): number {
  const place = placeOf(book, name);
  if (place !== undefined) {
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
