import { afterEach, describe, expect, test } from 'vitest';
import { type Content, isFault } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { moveEdits } from '../../src/workbook/moved-contents.ts';
import { shiftedFormula } from '../../src/workbook/moved-references.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Formulas follow the cells that they name: when these are moved, when rows and columns come and go. */

const opened: Workbook[] = [];
afterEach(() => {
  for (const book of opened.splice(0)) book.destroy();
});

/** A book with a free sheet "Free" of four columns and six rows, filled from its cell A2. */
function free(rows: readonly (readonly Content[])[], other: readonly (readonly Content[])[] = []): Workbook {
  const book = new Workbook(emptyBook('metric'));
  opened.push(book);
  for (const [sheet, contents] of [['Free', rows] as const, ['Other one', other] as const]) {
    book.addSheet(sheet, 4, 6);
    book.edit(contents.flatMap((row, record) => row.map((content, column) => ({ sheet, record, column, content }))));
  }
  return book;
}
const at = (cell: string, sheet = 'Free'): { sheet: string; record: number; column: number } => ({
  sheet,
  record: Number(cell.slice(1)) - 2,
  column: cell.charCodeAt(0) - 65,
});
const move = (book: Workbook, from: string, to: string, sheet = 'Free'): void =>
  book.edit(moveEdits(book.state, [{ from: at(from), to: at(to, sheet) }]), 'move');
const shown = (book: Workbook, cell: string, sheet?: string): unknown => {
  const value = book.shown(at(cell, sheet));
  return isFault(value) ? value.code : value;
};

describe('a cell that is moved', () => {
  test('takes its formula along, and what names it follows', () => {
    const book = free([[5, '=A2*2', '=B2+1']]);
    move(book, 'B2', 'B5');
    expect(book.content(at('B5'))).toBe('=A2*2');
    expect(book.content(at('C2'))).toBe('=B5+1');
    expect(book.content(at('B2'))).toBeNull();
    expect(shown(book, 'C2')).toBe(11);
    book.undo();
    expect(book.content(at('C2'))).toBe('=B2+1');
    expect(shown(book, 'C2')).toBe(11);
  });

  test('to another sheet, it goes on naming the cells of the first', () => {
    const book = free([[5, '=A2*2', '=B2+$B$2']]);
    move(book, 'B2', 'A3', 'Other one');
    expect(book.content(at('A3', 'Other one'))).toBe('=Free!A2*2');
    expect(book.content(at('C2'))).toBe("='Other one'!A3+'Other one'!$A$3");
    expect(shown(book, 'C2')).toBe(20);
  });

  test('a formula that names itself on the other sheet loses the name when they come together', () => {
    const book = free([[5]], [['=Free!A2+1']]);
    book.edit(moveEdits(book.state, [{ from: at('A2'), to: at('B4', 'Other one') }]), 'move');
    expect(book.content(at('A2', 'Other one'))).toBe("='Other one'!B4+1");
  });

  test('a range goes along as a whole, and stays when only a part of it goes', () => {
    const book = free([[1, '=SUM(A2:A3)', '=SUM(A2:A4)'], [2], [4]]);
    book.edit(
      moveEdits(
        book.state,
        ['2', '3'].map((row) => ({ from: at(`A${row}`), to: at(`D${row}`) })),
      ),
      'move',
    );
    expect(book.content(at('B2'))).toBe('=SUM(D2:D3)');
    expect(book.content(at('C2'))).toBe('=SUM(A2:A4)');
    expect([shown(book, 'B2'), shown(book, 'C2')]).toEqual([3, 4]);
  });
});

describe("one of the user's own columns", () => {
  const three = (): Workbook => {
    const book = free([[11, 22, '=B2*2', '=A2*2']], [['=Free!B2', '=SUM(Free!A2:C2)', '=SUM(Free!A:A)']]);
    return book;
  };

  test('that is removed leaves the others named as they were, and itself #REF!', () => {
    const book = three();
    book.removeColumn('Free', 0);
    expect(book.content(at('B2'))).toBe('=A2*2');
    expect(book.content(at('C2'))).toBe('=#REF!*2');
    expect(shown(book, 'C2')).toBe('#REF!');
    expect(['A2', 'B2', 'C2'].map((cell) => book.content(at(cell, 'Other one')))).toEqual([
      '=Free!A2',
      '=SUM(Free!A2:B2)',
      '=SUM(#REF!)',
    ]);
    expect([shown(book, 'B2'), shown(book, 'A2', 'Other one')]).toEqual([44, 22]);
    book.undo();
    expect(shown(book, 'C2')).toBe(44);
    expect(shown(book, 'B2', 'Other one')).toBe(77);
  });

  test('that is put in before another moves what stands behind it', () => {
    const book = three();
    book.addColumn('Free', 'Between', 'number', 1);
    expect([book.columns('Free')[1]?.header, book.content(at('B2'))]).toEqual(['Between', null]);
    expect(book.content(at('D2'))).toBe('=C2*2');
    expect(book.content(at('E2'))).toBe('=A2*2');
    expect(book.content(at('B2', 'Other one'))).toBe('=SUM(Free!A2:D2)');
    expect(shown(book, 'D2')).toBe(44);
  });

  test('stands behind those of the sheet', () => {
    const book = three();
    expect(() => book.addColumn('Belts', 'Mine', 'text', 3)).toThrow('comes after those of the sheet');
    expect(() => book.removeColumn('Belts', 3)).toThrow('only your own columns');
  });

  test('keeps the remarks of its neighbours with their cells', () => {
    const book = free([[1, 2, 3]]);
    const state = {
      ...book.state,
      sheets: book.state.sheets.map((sheet) =>
        sheet.name === 'Free'
          ? { ...sheet, rows: sheet.rows.map((row, record) => (record === 0 ? { ...row, notes: { 2: 'odd' } } : row)) }
          : sheet,
      ),
    };
    book.replace(state, 'remark');
    book.removeColumn('Free', 0);
    expect(book.note(at('B2'))).toBe('odd');
    book.addColumn('Free', 'Again', 'number', 0);
    expect(book.note(at('C2'))).toBe('odd');
  });
});

describe('the text of a formula', () => {
  const column = { sheet: 'Free', axis: 'column', at: 1, added: 0, removed: 1 } as const;
  test.each([
    ['=LOG10(C2)+C10', '=LOG10(B2)+B10'],
    ['="C2 and """&C2', '="C2 and """&B2'],
    ["='Other one'!C2+Free!C2", "='Other one'!C2+Free!B2"],
    ['=free!$C$2:D3', '=free!$B$2:C3'],
    ['=SUM(C2:A1)', '=SUM(B2:A1)'],
    ['=SUM(2:3)+C:D', '=SUM(2:3)+B:C'],
    ['=Rate_C2+X.C2', '=Rate_C2+X.C2'],
    ['=C2+ (', '=B2+ ('],
    ['=SUM(B:B)', '=SUM(#REF!)'],
  ])('%s', (formula, wanted) => {
    expect(shiftedFormula(formula, 'Free', column)).toBe(wanted);
  });
});

test('a range over all records of a declared sheet takes in those that are added below', () => {
  const book = free([['=SUM(Belts!$D$2:$D$3)', '=SUM(Belts!D2:D2)']]);
  book.addRecords('Belts', 0, [['A'], ['B']]);
  book.edit([{ ...at('A2'), content: '=SUM(Belts!$D$2:$D$3)' }]);
  book.addRecords('Belts', 2, [['C', null, null, 800]]);
  expect(book.content(at('A2'))).toBe('=SUM(Belts!$D$2:$D$4)');
  expect(shown(book, 'A2')).toBe(800);
  book.addRecords('Belts', 3, [['D', null, null, 100]]);
  expect(shown(book, 'A2')).toBe(900);
});

test('a spill comes back when what stood in its way is undone', () => {
  const book = free([['=PLATESPOTS(400,0,120,90,10)']]);
  expect(['A2', 'A3', 'A4'].map((cell) => shown(book, cell))).toEqual([80, 200, 320]);
  book.edit([{ ...at('A3'), content: 5 }]);
  expect(shown(book, 'A2')).toBe('#SPILL!');
  book.undo();
  expect(['A2', 'A3', 'A4'].map((cell) => shown(book, cell))).toEqual([80, 200, 320]);
});
