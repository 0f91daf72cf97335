import { headerWithUnit, shownHeader } from '../sheet/header.ts';
import { type BookLook, layoutIn, noLook, readBookLook } from '../workbook/book-look.ts';
import { firstLayout, shownColumns } from '../workbook/column-layout.ts';
import { type BookColumn, bookColumns, cellKind, compiledSheets } from '../workbook/declared.ts';
import type { BookState, SheetState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { sheetRow } from '../formula/address.ts';
import { isFormula } from '../formula/values.ts';
import { cellText, contentText } from './cell-text.ts';
import type { FirstLook } from './first-look.ts';

/** The first rows of a book as texts, from what is worked out or from what was entered. */

/** More than a screen shows. */
const [mostRows, mostColumns] = [60, 40];

/** The first of the columns on show. */
const columnsAtFirst = (
  sheet: string,
  look: BookLook,
  columns: readonly BookColumn[],
): { readonly position: number; readonly column: BookColumn }[] =>
  shownColumns(sheet, layoutIn(look, sheet) ?? firstLayout(sheet), columns, compiledSheets.get(sheet)?.declaration.key)
    .slice(0, mostColumns)
    .flatMap((position) => {
      const column = columns[position];
      return column === undefined ? [] : [{ position, column }];
    });

/** The first sheet's records, in the order in which they are seen. */
export function firstLookAt(book: Workbook, records: readonly number[]): FirstLook | undefined {
  const [first] = book.state.sheets;
  if (first === undefined) return undefined;
  const sheet = first.name;
  const columns = columnsAtFirst(sheet, book.look, book.columns(sheet));
  return {
    sheet,
    headers: columns.map(({ column }) =>
      headerWithUnit(shownHeader(column, book.units), column.kind, book.units, column.unit),
    ),
    rows: records
      .slice(0, mostRows)
      .map((record) => ({
        row: sheetRow(record),
        cells: columns.map(({ position, column }) => cellText(book, column, { sheet, record, column: position })),
      })),
  };
}

/** What stands for a value that is not worked out yet. */
const unknown = '…';

/** The first rows of a book of which no look was kept, as they were entered. */
export function enteredLook(sheet: SheetState, { units, look }: Pick<BookState, 'units' | 'look'>): FirstLook {
  const columns = bookColumns(sheet);
  const shown = columnsAtFirst(sheet.name, readBookLook(look) ?? noLook, columns);
  return {
    sheet: sheet.name,
    headers: shown.map(({ column }) => headerWithUnit(shownHeader(column, units), column.kind, units, column.unit)),
    rows: sheet.rows.slice(0, mostRows).map(({ cells }, record) => ({
      row: sheetRow(record),
      cells: shown.map(({ position, column }) => {
        const content = cells[position] ?? null;
        return isFormula(content) || (content === null && column.computed)
          ? unknown
          : contentText(content, cellKind(sheet, record, position));
      }),
    })),
  };
}
