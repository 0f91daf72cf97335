import {
  bookColumns,
  compiledSheets,
  declarationOf,
  emptyBook,
  headerPosition,
} from '../../../src/workbook/declared.ts';
import { applicationVersion } from '../../../src/xlsx/write/packed-book.ts';
import { writtenBook } from './written-book.ts';
import { readdirSync, readFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { SaxesParser } from 'saxes';
import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { version } from '../../../package.json';
import { functions } from '../../../src/functions/index.ts';
import { isComputed } from '../../../src/sheet/declaration.ts';
import { safetyReminders } from '../../../src/workbook/safety.ts';
import { columnLetters } from '../../../src/formula/address.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { readAboutSheet } from '../../../src/xlsx/import/earlier-export.ts';
import type { RawBook } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { bookOf, soundBelt } from '../../workbook/books.ts';
import { fullBook, stamp, strangeTexts, trials, unwritable } from './exported-book.ts';
import {
  belts as beltsColumn,
  cellAt,
  type ExportedFile,
  exportedFile,
  findings,
  sheetPart,
  text,
} from './exported-file.ts';

/** Headers that other tools rely on, in the metric book. */
const promised = [
  'Belt',
  'Area',
  'Material',
  'Width (mm)',
  'Construction',
  'Thickness (mm)',
  'Carcass thickness (mm)',
  'Top cover (mm)',
  'Belt rating (N/mm)',
  'Smallest pulley (mm)',
  'Head pulley (mm)',
  'Tail pulley (mm)',
  'Pulley centres (m)',
  'Lift (m)',
  'Speed (m/s)',
  'Power (kW)',
  'Capacity (t/h)',
  'Wrap angle (°)',
  'Drive friction',
  'Known tension (N/mm)',
  'Take-up travel (mm)',
  'Skew (°)',
  'Plate series',
  'Skive depth (mm)',
  'Joints',
  'Installed',
  'Hours per year (h/year)',
  'Joint life (h)',
  'Service',
  'Cut length (mm)',
  'Edge offset (mm)',
  'Belt lost to skew (mm)',
  'Plates',
  'Edge clearance (mm)',
  'Bolts',
  'Strip length each (mm)',
  'Strip per joint (mm)',
  'Joint minimum pulley (mm)',
  'Carcass minimum pulley (mm)',
  'Working tension (N/mm)',
  'Tension from',
  'Load per plate (N)',
  'Rating used',
  'Clamped thickness (mm)',
  'Loop length (m)',
  'Passes per hour (1/h)',
  'Labour hours (h)',
  'Downtime (h)',
  'Parts cost',
  'Joint cost',
  'Due',
  'Verdict',
  'Findings',
];

let exported: ExportedFile;
let parts: ExportedFile['parts'];
let raw: RawBook;

beforeAll(async () => {
  exported = await exportedFile();
  ({ parts, raw } = exported);
}, 60_000);
afterEach(() => vi.useRealTimers());

const sheet = (name: string): ExcelJS.Worksheet => {
  const found = exported.other.getWorksheet(name);
  if (found === undefined) throw new Error(`no sheet ${name}`);
  return found;
};
const belts = (header: string): number => beltsColumn(exported.book, header);
/** Where an assumption's value stands. */
const namedCell = (name: string): string =>
  `B${exported.book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === name) + 2}`;

describe('the file', () => {
  test('has the sheets in order, the made ones last, whatever the user calls theirs', () => {
    expect(raw.sheets.map(({ name }) => name)).toEqual([
      ...compiledSheets.keys(),
      'Trials',
      'Spills',
      "It's a trial",
      'In   Out',
      'A sheet whose name is longer th',
      'belts 2',
      'Findings 2',
      'Values',
      'Findings',
      'Functions',
      'About',
    ]);
  });

  test('has the same bytes for the same book, whenever it is written', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date(2031, 4, 5, 6, 7, 8) });
    const again = await writtenBook(new Workbook(fullBook('metric')), findings, { stamp });
    expect(Buffer.compare(again, exported.bytes)).toBe(0);
    expect(exported.other.created).toEqual(stamp);
    expect(exported.other.modified).toEqual(stamp);
  });

  test('has parts that are well-formed, each named once in its list', () => {
    const paths = Object.keys(parts);
    for (const path of paths.filter((name) => /\.(?:xml|rels|vml)$/.test(name))) {
      const parser = new SaxesParser();
      parser.on('error', (error) => {
        throw new Error(`${path}: ${error.message}`);
      });
      parser.write(text(parts[path])).close();
    }
    expect(new Set(paths).size).toBe(paths.length);
    expect(paths.filter((path) => path.startsWith('xl/worksheets/sheet')).length).toBe(raw.sheets.length);
  });

  test('names this program and its version as the one that wrote it, and as the author of its notes', () => {
    expect(text(parts['docProps/app.xml'])).toContain('<Application>Skewbook</Application>');
    const [major = '', minor = '', patch = ''] = version.split('.').map((part) => part.padStart(2, '0'));
    expect(text(parts['docProps/app.xml'])).toContain(`<AppVersion>${major}.${minor}${patch}</AppVersion>`);
    const notes = Object.keys(parts).filter((path) => /^xl\/comments\d+\.xml$/.test(path));
    expect(notes.length).toBeGreaterThan(5);
    for (const path of notes)
      expect(/<authors>.*<\/authors>/.exec(text(parts[path]))?.[0], path).toBe(
        '<authors><author>Skewbook</author></authors>',
      );
    for (const path of Object.keys(parts).filter((name) => name.startsWith('docProps/')))
      expect(text(parts[path]), path).not.toMatch(/Microsoft|Excel|Author</);
  });

  test("gives the program's version in the form that files ask for", () => {
    expect(['0.1.0', '1.12.3', '10.0.25'].map(applicationVersion)).toEqual(['00.0100', '01.1203', '10.0025']);
  });

  test('asks other programs to compute it anew on opening', () => {
    expect(text(parts['xl/workbook.xml'])).toContain('fullCalcOnLoad="1"');
  });

  test('loads its writing library only when something is written', () => {
    const folder = new URL('../../../src/xlsx/', import.meta.url);
    const statics = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .filter((name) => /^import (?!type )[^;]*'exceljs'/m.test(readFileSync(new URL(name, folder), 'utf8')));
    expect(statics).toEqual([]);
  });
});

describe('headers', () => {
  test('are the promised ones, with the unit in brackets', async () => {
    const headers = bookColumns(emptyBook('metric').sheets[0] ?? { name: 'Belts', userColumns: [], rows: [] }).map(
      (_, index) => cellAt(raw, 'Belts', 1, index + 1)?.value,
    );
    expect(promised.filter((header) => !headers.includes(header))).toEqual([]);
    const us = readBook(await writtenBook(new Workbook(bookOf({ belts: [soundBelt] }, 'us')), [], { stamp }));
    const usHeaders = us.sheets[0]?.rows.get(1)?.map(({ value }) => value) ?? [];
    expect(
      [
        'Width (in)',
        'Pulley centers (ft)',
        'Speed (ft/min)',
        'Power (hp)',
        'Capacity (short ton/h)',
        'Belt rating (lbf/in)',
        'Skew (°)',
      ].filter((header) => !usHeaders.includes(header)),
    ).toEqual([]);
  });

  test("of own columns carry their kind's unit too, and may be the same twice", () => {
    const first = bookColumns(exported.book.sheet('Belts')).length - 2;
    expect([0, 1, 2].map((step) => cellAt(raw, 'Belts', 1, first + step)?.value)).toEqual([
      'Remark',
      'Spare roll (m)',
      'Remark',
    ]);
  });

  test('say what a column means where one points at them', () => {
    const note = (header: string): unknown => sheet('Belts').getCell(1, belts(header)).note;
    expect(note('Width')).toBe("the belt's width.\nAllowed: a number more than 0, in mm.");
    expect(note('Service')).toContain('Allowed: one of: none, underground');
    expect(note('Plate series')).toContain('Allowed: a series of the sheet Plate series.');
    expect(note('Working tension')).toMatch(/Calculated\.\nSource: definition: the method that Tension from names/);
    expect(note('Area')).toBe('where in the plant.');
  });
});

describe('a sheet of records', () => {
  test('keeps header and key in view, on paper too, and can be filtered', () => {
    for (const name of ['Belts', 'Pulleys', 'Plate series', 'Strips']) {
      const { views, autoFilter, pageSetup, headerFooter } = sheet(name);
      const key = declarationOf(name)?.columns.findIndex(({ header }) => header === declarationOf(name)?.key) ?? -1;
      expect(views[0]).toMatchObject({ state: 'frozen', xSplit: key + 1, ySplit: 1 });
      expect(autoFilter).toMatch(/^A1:[A-Z]+\d+$/);
      expect(pageSetup).toMatchObject({ orientation: 'landscape', fitToPage: true, fitToHeight: 0 });
      expect(headerFooter.oddHeader).toBe(`&LWorks && yard&R${name}`);
    }
    expect(text(parts['xl/workbook.xml'])).toContain(
      '<definedName name="_xlnm.Print_Titles" localSheetId="0">' +
        '&apos;Belts&apos;!$A:$A,&apos;Belts&apos;!$1:$1</definedName>',
    );
  });

  test('has columns wide enough for what they hold, and hides those in the background', () => {
    const widths = bookColumns(exported.book.sheet('Belts')).map(
      (_, index) => sheet('Belts').getColumn(index + 1).width ?? 9,
    );
    expect(Math.min(...widths)).toBeGreaterThanOrEqual(9);
    expect(sheet('Belts').getColumn(belts('Series row')).hidden).toBe(true);
    expect(sheet('Belts').getColumn(belts('Width')).hidden).toBe(false);
  });

  test('shows numbers by their kind', () => {
    const formats = Object.fromEntries(
      ['Width', 'Thickness', 'Speed', 'Plates', 'Rating used', 'Installed', 'Due', 'Parts cost', 'Belt', 'Verdict'].map(
        (header) => [header, sheet('Belts').getCell(2, belts(header)).numFmt],
      ),
    );
    expect(formats).toEqual({
      Width: '0',
      Thickness: '0.0',
      Speed: '0.00',
      Plates: '0',
      'Rating used': '0%',
      Installed: 'yyyy-mm-dd',
      Due: 'yyyy-mm-dd',
      'Parts cost': '#,##0.00',
      Belt: '@',
      Verdict: undefined,
    });
    expect(sheet('Assumptions').getCell('B3').numFmt).toBe('yyyy-mm-dd');
    expect(sheet('Belts').getCell(2, belts('Installed')).value).toEqual(new Date(Date.UTC(2025, 7, 31)));
  });

  test('tells input, computed, overridden and marked cells apart in black and white', () => {
    const style = (row: number, header: string): string =>
      JSON.stringify({ ...sheet('Belts').getCell(row, belts(header)).style, numFmt: '', alignment: '' });
    const styles = [style(2, 'Width'), style(2, 'Plates'), style(3, 'Plates'), style(5, 'Width')];
    expect(new Set(styles).size).toBe(4);
    expect(styles[0]).not.toContain('solid');
    expect(styles[1]).toContain('"solid"');
    expect(styles[2]).toContain('"double"');
    expect(styles[3]).toContain('"lightUp"');
  });

  test('puts remarks on their cells', () => {
    expect(JSON.stringify(sheet('Belts').getCell('D5').note)).toContain('\\"wide\\" is no length');
  });

  test('has one rule a column, with the bounds that are declared', () => {
    for (const name of ['Belts', 'Pulleys', 'Plate series', 'Strips']) {
      const ranges = [...sheetPart(exported, name).matchAll(/<dataValidation [^>]*sqref="([^"]*)"/g)].map(
        ([, range = '']) => range,
      );
      const ruled = (compiledSheets.get(name)?.columns ?? []).flatMap((column, index) =>
        isComputed(column) || column.several === true || (column.kind === 'text' && column.choices === undefined)
          ? []
          : [columnLetters(index)],
      );
      expect(ranges.map((range) => /^([A-Z]+)2:\1\d+$/.exec(range)?.[1]).toSorted(), name).toEqual(ruled.toSorted());
    }
    const rule = (sheetName: string, address: string): ExcelJS.DataValidation =>
      sheet(sheetName).getCell(address).dataValidation;
    expect(rule('Belts', `${columnLetters(belts('Skew') - 1)}3`)).toMatchObject({
      type: 'decimal',
      operator: 'between',
      formulae: [0, 60],
      error: 'Skew must be a number from 0 to 60, in °',
    });
    expect(rule('Belts', `${columnLetters(belts('Width') - 1)}9`)).toMatchObject({
      type: 'decimal',
      operator: 'greaterThan',
      formulae: [0],
    });
    expect(rule('Belts', `${columnLetters(belts('Joints') - 1)}2`)).toMatchObject({
      type: 'whole',
      formulae: [0, 200],
    });
    expect(rule('Belts', `${columnLetters(belts('Plate series') - 1)}2`)).toMatchObject({
      type: 'list',
      formulae: ["'Plate series'!$A$2:$A$203"],
    });
    expect(rule('Plate series', `${columnLetters(headerPosition('Plate series', 'Flame resistant'))}2`)).toMatchObject({
      type: 'list',
      formulae: ['"yes,no"'],
    });
    expect(rule('Assumptions', namedCell('PulleyGroup'))).toMatchObject({ type: 'list', formulae: ['"A,B,C"'] });
    expect(rule('Assumptions', namedCell('TightMargin'))).toMatchObject({ type: 'decimal', formulae: [0, 1] });
  });
});

describe('texts', () => {
  const column = 'A sheet whose name is longer th';

  test('stay texts, whatever they begin with', () => {
    strangeTexts.forEach((given, record) =>
      expect(cellAt(raw, column, record + 2, 1), given).toMatchObject({ value: given }),
    );
    strangeTexts.forEach((given, record) => {
      expect(cellAt(raw, column, record + 2, 1)?.formula).toBeUndefined();
      const cell = sheet(column).getCell(record + 2, 1);
      expect(cell.type, given).toBe(ExcelJS.ValueType.String);
      if (/^[=+\-@]/.test(given)) expect(cell.numFmt).toBe('@');
    });
    expect(cellAt(raw, 'Findings', 3, 1)?.value).toBe('=cmd');
    expect(cellAt(raw, 'Findings', 3, 5)?.value).toBe('-5 is no length');
  });

  test('too long, half a character and what is no number are written as files can, and told', async () => {
    const state = emptyBook('metric');
    const odd = {
      ...state,
      sheets: [
        ...state.sheets,
        {
          name: 'Odd',
          userColumns: [{ header: 'H\u0001', kind: 'text' as const }],
          rows: [
            ['x'.repeat(40_000)],
            ['half \uD83D'],
            [Number.NaN],
            [Number.POSITIVE_INFINITY],
            [`${'y'.repeat(32_766)}\u{1F6E0}`],
            [-0],
          ].map((cells) => ({ cells })),
        },
      ],
    };
    const { bytes, otherwise } = await exportedBook(new Workbook(odd), [], { stamp });
    const read = readBook(bytes);
    expect(cellAt(read, 'Odd', 1, 1)?.value).toBe('H\u0001');
    expect(cellAt(read, 'Odd', 2, 1)?.value).toBe('x'.repeat(32_767));
    expect(cellAt(read, 'Odd', 3, 1)?.value).toBe('half \uFFFD');
    expect([4, 5].map((row) => cellAt(read, 'Odd', row, 1)?.error)).toEqual(['#NUM!', '#NUM!']);
    expect(cellAt(read, 'Odd', 6, 1)?.value).toBe('y'.repeat(32_766));
    const told = otherwise.filter(({ place }) => place.startsWith('Odd'));
    expect(told.map(({ place }) => place)).toEqual(['Odd!A2', 'Odd!A3', 'Odd!A4', 'Odd!A5', 'Odd!A6']);
    expect(told[0]?.why).toContain('40,000');
  });
});

describe('the made sheets', () => {
  test('hold as many findings as a sheet has rows for, and say how many are left out', async () => {
    const book = new Workbook(bookOf({ belts: [soundBelt] }));
    const some = Array.from({ length: 5 }, () => findings[0]).flatMap((finding) => finding ?? []);
    const { bytes, otherwise } = await exportedBook(book, some, { findingsRoom: 3 });
    const read = readBook(bytes, readLimits, true);
    expect(read.sheets.find(({ name }) => name === 'Findings')?.lastRow).toBe(4);
    expect(otherwise.filter(({ place }) => place === 'Findings')).toEqual([
      {
        place: 'Findings',
        why: 'the sheet has room for the first 3 of 5 findings; the page and the command check show all',
      },
    ]);
    const { otherwise: none } = await exportedBook(book, some, { findingsRoom: 5 });
    expect(none).toEqual([]);
  });

  test('list the findings with numbers as numbers and a link to the place', () => {
    expect(
      raw.sheets
        .find(({ name }) => name === 'Findings')
        ?.rows.get(1)
        ?.map(({ value }) => value),
    ).toEqual([
      'Record',
      'Sheet',
      'Check',
      'Verdict',
      'Finding',
      'Given',
      'Given unit',
      'Limit',
      'Limit unit',
      'Cures',
      'Cell',
      'Link',
    ]);
    expect(
      raw.sheets
        .find(({ name }) => name === 'Findings')
        ?.rows.get(2)
        ?.map(({ value }) => value),
    ).toEqual([
      'B2',
      'Belts',
      'pulley',
      'fails',
      'the smallest pulley, 200 mm, is below 353.6 mm',
      200,
      'mm',
      353.55339059,
      'mm',
      'a skew of 60 degrees\n=1+1 is no formula here',
      'Belts!J3',
      'show',
    ]);
    const cells = raw.sheets.find(({ name }) => name === 'Findings')?.rows.get(3);
    expect(cells?.find(({ column }) => column === 11)?.value).toBe("'In   Out'!A2");
    expect(cells?.find(({ column }) => column === 12)?.formula).toBe('HYPERLINK("#"&K3,"show")');
    expect(
      Object.entries(parts).filter(
        ([path, bytes]) => path.endsWith('.rels') && text(bytes).includes('TargetMode="External"'),
      ),
    ).toEqual([]);
  });

  test('list every function from its definition', () => {
    const rows = raw.sheets.find(({ name }) => name === 'Functions')?.rows;
    expect(rows?.size).toBe(functions.length + 1);
    functions.forEach(({ name, source, summary, signature, example, parameters }, index) => {
      const values = new Map(rows?.get(index + 2)?.map(({ column, value }) => [column, value]));
      expect([values.get(1), values.get(3), values.get(4), values.get(7), values.get(8)]).toEqual([
        name,
        signature,
        summary,
        source,
        example[0],
      ]);
      for (const [parameter, { doc }] of Object.entries(parameters))
        expect(String(values.get(5))).toMatch(
          new RegExp(`(?:^|\\n)${parameter}: .*${doc.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').slice(0, 20)}`),
        );
      if (typeof example[1] !== 'object') expect(values.get(9)).toBe(example[1]);
      expect(String(values.get(11)).length).toBeGreaterThan(10);
    });
  });

  test('say what the book is, and remind of safety', () => {
    expect(cellAt(raw, 'About', 1, 1)?.value).toBe('Skewbook');
    const about = readAboutSheet(raw);
    expect(about).toMatchObject({ title: 'Works & yard', units: 'metric', invented: false });
    expect(about?.columns.filter((column) => column.sheet === 'Belts')).toEqual([
      {
        sheet: 'Belts',
        position: compiledSheets.get('Belts')?.columns.length,
        column: { header: 'Remark', kind: 'text' },
      },
      {
        sheet: 'Belts',
        position: (compiledSheets.get('Belts')?.columns.length ?? 0) + 1,
        column: { header: 'Spare roll', kind: 'distance' },
      },
      {
        sheet: 'Belts',
        position: (compiledSheets.get('Belts')?.columns.length ?? 0) + 2,
        column: { header: 'Remark', kind: 'number' },
      },
    ]);
    expect(about?.overrides).toEqual([
      { sheet: 'Belts', record: 1, column: belts('Plates') - 1 },
      { sheet: 'Belts', record: 1, column: belts('Edge clearance') - 1 },
    ]);
    expect(about?.formulas.map(({ text: formula }) => formula)).toEqual(
      expect.arrayContaining([...trials, ...unwritable].map(({ formula }) => formula)),
    );
    expect(about?.remarks).toEqual([
      { place: { sheet: 'Belts', record: 3, column: 3 }, text: 'Width: "wide" is no length\nsheet Fleet, cell C9' },
      { place: { sheet: 'Belts', record: 3, column: 25 }, text: 'Installed: "last year" is no date' },
    ]);
    const said = [...(raw.sheets.find(({ name }) => name === 'About')?.rows.values() ?? [])].map((cells) =>
      cells.map(({ value }) => value),
    );
    for (const { text: reminder, rules } of safetyReminders) expect(said).toContainEqual(['Safety', reminder, rules]);
    expect(said.some(([key, words]) => key === 'Licence' && String(words).includes('version 3'))).toBe(true);
    expect(said.some(([key]) => key === 'Invented')).toBe(false);
  });

  test('say that figures are invented when they are', async () => {
    const invented = readBook(
      await writtenBook(new Workbook({ ...emptyBook('metric'), invented: true }), [], { stamp }),
    );
    const said = [...(invented.sheets.find(({ name }) => name === 'About')?.rows.values() ?? [])].map((cells) =>
      cells.map(({ value }) => value),
    );
    expect(said.find(([key]) => key === 'Invented')?.[1]).toContain('are invented');
    expect(readAboutSheet(invented)?.invented).toBe(true);
  });
});
