import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { type ReadLimits, readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { UnreadableFile } from '../../../src/xlsx/read/unreadable-file.ts';
import { fileOfRows, type MadeBook, type MadeSheet, madeFile, madeParts, onlySheet, worksheet } from './made-book.ts';
import { asOne, good, readSheet, refused, sheetFile } from './refusals.ts';

/** Milliseconds for tests whose files take longer to make than to refuse. */
const patiently = 180_000;
const limited = (some: Partial<ReadLimits>): ReadLimits => ({ ...readLimits, ...some });

const letters = (column: number): string =>
  (column > 26 ? letters(Math.floor((column - 1) / 26)) : '') + String.fromCharCode(65 + ((column - 1) % 26));

describe('too much of something', () => {
  test(
    'a text of 200 MB in a file of 200 kB',
    () => {
      const bomb = madeFile({
        parts: {
          'xl/worksheets/sheet1.xml': worksheet(
            `<sheetData><row><c t="str"><v>${'x'.repeat(200_000_000)}</v></c></row></sheetData>`,
          ),
        },
      });
      expect(bomb.length).toBeLessThan(300_000);
      refused(
        bomb,
        'too large inside',
        /sheet1\.xml unpacks from 0\.2 MiB to 190\.7 MiB.*at most 400 times.*save it again as \.xlsx/s,
      );
      const before = process.memoryUsage().rss;
      refused(
        bomb,
        'text too long',
        asOne(
          /longer than 4,194,304 characters in part xl\/worksheets\/sheet1\.xml, line 1.*/,
          /sheet "Sheet1", cell A1.*32,767/,
        ),
        limited({ ratio: Infinity }),
      );
      expect(process.memoryUsage().rss - before).toBeLessThan(200 * 1024 * 1024);
    },
    patiently,
  );

  test.each<[string, MadeBook, RegExp]>([
    [
      'one shared text',
      { strings: `<si><t>${'x'.repeat(1_100_000)}</t></si>` },
      /longer than 1,048,576 characters at shared text 1 of part xl\/sharedStrings\.xml; a cell holds at most 32,767/,
    ],
    [
      'many runs of one text',
      { strings: `<si>${`<r><t>${'x'.repeat(1000)}</t></r>`.repeat(1100)}</si>` },
      /longer than 1,048,576 characters at shared text 1/,
    ],
    [
      'a cell',
      { sheets: [{ rows: `<row r="3"><c t="str"><v>${'x'.repeat(1_100_000)}</v></c></row>` }] },
      /longer than 1,048,576 characters at sheet "Sheet1", cell A3/,
    ],
    [
      'an inline text',
      { sheets: [{ rows: `<row><c t="inlineStr"><is><t>${'x'.repeat(1_100_000)}</t></is></c></row>` }] },
      /longer than 1,048,576 characters at sheet "Sheet1", cell A1/,
    ],
    [
      'a formula',
      { sheets: [{ rows: `<row r="2"><c><f>1${'+1'.repeat(40_000)}</f></c></row>` }] },
      /formula at sheet "Sheet1", cell A2 is longer than 65,536 characters; spreadsheet programs hold 8,192/,
    ],
    [
      'a defined name',
      { names: `<definedName name="Long">1${'+1'.repeat(600_000)}</definedName>` },
      /longer than 1,048,576 characters at defined name Long/,
    ],
    [
      'an attribute',
      { sheets: [{ before: `<sheetPr codeName="${'x'.repeat(5_000_000)}"/>` }] },
      /One text or tag is longer than 4,194,304 characters in part xl\/worksheets\/sheet1\.xml/,
    ],
    [
      'attributes',
      {
        sheets: [
          { before: `<sheetPr ${Array.from({ length: 500_000 }, (_none, index) => `a${index}=""`).join(' ')}/>` },
        ],
      },
      /One text or tag is longer/,
    ],
    ['a comment', { sheets: [{ before: `<!--${'x'.repeat(5_000_000)}-->` }] }, /One text or tag is longer/],
    ['an instruction', { sheets: [{ before: `<?x ${'x'.repeat(5_000_000)}?>` }] }, /One text or tag is longer/],
    ['an unfinished tag name', { sheets: [{ before: `<${'x'.repeat(5_000_000)}` }] }, /One text or tag is longer/],
  ])('%s too long', (_name, book, words) => refused(madeFile(book), 'text too long', words));

  test(
    'more than 200,000 filled rows',
    () => {
      const rows = (count: number): string =>
        Array.from({ length: count }, (_none, index) => `<row><c><v>${index}</v></c></row>`).join('');
      expect(readSheet(fileOfRows(rows(200_000))).lastRow).toBe(200_000);
      refused(
        fileOfRows(rows(200_001)),
        'too much content',
        /Sheet "Sheet1" has more than 200,000 filled rows.*Delete rows/s,
      );
    },
    patiently,
  );

  test(
    '46 MB of rows without addresses are answered',
    () => {
      const row = (index: number): string =>
        `<row>${Array.from(
          { length: 30 },
          (_none, column) => `<c t="n" s="0"><v>` + `${(index * 31 + column * 7) % 9973}.${column + 10}</v></c>`,
        ).join('')}</row>`;
      const block = Array.from({ length: 1000 }, (_none, index) => row(index)).join('');
      const file = fileOfRows(block.repeat(50));
      expect(50 * block.length).toBeGreaterThan(46_000_000);
      const before = process.memoryUsage().rss;
      refused(
        file,
        'too much content',
        /more than 1,250,000 filled cells.*sheet "Sheet1" exceeds that at row 41,667/s,
        limited({ cells: 1_250_000 }),
      );
      expect(process.memoryUsage().rss - before).toBeLessThan(400 * 1024 * 1024);
    },
    patiently,
  );

  test('limits that only a large file would reach, made smaller', () => {
    const cell = '<c><v>1</v></c>';
    refused(
      fileOfRows(`<row>${cell}${cell}</row><row>${cell}${cell}</row>`),
      'too much content',
      /more than 3 filled cells.*sheet "Sheet1".*row 2.*Delete rows/s,
      limited({ cells: 3 }),
    );
    const two: MadeSheet = { rows: `<row>${cell}${cell}</row>` };
    refused(
      madeFile({ sheets: [two, two] }),
      'too much content',
      /more than 3 filled cells.*sheet "Sheet2"/s,
      limited({ cells: 3 }),
    );
    const merged: MadeSheet = { after: '<mergeCells><mergeCell ref="A1:B1"/><mergeCell ref="A2:B2"/></mergeCells>' };
    refused(
      madeFile({ sheets: [merged, merged] }),
      'too much content',
      /more than 3 merged areas.*sheet "Sheet2".*Unmerge/s,
      limited({ merges: 3 }),
    );
    refused(
      madeFile({ strings: '<si><t>a</t></si>'.repeat(4) }),
      'too much content',
      /more than 3 texts among its cells \(part xl\/sharedStrings\.xml\)/,
      limited({ sharedStrings: 3 }),
    );
    refused(
      madeFile({
        strings: '<si><t>abcdefghij</t></si>',
        sheets: [{ rows: `<row>${'<c t="s"><v>0</v></c>'.repeat(5)}</row>` }],
      }),
      'too much content',
      /texts of the file's cells come to more than 40 characters.*sheet "Sheet1" exceeds that at row 1/s,
      limited({ cellCharacters: 40 }),
    );
    refused(
      madeFile({ styles: `<cellXfs>${'<xf/>'.repeat(4)}</cellXfs>` }),
      'too much content',
      /more than 3 cell formats \(part xl\/styles\.xml\)/,
      limited({ cellFormats: 3 }),
    );
    refused(
      madeFile({ names: '<definedName name="a">1</definedName>'.repeat(4) }),
      'too much content',
      /more than 3 names.*Delete names/s,
      limited({ definedNames: 3 }),
    );
    refused(
      good,
      'file too large',
      /file is [\d.,]+ bytes; at most 1,000 bytes are read.*Remove pictures/s,
      limited({ fileBytes: 1000 }),
    );
    refused(
      good,
      'too large inside',
      /parts unpack to [\d,.]+ bytes; at most 1,000 bytes are read/,
      limited({ inflatedBytes: 1000 }),
    );
    refused(good, 'too many parts', /hold 6 parts; at most 3 can be read/, limited({ parts: 3 }));
  });

  test.each([
    [
      'a line of separators',
      ','.repeat(16_385),
      'outside the sheet',
      /Line 1 of the text has more than 16,384 columns/,
    ],
    ['one after others', `a;b\r\n${';'.repeat(16_385)}`, 'outside the sheet', /Line 2 of the text/],
    [
      'lines of blank fields',
      `${','.repeat(99)}\n`.repeat(30),
      'too much content',
      /more than 2,000 fields.*line 21 /s,
    ],
  ] as const)('a text with %s', (_name, text, reason, words) =>
    refused(strToU8(text), reason, words, limited({ cells: 1000 })),
  );

  test('201 sheets', () => {
    refused(
      madeFile({ sheets: Array.from({ length: 201 }, () => ({})) }),
      'too much content',
      /more than 200 sheets.*workbook of its own/s,
    );
  });

  test(
    '200 sheets that are all one large part count each time',
    () => {
      const each = Array.from({ length: 200 }, (_none, index) => index);
      const filler = Array.from(
        { length: 20_000 },
        (_none, index) => `<row r="${index + 1}" ht="${index % 977}.${index % 89}"/>`,
      ).join('');
      const file = sheetFile(
        { rows: filler },
        {
          parts: {
            'xl/workbook.xml':
              `<workbook ` +
              `xmlns:r="r"><sheets>` +
              `${each.map((index) => `<sheet name="S${index}" ` + `r:id="s${index}"/>`).join('')}</sheets></workbook>`,
            'xl/_rels/workbook.xml.rels':
              `<Relationships>` +
              `${each
                .map(
                  (index) =>
                    `<Relationship Id="s${index}" ` + `Type="x/worksheet" ` + `Target="worksheets/sheet1.xml"/>`,
                )
                .join('')}</Relationships>`,
          },
        },
      );
      refused(file, 'too large inside', /unpack to more than 20 MiB/, limited({ inflatedBytes: 20 * 1024 * 1024 }));
    },
    patiently,
  );

  test(
    'a long shared formula in many cells',
    () => {
      const formula = `A1${'+A1'.repeat(20_000)}`;
      const rows =
        `<row r="1"><c r="A1"><f t="shared" si="0" ` +
        `ref="A1:A5000">${formula}</f></c></row>` +
        `${Array.from(
          { length: 4999 },
          (_none, index) => `<row r="${index + 2}"><c><f t="shared" si="0"/></c></row>`,
        ).join('')}`;
      const { rows: read } = onlySheet(readBook(fileOfRows(rows), limited({ sharedFormulaCharacters: 2 ** 24 })));
      expect(() => [...read.values()].map(([cell]) => cell?.formula?.length)).toThrow(
        /shared formulas come to more than 16,777,216 characters.*sheet "Sheet1", cell A\d+/s,
      );
    },
    patiently,
  );
});

describe('spans of the whole sheet cost nothing', () => {
  const value = '<row r="2"><c r="B2"><v>7</v></c></row>';
  test.each<[string, MadeBook]>([
    [
      'columns to 100,000,000',
      { sheets: [{ rows: value, before: '<cols><col min="1" max="100000000" width="9"/></cols>' }] },
    ],
    [
      'a merged area',
      { sheets: [{ rows: value, after: '<mergeCells count="1"><mergeCell ref="A1:XFD1048576"/></mergeCells>' }] },
    ],
    [
      'a validation',
      {
        sheets: [
          {
            rows: value,
            after:
              '<dataValidations count="1"><dataValidation type="whole" ' +
              'sqref="A1:XFD1048576"><formula1>1</formula1></dataValidation></dataValidations>',
          },
        ],
      },
    ],
    [
      'a conditional format',
      {
        sheets: [
          {
            rows: value,
            after:
              '<conditionalFormatting sqref="A1:XFD1048576"><cfRule type="expression" ' +
              'priority="1"><formula>A1</formula></cfRule></conditionalFormatting>',
          },
        ],
      },
    ],
    ['a dimension', { sheets: [{ rows: value, before: '<dimension ref="A1:XFD1048576"/>' }] }],
    ['a name', { sheets: [{ rows: value }], names: '<definedName name="All">Sheet1!$A$1:$XFD$1048576</definedName>' }],
    ['an array formula', { sheets: [{ rows: value.replace('<v>', '<f t="array" ref="B2:XFD1048576">A1:A9</f><v>') }] }],
    [
      'a shared formula',
      { sheets: [{ rows: value.replace('<v>', '<f t="shared" si="0" ref="B2:XFD1048576">A1</f><v>') }] },
    ],
    ['a span of a row', { sheets: [{ rows: value.replace('<row', '<row spans="1:100000000"') }] }],
  ])('%s', (_name, book) => {
    const sheet = readSheet(madeFile(book));
    expect(sheet.rows.get(2)).toMatchObject([{ row: 2, column: 2, value: 7 }]);
    expect([sheet.rows.size, sheet.lastRow, sheet.lastColumn]).toEqual([1, 2, 2]);
  });

  test('a cell in the last row alone', () => {
    const sheet = readSheet(fileOfRows('<row r="1048576"><c><v>1</v></c></row>'));
    expect([sheet.rows.size, sheet.lastRow]).toEqual([1, 1_048_576]);
  });

  test(
    'a million cells of format alone, and a row whose columns go backwards over and over',
    () => {
      const formats = Array.from(
        { length: 100 },
        (_none, row) => `<row r="${row + 1}">${'<c s="1"/>'.repeat(10_000)}</row>`,
      ).join('');
      expect(readSheet(fileOfRows(formats)).rows.size).toBe(0);
      const backwards =
        `<row r="1">` +
        `${Array.from(
          { length: 16_384 },
          (_none, index) => `<c r="${letters(16_384 - index)}1"><v>${index}</v></c>`,
        ).join('')}</row>`;
      const sheet = readSheet(fileOfRows(backwards.repeat(20)));
      expect(sheet.rows.get(1)).toHaveLength(16_384);
      expect(sheet.rows.get(1)?.[0]).toEqual({ row: 1, column: 1, value: 16_383 });
    },
    patiently,
  );
});

describe('a good file with faults at random', () => {
  /** Either a book or a refusal with a message; anything else that is thrown fails the test. */
  const answered = (bytes: Uint8Array): 'book' | 'refusal' => {
    try {
      const book = readBook(bytes);
      expect(book.sheets.length).toBeGreaterThan(0);
      return 'book';
    } catch (error) {
      if (!(error instanceof UnreadableFile)) throw error;
      expect(error.message).toMatch(/\S.*\.$/s);
      return 'refusal';
    }
  };
  /** A place as a fraction of the length, any as likely as another. */
  const place = fc.noBias(fc.integer({ min: 0, max: 2 ** 24 - 1 })).map((number) => number / 2 ** 24);
  const flips = fc.array(
    fc.tuple(place, fc.oneof(fc.integer({ min: 1, max: 255 }), fc.constantFrom(1, 2, 4, 8, 16, 32))),
    { minLength: 1, maxLength: 4 },
  );
  const flipped = (bytes: Uint8Array, faults: readonly (readonly [number, number])[]): Uint8Array => {
    const copy = bytes.slice();
    for (const [fraction, bits] of faults) {
      const at = Math.floor(fraction * copy.length);
      copy[at] = (copy[at] ?? 0) ^ bits;
    }
    return copy;
  };

  test(
    'flipped and cut bytes of the file',
    async () => {
      const book = new ExcelJS.Workbook();
      const sheet = book.addWorksheet('Belts');
      for (let row = 1; row <= 40; row++)
        sheet.addRow([`B-${row}`, row * 1.1, new Date(Date.UTC(2024, 0, row)), { formula: `B${row}*2`, result: row }]);
      sheet.fillFormula('F1:F40', 'B1*2', () => 1);
      const written = new Uint8Array(await book.xlsx.writeBuffer());
      for (const bytes of [written, good]) {
        fc.assert(
          fc.property(flips, fc.option(place, { freq: 4 }), (faults, cut) => {
            const faulty = flipped(bytes, faults);
            answered(cut === null ? faulty : faulty.subarray(0, Math.floor(cut * faulty.length)));
          }),
          { numRuns: 150 },
        );
      }
    },
    patiently,
  );

  test(
    'flipped bytes within the parts, with checksums made right again',
    () => {
      const parts = madeParts({
        sheets: [
          {
            rows:
              '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><v>45351.5</v></c><c r="C1"><f t="shared" ' +
              'si="0" ref="C1:D1">A1*2</f></c><c t="inlineStr"><is><r><t>a</t></r></is></c><c ' +
              't="d"><v>2024-02-29</v></c></row>',
            after: '<mergeCells><mergeCell ref="A1:B1"/></mergeCells>',
          },
        ],
        strings: '<si><t>Belt &amp; &#x42;</t></si>',
        styles:
          '<numFmts><numFmt numFmtId="164" formatCode="[h]:mm&quot;x&quot;"/></numFmts><cellXfs><xf ' +
          'numFmtId="0"/><xf numFmtId="164"/></cellXfs>',
        names: '<definedName name="Friction">Sheet1!$B$1</definedName>',
        properties: '<workbookPr date1904="1"/>',
      });
      const paths = Object.keys(parts);
      const seen = new Set<string>();
      fc.assert(
        fc.property(fc.constantFrom(...paths), flips, (path, faults) => {
          seen.add(answered(zipSync({ ...parts, [path]: flipped(parts[path] ?? new Uint8Array(), faults) })));
        }),
        { numRuns: 600 },
      );
      expect([...seen].sort()).toEqual(['book', 'refusal']);
    },
    patiently,
  );

  test(
    'characters of XML put anywhere into the parts',
    () => {
      const parts = madeParts({
        sheets: [{ rows: '<row r="1"><c r="A1" t="s"><v>0</v></c></row>' }],
        strings: '<si><t>Belt</t></si>',
      });
      const piece = fc.constantFrom(
        '<',
        '>',
        '</',
        '/>',
        '<!',
        '<!--',
        '-->',
        '<![CDATA[',
        ']]>',
        '<?',
        '?>',
        '<?xml ',
        '&',
        ';',
        '&#',
        '&#x110000;',
        '&#xD800;',
        '&#0;',
        '&amp;',
        '"',
        "'",
        '=',
        ' ',
        '\n',
        '\r',
        '\u2028',
        '\0',
        ':',
        '<row>',
        '</row>',
        '<c>',
        '<!DOCTYPE x [',
        ']>',
        '\uFEFF',
        '1',
        'xmlns:x=""',
      );
      fc.assert(
        fc.property(
          fc.constantFrom(...Object.keys(parts)),
          fc.array(fc.tuple(place, piece), { minLength: 1, maxLength: 4 }),
          (path, insertions) => {
            let content = new TextDecoder().decode(parts[path]);
            for (const [fraction, inserted] of insertions) {
              const at = Math.floor(fraction * content.length);
              content = content.slice(0, at) + inserted + content.slice(at);
            }
            answered(zipSync({ ...parts, [path]: strToU8(content) }));
          },
        ),
        { numRuns: 600 },
      );
    },
    patiently,
  );
});
