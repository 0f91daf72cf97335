import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import type { RawBook } from '../../../src/xlsx/read/raw-book.ts';
import {
  cellsOf,
  fileOfRows,
  madeFile,
  madeParts,
  onlySheet,
  readRows,
  refusalOf,
  strict,
  transitional,
} from './made-book.ts';
import { strToU8, zipSync } from 'fflate';

const committed = (name: string): RawBook => readBook(readFileSync(new URL(`../files/${name}`, import.meta.url)));

describe('positions', () => {
  test('cells and rows without an address follow the one before', () => {
    const cells = readRows(
      '<row><c><v>1</v></c><c><v>2</v></c></row><row r="5"><c ' +
        'r="C5"><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row>',
    );
    expect([...cells].map(([address, { value }]) => [address, value])).toEqual([
      ['A1', 1],
      ['B1', 2],
      ['C5', 3],
      ['D5', 4],
      ['A6', 5],
    ]);
  });

  test("a cell's own row counts, and unnamed rows go on from it", () => {
    const cells = readRows('<row><c r="A7"><v>1</v></c></row><row><c><v>2</v></c></row>');
    expect([...cells.keys()]).toEqual(['A7', 'A8']);
  });

  test('rows and cells out of order come back in order, and the last of duplicates counts', () => {
    const sheet = onlySheet(
      readBook(
        fileOfRows(
          '<row r="9"><c r="C9"><v>1</v></c><c r="A9"><v>2</v></c><c r="C9"><v>3</v></c><c ' +
            'r="C9"><v>6</v></c></row><row r="2"><c r="B2"><v>4</v></c></row><row r="9"><c r="B9"><v>5</v></c></row>',
        ),
      ),
    );
    expect([...sheet.rows.keys()]).toEqual([2, 9]);
    expect(sheet.rows.get(9)?.map(({ column, value }) => [column, value])).toEqual([
      [1, 2],
      [2, 5],
      [3, 6],
    ]);
    expect([sheet.lastRow, sheet.lastColumn]).toEqual([9, 3]);
  });

  test('of one cell given twice in a row, the last counts', () => {
    const cells = readRows('<row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c><c><v>3</v></c></row>');
    expect([...cells].map(([address, { value }]) => [address, value])).toEqual([
      ['A1', 2],
      ['B1', 3],
    ]);
  });

  test('the last row and column of a sheet are read, and cells of format alone are not filled', () => {
    const sheet = onlySheet(
      readBook(
        fileOfRows(
          '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row><row r="4"><c r="A4" s="1"/><c r="B4" t="s"/><c ' +
            'r="C4" t="inlineStr"><is><t/></is></c></row>',
        ),
      ),
    );
    expect([...sheet.rows.keys()]).toEqual([1_048_576]);
    expect([sheet.lastRow, sheet.lastColumn]).toEqual([1_048_576, 16_384]);
  });

  test('an empty sheet ends at 0', () => {
    expect(onlySheet(readBook(fileOfRows('')))).toEqual({
      name: 'Sheet1',
      hidden: false,
      rows: new Map(),
      merges: [],
      lastRow: 0,
      lastColumn: 0,
    });
  });
});

describe('values', () => {
  test('every type of cell', () => {
    const cells = readRows(
      '<row><c t="n"><v>1.5e3</v></c><c t="b"><v>1</v></c><c t="b"><v>false</v></c><c t="e"><v>#N/A</v></c><c ' +
        't="str"><v>text </v></c>' +
        '<c t="inlineStr"><is><t xml:space="preserve"> two </t></is></c><c t="s"><v>1</v></c><c ' +
        't="d"><v>2024-02-29</v></c><c><v> 7 </v></c></row>',
      { strings: '<si><t>zero</t></si><si><t>one</t></si>' },
    );
    expect([...cells.values()]).toEqual([
      { row: 1, column: 1, value: 1500 },
      { row: 1, column: 2, value: true },
      { row: 1, column: 3, value: false },
      { row: 1, column: 4, value: null, error: '#N/A' },
      { row: 1, column: 5, value: 'text ' },
      { row: 1, column: 6, value: ' two ' },
      { row: 1, column: 7, value: 'one' },
      { row: 1, column: 8, value: 45_351, date: true },
      { row: 1, column: 9, value: 7 },
    ]);
  });

  test.each(['12,5', '0x10', 'NaN', 'INF', '1e999', '1 000', '--1'])(
    'a number cell that holds %s keeps it as text',
    (text) => {
      expect(readRows(`<row><c><v>${text}</v></c></row>`).get('A1')).toEqual({ row: 1, column: 1, value: text });
    },
  );

  test('rich text is joined without the readings beside it, and spaces are kept', () => {
    const strings =
      '<si><r><rPr><b/></rPr><t xml:space="preserve">Belt </t></r><r><t>7</t></r><rPh sb="0" ' +
      'eb="1"><t>reading</t></rPh><phoneticPr fontId="1"/></si><si><t xml:space="preserve">  x\n</t></si><si><t/></si>';
    const cells = readRows(
      '<row><c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="s"><v>2</v></c><c ' +
        't="inlineStr"><is><r><t>a</t></r><r><t>b</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c></row>',
      { strings },
    );
    expect([...cells].map(([address, { value }]) => [address, value])).toEqual([
      ['A1', 'Belt 7'],
      ['B1', '  x\n'],
      ['D1', 'ab'],
    ]);
  });

  test('text keeps CDATA, references and comments between its pieces', () => {
    expect(readRows('<row><c t="str"><v>a&amp;b&#xe9;<!-- no --><![CDATA[<c>]]></v></c></row>').get('A1')?.value).toBe(
      'a&bé<c>',
    );
  });

  test('_x escapes are decoded once', () => {
    const cells = readRows(
      '<row><c t="s"><v>0</v></c><c t="str"><v>_x005F_x000D_</v></c><c t="str"><v>_x00_ _xyz1_</v></c><c ' +
        't="inlineStr"><is><t>_xD83D__xDE00_</t></is></c></row>',
      { strings: '<si><t>a_x000D_\nb</t></si>' },
    );
    expect([...cells.values()].map(({ value }) => value)).toEqual(['a\r\nb', '_x000D_', '_x00_ _xyz1_', '😀']);
  });

  test('a formula whose result is no text keeps an empty text, or nothing', () => {
    const cells = readRows('<row><c t="str"><f>IF(A9,"x","")</f><v></v></c><c><f>A9*2</f></c></row>');
    expect(cells.get('A1')).toEqual({ row: 1, column: 1, value: '', formula: 'IF(A9,"x","")' });
    expect(cells.get('B1')).toEqual({ row: 1, column: 2, value: null, formula: 'A9*2' });
  });

  test('a header __proto__ is a text like any other', () => {
    expect(readRows('<row><c t="inlineStr"><is><t>__proto__</t></is></c></row>').get('A1')?.value).toBe('__proto__');
  });

  test.each([
    ['1900-01-01', 1],
    ['1900-02-28', 59],
    ['1900-03-01', 61],
    ['2024-05-01T12:00:00', 45_413.5],
    ['2024-05-01T06:00:00.000Z', 45_413.25],
    ['18:00', 0.75],
  ])('an ISO date cell %s is serial %f', (text, serial) => {
    // The serials are those of a spreadsheet program; 29 February 1900 counts as a day (ECMA-376 Part 1, 18.17.4.1).
    expect(readRows(`<row><c t="d"><v>${text}</v></c></row>`).get('A1')).toEqual({
      row: 1,
      column: 1,
      value: serial,
      date: true,
    });
  });

  test.each(['2023-02-29', '2024-13-01', '1899-12-30', '25:00', 'soon', 'Z', '2024-05-01T12:00:00+02:00'])(
    'a date cell that holds %s keeps it as text',
    (text) => {
      expect(readRows(`<row><c t="d"><v>${text}</v></c></row>`).get('A1')).toEqual({ row: 1, column: 1, value: text });
    },
  );

  test('a text longer than programs hold is kept whole', () => {
    const long = 'x'.repeat(40_000);
    expect(readRows(`<row><c t="str"><v>${long}</v></c></row>`).get('A1')?.value).toBe(long);
  });
});

describe('formats', () => {
  const styles =
    '<numFmts count="2"><numFmt numFmtId="164" formatCode="0.0&quot; mm&quot;"/><numFmt numFmtId="165" ' +
    'formatCode="[$-407]dd\\.mm\\.yyyy"/></numFmts>' +
    '<cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf ' +
    'numFmtId="165"/><xf numFmtId="14"/><xf numFmtId="46"/><xf/><xf numFmtId="49"/><xf numFmtId="30"/></cellXfs>' +
    '<dxfs><dxf><numFmt numFmtId="164" formatCode="yyyy"/></dxf></dxfs>';
  const row =
    `<row>${[0, 1, 2, 3, 4, 5, 6, 7, 99].map((style) => `<c s="${style}"><v>10</v></c>`).join('')}<c ` +
    `s="3"><f>TODAY()</f></c><c s="3" t="str"><v>none</v></c><c s="3" t="e"><v>#N/A</v></c></row>`;

  test('a style number leads to the format, built in or of the file, and to dates', () => {
    const cells = [...readRows(row, { styles }).values()].map(({ format, date }) => [format, date]);
    expect(cells).toEqual([
      [undefined, undefined],
      ['0.0" mm"', undefined],
      ['[$-407]dd\\.mm\\.yyyy', true],
      ['mm-dd-yy', true],
      ['[h]:mm:ss', true],
      [undefined, undefined],
      ['@', undefined],
      ['yyyy-mm-dd', true],
      [undefined, undefined],
      ['mm-dd-yy', true],
      ['mm-dd-yy', undefined],
      ['mm-dd-yy', undefined],
    ]);
  });

  test.each(['1', 'true'])(
    'days from 1904 (%s) come back as days from 1900; times, texts and ISO dates as they are',
    (flag) => {
      const cells = readRows(row.replace('</row>', '<c s="2" t="d"><v>2024-02-29</v></c></row>'), {
        styles,
        properties: `<workbookPr date1904="${flag}"/>`,
      });
      expect([...cells.values()].map(({ value }) => value)).toEqual([
        10,
        10,
        1472,
        1472,
        10,
        10,
        10,
        1472,
        10,
        null,
        'none',
        null,
        45_351,
      ]);
    },
  );
});

describe('workbooks', () => {
  test('hidden sheets are marked, chart and macro sheets passed over', () => {
    const book = readBook(
      madeFile({
        sheets: [
          { name: 'Chart', type: 'chartsheet', part: '<chartsheet/>' },
          { name: 'A &amp; B', rows: '<row><c><v>1</v></c></row>' },
          { name: 'Hidden', attributes: 'state="hidden"' },
          { name: 'Very', attributes: 'state="veryHidden"' },
          { name: 'Macros', type: 'xlMacrosheet', part: '<xm:macrosheet xmlns:xm="x"/>' },
        ],
      }),
    );
    expect(book.sheets.map(({ name, hidden }) => [name, hidden])).toEqual([
      ['A & B', false],
      ['Hidden', true],
      ['Very', true],
    ]);
  });

  test('merged areas stay ranges; a single merged cell is none', () => {
    const after =
      '<mergeCells><mergeCell ref="A1:XFD1048576"/><mergeCell ref="C3"/><mergeCell ref="$D$9:b2"/></mergeCells>';
    expect(onlySheet(readBook(madeFile({ sheets: [{ after }] }))).merges).toEqual([
      { top: 1, left: 1, bottom: 1_048_576, right: 16_384 },
      { top: 2, left: 2, bottom: 9, right: 4 },
    ]);
  });

  test("names of the workbook are read; those of a sheet and the programs' own are not", () => {
    const names =
      '<definedName name="Friction">Sheet1!$B$2</definedName><definedName name="Local" ' +
      'localSheetId="0">Sheet1!$B$3</definedName><definedName name="_xlnm.Print_Area">Sheet1!$A$1</definedName>' +
      '<definedName name="Newest" hidden="1">_xlfn.XLOOKUP(1,Sheet1!$A:$A,Sheet1!$B:$B)</definedName><definedName ' +
      'name="Rate">0.3</definedName><definedName name="None"></definedName>';
    expect(readBook(madeFile({ names })).names).toEqual([
      { name: 'Friction', reference: 'Sheet1!$B$2' },
      { name: 'Newest', reference: 'XLOOKUP(1,Sheet1!$A:$A,Sheet1!$B:$B)' },
      { name: 'Rate', reference: '0.3' },
    ]);
  });

  const rows = '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><f>_xlfn.SUM(A2)</f><v>45351</v></c></row>';
  const strings = '<si><t>ü</t></si>';
  const styles = '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>';
  const expected = [
    { row: 1, column: 1, value: 'ü' },
    { row: 1, column: 2, value: 45_351, formula: 'SUM(A2)', format: 'mm-dd-yy', date: true },
  ];
  const cellsRead = (bytes: Uint8Array): unknown => onlySheet(readBook(bytes)).rows.get(1);

  test('the strict form of the standard reads like the transitional', () => {
    expect(cellsRead(fileOfRows(rows, { strings, styles }))).toEqual(expected);
    expect(cellsRead(fileOfRows(rows, { strings, styles, namespaces: strict }))).toEqual(expected);
  });

  test('prefixed elements read like plain ones, and foreign elements of the same name are passed over', () => {
    const prefixed = (xml: string): string =>
      xml
        .replace(/<(\/?)(?=\w)/g, '<$1x:')
        .replace(/ xmlns=/g, ' xmlns:x=')
        .replace(/<x:(workbook|worksheet|sst|styleSheet)/, '<x:$1 xmlns:y="urn:other"');
    const parts = madeParts({ sheets: [{ rows }], strings, styles });
    for (const path of [
      'xl/workbook.xml',
      'xl/worksheets/sheet1.xml',
      'xl/sharedStrings.xml',
      'xl/styles.xml',
      '_rels/.rels',
    ]) {
      parts[path] = strToU8(prefixed(new TextDecoder().decode(parts[path])));
    }
    const sheet = new TextDecoder().decode(parts['xl/worksheets/sheet1.xml']);
    parts['xl/worksheets/sheet1.xml'] = strToU8(
      sheet.replace('</x:row>', '<y:c r="C1"><y:v>9</y:v></y:c><c r="D1"><v>8</v></c></x:row>'),
    );
    expect(cellsRead(zipSync(parts))).toEqual(expected);
  });

  const utf16 = (text: string, big: boolean, mark: boolean): Uint8Array => {
    const bytes = new Uint8Array((text.length + 1) * 2);
    const view = new DataView(bytes.buffer);
    [...`\uFEFF${text}`].forEach((letter, index) => view.setUint16(index * 2, letter.charCodeAt(0), !big));
    return bytes.subarray(mark ? 0 : 2);
  };
  const declared = (encoding: string, text: string): string => `<?xml version="1.0" encoding="${encoding}"?>${text}`;
  const sharedPart = `<sst xmlns="${transitional.main}">${strings}</sst>`;

  test.each([
    ['UTF-8 with a mark', strToU8(`\uFEFF${declared('utf-8', sharedPart)}`)],
    ['UTF-16, little end first', utf16(declared('UTF-16', sharedPart), false, true)],
    ['UTF-16, big end first', utf16(declared('utf-16', sharedPart), true, true)],
    ['UTF-16 without a mark', utf16(declared('UTF-16', sharedPart), true, false)],
    ['UTF-16, little end first, without a mark', utf16(declared('UTF-16', sharedPart), false, false)],
    ['UTF-8 that claims UTF-16', strToU8(declared('utf-16', sharedPart))],
    ['Latin 1', Uint8Array.from(declared('ISO-8859-1', sharedPart), (letter) => letter.charCodeAt(0))],
  ])('a part in %s', (_name, part) => {
    expect(cellsRead(fileOfRows(rows, { strings, styles, parts: { 'xl/sharedStrings.xml': part } }))).toEqual(expected);
  });

  test('parts are found by relationships: absolute, relative with dots, in another case, with \\, escaped', () => {
    const made = madeParts({ sheets: [{ rows }], strings, styles });
    const part = (path: string): Uint8Array => made[path] ?? new Uint8Array();
    const related = transitional.related;
    const parts = {
      '_RELS/.rels': strToU8(
        `<Relationships><Relationship Id="a" Type="${related}/officeDocument" Target="/Odd/Book.xml"/></Relationships>`,
      ),
      'odd/book.xml': part('xl/workbook.xml'),
      'odd/_rels/book.xml.rels': strToU8(
        `<Relationships><Relationship Id="s0" Type="${related}/worksheet" ` +
          `Target="../Sheets\\Belt%20list.xml"/><Relationship Id="p" Type="${related}/styles" ` +
          `Target="/Odd/./STYLES.xml"/>` +
          `<Relationship Id="q" Type="${related}/sharedStrings" Target="texts.xml"/><Relationship Id="x" ` +
          `Type="${related}/hyperlink" Target="https://example.org/" TargetMode="External"/></Relationships>`,
      ),
      'sheets\\belt list.xml': part('xl/worksheets/sheet1.xml'),
      'odd/styles.xml': part('xl/styles.xml'),
      'odd/texts.xml': part('xl/sharedStrings.xml'),
      '../../elsewhere.txt': strToU8('never unpacked'),
    };
    expect(cellsRead(zipSync(parts))).toEqual(expected);
  });

  test('stored parts read like deflated ones', () => {
    expect(cellsRead(madeFile({ sheets: [{ rows }], strings, styles }, 0))).toEqual(expected);
  });

  test('a view into a larger buffer reads like the file alone', () => {
    const bytes = fileOfRows(rows, { strings, styles });
    const larger = new Uint8Array(bytes.length + 100).fill(0x50);
    larger.set(bytes, 50);
    expect(cellsRead(larger.subarray(50, 50 + bytes.length))).toEqual(expected);
    expect(cellsRead(Buffer.from(bytes))).toEqual(expected);
  });

  test('a table of a data library: addresses, t="n", inline texts, no styles', () => {
    const table =
      '<row r="1"><c r="A1" t="inlineStr"><is><t>belt</t></is></c><c r="B1" ' +
      't="inlineStr"><is><t>width</t></is></c></row>' +
      '<row r="2"><c r="A2" t="inlineStr"><is><t>B-1</t></is></c><c r="B2" t="n"><v>1200</v></c></row><row r="3"><c ' +
      'r="A3" t="inlineStr"><is><t>B-2</t></is></c><c r="B3" t="n"/></row>';
    expect([...readRows(table)].map(([address, { value }]) => [address, value])).toEqual([
      ['A1', 'belt'],
      ['B1', 'width'],
      ['A2', 'B-1'],
      ['B2', 1200],
      ['A3', 'B-2'],
    ]);
  });
});

describe('files written by LibreOffice', () => {
  test('a list with a merged title, dates, times, formulas, an array formula and decimal commas', () => {
    const { sheets, names } = committed('belts-tern-quay.xlsx');
    const [belts, kept] = sheets;
    if (!belts || !kept) throw new Error('two sheets expected');
    expect(sheets.map(({ name, hidden }) => [name, hidden])).toEqual([
      ['Shed 2', false],
      ['Kept & hidden', true],
    ]);
    expect(names).toEqual([{ name: 'Friction', reference: "'Shed 2'!$E$4" }]);
    expect(belts.merges).toEqual([{ top: 1, left: 1, bottom: 1, right: 7 }]);
    expect([...belts.rows.keys()]).toEqual([1, 3, 4, 5, 6, 7, 9, 10]);
    expect([belts.lastRow, belts.lastColumn]).toEqual([10, 7]);
    const cells = cellsOf(belts);
    expect(cells.get('A1')?.value).toBe('Invented belts of Tern Quay, shed 2');
    expect(belts.rows.get(3)?.map(({ value }) => value)).toEqual([
      'Belt',
      'Width [mm]',
      'Thickness',
      'Fitted on',
      'Skew',
      'Length along the cut',
      'Runs since',
    ]);
    expect(cells.get('A6')?.value).toBe('TQ-03 <spare>');
    expect(cells.get('A7')?.value).toBe('Förderband 4');
    expect(cells.get('C7')).toEqual({ row: 7, column: 3, value: ' 8,0 ' });
    expect(cells.get('B4')).toEqual({ row: 4, column: 2, value: 1000, format: '0" mm"' });
    // 14 March 2023 and 29 February 2024; 36525 is 31 December 1999.
    expect(cells.get('D4')).toEqual({ row: 4, column: 4, value: 44_999, format: 'dd\\.mm\\.yyyy', date: true });
    expect(cells.get('D6')?.value).toBe(36_525);
    expect(cells.get('D9')).toEqual({
      row: 9,
      column: 4,
      value: 45_351,
      formula: 'MAX(D4:D7)',
      format: 'dd\\.mm\\.yyyy',
      date: true,
    });
    expect(cells.get('G5')).toMatchObject({ format: '[hh]:mm', date: true });
    expect(cells.get('G5')?.value).toBeCloseTo(30.25 / 24, 10);
    expect(cells.get('F4')?.formula).toBe('B4/COS(RADIANS(E4))');
    expect(cells.get('F4')?.value).toBeCloseTo(1000 / Math.cos(Math.PI / 6), 9);
    expect(cells.get('F9')).toEqual({ row: 9, column: 6, value: 85_650, formula: 'SUMPRODUCT(B4:B7,E4:E7)' });
    expect(cells.get('G9')?.value).toBe(true);
    expect(cells.get('B10')).toEqual({ row: 10, column: 2, value: null, error: '#DIV/0!', formula: 'B4/0' });
    expect(cells.get('C10')).toEqual({
      row: 10,
      column: 3,
      value: 'wide, "ok"',
      formula: 'IF(B4>5,"wide, ""ok""","")',
    });
    expect([...cellsOf(kept)].map(([address, { value, formula }]) => [address, value, formula])).toEqual([
      ['A1', 'first\nsecond', undefined],
      ['B1', 2000, "'Shed 2'!B4*2"],
      ['C1', 2000, "'Shed 2'!B4:B5*2"],
      ['C2', 2400, undefined],
    ]);
  });

  test('a list that came from text with semicolons keeps decimal commas and dates as text', () => {
    const sheet = onlySheet(committed('belts-semicolons.xlsx'));
    expect(sheet.name).toBe('belts-semicolons');
    expect([sheet.lastRow, sheet.lastColumn]).toEqual([13, 4]);
    expect(sheet.rows.get(1)?.map(({ value }) => value)).toEqual(['Belt', 'Width mm', 'Thickness mm', 'Fitted']);
    expect(sheet.rows.get(13)?.map(({ value }) => value)).toEqual(['GQ-11', 1350, '19,5', '12.03.2023']);
  });

  test('a workbook that counts days from 1904', () => {
    const cells = onlySheet(committed('days-from-1904.xlsx')).rows.get(1) ?? [];
    expect(cells[1]).toEqual({ row: 1, column: 2, value: 45_351, format: 'yyyy\\-mm\\-dd', date: true });
    expect(cells[2]?.value).toBeCloseTo(30.25 / 24, 10);
    expect(cells[3]).toEqual({ row: 1, column: 4, value: 1000 });
  });

  test('of their sources a flat file is no workbook, and a text is read as it is', () => {
    const source = (name: string): Uint8Array => readFileSync(new URL(`../files/${name}`, import.meta.url));
    expect(refusalOf(source('belts-tern-quay.fods')).message).toMatch(
      /not an \.xlsx.*flat OpenDocument.*save it as \.xlsx/s,
    );
    expect(readBook(source('belts-semicolons.csv')).text).toMatchObject({ delimiter: 'semicolons' });
  });
});

test.each([false, true])('a text of two bytes a letter without a mark is read, big end first: %s', (big) => {
  const little = Buffer.from('Belt;Width (mm)\nF1;800\nFörderer;1000\n', 'utf16le');
  const { sheets, text } = readBook(new Uint8Array(big ? little.swap16() : little));
  expect(text).toMatchObject({ encoding: 'UTF-16', delimiter: 'semicolons' });
  expect(sheets[0]?.rows.get(3)?.map(({ value }) => value)).toEqual(['Förderer', 1000]);
});
