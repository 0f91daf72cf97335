import type { Worksheet } from 'exceljs';
import type { Column } from '../../sheet/declaration.ts';
import { headerWithUnit, shownHeader } from '../../sheet/header.ts';
import { isWords, type QuantityKind, type UnitSystem } from '../../units/quantities.ts';
import { columnLetters } from '../../formula/address.ts';
import { aboutMark } from '../about.ts';
import { rowCheckHeader } from '../row-check-header.ts';
import { cellStyle, dateWidth, numberFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { packedBook } from './packed-book.ts';
import { type CheckedPair, rowCheckFormula } from './row-check.ts';
import { addValidation, columnRule } from './validations.ts';
import { headingNote } from './heading-note.ts';
import { wrappedHeight } from './writing.ts';

/** A sheet to be filled in by people who have no more than a spreadsheet program; it is read back as a list. */

export interface FormColumn {
  readonly header: string;
  readonly kind: QuantityKind;
  readonly doc: string;
  /** What it is filled into; absent for a column of the form's own. */
  readonly column?: Column;
  /** It is there to be read, not changed. */
  readonly locked?: true;
  /** The words that another sheet of the book allows. */
  readonly words?: readonly string[];
}

export interface ListForm {
  readonly sheet: string;
  readonly title: string;
  readonly lines: readonly string[];
  readonly columns: readonly FormColumn[];
  readonly rows: readonly (readonly (string | number | boolean | null)[])[];
  /** Blank rows behind those that are filled. */
  readonly room: number;
  readonly needed: readonly string[];
  readonly pairs: readonly CheckedPair[];
  readonly key: string;
  readonly units: UnitSystem;
  readonly protect: boolean;
}

interface FormOptions {
  readonly stamp?: Date;
}

const shownName = ({ header, kind }: FormColumn, units: UnitSystem): string =>
  fileText(headerWithUnit(shownHeader({ header }, units), kind, units)).text;

const checkWidth = 60;

function widthOf(column: FormColumn, shown: string): number {
  const word = Math.max(...shown.split(' ').map(({ length }) => length)) + 3;
  return Math.max(column.kind === 'date' ? dateWidth(undefined) : isWords(column.kind) ? 16 : 11, word);
}

/** Where the rows of a form stand in its sheet. */
function rowsOf({ lines, rows, room }: ListForm): {
  readonly top: number;
  readonly first: number;
  readonly last: number;
} {
  const top = lines.length + 2;
  return { top, first: top + 1, last: top + rows.length + room };
}

const widthsOf = ({ columns, units }: ListForm): readonly number[] => [
  ...columns.map((column) => widthOf(column, shownName(column, units))),
  checkWidth,
];

/** Characters across a page, of the smallest paper that offices have, that can still be filled in by hand. Ours. */
const acrossPage = 210;

function writeHead(sheet: Worksheet, form: ListForm): void {
  const { columns, units, lines, title } = form;
  const headers = columns.map((column) => shownName(column, units));
  const widths = widthsOf(form);
  sheet.columns = widths.map((width) => ({ width }));
  sheet.getCell(1, 1).value = fileText(title).text;
  sheet.getCell(1, 1).font = { name: 'Calibri', family: 2, size: 14, bold: true };
  lines.forEach((line, at) => (sheet.getCell(at + 2, 1).value = line));
  const heading = sheet.getRow(rowsOf(form).top);
  heading.height = wrappedHeight(headers, widths);
  columns.forEach(({ doc, column, locked }, index) => {
    const cell = heading.getCell(index + 1);
    cell.value = headers[index] ?? '';
    cell.style = cellStyle(locked === true ? 'computed header' : 'header');
    cell.note = headingNote({ doc, ...(column === undefined ? {} : { declared: column }) }, units);
  });
  const check = heading.getCell(columns.length + 1);
  check.value = rowCheckHeader;
  check.style = cellStyle('computed header');
  check.note = 'Says what is missing in the row and what can not be. It is left out when the list is read.';
}

function writeRows(sheet: Worksheet, form: ListForm): void {
  const { columns, rows, needed, pairs, key, units } = form;
  const { first, last } = rowsOf(form);
  const checked = columns.flatMap(({ header, column }, index) =>
    column === undefined ? [] : [{ header, column, letters: columnLetters(index) }],
  );
  const check = { columns: checked, needed, pairs, key, rows: { first, last }, units };
  for (let number = first; number <= last; number += 1) {
    const row = sheet.getRow(number);
    columns.forEach(({ kind, column, locked }, index) => {
      const cell = row.getCell(index + 1);
      const value = rows[number - first]?.[index] ?? null;
      cell.value = typeof value === 'string' ? fileText(value).text : value;
      cell.style = {
        ...cellStyle(locked === true ? 'computed' : 'input', numberFormat(kind, units, column)),
        protection: { locked: locked === true },
      };
    });
    const cell = row.getCell(columns.length + 1);
    // The program that opens it works it out.
    cell.value = { formula: rowCheckFormula(check, number), result: '' };
    cell.style = cellStyle('computed');
  }
  columns.forEach(({ column, locked, words }, index) => {
    if (column === undefined || locked === true) return;
    const letters = columnLetters(index);
    const allowed = columnRule(column, `${letters}${first}`, units, () => wordList(words));
    if (allowed !== undefined) addValidation(sheet, `${letters}${first}:${letters}${last}`, allowed);
  });
}

/** The form as a workbook; the writing library is loaded when this is called. */
export async function listFormFile(
  form: ListForm,
  { stamp = new Date() }: FormOptions = {},
): Promise<Uint8Array<ArrayBuffer>> {
  await import('./whole-texts.ts');
  const { default: ExcelJS } = await import('exceljs');
  const file = new ExcelJS.Workbook();
  file.creator = aboutMark;
  file.lastModifiedBy = aboutMark;
  file.title = fileText(form.title).text;
  file.created = stamp;
  file.modified = stamp;
  file.calcProperties = { fullCalcOnLoad: true };
  const { top } = rowsOf(form);
  const pages = Math.ceil(widthsOf(form).reduce((sum, width) => sum + width, 0) / acrossPage);
  const sheet = file.addWorksheet(form.sheet, {
    views: [{ state: 'frozen', xSplit: 1, ySplit: top }],
    pageSetup: {
      orientation: 'landscape',
      paperSize: (form.units === 'us' ? 1 : 9) as number,
      fitToPage: true,
      fitToWidth: pages,
      fitToHeight: 0,
      printTitlesRow: `${top}:${top}`,
      ...(pages > 1 ? { printTitlesColumn: 'A:A' } : {}),
    },
  });
  writeHead(sheet, form);
  writeRows(sheet, form);
  if (form.protect)
    await sheet.protect('', { selectLockedCells: true, selectUnlockedCells: true, formatColumns: true, sort: true });
  return packedBook(new Uint8Array(await file.xlsx.writeBuffer({ zip: { compression: 'STORE' } })));
}

/** A list of words as a rule may hold it: programs stop at 255 characters. */
function wordList(words: readonly string[] | undefined): string | undefined {
  const list = words?.filter((word) => !/[",]/.test(word)).join(',') ?? '';
  return list === '' || list.length > 255 || list.length < (words?.join(',').length ?? 0) ? undefined : `"${list}"`;
}
