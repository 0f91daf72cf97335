import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import type { UnreadableReason } from '../../../src/xlsx/read/unreadable-file.ts';
import { type MadeBook, type MadeSheet, madeFile, madeParts, transitional, worksheet } from './made-book.ts';
import { asOne, refused, sheetFile } from './refusals.ts';

describe('addresses off the sheet', () => {
  test.each<[string, MadeSheet, RegExp]>([
    [
      'row 900,000,000',
      { rows: '<row r="900000000"><c><v>1</v></c></row>' },
      asOne(
        /Row number "900000000" \(sheet "Sheet1"\) is not on a sheet: /,
        /rows go from 1 to 1,048,576 and columns from A to XFD/,
      ),
    ],
    ['row 0', { rows: '<row r="4"/><row r="0"/>' }, /Row number "0" \(sheet "Sheet1", row 4\)/],
    ['row -1', { rows: '<row r="-1"/>' }, /Row number "-1"/],
    ['row 1e3', { rows: '<row r="1e3"/>' }, /Row number "1e3"/],
    [
      'a row after the last',
      { rows: '<row r="1048576"/><row/>' },
      /Row 1,048,577, column 1 \(sheet "Sheet1", row 1,048,576\)/,
    ],
    [
      'column ZZZZ',
      { rows: '<row r="8"><c r="ZZZZ8"><v>1</v></c></row>' },
      /Cell address "ZZZZ8" \(sheet "Sheet1", row 8\).*columns from A to XFD.*save it again as \.xlsx/s,
    ],
    ['column XFE', { rows: '<row r="8"><c r="XFE8"/></row>' }, /Cell address "XFE8"/],
    ['a cell after the last column', { rows: '<row r="8"><c r="XFD8"/><c/></row>' }, /Row 8, column 16,385/],
    ['no address', { rows: '<row r="8"><c r=""/></row>' }, /Cell address ""/],
    ['letters alone', { rows: '<row r="8"><c r="A"/></row>' }, /Cell address "A"/],
    ['row 0 in a cell', { rows: '<row r="8"><c r="A0"/></row>' }, /Cell address "A0"/],
    ['row 1048577 in a cell', { rows: '<row r="8"><c r="A1048577"/></row>' }, /Cell address "A1048577"/],
    [
      'a merged area to ZZZZ',
      { after: '<mergeCells><mergeCell ref="A1:ZZZZ9"/></mergeCells>' },
      /Cell address "ZZZZ9" \(merged area of sheet "Sheet1"\)/,
    ],
    [
      'a merged area of three corners',
      { after: '<mergeCells><mergeCell ref="A1:B2:C3"/></mergeCells>' },
      /Cell address "A1:B2:C3"/,
    ],
    ['a merged area of nothing', { after: '<mergeCells><mergeCell/></mergeCells>' }, /Cell address ""/],
  ])('%s', (_name, sheet, words) => refused(sheetFile(sheet), 'outside the sheet', words));
});

describe('bad XML', () => {
  const part = (content: string): Uint8Array => sheetFile({ part: content });
  test.each<[string, Uint8Array, UnreadableReason, RegExp]>([
    [
      'a document type with entities in entities',
      part(
        `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;"><!ENTITY c ` +
          `"&b;&b;&b;&b;">]>${worksheet('<sheetData><row><c ' + 't="str"><v>&c;' + '</v></c></row></sheetData>')}`,
      ),
      'document type',
      /declares a document type in part xl\/worksheets\/sheet1\.xml, line 1/,
    ],
    [
      'a document type that names a file',
      part('<!DOCTYPE x SYSTEM "file:///etc/hosts"><x/>'),
      'document type',
      /document type.*workbook files have none/s,
    ],
    [
      'an entity of nothing',
      part(worksheet('<sheetData><row r="3"><c r="B3" t="str"><v>&rho;</v></c></row></sheetData>')),
      'malformed xml',
      asOne(
        /part xl\/worksheets\/sheet1\.xml, line 1, character \d+ \(sheet "Sheet1", cell B3\) is not well-formed XML /,
        /\(.*entity.*save it again/,
      ),
    ],
    [
      'an end too early',
      part(worksheet('<sheetData>\n<row r="12">\n').replace('</worksheet>', '')),
      'malformed xml',
      /line 3, character 0 \(sheet "Sheet1", row 12\) is not well-formed XML \(unclosed tag: row\)/,
    ],
    [
      'a wrong end',
      part('<worksheet><sheetData></worksheet>'),
      'malformed xml',
      /unexpected close tag|unclosed tag|unmatched/i,
    ],
    ['an attribute twice', part('<worksheet a="1" a="2"/>'), 'malformed xml', /duplicate attribute/],
    [
      'a control character',
      part(worksheet('<sheetData><row><c t="str"><v>\u0001</v></c></row></sheetData>')),
      'malformed xml',
      /disallowed character/,
    ],
    ['nothing', part(''), 'malformed xml', /root element/],
    ['two roots', part('<worksheet/><worksheet/>'), 'malformed xml', /root/],
    ['text around the root', part('x<worksheet/>'), 'malformed xml', /text data outside of root/],
    [
      'nesting',
      part(worksheet('<a>'.repeat(1_000_000))),
      'malformed xml',
      /more than 64 deep.*part xl\/worksheets\/sheet1\.xml/s,
    ],
    [
      'bytes that are no UTF-8',
      madeFile({
        parts: {
          'xl/worksheets/sheet1.xml': Uint8Array.from([...strToU8('<worksheet a="'), 0xff, 0xc0, ...strToU8('"/>')]),
        },
      }),
      'unknown encoding',
      /sheet1\.xml holds bytes that are not UTF-8 text/,
    ],
    [
      'half a character at the end',
      madeFile({ parts: { 'xl/worksheets/sheet1.xml': Uint8Array.from([...strToU8('<worksheet/>'), 0xe2, 0x82]) } }),
      'unknown encoding',
      /not UTF-8 text/,
    ],
    [
      'an encoding that nobody knows',
      part('<?xml version="1.0" encoding="x-belt"?><worksheet/>'),
      'unknown encoding',
      /text encoding "x-belt"; UTF-8 and UTF-16 are read/,
    ],
    [
      'another root',
      part('<html xmlns="x"/>'),
      'part missing',
      /Sheet "Sheet1" should be in part xl\/worksheets\/sheet1\.xml, which holds no worksheet but "html"/,
    ],
    [
      'a root of a foreign prefix without a name',
      madeFile({ parts: { 'xl/workbook.xml': '<x:sheets xmlns:x="y"/>' } }),
      'not a workbook',
      /main part xl\/workbook\.xml is "sheets"/,
    ],
  ])('%s', (_name, file, reason, words) => refused(file, reason, words));
});

describe('references that lead nowhere', () => {
  test.each<[string, MadeBook, UnreadableReason, RegExp]>([
    [
      'a shared text that is not there',
      { sheets: [{ rows: '<row r="4"><c t="s"><v>1</v></c></row>' }], strings: '<si><t>a</t></si>' },
      'bad reference',
      /sheet "Sheet1", cell A4 names shared text "1", and the file holds 1\..*repair/s,
    ],
    [
      'no shared texts',
      { sheets: [{ rows: '<row><c t="s"><v>0</v></c></row>' }] },
      'bad reference',
      /names shared text "0", and the file holds 0/,
    ],
    [
      'a shared text by no number',
      { sheets: [{ rows: '<row><c t="s"><v>__proto__</v></c></row>' }] },
      'bad reference',
      /names shared text "__proto__"/,
    ],
    [
      'a sheet without a part',
      {
        parts: {
          'xl/_rels/workbook.xml.rels':
            '<Relationships><Relationship Id="s0" Type="x/worksheet" Target="worksheets/gone.xml"/></Relationships>',
        },
      },
      'part missing',
      /sheet "Sheet1" should be in part "xl\/worksheets\/gone\.xml", which is missing/,
    ],
    [
      'a sheet outside the file',
      {
        parts: {
          'xl/_rels/workbook.xml.rels':
            '<Relationships><Relationship Id="s0" Type="x/worksheet" Target="https://example.org/s.xml" ' +
            'TargetMode="External"/></Relationships>',
        },
      },
      'part missing',
      /\(outside the file\), which is missing/,
    ],
    [
      'a sheet that climbs out of the file',
      {
        parts: {
          'xl/_rels/workbook.xml.rels':
            '<Relationships><Relationship Id="s0" Type="x/worksheet" Target="../../../../etc/passwd"/></Relationships>',
        },
      },
      'part missing',
      /part "etc\/passwd", which is missing/,
    ],
    [
      'no relationships',
      { parts: { 'xl/_rels/workbook.xml.rels': '<Relationships/>' } },
      'part missing',
      /sheet "Sheet1" names no part/,
    ],
    [
      'texts without their part',
      {
        parts: {
          'xl/_rels/workbook.xml.rels':
            '<Relationships><Relationship Id="s0" Type="x/worksheet" Target="worksheets/sheet1.xml"/>' +
            '<Relationship Id="t" Type="x/sharedStrings" Target="gone.xml"/></Relationships>',
        },
      },
      'part missing',
      /the text of the cells should be in part "xl\/gone\.xml"/,
    ],
    [
      'formats without their part',
      {
        parts: {
          'xl/_rels/workbook.xml.rels':
            '<Relationships><Relationship Id="s0" Type="x/worksheet" Target="worksheets/sheet1.xml"/>' +
            '<Relationship Id="t" Type="x/styles" Target="gone.xml"/></Relationships>',
        },
      },
      'part missing',
      /the cell formats is|the cell formats/,
    ],
    [
      'a sheet without a name',
      { parts: { 'xl/workbook.xml': '<workbook xmlns:r="r"><sheets><sheet r:id="s0"/></sheets></workbook>' } },
      'bad reference',
      /sheet 1 in part xl\/workbook\.xml has no name/,
    ],
  ])('%s', (_name, book, reason, words) => refused(madeFile(book), reason, words));

  test('a package that names a workbook that is not there', () => {
    const rels =
      `<Relationships><Relationship Id="a" Type="${transitional.related}/officeDocument" ` +
      `Target="xl/workbook.xml"/></Relationships>`;
    refused(
      zipSync({ '_rels/.rels': strToU8(rels) }),
      'part missing',
      /the workbook should be in part "xl\/workbook\.xml", which is missing/,
    );
  });
});

test('names of the language itself, and parts outside their folders, do no harm', () => {
  const parts = madeParts({
    strings: '<si><t>__proto__</t></si>',
    names: '<definedName name="__proto__">constructor</definedName>',
    sheets: [{ name: 'constructor', rows: '<row><c t="s" __proto__="x"><v>0</v></c></row>' }],
  });
  const { sheets, names } = readBook(
    zipSync({ ...parts, '../../outside.txt': strToU8('x'), 'xl/__proto__': strToU8('x') }),
  );
  expect(sheets[0]?.name).toBe('constructor');
  expect(sheets[0]?.rows.get(1)).toEqual([{ row: 1, column: 1, value: '__proto__' }]);
  expect(names).toEqual([{ name: '__proto__', reference: 'constructor' }]);
  expect(Object.prototype).not.toHaveProperty('x');
});
