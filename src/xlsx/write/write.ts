import type { Finding } from '../../records/finding.ts';
import { valueColumn } from '../../sheet/named-values.ts';
import { namedSheetOf } from '../../workbook/declared.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { aboutMark, aboutSheetName } from '../about.ts';
import { writeAbout } from './about-sheet.ts';
import { FileFormulas } from './file-formulas.ts';
import { fileSheetNames } from './file-sheet-names.ts';
import { fileText } from './file-text.ts';
import { findingsSheetName, writeFindings } from './findings-sheet.ts';
import { functionsSheetName, writeFunctions } from './functions-sheet.ts';
import { packedBook } from './packed-book.ts';
import type { Pack } from './packing.ts';
import { laidSheets } from './laid-sheets.ts';
import { type CheckedName, checkedNames, listNames } from './working-side.ts';
import { writeSheet } from './written-sheet.ts';
import type { Writing, WrittenOtherwise } from './writing.ts';

export type { WrittenOtherwise } from './writing.ts';

interface ExportOptions {
  /** When the file says that it was made; the same book with the same stamp gives the same bytes. */
  readonly stamp?: Date;
  /** By which the file is to be known again when it comes back. */
  readonly mark?: string | undefined;
  /** Packs pieces of the file as soon as they are made; without it the archive library packs them in the end. */
  readonly pack?: Pack | undefined;
}

/** For tests: the file is read back. */
export interface ExportedBook {
  readonly bytes: Uint8Array;
  /** What the file holds otherwise than the book: formulas as values, texts cut. The About sheet lists it too. */
  readonly otherwise: readonly WrittenOtherwise[];
}

/**
 * What a file takes for a defined name: no cell's name, no sign that formulas use. Source: ECMA-376 Part 1, 18.2.5
 * (definedName).
 */
const definable = /^(?![A-Za-z]{1,3}\d+$)(?![rRcC]$)[A-Za-z_\\][\w.\\]{0,254}$/;

const nameRules = 'sheet names in files ignore case, hold at most 31 characters and none of [ ] : * ? / \\';

interface NamedCell {
  readonly name: string;
  readonly reference: string;
}

/** A named value that formulas compute with is read beside its cell; while it is refused there, only by them. */
function namedCells(book: Workbook, checked: ReadonlyMap<string, CheckedName>): NamedCell[] {
  return book.state.sheets.flatMap(({ name: sheet, rows }) =>
    namedSheetOf(sheet) === undefined
      ? []
      : rows.flatMap(({ cells: [name] }, record) =>
          typeof name === 'string' && definable.test(name)
            ? [
                {
                  name,
                  reference:
                    checked.get(name.toLowerCase())?.isRefused === false
                      ? (checked.get(name.toLowerCase())?.reference ?? '')
                      : `${quotedSheet(sheet)}!$${columnLetters(valueColumn)}$${sheetRow(record)}`,
                },
              ]
            : [],
        ),
  );
}

/**
 * The whole book as an .xlsx file: every sheet with live formulas in standard functions and their results, then
 * Findings, Functions and About.
 *
 * The writing library is loaded when this is called, since a page that only shows a book does not need it.
 */
export async function exportedBook(
  book: Workbook,
  findings: readonly Finding[],
  { stamp = new Date(), mark, pack }: ExportOptions = {},
): Promise<ExportedBook> {
  await import('./whole-texts.ts');
  const { default: ExcelJS } = await import('exceljs');
  const file = new ExcelJS.Workbook();
  file.creator = aboutMark;
  file.lastModifiedBy = aboutMark;
  file.title = fileText(book.state.title).text;
  file.created = stamp;
  file.modified = stamp;
  file.calcProperties = { fullCalcOnLoad: true };

  const checked = checkedNames(book);
  const names = namedCells(book, checked);
  const lists = listNames(book.state);
  const laid = laidSheets(book, {
    checkedName(name) {
      const cell = checked.get(name.toLowerCase());
      return cell?.isRefused === true ? { type: 'reference', text: cell.reference } : undefined;
    },
    hasList: (name) => lists.has(name),
  });
  const sheets = fileSheetNames(
    book.state.sheets.map(({ name }) => name),
    [findingsSheetName, functionsSheetName, aboutSheetName],
  );
  const writing: Writing = {
    book,
    units: book.units,
    file,
    sheets,
    formulas: new FileFormulas(sheets, [...names.map(({ name }) => name), ...lists.keys()], laid),
    laid,
    typed: [],
    overrides: [],
    otherwise: [],
    widths: new Map(),
    late: [],
    pack,
  };
  for (const [name, written] of sheets)
    if (name !== written) writing.otherwise.push({ place: name, why: `the sheet is called ${written}: ${nameRules}` });
  for (const { name, reference } of names) file.definedNames.add(reference, name);
  for (const [name, reference] of lists) file.definedNames.add(reference, name);

  for (const sheet of book.state.sheets) writeSheet(writing, sheet);
  writeFindings(writing, findings);
  writeFunctions(writing);
  writeAbout(writing, findings.length, mark);

  const archive = await file.xlsx.writeBuffer({ zip: { compression: 'STORE' } });
  return { bytes: packedBook(new Uint8Array(archive), { late: writing.late, pack }), otherwise: writing.otherwise };
}
