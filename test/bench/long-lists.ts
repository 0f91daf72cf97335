import { closeSync, openSync, writeSync } from 'node:fs';
import { belts } from '../../sheets/belts/index.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { nativePack } from '../../src/cli/native-packing.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { headerWithUnit } from '../../src/sheet/header.ts';
import { type PackedPart, PartPieces } from '../../src/xlsx/write/packing.ts';
import { zipFile } from '../../src/xlsx/write/zip-file.ts';
import { fleetRows } from './fleet.ts';

/** Lists of any length, as a plant would bring them, written as they are made: the same bytes each time. */

const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packaged = 'http://schemas.openxmlformats.org/package/2006';
const kind = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** The parts of a workbook of one sheet but for that sheet. Source: ECMA-376 Part 1, 18.2, and Part 2, 8 and 10. */
const around: Readonly<Record<string, string>> = {
  '[Content_Types].xml':
    `<Types xmlns="${packaged}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-` +
    `package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${kind}.sheet.main+xml"/>` +
    `<Override PartName="/xl/worksheets/sheet1.xml" ContentType="${kind}.worksheet+xml"/>` +
    `<Override PartName="/xl/styles.xml" ContentType="${kind}.styles+xml"/></Types>`,
  '_rels/.rels':
    `<Relationships xmlns="${packaged}/relationships"><Relationship Id="rId1" Type="${office}/officeDocument" ` +
    `Target="xl/workbook.xml"/></Relationships>`,
  'xl/workbook.xml':
    `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Fleet" sheetId="1" r:id="rId1"/></sheets>` +
    `</workbook>`,
  'xl/_rels/workbook.xml.rels':
    `<Relationships xmlns="${packaged}/relationships"><Relationship Id="rId1" Type="${office}/worksheet" ` +
    `Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${office}/styles" Target="styles.xml"/>` +
    `</Relationships>`,
  'xl/styles.xml':
    `<styleSheet xmlns="${main}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1">` +
    `<border/></borders><cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>`,
};

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const inputs = belts.columns.flatMap((column, position) => (isComputed(column) ? [] : [{ column, position }]));

function* rows(count: number): Generator<string> {
  const cell = (address: string, text: string): string =>
    `<c r="${address}" t="inlineStr"><is><t>${escaped(text)}</t></is></c>`;
  const headers = inputs.map(({ column: { header, kind: measure } }, at) =>
    cell(`${columnLetters(at)}1`, headerWithUnit(header, measure, 'metric')),
  );
  yield `<row r="1">${headers.join('')}</row>`;
  let row = 1;
  for (const contents of fleetRows(count)) {
    row += 1;
    const cells = inputs.map(({ column, position }, at) => {
      const content = contents[position] ?? null;
      const address = `${columnLetters(at)}${row}`;
      if (content === null) return '';
      if (typeof content === 'number')
        return `<c r="${address}"${column.kind === 'date' ? ' s="1"' : ''}><v>${content}</v></c>`;
      return cell(address, String(content));
    });
    yield `<row r="${row}">${cells.join('')}</row>`;
  }
}

/** Rows that are packed at a time. */
const atATime = 5_000;

async function sheetPart(count: number): Promise<PackedPart> {
  const pieces = new PartPieces({ pack: nativePack });
  const add = async (text: string): Promise<void> => {
    pieces.add(new TextEncoder().encode(text));
    await pieces.room();
  };
  let held: string[] = [`${head}<worksheet xmlns="${main}"><sheetData>`];
  for (const row of rows(count)) {
    if (held.push(row) < atATime) continue;
    await add(held.join(''));
    held = [];
  }
  await add(`${held.join('')}</sheetData></worksheet>`);
  return pieces.packed();
}

async function textPart(text: string): Promise<PackedPart> {
  const pieces = new PartPieces({ pack: nativePack });
  pieces.add(new TextEncoder().encode(head + text));
  return pieces.packed();
}

/** Writes a list of so many belts. */
export async function writeLongList(path: string, count: number): Promise<void> {
  const parts = await Promise.all(
    Object.entries(around).map(async ([name, text]) => ({ path: name, part: await textPart(text) })),
  );
  const file = openSync(path, 'w');
  try {
    for (const bytes of zipFile([...parts, { path: 'xl/worksheets/sheet1.xml', part: await sheetPart(count) }]))
      for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
  } finally {
    closeSync(file);
  }
}
