import { headerWithUnit, shownHeader } from '../sheet/header.ts';
import { noLook, readBookLook } from '../workbook/book-look.ts';
import { firstLayout, shownColumns } from '../workbook/column-layout.ts';
import { layoutIn } from '../workbook/book-look.ts';
import { bookColumns, cellKind, compiledSheets } from '../workbook/declared.ts';
import type { BookState, SheetState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { sheetRow } from '../formula/address.ts';
import { isFormula } from '../formula/values.ts';
import { cellText, contentText } from './cell-text.ts';
import { columnsOnShow } from './column-view.ts';
import type { FirstLook } from './first-look.ts';

/** The first rows of a book as texts, from what is worked out or from what was entered. */

/** More than a screen shows. */
const [mostRows, mostColumns] = [60, 40];

const keyOf = (sheet: string): string | undefined => compiledSheets.get(sheet)?.declaration.key;

/** The first sheet's records, in the order in which they are seen. */
export function firstLookAt(book: Workbook, records: readonly number[]): FirstLook | undefined {
  const [first] = book.state.sheets;
  if (first === undefined) return undefined;
  const sheet = first.name;
  const columns = columnsOnShow(book, sheet)
    .slice(0, mostColumns)
    .flatMap((position) => {
      const column = book.columnAt({ sheet, column: position });
      return column === undefined ? [] : [{ position, column }];
    });
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
  const layout = layoutIn(readBookLook(look) ?? noLook, sheet.name) ?? firstLayout(sheet.name);
  const shown = shownColumns(sheet.name, layout, columns, keyOf(sheet.name))
    .slice(0, mostColumns)
    .flatMap((position) => {
      const column = columns[position];
      return column === undefined ? [] : [{ position, column }];
    });
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
