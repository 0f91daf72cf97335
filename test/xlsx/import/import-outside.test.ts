import { expect, test, vi } from 'vitest';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { emptyBook } from '../../../src/workbook/declared.ts';
import { madeFile, transitional } from '../read/made-book.ts';
import { unzipSync } from 'fflate';

/** What a list points to outside itself is told, not followed, and goes no further. */

const typed = (cell: string, text: string): string => `<c r="${cell}" t="inlineStr"><is><t>${text}</t></is></c>`;
const worked = (cell: string, text: string, formula: string): string =>
  `<c r="${cell}" t="str"><f>${formula}</f><v>${text}</v></c>`;
const related = (id: string, type: string, target: string, mode = ''): string =>
  `<Relationship Id="${id}" Type="${transitional.related}/${type}" Target="${target}"${mode}/>`;
const relationships = (content: string): string =>
  `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${content}</Relationships>`;

const file = (): Uint8Array =>
  madeFile({
    sheets: [
      {
        name: 'Fleet',
        rows:
          `<row r="1">${typed('A1', 'Belt')}${typed('B1', 'Width (mm)')}${typed('C1', 'Page')}${typed('D1', 'Price')}` +
          `</row>` +
          `<row r="2">${typed('A2', 'B1')}<c r="B2"><f>[1]Widths!$B$2</f><v>800</v></c>` +
          `${worked('C2', 'see', 'HYPERLINK(&quot;javascript:alert(1)&quot;,&quot;see&quot;)')}` +
          `${worked('D2', '12', "cmd|'/c calc'!A0")}</row>` +
          `<row r="3">${typed('A3', 'B2')}<c r="B3"><v>650</v></c>` +
          `${worked('C3', 'x', 'WEBSERVICE(&quot;http://nowhere.invalid&quot;)')}` +
          `${worked('D3', '13', "'http://nowhere.invalid/[p.xlsx]S'!A1")}</row>`,
        after:
          `<hyperlinks><hyperlink ref="A2" r:id="l1" xmlns:r="${transitional.related}"/>` +
          `<hyperlink ref="A3" location="Fleet!A1"/></hyperlinks>`,
      },
      { name: 'Other', rows: `<row r="1">${worked('A1', '5', '[1]Widths!A1+1')}</row>` },
    ],
    parts: {
      'xl/_rels/workbook.xml.rels': relationships(
        related('s0', 'worksheet', 'worksheets/sheet1.xml') +
          related('s1', 'worksheet', 'worksheets/sheet2.xml') +
          related('e1', 'externalLink', 'externalLinks/externalLink1.xml') +
          related('e2', 'connections', 'connections.xml') +
          related('e3', 'vbaProject', 'vbaProject.bin'),
      ),
      'xl/worksheets/_rels/sheet1.xml.rels': relationships(
        related('l1', 'hyperlink', 'javascript:alert(1)', ' TargetMode="External"'),
      ),
      'xl/externalLinks/externalLink1.xml': `<externalLink xmlns="${transitional.main}"/>`,
      'xl/externalLinks/_rels/externalLink1.xml.rels': relationships(
        related('x', 'externalLinkPath', 'http://nowhere.invalid/prices.xlsx', ' TargetMode="External"'),
      ),
      'xl/connections.xml': `<connections xmlns="${transitional.main}"/>`,
      'xl/vbaProject.bin': new Uint8Array([1, 2, 3]),
    },
  });

test('is told in words, by what it is', () => {
  const fetched = vi.spyOn(globalThis, 'fetch');
  const raw = readBook(file());
  expect(raw.outside).toEqual({ files: 1, links: 1, connections: true, macros: true });
  const { state, report } = acceptImport(raw, proposeImport(raw), emptyBook('metric'));
  expect(report.assumed.filter((sentence) => sentence.startsWith('The file:'))).toEqual([
    'The file: its formulas refer to 1 other file, which was not opened: the values that were saved with them are ' +
      'taken',
    'The file: 1 cell leads to an address outside the file: the text is kept, the link is not',
    'The file: it fetches data from elsewhere: nothing was fetched, the values saved with it are taken',
    'The file: it holds macros: none was run, and none is kept',
  ]);
  expect(report.tables[0]?.columns.map(({ valuesWhy }) => valuesWhy)).toEqual([
    undefined,
    'it refers to another file or program, which is not asked',
    'it uses the function HYPERLINK',
    'it refers to another file or program, which is not asked',
  ]);
  const book = new Workbook(state);
  expect(book.sheet('Belts').rows.map((_, record) => book.read('Belts', record, 'Width'))).toEqual([800, 650]);
  expect(fetched).not.toHaveBeenCalled();
  fetched.mockRestore();
});

test('does not come along into a file that the book is written to', async () => {
  const raw = readBook(file());
  const { state } = acceptImport(raw, proposeImport(raw), emptyBook('metric'));
  const { bytes } = await exportedBook(new Workbook(state), []);
  for (const [path, part] of Object.entries(unzipSync(bytes))) {
    const xml = new TextDecoder().decode(part);
    expect(xml, path).not.toMatch(
      /nowhere\.invalid|javascript:|TargetMode="External"|<f>[^<]*(HYPERLINK|WEBSERVICE|cmd)/,
    );
  }
});

test('of a file that points nowhere nothing is said', () => {
  expect(readBook(madeFile({ sheets: [{ rows: `<row r="1">${typed('A1', 'Belt')}</row>` }] })).outside).toBeUndefined();
});
