import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import type { Content } from '../../src/formula/values.ts';
import { columnNamed, emptyBook, headerPosition } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { withColumnAdded, withContents } from '../../src/workbook/state-changes.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { edited } from '../xlsx/libreoffice.ts';
import { demoRows, listFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

/** A book that was sent out, went on here, and came back from another program. */

vi.setConfig({ testTimeout: 240_000, hookTimeout: 400_000 });

let folder = '';
const at = (name: string): string => join(folder, name);
const recordOf = (state: BookState, belt: string): number =>
  sheetOf(state, 'Belts').rows.findIndex(({ cells }) => cells[0] === belt);
const columnOf = (state: BookState, header: string): number => columnNamed(sheetOf(state, 'Belts'), header) ?? -1;
const read = (state: BookState, belt: string, header: string): Content | undefined =>
  sheetOf(state, 'Belts').rows[recordOf(state, belt)]?.cells[columnOf(state, header)];
const set = (state: BookState, belt: string, header: string, content: Content): BookState =>
  withContents(state, [{ sheet: 'Belts', record: recordOf(state, belt), column: columnOf(state, header), content }]);

async function write(name: string, state: BookState): Promise<Uint8Array> {
  const book = new Workbook(state);
  const { bytes } = await exportedBook(book, findings(book));
  writeFileSync(at(name), bytes);
  return bytes;
}

/** A book of ours from its file. */
function bookIn(name: string): BookState {
  const raw = readBook(readFileSync(at(name)));
  return acceptImport(raw, proposeImport(raw), emptyBook('metric')).state;
}

/** A line of Basic that puts something into a cell of Belts, as the file has it. */
const typed = (header: number, record: number, kind: 'Value' | 'String' | 'Formula', content: string): string =>
  `belts.getCellByPosition(${header}, ${record + 1}).${kind} = ${content}`;

const width = headerPosition('Belts', 'Width');
const sent = ((): BookState => {
  const named = withColumnAdded(demoBook('metric'), 'Belts', { header: 'Reach', kind: 'number' });
  return set(named, 'Q4', 'Reach', `=D${recordOf(named, 'Q4') + 2}*2`);
})();

beforeAll(async () => {
  folder = await testFolder();
  const bytes = await write('sent.xlsx', sent);
  const here = set(set(set(sent, 'Q1', 'Speed', 2.2), 'Q4', 'Width', 777), 'Q4', 'Bolts', 99);
  await write('mine.xlsx', withColumnAdded(here, 'Belts', { header: 'WO no', kind: 'text' }));
  // A row is put in above all belts that are edited below: these move down by one.
  const theirs = await edited(bytes, [
    'belts = book.Sheets.getByName("Belts")',
    'belts.Rows.insertByIndex(1, 1)',
    typed(0, 0, 'String', '"NEW1"'),
    typed(width, 0, 'Value', '650'),
    typed(width, recordOf(sent, 'Q1') + 1, 'Value', '1234'),
    typed(width, recordOf(sent, 'Q4') + 1, 'Value', '888'),
    'book.Sheets.insertNewByName("Shifts", 1)',
    'book.Sheets.getByName("Shifts").getCellByPosition(0, 0).String = "Day"',
    'book.Sheets.getByName("Shifts").getCellByPosition(0, 1).String = "Monday"',
  ]);
  writeFileSync(at('theirs.xlsx'), theirs);
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const book = (...args: readonly string[]): ReturnType<typeof ran> => ran(args, { folder });

describe('merge', () => {
  test('takes what each changed, keeps what both did open, and marks it', async () => {
    const before = ['sent.xlsx', 'mine.xlsx', 'theirs.xlsx'].map((name) => readFileSync(at(name)));
    const { code, out, err } = await book('merge', 'sent.xlsx', 'mine.xlsx', 'theirs.xlsx', 'out.xlsx');
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toMatch(/^From mine\.xlsx: 1 own column new, 2 cells changed\.$/m);
    expect(out).toMatch(/^From theirs\.xlsx: 1 sheet new, 1 record new, 1 cell changed\.$/m);
    expect(out).toMatch(
      new RegExp(
        String.raw`^Conflict: Belts, Q4, Width: 777 mm in mine\.xlsx, 888 mm in theirs\.xlsx, \d+ mm in sent\.xlsx ` +
          String.raw`\(mine\.xlsx, Belts!D\d+; theirs\.xlsx, Belts!D\d+\)$`,
        'm',
      ),
    );
    expect(out.match(/^Conflict:/gm)).toHaveLength(1);
    expect(['sent.xlsx', 'mine.xlsx', 'theirs.xlsx'].map((name) => readFileSync(at(name)))).toEqual(before);
    const state = bookIn('out.xlsx');
    expect([read(state, 'NEW1', 'Width'), read(state, 'Q1', 'Width'), read(state, 'Q1', 'Speed')]).toEqual([
      650, 1234, 2.2,
    ]);
    expect([read(state, 'Q4', 'Width'), read(state, 'Q4', 'Bolts')]).toEqual([777, 99]);
    expect(read(state, 'Q4', 'Reach')).toBe(`=D${recordOf(state, 'Q4') + 2}*2`);
    expect(sheetOf(state, 'Belts').userColumns.map(({ header }) => header)).toEqual(['Reach', 'WO no']);
    expect(sheetOf(state, 'Shifts').rows[0]?.cells[0]).toBe('Monday');
    const note = sheetOf(state, 'Belts').rows[recordOf(state, 'Q4')]?.notes?.[columnOf(state, 'Width')];
    expect(note).toMatch(/^Conflict: 777 mm in mine\.xlsx, 888 mm in theirs\.xlsx/);
    expect(sheetOf(state, 'Conflicts').rows[0]?.cells.slice(0, 4)).toEqual(['Belts', 'Q4', 'Width', '777 mm']);
  });

  test('leaves out the marks of an earlier merge, and finds what is left to decide', async () => {
    // What the merge before this has written.
    const again = await book('merge', 'sent.xlsx', 'out.xlsx', 'theirs.xlsx', 'again.xlsx');
    expect(again.code).toBe(1);
    expect(again.out).toMatch(/^The conflicts that an earlier merge marked in out\.xlsx were left out\.$/m);
    expect(again.out).toMatch(/^From theirs\.xlsx: nothing\.$/m);
    expect(bookIn('again.xlsx').sheets.filter(({ name }) => name.startsWith('Conflicts'))).toHaveLength(1);
    await write('decided.xlsx', set(bookIn('out.xlsx'), 'Q4', 'Width', 888));
    const decided = await book('merge', 'sent.xlsx', 'decided.xlsx', 'theirs.xlsx', 'done.xlsx');
    expect({ code: decided.code, err: decided.err }).toEqual({ code: 0, err: '' });
    expect(decided.out).toMatch(/^No conflicts\.$/m);
  });

  test('takes a list of next month in the columns that it has', async () => {
    const rows = demoRows({}, (name) => name !== 'Q2');
    const next = rows.map((row) => (row[0] === 'Q1' ? row.with(width, 1000) : row));
    await listFile(at('next.xlsx'), { Fleet: next.map((row) => row.slice(0, 12)) });
    const { code, out } = await book('merge', 'sent.xlsx', 'mine.xlsx', 'next.xlsx', 'month.xlsx');
    expect(out).toMatch(/^next\.xlsx is a list, not a whole book: it counts only in the columns that it has/m);
    expect(out).toMatch(/^From mine\.xlsx: 1 own column new, 3 cells changed\.$/m);
    expect(out).toMatch(/^From next\.xlsx: 1 record gone, 1 cell changed\.$/m);
    expect(code).toBe(0);
    const state = bookIn('month.xlsx');
    expect([read(state, 'Q1', 'Width'), read(state, 'Q1', 'Speed'), recordOf(state, 'Q2')]).toEqual([1000, 2.2, -1]);
    expect(sheetOf(state, 'Plate series').rows).toHaveLength(sheetOf(sent, 'Plate series').rows.length);
  });

  test('writes nothing when a file can not be used', async () => {
    writeFileSync(at('broken.xlsx'), 'no workbook');
    const { code, err } = await book('merge', 'sent.xlsx', 'broken.xlsx', 'theirs.xlsx', 'none.xlsx');
    expect(code).toBe(2);
    expect(err).toMatch(/^broken\.xlsx could not be used: /);
    expect(existsSync(at('none.xlsx'))).toBe(false);
    const own = await book('merge', 'sent.xlsx', 'mine.xlsx', 'theirs.xlsx', 'mine.xlsx');
    expect(own.code).toBe(2);
    expect(own.err).toMatch(/it is the same file as the input mine\.xlsx, which is never changed/);
  });
});

describe('compare', () => {
  test('finds nothing in a book that another program only opened and saved', async () => {
    writeFileSync(at('saved.xlsx'), await edited(readFileSync(at('sent.xlsx')), []));
    const { code, out } = await book('compare', 'sent.xlsx', 'saved.xlsx');
    expect(out).toBe('Nothing differs between sent.xlsx and saved.xlsx.\n');
    expect(code).toBe(0);
  });

  test('tells what differs with its places, in words and as a sheet', async () => {
    const { code, out } = await book('compare', 'sent.xlsx', 'theirs.xlsx', 'differences.xlsx');
    expect(code).toBe(1);
    const row = recordOf(sent, 'Q1') + 2;
    expect(out).toMatch(
      new RegExp(
        String.raw`^Belts, Q1, Width: \d+ mm in sent\.xlsx, 1234 mm in theirs\.xlsx \(sent\.xlsx, Belts!D${row}; ` +
          String.raw`theirs\.xlsx, Belts!D${row + 1}\)$`,
        'm',
      ),
    );
    expect(out).toMatch(/^Belts, NEW1: new in theirs\.xlsx \(theirs\.xlsx, Belts!A2\)$/m);
    expect(out).toMatch(/^Sheet Shifts: new in theirs\.xlsx$/m);
    expect(out).toMatch(
      /^From sent\.xlsx to theirs\.xlsx: 1 sheet new, 1 record new, 2 cells changed\. Without the file/m,
    );
    const sheet = readBook(readFileSync(at('differences.xlsx'))).sheets.find(({ name }) => name === 'Differences');
    const cells = [...(sheet?.rows.values() ?? [])].map((list) => list.map(({ value }) => value));
    expect(cells.find((list) => list[1] === 'Q1' && list[2] === 'Width')).toContain(1234);
  });

  test('compares a list only where it has columns', async () => {
    await listFile(at('short.xlsx'), { Fleet: demoRows().map((row) => row.slice(0, 6)) });
    const { code, out } = await book('compare', 'sent.xlsx', 'short.xlsx');
    expect(out).toMatch(/Nothing differs between sent\.xlsx and short\.xlsx\.\n$/);
    expect(code).toBe(0);
  });
});
