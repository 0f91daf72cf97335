import type { FormulaCell, Table, TableBook, TableCell, TableColumn } from '../../sheet/table.ts';
import type { CellValue, DataBarRuleType } from 'exceljs';

import { columnLetters } from '../../formula/address.ts';
import { headerWithUnit } from '../../sheet/header.ts';
import { isWords } from '../../units/quantities.ts';
import { spelt } from '../../units/spelling.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { safetyPurpose, safetyReminders } from '../../workbook/safety.ts';
import { aboutSheetName } from '../about.ts';
import { type CellRole, cellStyle, dateWidth, numberFormat, textFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { fileValue } from './file-values.ts';
import { packedBook } from './packed-book.ts';
import { addSheet, wrappedHeight, writeHeadings } from './writing.ts';

/** A workbook file of plain tables. */

const isFormulaCell = (cell: TableCell | undefined): cell is FormulaCell =>
  typeof cell === 'object' && cell !== null && 'formula' in cell;

/** Characters of the widest column. */
const widest = 60;

/** Characters that the largest amount of a column takes with its currency. */
function moneyWidth(cells: readonly (TableCell | undefined)[]): number {
  const most = cells.reduce<number>((largest, cell) => {
    const value = isFormulaCell(cell) ? cell.value : cell;
    return typeof value === 'number' ? Math.max(largest, Math.abs(value)) : largest;
  }, 0);
  return most.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 }).length + 7;
}

function widthOf({ header, kind, timed, currency }: TableColumn, cells: readonly (TableCell | undefined)[]): number {
  const word = Math.max(...header.split(' ').map(({ length }) => length)) + 3;
  if (currency !== undefined) return Math.max(11, word, moneyWidth(cells));
  if (!isWords(kind)) return Math.max(kind === 'date' ? dateWidth({ timed }) : 11, word);
  const longest = cells.reduce<number>(
    (length, cell) => Math.max(length, String((isFormulaCell(cell) ? cell.value : cell) ?? '').length),
    0,
  );
  return Math.max(9, word, Math.min(widest, longest + 2));
}

function cellValue(cell: TableCell | undefined): CellValue {
  if (cell === undefined || cell === null || cell === '') return null;
  return isFormulaCell(cell) ? { formula: cell.formula, result: cell.value } : fileValue(cell).value;
}

/** How a cell is looked at: as a heading in the last row of totals, as a key, an input, or worked out. */
function roleOf(content: TableCell | undefined, isTotal: boolean, isKey: boolean): CellRole {
  if (isTotal) return isFormulaCell(content) ? 'computed header' : 'header';
  if (isFormulaCell(content)) return 'computed';
  return isKey ? 'key' : 'input';
}

type TableWriting = Parameters<typeof addSheet>[0];

/** The number format of a cell; of money with its currency, which may be its row's own. */
function cellFormat(
  column: TableColumn,
  { columns, currency = '' }: Table,
  cells: readonly (TableCell | undefined)[],
  units: TableWriting['units'],
): string {
  const plain = numberFormat(column.kind, units, column);
  if (column.currency === undefined) return plain;
  const own = cells[columns.findIndex(({ header }) => header === 'Currency')];
  const word = String((column.currency === 'book' ? currency : own) ?? '').replaceAll(/["\\]/g, '');
  const format = word === '' ? plain : `${plain} "${word}"`;
  return column.noZeros === true ? `${format};-${format};` : format;
}

/** From 0, so that bars can be compared. The package's types know no colour, which the file must have. */
const numberBars = (): DataBarRuleType & { readonly color: { readonly argb: string } } => ({
  type: 'dataBar',
  priority: 3,
  cfvo: [{ type: 'num', value: 0 }, { type: 'max' }],
  color: { argb: 'FF9DB7C6' },
  // A plain bar would be an extension, which fewer programs read.
  gradient: true,
});

/**
 * Marks that follow the cells' values: alerts in red, each row's cheapest in green, bars as long as numbers are large.
 */
function addMarks(sheet: ReturnType<typeof addSheet>, { columns, rows, total, cheapest }: Table): void {
  if (rows.length === 0) return;
  const ref = (place: number, last: number): string => `${columnLetters(place)}2:${columnLetters(place)}${last + 1}`;
  const last = rows.length + (total === true ? 0 : 1);
  columns.forEach(({ alertAbove, bars }, place) => {
    if (bars === true && last > 1) sheet.addConditionalFormatting({ ref: ref(place, last - 1), rules: [numberBars()] });
    if (alertAbove === undefined) return;
    sheet.addConditionalFormatting({
      ref: ref(place, rows.length),
      rules: [
        {
          type: 'cellIs',
          operator: 'greaterThan',
          priority: 1,
          formulae: [alertAbove],
          style: { font: { bold: true, color: { argb: 'FFC00000' } } },
        },
      ],
    });
  });
  if (cheapest === undefined) return;
  const [from, to] = cheapest.map(columnLetters);
  sheet.addConditionalFormatting({
    ref: `${from}2:${to}${last}`,
    rules: [
      {
        type: 'expression',
        priority: 2,
        formulae: [`AND(ISNUMBER(${from}2),${from}2=MIN($${from}2:$${to}2))`],
        style: { font: { bold: true, color: { argb: 'FF006100' } } },
      },
    ],
  });
}

function writeTable(writing: TableWriting, table: Table): void {
  const { name, columns, rows, keys, total } = table;
  const { units } = writing;
  const widths = columns.map((column, place) =>
    widthOf(
      column,
      [...rows.slice(0, 500), ...rows.slice(-1)].map((row) => row[place]),
    ),
  );
  const sheet = addSheet(writing, name, widths, keys);
  writeHeadings(
    sheet,
    columns.map(({ header, kind, note, computed }) => ({
      text: spelt(headerWithUnit(header, kind, units), units),
      ...(computed === undefined ? {} : { computed }),
      ...(note === undefined ? {} : { note: spelt(note, units) }),
    })),
    widths,
  );
  rows.forEach((cells, index) => {
    const row = sheet.getRow(index + 2);
    const isTotal = total === true && index === rows.length - 1;
    columns.forEach((column, place) => {
      const content = cells[place];
      const cell = row.getCell(place + 1);
      cell.value = cellValue(content);
      const format = cellFormat(column, table, cells, units);
      cell.style = cellStyle(
        roleOf(content, isTotal, place < keys),
        isFormulaCell(content) && format === textFormat ? 'General' : format,
      );
    });
  });
  addMarks(sheet, table);
  if (rows.length > 0)
    sheet.autoFilter = {
      from: { row: 1, column: 1 },
      to: { row: rows.length + (total === true ? 0 : 1), column: columns.length },
    };
}

/** What must be known to read the tables, then what must be known at the belt. */
function writeAbout({ file, units }: TableWriting, about: TableBook['about']): void {
  const widths = [18, 70, 60];
  const sheet = file.addWorksheet(aboutSheetName, {
    pageSetup: { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  });
  sheet.columns = widths.map((width) => ({ width }));
  const texts = [
    ...about,
    ['Safety', spelt(safetyPurpose, units)],
    ...safetyReminders.map(({ text, rules }) => ['Safety', spelt(text, units), rules]),
  ];
  texts.forEach((cells, index) => {
    const row = sheet.getRow(index + 1);
    row.height = wrappedHeight(cells, widths);
    cells.forEach((text, place) => {
      const cell = row.getCell(place + 1);
      cell.value = fileText(text).text;
      cell.style = cellStyle(place === 0 ? 'key' : 'note', textFormat);
    });
  });
}

/**
 * The file's bytes. Widths, formats and looks are those of exported books; a book's units name those of the headers.
 */
export async function tableBook(
  book: Workbook,
  { title, tables, about }: TableBook,
  { stamp = new Date() }: { readonly stamp?: Date } = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const { default: ExcelJS } = await import('exceljs');
  const file = new ExcelJS.Workbook();
  file.creator = 'Skewbook';
  file.lastModifiedBy = 'Skewbook';
  file.title = fileText(title).text;
  file.created = stamp;
  file.modified = stamp;
  file.calcProperties = { fullCalcOnLoad: true };
  const writing: TableWriting = { file, book, units: book.units };
  for (const table of tables) writeTable(writing, table);
  writeAbout(writing, about);
  return packedBook(new Uint8Array(await file.xlsx.writeBuffer({ zip: { compression: 'STORE' } })));
}
