import { readFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, test } from 'vitest';
import { firstLayout, hiddenInFiles } from '../../../src/workbook/column-layout.ts';
import { bookColumns, emptyBook } from '../../../src/workbook/declared.ts';
import { withSheet } from '../../../src/workbook/state-changes.ts';
import type { OwnLook } from '../../../src/workbook/own-look.ts';
import { type BookState, sheetOf } from '../../../src/workbook/state.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import type { ImportResult } from '../../../src/xlsx/import/import-model.ts';
import { listViewName } from '../../../src/xlsx/import/kept-layouts.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { writtenBook } from '../write/written-book.ts';

/** How a list looks, from its file into the book, into a file of ours and back. */

const folder = new URL('../lists/', import.meta.url);
const bytesOf = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(name, folder)));

function imported(bytes: Uint8Array, base: BookState = emptyBook('metric')): ImportResult {
  const file = readBook(bytes);
  return acceptImport(file, proposeImport(file), base);
}

async function exported(state: BookState): Promise<Uint8Array> {
  const book = new Workbook(state);
  const bytes = await writtenBook(book, []);
  book.destroy();
  return bytes;
}

/** The looks of a sheet's cells by record and header. */
function looks(state: BookState, name: string): Record<string, OwnLook> {
  const sheet = sheetOf(state, name);
  const columns = bookColumns(sheet);
  return Object.fromEntries(
    sheet.rows.flatMap(({ looks: row = {} }, record) =>
      Object.entries(row).map(([column, look]) => [`${record} ${columns[Number(column)]?.header}`, look]),
    ),
  );
}

describe.each([
  ['coloured.xlsx', '\\$#,##0.00', { Belt: 98, Remark: 210 }],
  ['coloured-open.ods', '"$"#,##0.00', { Belt: 131, Remark: 280 }],
] as const)('a list that LibreOffice wrote as %s', (name, money, widths) => {
  let first: ImportResult;
  beforeAll(() => {
    first = imported(bytesOf(name));
  });

  test('keeps colours, type, formats and comments of its belts', () => {
    const cost = Object.fromEntries([0, 1, 2, 3].map((record) => [`${record} Cost`, { format: money }]));
    const codes = Object.fromEntries([0, 1, 2, 3].map((record) => [`${record} Cost code`, { format: '000' }]));
    expect(looks(first.state, 'Belts')).toEqual({
      ...codes,
      ...cost,
      '0 Remark': { italic: true },
      '1 Belt': { fill: 'FFFF00', comment: 'To be replaced in the spring stop.' },
      '1 Thickness': { color: 'C00000', bold: true },
      '2 Remark': { fill: 'E2EFDA' },
    });
  });

  test('keeps widths, hidden rows, columns and sheets, and the order of its columns', () => {
    const { look } = first.state;
    expect(look?.layouts['Belts']?.widths).toMatchObject(widths);
    expect([...hiddenInFiles('Belts', look?.layouts['Belts'] ?? firstLayout('Belts'))]).toEqual(['Cost']);
    expect(sheetOf(first.state, 'Belts').rows.map(({ hidden = false }) => hidden)).toEqual([false, false, false, true]);
    expect(look?.layouts['Contacts']?.hidden).toBe(true);
    expect(look?.views.find((view) => view.name === listViewName)?.layout.headers).toEqual([
      'Cost code',
      'Belt',
      'Width',
      'Thickness',
      'Remark',
      'Verdict',
      'Findings',
    ]);
  });

  test('tells what it does not keep, a line for each kind', () => {
    expect(first.report.notKept).toEqual([
      'conditional formats: 2 (Belts!C3:C6, Belts!D3:D6)',
      'rules for what may be entered: 1 (Belts!C3)',
      'merged cells: 1 (Belts!A1:F1)',
      'pictures: 1 (Belts!B8)',
      'other fonts and sizes: 1 (Belts!A2:F4)',
      'colours of headers: 1 (Belts!A2)',
    ]);
    expect(first.state.look?.layouts['Belts']?.comments).toEqual({ Width: 'Measured across the belt.' });
  });
});

test.each(['dressed.xlsx', 'dressed-open.ods'])(
  'lines, strokes, alignment and fills of whole rows and columns come along from %s, and back',
  async (name) => {
    const { state, report } = imported(bytesOf(name));
    const area = { fill: 'FCE4D6' };
    expect(looks(state, 'Belts')).toEqual({
      '0 Thickness': { align: 'center', vertical: 'middle' },
      '0 Smallest pulley': { fill: 'DDEBF7' },
      '1 Belt': { struck: true, borders: 'bottom medium' },
      '1 Width': { struck: true, borders: 'bottom medium' },
      '1 Smallest pulley': { fill: 'DDEBF7' },
      '1 Remark': { underline: true, borders: 'bottom double' },
      '2 Belt': { align: 'right' },
      '2 Smallest pulley': { fill: 'DDEBF7' },
      '2 Remark': { align: 'left 2', wrap: true },
      '3 Belt': area,
      '3 Width': area,
      '3 Thickness': area,
      '3 Smallest pulley': area,
      '3 Remark': area,
    });
    expect(report.notKept).toEqual([
      'other fonts and sizes: 1 (Belts!A1:E5)',
      'turned texts: 1 (Belts!E1)',
      'colours of headers: 1 (Belts!A1:D1)',
    ]);
    expect(state.look?.layouts['Belts']?.comments).toEqual({ Belt: 'As on the plate at the tail.' });
    const again = imported(await exported(state));
    expect(looks(again.state, 'Belts')).toEqual(looks(state, 'Belts'));
    expect(again.state.look).toEqual(state.look);
    expect(again.report.notKept).toEqual([]);
  },
);

describe('a list in a file of ours', () => {
  let state: BookState;
  let bytes: Uint8Array;
  beforeAll(async () => {
    const list = imported(bytesOf('coloured.xlsx')).state;
    // The program has said something of a cell beside which somebody has written.
    const noted = sheetOf(list, 'Belts').rows.map((row, at) =>
      at === 1 ? { ...row, notes: { 0: 'not a name' } } : row,
    );
    state = withSheet(list, 'Belts', (sheet) => ({ ...sheet, rows: noted }));
    bytes = await exported(state);
  });

  test('comes back as it was', () => {
    const again = imported(bytes);
    expect(again.report.notKept).toEqual([]);
    for (const sheet of ['Belts', 'Contacts']) expect(looks(again.state, sheet)).toEqual(looks(state, sheet));
    expect(sheetOf(again.state, 'Belts').rows.map(({ hidden, notes }) => [hidden, notes])).toEqual(
      sheetOf(state, 'Belts').rows.map(({ hidden, notes }) => [hidden, notes]),
    );
    expect(again.state.look).toEqual(state.look);
  });

  test('shows it as its own file did, and another program may go on colouring it', async () => {
    const file = new ExcelJS.Workbook();
    // Its typings ask for another kind of buffer than it takes.
    await file.xlsx.load(bytes as unknown as ExcelJS.Buffer);
    const sheet = file.getWorksheet('Belts');
    const contacts = file.getWorksheet('Contacts');
    if (sheet === undefined || contacts === undefined) throw new Error('a sheet is missing');
    const headers = sheet.getRow(1).values as readonly unknown[];
    const at = (header: string): number => headers.findIndex((text) => text === header);
    expect(sheet.getCell(3, 1).fill).toMatchObject({ fgColor: { argb: 'FFFFFF00' } });
    expect(sheet.getCell(2, at('Cost code')).numFmt).toBe('000');
    expect(sheet.getColumn(at('Remark')).width).toBe(30);
    expect([sheet.getColumn(at('Cost')).hidden, sheet.getColumn(at('Remark')).hidden]).toEqual([true, false]);
    expect([4, 5].map((row) => sheet.getRow(row).hidden)).toEqual([false, true]);
    expect(contacts.state).toBe('hidden');

    sheet.getCell(2, at('Verdict')).fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFFFC000' } };
    sheet.getCell(2, 1).note = 'Seen on Monday.';
    sheet.getCell(4, at('Remark')).fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFF2F2F2' } };
    sheet.getColumn(at('Area')).width = 40;
    // Somebody writes above what the program says of the column.
    const width = sheet.getCell(1, at('Width (mm)'));
    const said =
      typeof width.note === 'string' ? width.note : (width.note.texts ?? []).map(({ text }) => text).join('');
    width.note = `Ask the foreman.\n\n${said.replace('Measured across the belt.', '').trim()}`;
    const after = imported(new Uint8Array(await file.xlsx.writeBuffer()));
    expect(looks(after.state, 'Belts')).toMatchObject({
      '0 Verdict': { fill: 'FFC000' },
      '0 Belt': { comment: 'Seen on Monday.' },
      '2 Remark': { fill: 'F2F2F2' },
      '1 Belt': { comment: 'To be replaced in the spring stop.' },
    });
    expect(after.state.look?.layouts['Belts']?.widths).toMatchObject({ Area: 280, Belt: 98 });
    expect(after.state.look?.layouts['Belts']?.comments).toEqual({ Width: 'Ask the foreman.' });
    expect(after.report.notKept).toEqual([]);
  });
});

test('rows and columns that stay in view come along from either kind of file', async () => {
  const file = new ExcelJS.Workbook();
  const sheet = file.addWorksheet('Notes', { views: [{ state: 'frozen', xSplit: 2, ySplit: 3 }] });
  sheet.addRows([
    ['a', 'b', 'c'],
    [1, 2, 3],
    [4, 5, 6],
    [7, 8, 9],
  ]);
  file.addWorksheet('Belts').addRows([
    ['Belt', 'Width (mm)', 'Thickness (mm)'],
    ['B1', 800, 10],
  ]);
  const frozen = imported(new Uint8Array(await file.xlsx.writeBuffer())).state.look?.layouts['Notes'];
  expect(frozen).toMatchObject({ frozen: 2, frozenRows: 3 });

  const parts = unzipSync(bytesOf('coloured-open.ods'));
  const item = (name: string, value: number): string =>
    `<config:config-item config:name="${name}" config:type="short">${value}</config:config-item>`;
  const settings =
    '<office:document-settings xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" ' +
    'xmlns:config="urn:oasis:names:tc:opendocument:xmlns:config:1.0"><office:settings>' +
    '<config:config-item-map-entry config:name="Contacts">' +
    `${item('HorizontalSplitMode', 2)}${item('VerticalSplitMode', 2)}` +
    `${item('HorizontalSplitPosition', 1)}${item('VerticalSplitPosition', 2)}` +
    '</config:config-item-map-entry></office:settings></office:document-settings>';
  const open = imported(zipSync({ ...parts, 'settings.xml': strToU8(settings) }));
  expect(open.state.look?.layouts['Contacts']).toMatchObject({ frozen: 1, frozenRows: 2 });
});

test('what stands beside the cells is passed over where it is damaged, and told', () => {
  const parts = unzipSync(bytesOf('coloured.xlsx'));
  const comments = Object.keys(parts).filter((path) => /comments\d*\.xml$/.test(path));
  expect(comments.length).toBeGreaterThan(0);
  const damaged = Object.fromEntries(
    Object.entries(parts).map(([path, part]) => [
      path,
      comments.includes(path) || path.includes('theme') ? strToU8(strFromU8(part).slice(0, 300)) : part,
    ]),
  );
  const { state, report } = imported(zipSync(damaged));
  expect(sheetOf(state, 'Belts').rows).toHaveLength(4);
  expect(report.notKept).toContainEqual(expect.stringMatching(/^comments: 2 \(Belts, Contacts\)$/));
});

test('the views and widths that the open book has stay when a list comes', () => {
  const base = emptyBook('metric');
  const layout = { ...firstLayout('Belts'), widths: { Area: 333 } };
  const look = { layouts: { Belts: layout }, views: [{ sheet: 'Belts', name: 'Mine', layout }] };
  const { state } = imported(bytesOf('coloured.xlsx'), { ...base, look });
  expect(state.look?.views.map(({ name }) => name)).toEqual(['Mine', listViewName]);
  expect(state.look?.layouts['Belts']?.widths).toMatchObject({ Area: 333, Belt: 98 });
});
