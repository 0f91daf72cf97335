import { afterEach, expect, test } from 'vitest';
import { withCellsOfColumns, withColumnNames } from '../../src/workbook/column-references.ts';
import { columnFormula } from '../../src/workbook/column-formulas.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { exceptions, headerRefusal, ownColumnAt } from '../../src/workbook/own-columns.ts';
import { emptyOrGiven, withRoom, withSheet } from '../../src/workbook/state-changes.ts';
import { adaptedBook, presentColumns } from '../../src/workbook/adapted-book.ts';
import type { Content } from '../../src/formula/values.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { type BookState, sheetOf, type UserColumn } from '../../src/workbook/state.ts';
import { mergePlan } from '../../src/merge/merge-plan.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';

/** What the user says of a column of their own, and its one formula. */

const opened: Workbook[] = [];
afterEach(() => {
  for (const book of opened.splice(0)) book.destroy();
});

/** Belts of these widths with one own column, as it is said to be. */
function belts(widths: readonly number[], column: UserColumn): { book: Workbook; own: number } {
  const book = new Workbook(emptyBook('metric'));
  opened.push(book);
  book.addColumn('Belts', 'Own', 'number');
  const own = book.columns('Belts').length - 1;
  book.addRecords(
    'Belts',
    0,
    widths.map((width) => {
      const cells: Content[] = Array.from({ length: own + 1 }, () => null);
      cells[book.column('Belts', 'Width')] = width;
      return cells;
    }),
  );
  const { formula } = column;
  const typed =
    formula === undefined
      ? {}
      : { formula: withCellsOfColumns(formula, { sheet: 'Belts', record: 0, column: own }, book.state) };
  book.changeColumn('Belts', own, { ...column, ...typed });
  return { book, own };
}
const twice: UserColumn = { header: 'Twice', kind: 'length', formula: '=[Width]*2' };
const values = ({ book, own }: { book: Workbook; own: number }): unknown[] =>
  book.sheet('Belts').rows.map((_, record) => book.value({ sheet: 'Belts', record, column: own }));
const width = (book: Workbook, record: number, content: Content): void =>
  book.edit([{ sheet: 'Belts', record, column: book.column('Belts', 'Width'), content }]);

test('one formula fills the column and every belt that is added, wherever and into a sheet without any', () => {
  const made = belts([600], twice);
  expect(values(made)).toEqual([1200]);
  made.book.addRecords('Belts', 0, [[]]);
  width(made.book, 0, 500);
  made.book.addRecords('Belts', 2, [[]]);
  width(made.book, 2, 800);
  expect(values(made)).toEqual([1000, 1200, 1600]);
  const none = belts([], twice);
  none.book.addRecords('Belts', 0, [[], []]);
  width(none.book, 1, 300);
  expect(values(none)).toEqual([0, 600]);
});

test('a cell in which something else was entered keeps it, and new belts get the formula all the same', () => {
  const made = belts([600, 800], { header: 'Own', kind: 'length' });
  made.book.edit([{ sheet: 'Belts', record: 0, column: made.own, content: 7 }]);
  made.book.changeColumn('Belts', made.own, { ...twice, formula: '=$D2*2' });
  expect(values(made)).toEqual([7, 1600]);
  expect(exceptions(made.book.state, 'Belts', made.own)).toBe(1);
  made.book.addRecords('Belts', 2, [[]]);
  width(made.book, 2, 100);
  expect(values(made)).toEqual([7, 1600, 200]);
});

test('a formula that is taken away leaves empty cells, and all of it is one step to undo', () => {
  const made = belts([600, 800], twice);
  const before = made.book.state;
  made.book.changeColumn('Belts', made.own, { header: 'Twice', kind: 'length' });
  expect(values(made)).toEqual([null, null]);
  made.book.undo();
  expect(made.book.state.sheets).toEqual(before.sheets);
});

test('references of the column stay with their cells when rows come and go, and ranges grow', () => {
  const made = belts([600, 800], {
    header: 'Share',
    kind: 'number',
    percent: true,
    formula: '=[Width]/SUM(Belts[Width])',
  });
  made.book.addRecords('Belts', 0, [[]]);
  width(made.book, 0, 600);
  made.book.replace(withRoom(made.book.state, [{ sheet: 'Belts', record: 3, column: 0 }]), 'paste');
  expect(values(made)).toEqual([0.3, 0.3, 0.4, 0]);
  made.book.removeRecords('Belts', 0, 3);
  made.book.addRecords('Belts', 1, [[]]);
  width(made.book, 0, 250);
  width(made.book, 1, 750);
  expect(values(made)).toEqual([0.25, 0.75]);
});

test('a record more leaves the columns as they are: by that the grid knows that it need not make them anew', () => {
  const { state } = belts([200], { header: 'Own', kind: 'length' }).book;
  const grown = withRoom(state, [{ sheet: 'Belts', record: 1, column: 0 }]);
  expect(sheetOf(grown, 'Belts').rows).toHaveLength(2);
  expect(sheetOf(grown, 'Belts').userColumns).toBe(sheetOf(state, 'Belts').userColumns);
});

test('numbers turn with the units, and are not asked about where the user said what they are', () => {
  const made = belts([254, 508], { header: 'Own', kind: 'length' });
  made.book.edit([{ sheet: 'Belts', record: 0, column: made.own, content: 25.4 }]);
  expect(made.book.convert('us')).toEqual([]);
  expect(values(made)).toEqual([1, null]);
  const bar = belts([254], { header: 'Own', kind: 'number', unit: 'bar' });
  bar.book.edit([{ sheet: 'Belts', record: 0, column: bar.own, content: 3 }]);
  expect(bar.book.convert('us')).toEqual([]);
  const constant = belts([254, 508, 762], { header: 'Own', kind: 'length', formula: '=[Width]+50' });
  constant.book.edit([{ sheet: 'Belts', record: 0, column: constant.own, content: 7 }]);
  expect(constant.book.convert('us').map(({ content }) => content)).toEqual(['=$D3+50']);
});

test('the formula is read and shown by the names of columns, and survives a version with other columns', () => {
  const made = belts([600, 800], twice);
  const place = { sheet: 'Belts', record: 1, column: made.own };
  expect(withColumnNames(String(made.book.content(place)), place, made.book.state)).toBe('=[Width]*2');
  const earlier = presentColumns();
  const fewer = { ...earlier, Belts: (earlier['Belts'] ?? []).filter((header) => header !== 'Lift') };
  // A book stored before the column Lift was there: its cells stand one place further left.
  const gap = made.book.column('Belts', 'Lift');
  const without = {
    ...made.book.state,
    sheets: made.book.state.sheets.map((sheet) =>
      sheet.name === 'Belts'
        ? { ...sheet, rows: sheet.rows.map((row) => ({ cells: row.cells.toSpliced(gap, 1) })) }
        : sheet,
    ),
  };
  const { state } = adaptedBook(without, fewer);
  expect(ownColumnAt(state, 'Belts', made.own)?.formula).toBe(twice.formula?.replace('[Width]', '$D2'));
});

test('after a merge that moves columns the formula is that of the cells', () => {
  const made = belts([600, 800], twice);
  const sheet = made.book.sheet('Belts');
  const stale = { ...sheet, userColumns: sheet.userColumns.map((column) => ({ ...column, formula: '=$A2&"x"' })) };
  expect(columnFormula(stale, made.own)).toBe('=$D2*2');
});

test('a name that another column has, or that formulas cannot write, is refused', () => {
  const { book, own } = belts([600], twice);
  expect(headerRefusal(book.state, 'Belts', 'width')).toContain('already');
  expect(headerRefusal(book.state, 'Belts', 'Twice', own)).toBeUndefined();
  expect(headerRefusal(book.state, 'Belts', 'a[b]')).toContain('cannot hold');
  expect(headerRefusal(book.state, 'Belts', ' ')).toContain('needs a name');
});

test('a belt that a list brings, which has not the column, gets its formula', () => {
  const { book, own } = belts([600, 800], twice);
  const named = (state: BookState, names: readonly string[]): BookState =>
    withSheet(state, 'Belts', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row, record) => ({ ...row, cells: row.cells.with(0, names[record] ?? null) })),
    }));
  const base = named(book.state, ['A', 'B']);
  const list = withSheet(named(emptyBook('metric'), []), 'Belts', (sheet) => ({
    ...sheet,
    rows: emptyOrGiven(sheet, [['N'], ['A'], ['B']]),
  }));
  const covers = new Map([['Belts', new Set(['Belt'])]]);
  const { state } = mergedBook(
    mergePlan({ base: { state: base }, mine: { state: base }, theirs: { state: list, covers } }),
  );
  expect(sheetOf(state, 'Belts').rows.map(({ cells }) => [cells[0], cells[own]])).toEqual([
    ['N', '=$D2*2'],
    ['A', '=$D3*2'],
    ['B', '=$D4*2'],
  ]);
});

test('how a column is told to show numbers counts before how a file showed them, and the other looks stay', () => {
  const { book, own } = belts([600], { header: 'Share', kind: 'number' });
  const looks = { [own]: { format: '0.000', bold: true as const } };
  book.replace(
    withSheet(book.state, 'Belts', (sheet) => ({ ...sheet, rows: sheet.rows.map((row) => ({ ...row, looks })) })),
    'import',
  );
  book.changeColumn('Belts', own, { header: 'Part', kind: 'number' });
  expect(book.sheet('Belts').rows[0]?.looks).toEqual(looks);
  book.changeColumn('Belts', own, { header: 'Part', kind: 'number', digits: 1 });
  expect(book.sheet('Belts').rows[0]?.looks).toEqual({ [own]: { bold: true } });
});
