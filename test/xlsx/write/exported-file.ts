import ExcelJS from 'exceljs';
import { unzipSync } from 'fflate';
import type { Finding } from '../../../src/records/finding.ts';
import { bookColumns } from '../../../src/workbook/declared.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import type { RawBook, RawCell } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { type ExportedBook, exportedBook } from '../../../src/xlsx/write/write.ts';
import { fullBook, stamp } from './exported-book.ts';

/** The full book written and opened again in three ways: its parts, as our reader and as another one see it. */

export const findings: readonly Finding[] = [
  {
    sheet: 'Belts',
    record: 1,
    name: 'B2',
    check: 'pulley',
    verdict: 'fails',
    column: 'Smallest pulley',
    cell: 'Belts!J3',
    message: 'the smallest pulley, 200 mm, is below 353.6 mm',
    given: { label: 'smallest pulley', value: 200, kind: 'length', unit: 'mm' },
    limit: { label: 'least pulley', value: 353.55339059, kind: 'length', unit: 'mm' },
    cures: ['a skew of 60 degrees', '=1+1 is no formula here'],
  },
  {
    sheet: 'In / Out?',
    record: 0,
    name: '=cmd',
    check: 'input',
    verdict: 'not known',
    column: 'Column 1',
    cell: "'In / Out?'!A2",
    message: '-5 is no length',
    given: { label: 'cell', value: '-5', kind: 'text', unit: '' },
    limit: null,
    cures: [],
  },
];

export interface ExportedFile extends ExportedBook {
  readonly book: Workbook;
  readonly parts: Readonly<Record<string, Uint8Array>>;
  readonly raw: RawBook;
  readonly other: ExcelJS.Workbook;
}

let made: Promise<ExportedFile> | undefined;

async function make(): Promise<ExportedFile> {
  const book = new Workbook(fullBook('metric'));
  const exported = await exportedBook(book, findings, { stamp });
  const other = new ExcelJS.Workbook();
  await other.xlsx.load(exported.bytes.slice().buffer);
  return {
    ...exported,
    book,
    parts: unzipSync(exported.bytes),
    raw: readBook(exported.bytes, readLimits, true),
    other,
  };
}

export const exportedFile = (): Promise<ExportedFile> => (made ??= make());

/** The part that holds a sheet of the file, by the sheet's name. */
export const sheetPart = ({ parts, raw }: Pick<ExportedFile, 'parts' | 'raw'>, name: string): string =>
  text(parts[`xl/worksheets/sheet${raw.sheets.findIndex((sheet) => sheet.name === name) + 1}.xml`]);

export const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes);

export const cellAt = (book: RawBook, sheet: string, row: number, column: number): RawCell | undefined =>
  book.sheets
    .find(({ name }) => name === sheet)
    ?.rows.get(row)
    ?.find((cell) => cell.column === column);

/** A column of Belts in the file, counted from 1. */
export const belts = (book: Workbook, header: string): number =>
  bookColumns(book.sheet('Belts')).findIndex((column) => column.header === header) + 1;
