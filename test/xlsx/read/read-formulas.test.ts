import { readFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formulaPieces, movedFormula, typedFormula } from '../../../src/xlsx/read/formula-text.ts';
import type { RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { cellsOf, madeFile, onlySheet, readRows } from './made-book.ts';

const sharedTexts = [
  'A2*$B2+A$1-$B$1',
  "SUM('Other list'!A2:B3)+SUM($A:B)",
  'IF(LOG10(A2)>1,"A2 ""B3""",SUM(2:3))',
  'SUM($A$1:A2)*100000+SUM($2:2)',
  '$A2&"x"&A2%',
];

/** Rows 2 to 5 of five pairs of columns; each pair shares one formula. */
function sharedFile(): Uint8Array {
  const pairs = [
    ['D', 'E'],
    ['G', 'H'],
    ['J', 'K'],
    ['M', 'N'],
    ['P', 'Q'],
  ] as const;
  const cells = (row: number): string =>
    pairs
      .map(([left, right], id) => {
        const text = (sharedTexts[id] ?? '').replaceAll('&', '&amp;').replaceAll('>', '&gt;');
        const first =
          row === 2 ? `<f t="shared" si="${id}" ref="${left}2:${right}5">${text}</f>` : `<f t="shared" si="${id}"/>`;
        return `<c r="${left}${row}">${first}<v>0</v></c><c r="${right}${row}"><f t="shared" si="${id}"/><v>0</v></c>`;
      })
      .join('');
  return madeFile({
    sheets: [
      { name: 'List', rows: [2, 3, 4, 5].map((row) => `<row r="${row}">${cells(row)}</row>`).join('') },
      { name: 'Other list' },
    ],
  });
}

const moved = (text: string, down: number, right: number): string => movedFormula(formulaPieces(text), down, right);

describe('a formula moved one down and two right', () => {
  test.each([
    ['A1', 'C2'],
    ['$A1+A$1+$A$1', '$A2+C$1+$A$1'],
    ['SUM(A1:B2,$C$3:D4)', 'SUM(C2:D3,$C$3:F5)'],
    ['a1*2', 'C2*2'],
    ['Z9+AZ9+ZZ9', 'AB10+BB10+AAB10'],
    ['SUM(A:A)+SUM($B:C)', 'SUM(C:C)+SUM($B:E)'],
    ['SUM(1:1)+SUM($2:3)', 'SUM(2:2)+SUM($2:4)'],
    ['Belts!A1+Belts!$A$1', 'Belts!C2+Belts!$A$1'],
    ["'A1 it''s B2'!A1", "'A1 it''s B2'!C2"],
    ["'C:C'!C:C", "'C:C'!E:E"],
    ['"A1 ""B2"" C3"&A1', '"A1 ""B2"" C3"&C2'],
    ['LOG10(A1)+ATAN2(A1,B1)', 'LOG10(C2)+ATAN2(C2,D2)'],
    ['AB1!A1', 'AB1!C2'],
    ['Jan:Mar!A1', 'Jan:Mar!C2'],
    ['[1]Sheet1!A1', '[1]Sheet1!C2'],
    ["'[1]A1'!A1", "'[1]A1'!C2"],
    ['Table1[A1]+Table1[[#This Row],[B2]]+A1', 'Table1[A1]+Table1[[#This Row],[B2]]+C2'],
    ["Table1[It']s A1]+A1", "Table1[It']s A1]+C2"],
    ['A1_rate+_A1+x.A1+A1.x+Größe1', 'A1_rate+_A1+x.A1+A1.x+Größe1'],
    ['1E5+1.5E-3+2e3', '1E5+1.5E-3+2e3'],
    ['IF(TRUE,A1,#REF!)', 'IF(TRUE,C2,#REF!)'],
    ['A1#', 'C2#'],
    ['@A1:A9', '@C2:C10'],
    ['A1%*-B2^2', 'C2%*-D3^2'],
    ['XFE1+A1048577+A0', 'XFE1+A1048577+A0'],
    ['XFD1', '#REF!'],
    ['A1048576+A1', '#REF!+C2'],
    ['{1,2;3,4}*A1', '{1,2;3,4}*C2'],
    ['A1 B2', 'C2 D3'],
    ['"unfinished A1', '"unfinished A1'],
    ["'unfinished A1", "'unfinished A1"],
    ['Table1[unfinished A1', 'Table1[unfinished A1'],
  ])('%s', (text, expected) => expect(moved(text, 1, 2)).toBe(expected));

  test('moved up or left beyond the sheet it is a fault, unless a dollar holds it', () => {
    expect(moved('A1+$A1+A$1+SUM(A:A)+SUM(1:2)', -1, 0)).toBe('#REF!+#REF!+A$1+SUM(A:A)+SUM(#REF!:1)');
    expect(moved('A1+$A1+B$1', 0, -1)).toBe('#REF!+$A1+A$1');
  });
});

test('prefixes of newer functions go, but not out of texts, quotes or the middle of names', () => {
  expect(typedFormula('_xlfn.XLOOKUP(A1,B:B,C:C)+_xlfn._xlws.SORT(A1:A9)')).toBe('XLOOKUP(A1,B:B,C:C)+SORT(A1:A9)');
  expect(typedFormula('_xlfn.LET(_xlpm.x,A1,_xlpm.x*2)')).toBe('LET(x,A1,x*2)');
  expect(typedFormula(`"_xlfn.A"&'_xlfn.B'!A1&my_xlfn.C&_XLFN.D()`)).toBe(`"_xlfn.A"&'_xlfn.B'!A1&my_xlfn.C&D()`);
});

test('moving a formula there and back gives the same formula', () => {
  const reference = fc
    .tuple(
      fc.constantFrom('', '$'),
      fc.constantFrom('D', 'AA', 'XCZ'),
      fc.constantFrom('', '$'),
      fc.integer({ min: 60, max: 1_000_000 }),
    )
    .map((parts) => parts.join(''));
  const token = fc.oneof(
    reference,
    fc.constantFrom(
      '+',
      '(',
      ')',
      ',',
      ' ',
      '"D60"',
      "'D 60'!",
      'Sheet1!',
      'SUM(',
      '1.5',
      '#REF!',
      'T[D60]',
      'D:F',
      '70:80',
      ':',
      '&',
      'name_1',
    ),
  );
  fc.assert(
    fc.property(
      fc.array(token, { maxLength: 20 }),
      fc.integer({ min: 0, max: 50 }),
      fc.integer({ min: 0, max: 50 }),
      (tokens, down, right) => {
        const text = tokens.join('+');
        expect(moved(moved(text, down, right), -down, -right)).toBe(text);
        expect(moved(text, 0, 0)).toBe(text);
      },
    ),
    { numRuns: 300 },
  );
}, 60_000);

const letter = fc.constantFrom(
  ...'ABZaz_09$:!.,;"\'[](){}#@%&*+-<>=^\\? \n\0éßЖ中',
  '😀',
  '\ud800',
  '\u2028',
  '_xlfn.',
  'A1',
  '$B$2',
  "''",
  '""',
);

test('any text at all comes apart and together unchanged, save letters of references and prefixes', () => {
  fc.assert(
    fc.property(fc.string({ unit: letter, maxLength: 60 }), (text) => {
      expect(moved(text, 0, 0).toUpperCase()).toBe(typedFormula(text).toUpperCase());
      if (!/\d|_xl/i.test(text)) expect(moved(text, 0, 0).toUpperCase()).toBe(text.toUpperCase());
    }),
    { numRuns: 400 },
  );
}, 60_000);

describe('formulas in a sheet', () => {
  const formulas = (rows: string): unknown[] =>
    [...readRows(rows)].map(([address, { formula, value }]) => [address, formula, value]);

  test('a shared formula is written out for each cell, with dollars, sheets and texts kept', () => {
    expect(
      formulas(
        '<row r="2"><c r="B2"><f t="shared" ref="B2:C4" si="0">$A2*B$1+Other!A1&amp;"A1"</f><v>1</v></c><c r="C2"><f ' +
          't="shared" si="0"/><v>2</v></c></row>' +
          '<row r="4"><c r="C4"><f t="shared" si="0"></f><v>3</v></c></row>',
      ),
    ).toEqual([
      ['B2', '$A2*B$1+Other!A1&"A1"', 1],
      ['C2', '$A2*C$1+Other!B1&"A1"', 2],
      ['C4', '$A4*C$1+Other!B3&"A1"', 3],
    ]);
  });

  test('a cell may come before the one that defines what it shares', () => {
    expect(
      formulas(
        '<row r="1"><c r="A1"><f t="shared" si="3"/><v>1</v></c></row><row r="2"><c r="A2"><f t="shared" ref="A1:A2" ' +
          'si="3">B2+$B$9</f><v>2</v></c></row>',
      ),
    ).toEqual([
      ['A1', 'B1+$B$9', 1],
      ['A2', 'B2+$B$9', 2],
    ]);
  });

  test('a shared formula that nobody defines leaves the value', () => {
    expect(formulas('<row r="1"><c r="A1"><f t="shared" si="3"/><v>1</v></c></row>')).toEqual([['A1', undefined, 1]]);
  });

  test('text of its own counts in a cell that shares, and an id may be defined anew', () => {
    expect(
      formulas(
        '<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">B1</f></c><c r="C1"><f t="shared" ' +
          'si="0">Z1</f></c></row><row r="2"><c r="A2"><f t="shared" si="0"/></c></row>' +
          '<row r="3"><c r="A3"><f t="shared" ref="A3:A4" si="0">_xlfn.SEC(C3)</f></c></row><row r="4"><c r="A4"><f ' +
          't="shared" si="0"/></c></row>',
      ),
    ).toEqual([
      ['A1', 'B1', null],
      ['C1', 'Z1', null],
      ['A2', 'B2', null],
      ['A3', 'SEC(C3)', null],
      ['A4', 'SEC(C4)', null],
    ]);
  });

  test('an array formula stands on its first cell, a data table has none, an equals sign is left out', () => {
    expect(
      formulas(
        '<row r="1"><c r="A1"><f t="array" ref="A1:A2">B1:B2*2</f><v>4</v></c><c r="C1"><f t="dataTable" ref="C1:C2" ' +
          'dt2D="0" r1="B1"/><v>5</v></c><c r="D1"><f ca="1">=NOW()</f></c></row><row r="2"><c ' +
          'r="A2"><v>6</v></c></row>',
      ),
    ).toEqual([
      ['A1', 'B1:B2*2', 4],
      ['C1', undefined, 5],
      ['D1', 'NOW()', null],
      ['A2', undefined, 6],
    ]);
  });

  test('shared formulas read as LibreOffice writes them out', () => {
    const ours = readBook(sharedFile()).sheets[0];
    // Converted by LibreOffice from this same file; it gives every cell a formula of its own.
    const theirs = readBook(readFileSync(new URL('../files/shared-written-out.xlsx', import.meta.url))).sheets[0];
    if (!ours || !theirs) throw new Error('a first sheet expected');
    const texts = (sheet: RawSheet): unknown[] =>
      [...cellsOf(sheet)].map(([address, { formula }]) => [address, formula]);
    expect(texts(ours)).toHaveLength(40);
    expect(texts(ours)).toEqual(texts(theirs));
  });

  test("ExcelJS's shared formulas read as its own translation of them", async () => {
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Belts');
    sheet.fillFormula('C2:E20', 'IF($A2>0,B2*B$1/SUM($B$1:B2),"wide")', (row, column) => row * 100 + column);
    const bytes = new Uint8Array(await book.xlsx.writeBuffer());
    const cells = cellsOf(onlySheet(readBook(bytes)));
    expect(cells.size).toBe(57);
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        expect(cells.get(cell.address)).toMatchObject({ formula: cell.formula, value: cell.result });
      }),
    );
  });
});
