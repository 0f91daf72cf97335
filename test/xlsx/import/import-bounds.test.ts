import { expect, test } from 'vitest';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { isFault } from '../../../src/formula/values.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import { mostPlaces, nearCells } from '../../../src/xlsx/import/near-cells.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { emptyBook } from '../../../src/workbook/declared.ts';
import type { RawBook, RawCell, RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { spreadMerges } from '../../../src/xlsx/read/raw-cells.ts';
import { formula, rawBook, rawSheet, type GridValue } from '../grid.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { writtenBook } from '../write/written-book.ts';
import { imported, list } from './imported.ts';

/** Lists and sheets that are too large, or have one cell far out, are cut down or refused in words, and in time. */

const headers = ['Belt', 'Width (mm)', 'Thickness (mm)', 'Smallest pulley (mm)'];
const belt = (index: number): GridValue[] => [`B${index}`, 800, 12, 400];
const repeated = <Item>(item: Item, count: number): Item[] => Array<Item>(count).fill(item);

const withCell = (sheet: RawSheet, cell: RawCell): RawSheet => ({
  ...sheet,
  rows: new Map([...sheet.rows, [cell.row, [...(sheet.rows.get(cell.row) ?? []), cell]]]),
  lastRow: Math.max(sheet.lastRow, cell.row),
  lastColumn: Math.max(sheet.lastColumn, cell.column),
});

test.each([
  [1_048_576, 16_384, 'XFD1048576'],
  [1_048_576, 1, 'A1048576'],
  [1, 16_384, undefined],
  [10_000, 16_384, 'XFD10000'],
])('a stray cell in row %i, column %i is kept, or left out and told', (row, column, told) => {
  const notes = rawSheet({
    name: 'Notes',
    rows: [
      ['a', 'b'],
      [1, 2],
      [3, 4],
    ],
  });
  const book: RawBook = {
    names: [],
    sheets: [rawSheet({ name: 'Belts', rows: [headers, belt(1)] }), withCell(notes, { row, column, value: 'far' })],
  };
  const { state, report } = acceptImport(book, proposeImport(book), emptyBook('metric'));
  const free = state.sheets.find(({ name }) => name === 'Notes');
  expect(free?.userColumns.length ?? 0).toBeGreaterThan(1);
  expect((free?.rows.length ?? 0) * (free?.userColumns.length ?? 0)).toBeLessThanOrEqual(mostPlaces + 16_384);
  const words = report.assumed.filter((text) => text.includes('left out'));
  if (told !== undefined) expect(words).toEqual([expect.stringContaining(`1 cell was left out (${told})`)]);
  else expect(words).toEqual([]);
});

test('of a sheet that is too large the cells that stand together are kept', () => {
  const sheet = rawSheet({ rows: Array.from({ length: 3_000 }, (_, row) => repeated(row, 100)) });
  const far = withCell(withCell(sheet, { row: 900_000, column: 2, value: 1 }), { row: 5, column: 9_000, value: 1 });
  const near = nearCells(far);
  expect([near.sheet.lastRow, near.sheet.lastColumn]).toEqual([3_000, 100]);
  expect(near.told).toContain('2 cells were left out');
  expect(nearCells(sheet)).toEqual({ sheet });
});

test('formulas that are too large keep their values, and that is told', () => {
  const terms = repeated('1', 4_000).join('+');
  const brackets = `${'('.repeat(3_000)}1${')'.repeat(3_000)}`;
  const { belts, table, report } = imported([
    list([
      [...headers, 'Own'],
      [...belt(1), formula(terms, 4_000)],
      [...belt(2), formula(brackets, 1)],
    ]),
    { name: 'Notes', rows: [[formula(terms, 4_000), formula('1+1', 2)]] },
  ]);
  expect(belts.map((record) => record['Own'])).toEqual([4_000, 1]);
  expect(table.columns.at(-1)?.values).toBe(2);
  expect(report.assumed.join('\n')).toContain('too large');
});

test('a formula that is too large and is kept all the same has its error in words', () => {
  const { state } = imported(list([headers, belt(1)]));
  const book = new Workbook(state);
  const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Thickness') };
  const typed = `=${repeated('1', 4_000).join('+')}`;
  book.edit([{ ...place, content: typed }]);
  expect(book.content(place)).toBe(typed);
  const value = book.value(place);
  expect(isFault(value) ? value.message : value).toContain('more than 500 operations');
  book.addRecords('Belts', 0);
  expect(book.content({ ...place, record: 1 })).toBe(typed);
  book.undo();
  book.undo();
  expect(book.state).toEqual(state);
  book.destroy();
});

test('a list of more belts or columns than a book holds is refused', () => {
  const many = Array.from({ length: 20_001 }, (_, index) => belt(index));
  expect(() => imported(list([headers, ...many]))).toThrow('20,001 belts; a book holds at most 20,000');
  const wide = list([
    [...headers, ...repeated('Own', 1_500)],
    [...belt(1), ...repeated(1, 1_500)],
  ]);
  expect(() => imported(wide)).toThrow('more than 1,000 filled cells');
});

test('a header repeated and areas merged over many columns are read in time', () => {
  const own = 500;
  const { state } = imported(
    list([[...headers, ...repeated('Remark', own)], ...[1, 2].map((at) => [...belt(at), ...repeated('x', own)])]),
  );
  const columns = state.sheets.find(({ name }) => name === 'Belts')?.userColumns.map(({ header }) => header);
  expect(new Set(columns).size).toBe(own);
  expect(columns?.slice(0, 3)).toEqual(['Remark', 'Remark 2', 'Remark 3']);
  const tall = rawBook({
    rows: Array.from({ length: 2_000 }, (_, row) => [row, ...repeated(row === 0 ? 'm' : null, 300)]),
  }).sheets[0];
  if (tall === undefined) throw new Error('there is no sheet');
  const merges = Array.from({ length: 300 }, (_, at) => ({ top: 1, left: at + 2, bottom: 2_000, right: at + 2 }));
  const spread = spreadMerges({ ...tall, merges }, 1);
  expect(spread.rows.get(2_000)?.map(({ value }) => value)).toEqual([1_999, ...repeated('m', 300)]);
});

test('a list of more rows than the formula engine holds, in one column, is cut down', () => {
  const rows = Array.from({ length: 10 }, () => ['a note']);
  const notes = withCell(rawSheet({ name: 'Notes', rows }), { row: 300_000, column: 1, value: 'far' });
  const near = nearCells(notes);
  expect(near.sheet.lastRow).toBe(10);
  expect(near.told).toMatch(/^Notes: 1 cell was left out \(A300000\), .* more than 200,000 rows$/);
});

test('an export with one cell far out is read without it, and says so', async () => {
  const sheets = [
    ...emptyBook('metric').sheets,
    { name: 'Own', userColumns: [{ header: 'One', kind: 'text' as const }], rows: [{ cells: ['first'] }] },
  ];
  const raw = readBook(await writtenBook(new Workbook({ ...emptyBook('metric'), sheets }), []));
  for (const name of ['Belts', 'Own']) {
    const far = {
      ...raw,
      sheets: raw.sheets.map((sheet) =>
        sheet.name === name ? withCell(sheet, { row: 1_048_576, column: 3, value: 'far' }) : sheet,
      ),
    };
    const { state, report } = acceptImport(far, proposeImport(far), emptyBook('metric'));
    expect(state.sheets.find((sheet) => sheet.name === name)?.rows.length).toBeLessThan(10);
    expect(report.assumed.join()).toMatch(new RegExp(`${name}: 1 cell was left out \\(C1048576\\)`));
  }
});

test('a long text of an area merged over thousands of belts is refused, since each would hold it', () => {
  const rows = Array.from({ length: 4_000 }, (_, index) => [...belt(index), index === 0 ? 'N'.repeat(32_000) : null]);
  const merged = rawSheet({ name: 'Belts', rows: [[...headers, 'Area'], ...rows], merges: ['E2:E4001'] });
  const book: RawBook = { names: [], sheets: [merged] };
  expect(() => acceptImport(book, proposeImport(book), emptyBook('metric'))).toThrow(
    /texts of the book would come to more than 100,000,000 characters; the sheet Belts exceeds that\. Shorten/,
  );
});

test('sheets that are kept as they are hold no more together than a book has room for', () => {
  const far = (_: unknown, index: number): RawSheet =>
    withCell(rawSheet({ name: `Notes ${index}`, rows: [[1]] }), { row: 20_000, column: 20, value: 'far' });
  const book: RawBook = {
    names: [],
    sheets: [rawSheet({ name: 'Belts', rows: [headers, belt(1)] }), ...Array.from({ length: 8 }, far)],
  };
  const { state, report } = acceptImport(book, proposeImport(book), emptyBook('metric'));
  const kept = state.sheets.filter(({ name }) => name.startsWith('Notes'));
  const places = kept.reduce((sum, { rows, userColumns }) => sum + rows.length * userColumns.length, 0);
  expect(kept.length).toBe(8);
  expect(places).toBeLessThanOrEqual(4 * mostPlaces);
  const cut = report.assumed.filter((text) => text.includes('kept as they are would have more than 1,600,000 cells'));
  expect(cut).toHaveLength(4);
});
