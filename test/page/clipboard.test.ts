import { afterEach, describe, expect, test } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { type Content } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { CellPlace } from '../../src/workbook/place.ts';
import { entryText } from '../../src/page/cell-text.ts';
import { Desk } from '../../src/page/desk.ts';
import { enter } from '../../src/page/editing.ts';
import { copyBlock, pasteBlock } from '../../src/page/grid/clipboard.ts';
import { fillBlock } from '../../src/page/grid/filling.ts';

/** Pasting and filling as the grid asks for them. */

let book: Workbook;
afterEach(() => book.destroy());

function desk(): { desk: Desk; said: string[] } {
  book = new Workbook(emptyBook('metric'));
  book.addSheet('Free', 12, 40);
  const made = new Desk(book);
  const said: string[] = [];
  made.say = (text) => void said.push(text);
  return { desk: made, said };
}
const at = (sheet: string, record: number, column: number): Content => book.content({ sheet, record, column });
const shownRows = (sheet: string): Parameters<typeof pasteBlock>[3] => ({
  // A declared sheet that grows shows a row more, for a new record.
  rows: () => book.sheet(sheet).rows.length + (sheet === 'Belts' || sheet === 'Strips' ? 1 : 0),
  recordOf: (row) => row,
  rowOf: (record) => record,
  columns: () => book.columns(sheet).length,
  columnOf: (column) => column,
  columnAt: (position) => position,
});
const paste = (to: Desk, sheet: string, record: number, column: number, rows: string[][]): void =>
  pasteBlock(to, { sheet, records: [record], columns: [column] }, rows, shownRows(sheet));

describe('a block larger than the sheet', () => {
  const block = Array.from({ length: 100 }, (_, row) =>
    Array.from({ length: 20 }, (__, column) => `${row * 20 + column}`),
  );

  test('makes a free sheet grow, in one step', () => {
    const { desk: made, said } = desk();
    paste(made, 'Free', 2, 3, block);
    expect([book.columns('Free').length, book.sheet('Free').rows.length]).toEqual([23, 102]);
    expect([at('Free', 2, 3), at('Free', 101, 22)]).toEqual([0, 1999]);
    expect(said).toEqual([]);
    book.undo();
    expect([book.columns('Free').length, book.sheet('Free').rows.length]).toEqual([12, 40]);
  });

  test('of more rows than a book has room for is refused in words', () => {
    const { desk: made, said } = desk();
    const { state } = book;
    paste(made, 'Free', 0, 0, Array<string[]>(200_000).fill(['x']));
    expect(said).toEqual([
      expect.stringContaining('Free would have 200,000 rows of 12 own columns; the maximum is 800,000'),
    ]);
    expect(book.state).toBe(state);
  });

  test('gives a declared sheet columns of the user’s own', () => {
    const { desk: made } = desk();
    const last = book.columns('Strips').length - 1;
    paste(made, 'Strips', 0, last, [['one', 'two', 'three']]);
    expect(book.columns('Strips').length).toBe(last + 3);
    expect(at('Strips', 0, last + 2)).toBe('three');
  });

  test('does not fit into Assumptions, and how much of it is said', () => {
    const { desk: made, said } = desk();
    const { length } = book.sheet('Assumptions').rows;
    paste(made, 'Assumptions', length - 1, 4, [
      ['mine', 'x'],
      ['y', 'z'],
    ]);
    expect(at('Assumptions', length - 1, 4)).toBe('mine');
    expect(said).toEqual([`3 cells did not fit: Assumptions ends at column E and row ${length + 1}.`]);
  });

  test('leaves alone what only the program writes, and says so', () => {
    const { desk: made, said } = desk();
    const name = at('Assumptions', 0, 0);
    paste(made, 'Assumptions', 0, 0, [['other', '0.2']]);
    expect([at('Assumptions', 0, 0), at('Assumptions', 0, 1)]).toEqual([name, 0.2]);
    expect(said.join()).toContain('1 cell was left alone: of Assumptions only Value and Source are yours to change');
  });
});

describe('what is cut', () => {
  test('is moved by the next paste, not copied a second time', () => {
    const { desk: made } = desk();
    paste(made, 'Free', 0, 0, [['5', '=A2*2', '=B2+1']]);
    const rows = copyBlock(book, { sheet: 'Free', records: [0], columns: [1] }, true);
    expect(at('Free', 0, 1)).toBe('=A2*2');
    paste(made, 'Free', 3, 1, rows);
    expect([at('Free', 0, 1), at('Free', 3, 1), at('Free', 0, 2)]).toEqual([null, '=A2*2', '=B5+1']);
    paste(made, 'Free', 5, 1, rows);
    expect(at('Free', 5, 1)).toBe(10);
    expect(at('Free', 3, 1)).toBe('=A2*2');
  });

  test('of a whole record takes its inputs; figures that the sheet works out are named in the new row', () => {
    const { desk: made } = desk();
    const width = book.column('Belts', 'Width');
    const rating = book.columns('Belts').findIndex(({ computed }) => computed);
    book.addRecords('Belts', 0, [['A'], ['B']]);
    book.edit([
      { sheet: 'Belts', record: 0, column: width, content: 800 },
      { sheet: 'Free', record: 0, column: 0, content: `=Belts!${columnLetters(rating)}2` },
    ]);
    const columns = book.columns('Belts').map((_, column) => column);
    const rows = copyBlock(book, { sheet: 'Belts', records: [0], columns }, true);
    paste(made, 'Belts', 1, 0, rows);
    expect([at('Belts', 0, 0), at('Belts', 1, 0), at('Belts', 1, width)]).toEqual([null, 'A', 800]);
    expect(at('Free', 0, 0)).toBe(`=Belts!${columnLetters(rating)}3`);
    expect(book.content({ sheet: 'Belts', record: 1, column: rating })).toBeNull();
  });
});

describe('rows pasted with their headers', () => {
  const rows = [
    ['Conveyor', 'Belt width (mm)', 'Belt type', 'Centres (m)'],
    ['CV-101', '650', 'EP 400/3 4+2', '80,5'],
    ['CV-102', '800', 'EP 400/3 4+2', ''],
  ];

  test('are read by them in an empty book', () => {
    const { desk: made } = desk();
    paste(made, 'Belts', 0, 0, rows);
    expect(made.dialog).toEqual({ kind: 'import', pasted: rows.map((row) => row.join('\t')).join('\n') });
    expect(book.sheet('Belts').rows).toEqual([]);
  });

  test('are told of beside other belts, and left alone where they are no headers', () => {
    const { desk: made, said } = desk();
    const [, ...belts] = rows;
    paste(made, 'Belts', 0, 0, belts);
    paste(made, 'Free', 0, 0, rows);
    expect([made.dialog, said.filter((text) => text.includes('headers'))]).toEqual([undefined, []]);
    paste(made, 'Belts', 2, 0, rows);
    expect(said.filter((text) => text.includes('seems to hold headers, and is now a belt'))).toHaveLength(1);
    expect(at('Belts', 2, 0)).toBe('Conveyor');
  });
});

test('what is copied in the page stays a text, and is shown as it was', () => {
  const { desk: made } = desk();
  const texts = ["'12", "'3/4/2026", "'TRUE", "'=A1", '$1,250.00', '7.50%', '2026-03-31', '=A6*2', '=A8+1'];
  paste(
    made,
    'Free',
    0,
    0,
    texts.map((text) => [text]),
  );
  const look = (record: number, column: number): unknown[] => [
    at('Free', record, column),
    book.shown({ sheet: 'Free', record, column }),
    book.sheet('Free').rows[record]?.formats?.[column],
  ];
  book.edit([{ sheet: 'Free', record: 8, column: 0, content: '=A8+1', format: { kind: 'date' } }]);
  const records = texts.map((_, record) => record);
  paste(made, 'Free', 0, 3, copyBlock(book, { sheet: 'Free', records, columns: [0] }));
  expect(book.shown({ sheet: 'Free', record: 3, column: 3 })).toBe('=A1');
  for (const record of [0, 1, 2, 3, 4, 5, 6]) expect(look(record, 3)).toEqual(look(record, 0));
  expect(look(8, 3)).toEqual(['=D8+1', 46113, { kind: 'date' }]);
});

test('a text that looks like a number stays one when it is opened and entered as it stands', () => {
  const { desk: made } = desk();
  const texts = ['12', '3/4/2026', 'TRUE', '=A1', "'x", 'words', '007'];
  const place = (record: number): CellPlace => ({ sheet: 'Free', record, column: 0 });
  for (const [record, text] of texts.entries()) enter(made, [{ ...place(record), text: `'${text}` }]);
  const before = texts.map((_, record) => at('Free', record, 0));
  for (const record of texts.keys()) enter(made, [{ ...place(record), text: entryText(book, place(record)) }]);
  expect(texts.map((_, record) => at('Free', record, 0))).toEqual(before);
  expect(texts.map((_, record) => book.shown(place(record)))).toEqual(texts);
  expect([5, 6].map((record) => entryText(book, place(record)))).toEqual(['words', '007']);
});

describe('filling', () => {
  test('goes on with numbers and with names of belts, and repeats kinds of belt', () => {
    const { desk: made } = desk();
    const designation = book
      .columns('Belts')
      .findIndex(({ header, computed }) => !computed && header === 'Construction');
    book.addRecords('Belts', 0, [['CV-107'], ['CV-108'], []]);
    const fill = (column: number, records: number[]): void =>
      fillBlock(
        made,
        { sheet: 'Belts', records: [0], columns: [column] },
        { sheet: 'Belts', records, columns: [column] },
        false,
      );
    fill(0, [1, 2]);
    expect([at('Belts', 1, 0), at('Belts', 2, 0)]).toEqual(['CV-108', 'CV-109']);
    if (designation < 0) throw new Error('the sheet has no column Construction');
    book.edit([{ sheet: 'Belts', record: 0, column: designation, content: 'EP 630/4' }]);
    fill(designation, [1]);
    expect(at('Belts', 1, designation)).toBe('EP 630/4');
  });

  test('to the right and backwards', () => {
    const { desk: made } = desk();
    paste(made, 'Free', 0, 4, [['10', '20']]);
    const source = { sheet: 'Free', records: [0], columns: [4, 5] };
    fillBlock(made, source, { sheet: 'Free', records: [0], columns: [6, 7] }, false);
    fillBlock(made, source, { sheet: 'Free', records: [0], columns: [2, 3] }, true);
    expect([2, 3, 4, 5, 6, 7].map((column) => at('Free', 0, column))).toEqual([-10, 0, 10, 20, 30, 40]);
  });
});
