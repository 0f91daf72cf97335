import type { Worksheet } from 'exceljs';
import { headerWithUnit, shownHeader } from '../../sheet/header.ts';
import { valueColumn } from '../../sheet/named-values.ts';
import { headerPosition, namedSheetOf, namedValue } from '../../workbook/declared.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { commentIn, layoutIn } from '../../workbook/book-look.ts';
import type { SheetState } from '../../workbook/state.ts';
import { cellStyle } from './cell-styles.ts';
import { columnLooks, keyColumn } from './column-looks.ts';
import { fileText } from './file-text.ts';
import { cellNote, headingNote } from './heading-note.ts';
import { readLimits } from '../read/read-limits.ts';
import { addValidation, columnRule, namedValueRule } from './validations.ts';
import { addedSheet, columnWidth, widest } from './sheet-columns.ts';
import { workingSide, writeSideHeadings } from './working-side.ts';
import { writeHeadings, type Writing } from './writing.ts';

/** The last row that rules for what may be typed cover: there is room below the last record, as far as a sheet goes. */
const withRoom = (lastRow: number): number => Math.min(lastRow + 200, readLimits.rowNumber);

/** Writes one sheet of the book but for its records: heading, looks of columns, rules. */
export function writeSheet(writing: Writing, state: SheetState): Worksheet {
  const { book, units } = writing;
  const { name } = state;
  const columns = book.columns(name);
  const records = writing.records.get(name) ?? state.rows.length;
  if (columns.length > readLimits.columnNumber || records >= readLimits.rowNumber) {
    throw new Error(
      `the sheet ${name} has ${columns.length} columns and ${records} rows; a file holds ` +
        `${readLimits.columnNumber} and ${readLimits.rowNumber}`,
    );
  }
  const key = keyColumn(name, columns);
  const headers = columns.map(
    (column) => fileText(headerWithUnit(shownHeader(column, units), column.kind, units, column.unit)).text,
  );
  const calculated = columns.map((column, index) =>
    columnWidth(
      headers[index] ?? '',
      column,
      namedSheetOf(name) === undefined ? widest.record : widest.named,
      state.rows.slice(0, 500).map((_, record) => book.value({ sheet: name, record, column: index })),
    ),
  );
  const layout = layoutIn(book.look, name);
  const sheet = addedSheet(writing, state, { columns, widths: calculated, key });
  writeHeadings(
    sheet,
    columns.map((column, index) => {
      const bare =
        column.declared === undefined && writing.book.sheet(name).userColumns.every(({ doc }) => doc !== column.doc);
      const comment = layout === undefined ? undefined : commentIn(layout, column.header);
      const note = cellNote(comment, bare ? undefined : headingNote(column, units));
      return { text: headers[index] ?? '', computed: column.computed, ...(note === undefined ? {} : { note }) };
    }),
    calculated,
  );
  for (const [index, { role, format }] of columnLooks(name, columns, units).entries())
    sheet.getColumn(index + 1).style = cellStyle(role, format);
  ruleNamedValues(writing, state, sheet);
  const side = workingSide(state, writing.laid.get(name), units);
  writeSideHeadings(sheet, side, columns.length);

  const last = sheetRow(Math.max(records, 1) - 1);
  // What only the file has beside the sheet is not printed.
  if (side.headings.length > 0) sheet.pageSetup.printArea = `A1:${columnLetters(columns.length - 1)}${last}`;
  if (columns.length > 0) sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: last, column: columns.length } };
  for (const [index, column] of columns.entries()) {
    if (column.declared === undefined || column.computed || namedSheetOf(name) !== undefined) continue;
    const letters = columnLetters(index);
    const rule = columnRule(column.declared, `${letters}2`, units, (other, header) =>
      wordsRange(writing, other, header),
    );
    if (rule !== undefined) addValidation(sheet, `${letters}2:${letters}${withRoom(last)}`, rule);
  }
  return sheet;
}

/** The cells that hold the words another column allows. */
function wordsRange({ book, sheets, records }: Writing, sheet: string, header: string): string {
  const letters = columnLetters(headerPosition(sheet, header));
  return (
    `${quotedSheet(sheets.get(sheet) ?? sheet)}!$${letters}$2:$${letters}$` +
    `${withRoom(sheetRow((records.get(sheet) ?? book.sheet(sheet).rows.length) - 1))}`
  );
}

/** What may be typed into the cells of named values. */
function ruleNamedValues({ units }: Writing, { name, rows }: SheetState, sheet: Worksheet): void {
  const named = namedSheetOf(name);
  if (named?.editable !== true) return;
  for (const value of named.values) {
    const record = rows.findIndex(({ cells }) => cells[0] === value.name);
    const declared = namedValue(value.name);
    if (record < 0 || declared === undefined) continue;
    const address = `${columnLetters(valueColumn)}${sheetRow(record)}`;
    const rule = namedValueRule(declared, address, units);
    if (rule !== undefined) addValidation(sheet, address, rule);
  }
}
