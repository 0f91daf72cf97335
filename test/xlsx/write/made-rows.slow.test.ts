import { unzipSync } from 'fflate';
import { beforeAll, expect, test } from 'vitest';
import { nativePack } from '../../../src/cli/native-packing.ts';
import { findings } from '../../../src/checks/findings.ts';
import type { Finding } from '../../../src/records/finding.ts';
import { demoBook } from '../../../src/workbook/demo.ts';
import type { BookRow, BookState } from '../../../src/workbook/state.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { BookFile } from '../../../src/xlsx/write/book-file.ts';
import { type MadeRows, RowMaker } from '../../../src/xlsx/write/made-rows.ts';
import { joinedBytes } from '../../../src/xlsx/write/packing.ts';
import { nothingSaid } from '../../../src/xlsx/write/said-of-rows.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import type { RawBook, RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { readAboutSheet } from '../../../src/xlsx/import/earlier-export.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { stamp } from './exported-book.ts';

/** Rows that are made in blocks, as threads make them, and joined into one file. */

const sheet = 'Belts';
const sizes = [1, 8, 3];

const withRows = (state: BookState, rows: readonly BookRow[]): BookState => ({
  ...state,
  sheets: state.sheets.map((one) => (one.name === sheet ? { ...one, rows } : one)),
});

/** The demo with what a list may bring: colours, remarks, an override, a hidden row. */
function marked(): BookState {
  const demo = demoBook('metric');
  const rows = new Workbook(demo)
    .sheet(sheet)
    .rows.map((row, record) => ({
      ...row,
      ...(record === 4 ? { looks: { 1: { fill: 'FFCC00', comment: 'yellow at the site' } } } : {}),
      ...(record === 9 ? { notes: { 3: 'not understood' }, hidden: true as const } : {}),
    }));
  return withRows(
    demo,
    rows.slice(
      0,
      sizes.reduce((sum, size) => sum + size, 0),
    ),
  );
}

let state: BookState;
let whole: Workbook;
let found: readonly Finding[];

beforeAll(() => {
  state = marked();
  whole = new Workbook(state);
  found = findings(whole);
});

/** Makes rows again once what they wanted is known, and hands them over as threads would. */
async function made(
  file: BookFile,
  maker: RowMaker,
  make: () => ReturnType<RowMaker['recordRows']>,
): Promise<MadeRows> {
  const first = await make();
  if (!('wanted' in first)) return structuredClone(first);
  maker.learn(first.wanted, file.numbersFor(first.wanted));
  const again = await make();
  if ('wanted' in again) throw new Error('it wants the same twice');
  return structuredClone(again);
}

async function inBlocks(): Promise<{ readonly bytes: Uint8Array; readonly asked: number }> {
  const { rows } = whole.sheet(sheet);
  const sample = new Workbook(withRows(state, rows.slice(0, sizes[0])));
  const file = await BookFile.begin(sample, { stamp, pack: nativePack });
  const layout = structuredClone(file.layout(new Map([[sheet, 10_000]])));
  const maker = new RowMaker(sample, layout, nativePack);
  let [above, told, asked] = [0, 0, 0];
  for (const [number, size] of sizes.entries()) {
    const block = new Workbook(withRows(state, rows.slice(above, above + size)));
    const place = { number, above };
    file.add(await made(file, maker, () => ((asked += 1), maker.recordRows(block, sheet, place))));
    const own = found.filter((one) => one.sheet === sheet && one.record >= place.above && one.record < above + size);
    const aboveFound = { above: told };
    file.add(await made(file, maker, () => maker.findingRows(block, own, aboveFound)));
    above += size;
    told += own.length;
  }
  // What looks into the belts is of the whole book too.
  file.add(await made(file, maker, () => maker.recordRows(whole, 'Pulleys', { number: 0, above: 0 })));
  await file.addFindings(found.filter((one) => one.sheet !== sheet));
  return { bytes: joinedBytes([...(await file.end()).pieces]), asked };
}

/**
 * All that a sheet's cells hold, the formulas that they share written out. The widths of columns, which the About sheet
 * has in a row, are those of the sample.
 */
const cells = (of: RawSheet | undefined): object[] =>
  [...(of?.rows.values() ?? [])]
    .filter(([first]) => first?.value !== 'Column widths')
    .flat()
    .map(({ row, column, value, formula, error }) => ({ row, column, value, formula, error }));

test('hold what the rows of the whole book hold, notes and colours included', async () => {
  const ordered = [...found.filter((one) => one.sheet === sheet), ...found.filter((one) => one.sheet !== sheet)];
  const expected = readBook((await exportedBook(whole, ordered, { stamp })).bytes, readLimits, true);
  const { bytes, asked } = await inBlocks();
  const file = readBook(bytes, readLimits, true);
  expect(file.sheets.map(({ name }) => name)).toEqual(expected.sheets.map(({ name }) => name));
  const same = ['Belts', 'Pulleys', 'Findings'];
  const sheetOf = ({ sheets }: RawBook, name: string): RawSheet | undefined => sheets.find((one) => one.name === name);
  for (const name of same) {
    expect(cells(sheetOf(file, name)), name).toEqual(cells(sheetOf(expected, name)));
    const [look, wanted] = [sheetOf(file, name)?.look, sheetOf(expected, name)?.look];
    expect({ ...look, columns: [] }, name).toEqual({ ...wanted, columns: [] });
  }
  expect({ ...readAboutSheet(file), widths: new Map() }).toEqual({ ...readAboutSheet(expected), widths: new Map() });
  // Two blocks have a look that the file had not numbered.
  expect(asked).toBe(sizes.length + 2);
});

test('a sheet as full as it may be names no row beyond its last', async () => {
  const book = new Workbook(withRows(demoBook('metric'), []));
  const file = await BookFile.begin(book, { stamp, pack: nativePack });
  file.add({ sheet, records: readLimits.rowNumber - 1, pieces: [], lastColumn: 10, extras: [], said: nothingSaid() });
  const parts = unzipSync(joinedBytes([...(await file.end()).pieces]), {
    filter: ({ name }) => name.endsWith('1.xml'),
  });
  const text = new TextDecoder().decode(parts['xl/worksheets/sheet1.xml']);
  const rows = [...text.matchAll(/[A-Z]{1,3}(\d{6,})/g)].map(([, row]) => Number(row));
  expect(text).toContain('<dataValidations');
  expect(Math.max(...rows)).toBe(readLimits.rowNumber);
});
