import { declarationOf, headerPosition } from '../workbook/declared.ts';
import { type Content, isFault, type Value } from '../formula/values.ts';
import { capital } from '../units/phrases.ts';
import type { CellPlace } from '../workbook/place.ts';
import { cellInSheet, rowInSheet } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { unitOf } from '../units/quantities.ts';
import { issueAt, mustHold } from './cell-issue.ts';
import type { Finding } from './finding.ts';

/** What stands in cells and should not, all over the book. */

/** Whether a record holds nothing at all: an empty line, which is no belt. */
export const isEmptyRecord = (cells: readonly Content[]): boolean =>
  cells.every((content) => content === null || content === '');

/** What the cell that names a record holds; nothing in a free sheet, whose records have no names. */
export function keyValue(book: Workbook, { sheet, record }: Pick<CellPlace, 'sheet' | 'record'>): Value {
  const declaration = declarationOf(sheet);
  return declaration === undefined
    ? null
    : book.value({ sheet, record, column: headerPosition(sheet, declaration.key) });
}

/** A record's name, or which row it is. */
export function recordName(book: Workbook, sheet: string, record: number): string {
  const value = keyValue(book, { sheet, record });
  return value === null || value === '' || isFault(value)
    ? `row ${rowInSheet(book.sheet(sheet), record)}`
    : String(value);
}

function issueFinding(book: Workbook, place: CellPlace): Finding | undefined {
  const issue = issueAt(book, place);
  if (issue === undefined) return undefined;
  const { sheet, record, column } = place;
  const header = book.columnAt(place)?.header ?? '';
  const value = book.value(place);
  const kind = book.kind(place);
  return {
    sheet,
    record,
    name: recordName(book, sheet, record),
    check: 'input',
    verdict: 'not known',
    column: header,
    cell: cellInSheet(book.sheet(sheet), record, column),
    message:
      `${capital(issue.wrong)} (sheet ${sheet}, row ${rowInSheet(book.sheet(sheet), record)}, column ` + `${header}).`,
    given: {
      label: header,
      value: isFault(value) ? value.code : typeof value === 'boolean' ? String(value).toUpperCase() : value,
      kind,
      unit: unitOf(kind, book.units),
    },
    limit: null,
    cures: [`${capital(issue.remedy)}.`],
  };
}

/** A record's cells that hold what they should not. */
export function recordInputIssues(book: Workbook, sheet: string, record: number): Finding[] {
  const cells = book.sheet(sheet).rows[record]?.cells ?? [];
  if (isEmptyRecord(cells)) return [];
  return cells.flatMap((content, column) =>
    content === null && !mustHold(sheet, column) ? [] : (issueFinding(book, { sheet, record, column }) ?? []),
  );
}

/** Every input of a sheet that is not what it should be; a free sheet has none. */
export const sheetInputIssues = (book: Workbook, sheet: string): Finding[] =>
  declarationOf(sheet) === undefined
    ? []
    : book.sheet(sheet).rows.flatMap((_, record) => recordInputIssues(book, sheet, record));
