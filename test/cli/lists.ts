import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { mkdir, mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import ExcelJS from 'exceljs';
import { belts } from '../../sheets/belts/index.ts';
import { findings } from '../../src/checks/findings.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { headerWithUnit } from '../../src/sheet/header.ts';
import { isoDate } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';

/** Lists of belts as users bring them, in a folder of their own. */

export type Row = readonly (string | number | null)[];

export const testFolder = (): Promise<string> => mkdtemp(join(tmpdir(), 'skewbook-cli-'));

/** Sheets of rows as an .xlsx file. */
export async function listFile(path: string, sheets: Readonly<Record<string, readonly Row[]>>): Promise<string> {
  const file = new ExcelJS.Workbook();
  for (const [name, rows] of Object.entries(sheets)) file.addWorksheet(name).addRows(rows.map((row) => [...row]));
  await file.xlsx.writeFile(path);
  return path;
}

/**
 * The demo's belts as rows under its inputs' headers with units, in the order and under the names that `headers` gives.
 */
export function demoRows(
  headers: Readonly<Record<string, string>> = {},
  keep: (name: string) => boolean = () => true,
): Row[] {
  const demo = new Workbook(demoBook('metric'));
  const inputs = belts.columns.filter((column) => !isComputed(column));
  const records = demo
    .sheet('Belts')
    .rows.flatMap((row, record) => (keep(String(demo.read('Belts', record, 'Belt'))) ? [row] : []));
  return [
    inputs.map(({ header, kind }) => headers[header] ?? headerWithUnit(header, kind, 'metric')),
    ...records.map(({ cells }) =>
      inputs.map(({ header, kind }) => {
        const content = cells[belts.columns.findIndex((column) => column.header === header)] ?? null;
        return kind === 'date' && typeof content === 'number'
          ? isoDate(content)
          : typeof content === 'boolean'
            ? String(content)
            : content;
      }),
    ),
  ];
}

/** Names of the demo's belts that have a verdict. */
export function demoBelts(...verdicts: readonly string[]): Set<string> {
  const demo = new Workbook(demoBook('metric'));
  return new Set(
    demo
      .sheet('Belts')
      .rows.flatMap((_, record) =>
        verdicts.includes(String(demo.read('Belts', record, 'Verdict')))
          ? [String(demo.read('Belts', record, 'Belt'))]
          : [],
      ),
  );
}

/** The demo as a book of our own. */
export async function demoFile(path: string, units: 'metric' | 'us' = 'metric'): Promise<string> {
  const book = new Workbook(demoBook(units));
  writeFileSync(path, (await exportedBook(book, findings(book))).bytes);
  return path;
}

const run = promisify(execFile);

/** How a list is written as text. */
export interface TextStyle {
  readonly delimiter: ',' | ';' | '\t';
  readonly decimal: '.' | ',';
  readonly newline: '\n' | '\r\n';
  readonly encoding: 'utf8' | 'latin1' | 'utf16le';
  /** What stands before its first line. */
  readonly start: string;
}

export const usualText: TextStyle = { delimiter: ',', decimal: '.', newline: '\n', encoding: 'utf8', start: '' };

/** Rows as text, quoted where it has to be. */
export const rowsText = (
  rows: readonly Row[],
  { delimiter, decimal, newline, start }: Omit<TextStyle, 'encoding'> = usualText,
): string =>
  `${start}${rows
    .map((row) =>
      row
        .map((cell) => (typeof cell === 'number' ? String(cell).replace('.', decimal) : (cell ?? '')))
        .map((text) => (/["\r\n]/.test(text) || text.includes(delimiter) ? `"${text.replaceAll('"', '""')}"` : text))
        .join(delimiter),
    )
    .join(newline)}${newline}`;

/** A list as text. */
export function textFile(path: string, rows: readonly Row[], style: Partial<TextStyle> = {}): string {
  const { encoding, ...written } = { ...usualText, ...style };
  writeFileSync(path, Buffer.from(rowsText(rows, written), encoding));
  return path;
}

/** Rows as an .xlsx file that another spreadsheet program wrote from comma-separated text. */
export async function otherProgramsFile(path: string, rows: readonly Row[]): Promise<string> {
  const folder = await testFolder();
  const name = basename(path, '.xlsx');
  const text = join(folder, `${name}.csv`);
  textFile(text, rows);
  await mkdir(join(folder, 'profile'));
  await run(
    'soffice',
    [
      `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`,
      '--headless',
      '--infilter=CSV:44,34,76,1',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      join(path, '..'),
      text,
    ],
    { timeout: 120_000 },
  );
  return path;
}
