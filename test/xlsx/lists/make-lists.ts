import { execFileSync } from 'node:child_process';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import ExcelJS from 'exceljs';
import JSZip from 'jszip';
import { strToU8, zipSync } from 'fflate';
import { escaped } from '../../../src/sheet/words.ts';
import { columnName } from '../../../src/xlsx/read/cell-address.ts';
import { type ListCell, type ListLooks, type ListSheet, listBooks, listTexts } from './list-rows.ts';

/**
 * Has several programs write the lists of `list-rows.ts`: `node src/launch/run.mjs test/xlsx/lists/make-lists.ts`,
 * with names behind it for these lists alone.
 *
 * The files are committed, so that tests read what another program wrote once, with its quirks; this says how they came
 * about, and makes new ones.
 */
type Writer = 'office xlsx' | 'office ods' | 'office csv' | 'library' | 'stream' | 'minimal' | 'strict';

const writers: Readonly<Record<string, Writer>> = {
  coloured: 'office xlsx',
  'coloured-open': 'office ods',
  dressed: 'office xlsx',
  'dressed-open': 'office ods',
  'us-clean': 'office xlsx',
  messy: 'library',
  spanish: 'office ods',
  french: 'office csv',
  transposed: 'library',
  'two-areas': 'office ods',
  'units-row': 'stream',
  'ambiguous-heads': 'minimal',
  'edge-angles': 'office ods',
  'edge-contradiction': 'minimal',
  'loop-length': 'strict',
  'low-header': 'stream',
  subtotals: 'office ods',
  'two-row-heads': 'office xlsx',
  ditto: 'office ods',
  'plates-alone': 'office xlsx',
  'mixed-units': 'stream',
  dutch: 'strict',
  lagging: 'library',
  pulleys: 'office ods',
  'three-heads': 'stream',
  'spare-rolls': 'strict',
  formulas: 'office ods',
};

const folder = join(process.cwd(), 'test/xlsx/lists');

const libraryValue = (cell: ListCell): ExcelJS.CellValue =>
  typeof cell === 'string' && cell.startsWith('=') ? { formula: cell.slice(1), date1904: false } : cell;

const dot = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

const solid = (color: string): ExcelJS.Fill => ({ type: 'pattern', pattern: 'solid', fgColor: { argb: `FF${color}` } });

function dressCell(cell: ExcelJS.Cell, look: ListLooks['cells'][number]): void {
  const { fill, color, bold = false, italic = false, underline = false, struck = false, format, comment } = look;
  const { size, turned, align, indent, vertical, wrap, bottom } = look;
  if (fill !== undefined) cell.fill = solid(fill);
  if (color !== undefined || bold || italic || underline || struck || size !== undefined)
    cell.font = {
      bold,
      italic,
      underline,
      strike: struck,
      ...(underline || struck || size !== undefined ? { name: 'Calibri', size: size ?? 11 } : {}),
      ...(color === undefined ? {} : { color: { argb: `FF${color}` } }),
    };
  if (align !== undefined || vertical !== undefined || wrap === true || turned !== undefined)
    cell.alignment = {
      ...(align === undefined ? {} : { horizontal: align }),
      ...(indent === undefined ? {} : { indent }),
      ...(vertical === undefined ? {} : { vertical }),
      ...(wrap === true ? { wrapText: true } : {}),
      ...(turned === undefined ? {} : { textRotation: turned }),
    };
  if (bottom !== undefined) cell.border = { bottom: { style: bottom, color: { argb: 'FF000000' } } };
  if (format !== undefined) cell.numFmt = format;
  if (comment !== undefined) cell.note = comment;
}

function dress(file: ExcelJS.Workbook, sheet: ExcelJS.Worksheet, looks: ListLooks): void {
  for (const [column, color] of Object.entries(looks.columnFills ?? {}))
    sheet.getColumn(Number(column)).fill = solid(color);
  for (const [row, color] of Object.entries(looks.rowFills ?? {})) sheet.getRow(Number(row)).fill = solid(color);
  for (const look of looks.cells) dressCell(sheet.getCell(look.cell), look);
  looks.widths.forEach((width, index) => (sheet.getColumn(index + 1).width = width));
  for (const column of looks.hiddenColumns) sheet.getColumn(column).hidden = true;
  for (const row of looks.hiddenRows) sheet.getRow(row).hidden = true;
  sheet.views = [{ state: 'frozen', xSplit: looks.frozen.columns, ySplit: looks.frozen.rows }];
  for (const ref of looks.conditional)
    sheet.addConditionalFormatting({
      ref,
      rules: [
        { type: 'cellIs', priority: 1, operator: 'greaterThan', formulae: [900], style: { font: { bold: true } } },
      ],
    });
  for (const range of looks.ruled) {
    const [first = range] = range.split(':');
    sheet.getCell(first).dataValidation = { type: 'decimal', operator: 'greaterThan', formulae: [0] };
  }
  for (const { row, column } of looks.pictures)
    sheet.addImage(file.addImage({ base64: dot, extension: 'png' }), {
      tl: { col: column, row },
      ext: { width: 20, height: 20 },
    });
}

async function byLibrary(path: string, sheets: readonly ListSheet[]): Promise<void> {
  const file = new ExcelJS.Workbook();
  for (const { name, rows, merges = [], hidden = false, looks } of sheets) {
    const sheet = file.addWorksheet(name, { state: hidden ? 'hidden' : 'visible' });
    sheet.addRows(rows.map((row) => row.map(libraryValue)));
    for (const area of merges) sheet.mergeCells(area);
    if (looks !== undefined) dress(file, sheet, looks);
  }
  await file.xlsx.writeFile(path);
}

function inOffice(path: string, target: string): void {
  const work = mkdtempSync(join(tmpdir(), 'lists-'));
  const profile = `-env:UserInstallation=${pathToFileURL(join(work, 'profile')).href}`;
  execFileSync('soffice', [profile, '--headless', '--convert-to', target, '--outdir', work, path]);
  const name =
    path
      .split('/')
      .at(-1)
      ?.replace(/\.xlsx$/, '') ?? '';
  const ending = target.split(':')[0] ?? '';
  rmSync(path);
  renameSync(join(work, `${name}.${ending}`), join(folder, `${name}.${ending}`));
  rmSync(work, { recursive: true });
}

/** No styles, no shared texts, no sizes: the fewest parts that a workbook can do with. */
function handParts(sheets: readonly ListSheet[], strict: boolean): Record<string, string> {
  const [main, related] = strict
    ? ['http://purl.oclc.org/ooxml/spreadsheetml/main', 'http://purl.oclc.org/ooxml/officeDocument/relationships']
    : [
        'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
        'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
      ];
  const package_ = 'http://schemas.openxmlformats.org/package/2006';
  const cell = (value: ListCell, row: number, column: number): string => {
    if (value === null) return '';
    const place = `r="${columnName(column + 1)}${row + 1}"`;
    return typeof value === 'number'
      ? `<c ${place}><v>${value}</v></c>`
      : `<c ${place} t="inlineStr"><is><t xml:space="preserve">${escaped(String(value))}</t></is></c>`;
  };
  const part = ({ rows }: ListSheet): string =>
    `<worksheet xmlns="${main}"><sheetData>${rows
      .map((row, at) => `<row r="${at + 1}">${row.map((value, column) => cell(value, at, column)).join('')}</row>`)
      .join('')}</sheetData></worksheet>`;
  const parts: Record<string, string> = {
    '[Content_Types].xml':
      `<Types xmlns="${package_}/content-types"><Default Extension="rels" ` +
      `ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ` +
      `ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override ` +
      `PartName="/xl/workbook.xml" ` +
      `ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
    '_rels/.rels':
      `<Relationships xmlns="${package_}/relationships"><Relationship Id="w" Type="${related}/officeDocument" ` +
      `Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${related}"><sheets>${sheets
      .map(({ name }, at) => `<sheet name="${escaped(name)}" sheetId="${at + 1}" r:id="s${at + 1}"/>`)
      .join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${package_}/relationships">${sheets
      .map(
        (_, at) => `<Relationship Id="s${at + 1}" Type="${related}/worksheet" Target="worksheets/sheet${at + 1}.xml"/>`,
      )
      .join('')}</Relationships>`,
  };
  sheets.forEach((sheet, at) => (parts[`xl/worksheets/sheet${at + 1}.xml`] = part(sheet)));
  return parts;
}

/** As servers export: packed while it is written, so that sizes and checksums stand behind each part. */
async function byStream(path: string, parts: Readonly<Record<string, string>>): Promise<void> {
  const archive = new JSZip();
  for (const [name, text] of Object.entries(parts)) archive.file(name, text);
  writeFileSync(path, await archive.generateAsync({ type: 'uint8array', streamFiles: true, compression: 'DEFLATE' }));
}

const asked = process.argv.slice(2);
const isAsked = (name: string): boolean => asked.length === 0 || asked.includes(name);

for (const [name, sheets] of Object.entries(listBooks).filter(([name]) => isAsked(name))) {
  const path = join(folder, `${name}.xlsx`);
  const writer = writers[name] ?? 'library';
  if (writer === 'stream') await byStream(path, handParts(sheets, false));
  else if (writer === 'minimal' || writer === 'strict') {
    const parts = Object.entries(handParts(sheets, writer === 'strict'));
    writeFileSync(path, zipSync(Object.fromEntries(parts.map(([part, text]) => [part, strToU8(text)]))));
  } else await byLibrary(path, sheets);
  if (writer === 'office ods') inOffice(path, 'ods');
  else if (writer === 'office csv') inOffice(path, 'csv:Text - txt - csv (StarCalc):59,34,76,1');
  else if (writer === 'office xlsx') {
    // By way of its own format, so that nothing of the library's file is left.
    inOffice(path, 'ods');
    const own = join(folder, `${name}.ods`);
    const work = mkdtempSync(join(tmpdir(), 'lists-'));
    const profile = `-env:UserInstallation=${pathToFileURL(join(work, 'profile')).href}`;
    execFileSync('soffice', [
      profile,
      '--headless',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      folder,
      own,
    ]);
    rmSync(own);
    rmSync(work, { recursive: true });
  }
}
for (const [name, { text, encoding }] of Object.entries(listTexts).filter(([name]) => isAsked(name)))
  writeFileSync(join(folder, name), Buffer.from(text, encoding));
process.stdout.write(`${Object.keys(listBooks).length + Object.keys(listTexts).length} lists\n`);
