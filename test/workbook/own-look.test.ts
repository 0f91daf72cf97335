import { describe, expect, it } from 'vitest';
import { mergePlan } from '../../src/merge/merge-plan.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';
import { cellLook } from '../../src/page/grid/cell-look.ts';
import { layoutIn, noLook, readLayout, widthIn } from '../../src/workbook/book-look.ts';
import { firstLayout, hiddenInFiles, shownHeaders } from '../../src/workbook/column-layout.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { bookColumns } from '../../src/workbook/declared.ts';
import { type OwnLook, readLook } from '../../src/workbook/own-look.ts';
import { withColumnAdded, withContents, withRecordsMoved, withSheet } from '../../src/workbook/state-changes.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, soundBelt } from './books.ts';

/** How the user's file shows cells, while the book changes. */

const plain = bookOf({ belts: ['A', 'B', 'C'].map((Belt) => ({ ...soundBelt, Belt })) });
const own = bookColumns(sheetOf(plain, 'Belts')).length;
const base = withColumnAdded(plain, 'Belts', { header: 'Cost', kind: 'text' });
const looked = (state: BookState, record: number, column: number, look: OwnLook | undefined): BookState =>
  withSheet(state, 'Belts', (sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row, at) => {
      const { looks: _, ...others } = row;
      return at !== record ? row : look === undefined ? others : { ...others, looks: { [column]: look } };
    }),
  }));
const looksOf = (state: BookState): unknown[] => sheetOf(state, 'Belts').rows.map(({ looks }) => looks);
const yellow: OwnLook = { fill: 'FFFF00', comment: 'to be replaced' };
const red: OwnLook = { color: 'C00000' };
const state = looked(base, 1, own, yellow);
const merged = (mine: BookState, theirs: BookState): BookState =>
  mergedBook(mergePlan({ base: { state }, mine: { state: mine }, theirs: { state: theirs } })).state;

describe('a look stays with its cell', () => {
  it('when the cell, a row or a column before it, or the units change', () => {
    const typed = withContents(state, [{ sheet: 'Belts', record: 1, column: own, content: 12 }]);
    expect(looksOf(typed)).toEqual([undefined, { [own]: yellow }, undefined]);
    const below = withRecordsMoved(typed, 'Belts', 0, 0, [{ cells: [] }]);
    expect(looksOf(below)).toEqual([undefined, undefined, { [own]: yellow }, undefined]);
    const right = withColumnAdded(below, 'Belts', { header: 'Order', kind: 'text' }, own);
    expect(looksOf(right)[2]).toEqual({ [own + 1]: yellow });
    expect(looksOf(convertedBook(right, 'us').state)[2]).toEqual({ [own + 1]: yellow });
  });

  it('in a merge: as either gave it, here first, and nothing is taken away', () => {
    const here = looked(state, 0, own, red);
    const there = looked(state, 1, own, { ...yellow, comment: 'replaced in May' });
    expect(looksOf(merged(here, there))).toEqual([
      { [own]: red },
      { [own]: { ...yellow, comment: 'replaced in May' } },
      undefined,
    ]);
    expect(looksOf(merged(looked(state, 1, own, red), there))[1]).toEqual({ [own]: red });
    expect(looksOf(merged(state, looked(state, 1, own, undefined)))[1]).toEqual({ [own]: yellow });
  });
});

describe('what is written beside headers', () => {
  const noted = (Width: string): BookState => ({
    ...plain,
    look: { layouts: { Belts: { ...firstLayout('Belts'), comments: { Width, Belt: 'as on the plate' } } }, views: [] },
  });
  const beside = ({ look = noLook }: BookState): unknown => layoutIn(look, 'Belts')?.comments;

  it('is in a merge as either wrote it, here first', () => {
    const three = (mine: string, theirs: string): unknown =>
      beside(
        mergedBook(
          mergePlan({ base: { state: noted('old') }, mine: { state: noted(mine) }, theirs: { state: noted(theirs) } }),
        ).state,
      );
    expect([three('old', 'there'), three('here', 'old'), three('here', 'there')]).toEqual(
      ['there', 'here', 'here'].map((Width) => ({ Belt: 'as on the plate', Width })),
    );
  });

  it('comes back with what a step took away, and widths stay', () => {
    const book = new Workbook(noted('before'));
    book.replace({ ...plain, look: { layouts: {}, views: [] } }, 'import');
    book.lookAs({ layouts: { Belts: { ...firstLayout('Belts'), widths: { Width: 222 } } }, views: [] });
    book.undo();
    expect(beside(book.state)).toEqual({ Belt: 'as on the plate', Width: 'before' });
    expect(book.look.layouts['Belts']?.widths).toEqual({ Width: 222 });
    book.redo();
    expect(beside(book.state)).toBeUndefined();
    book.destroy();
  });
});

it('a number that agrees in the digits that other programs keep is no change', () => {
  const exact = 0.1 + 0.2;
  const there = withContents(base, [{ sheet: 'Belts', record: 0, column: own, content: 0.3 }]);
  const here = withContents(base, [{ sheet: 'Belts', record: 0, column: own, content: exact }]);
  const plan = mergePlan({ base: { state: here }, mine: { state: here }, theirs: { state: there } });
  expect(plan.items).toEqual([]);
  expect(sheetOf(mergedBook(plan).state, 'Belts').rows[0]?.cells[own]).toBe(exact);
});

it('the page shows colours, formats and comments', () => {
  const money = looked(base, 0, own, { ...yellow, format: '"$"#,##0.00' });
  const book = new Workbook(withContents(money, [{ sheet: 'Belts', record: 0, column: own, content: 1250.5 }]));
  const column = book.columns('Belts')[own];
  if (column === undefined) throw new Error('the column is missing');
  const look = cellLook(book, column, { sheet: 'Belts', record: 0, column: own }, false);
  expect(look).toMatchObject({ text: '$1,250.50', says: 'to be replaced', own: { fill: 'FFFF00' } });
  expect(look.classes).toContain('cell-comment');
  expect(look.name).toContain('to be replaced');
  book.destroy();
});

it('a column that the file hides is shown where a view names it, and hidden in files until one does', () => {
  const columns = bookColumns(sheetOf(base, 'Belts'));
  const all = {
    view: '',
    headers: 'all',
    intermediate: false,
    folded: [],
    widths: {},
    frozen: 1,
    away: ['Cost'],
  } as const;
  expect(shownHeaders('Belts', all, columns)).not.toContain('Cost');
  expect([...hiddenInFiles('Belts', all)]).toEqual(['Cost']);
  const named = { ...all, headers: ['Belt', 'Cost'] };
  expect(shownHeaders('Belts', named, columns)).toEqual(['Belt', 'Cost']);
  expect([...hiddenInFiles('Belts', named)]).toEqual([]);
});

it('what a file says of looks is taken only as far as it can be one', () => {
  expect(readLook({ fill: 'red', color: '00FF00', bold: 'yes', comment: '' })).toEqual({ color: '00FF00' });
  expect(readLook('FFFF00')).toBeUndefined();
  expect(readLayout(null)).toBeUndefined();
  expect(readLayout({ headers: ['A', 3], widths: { A: 80, B: -1, C: 1e9 }, frozen: 1e9, away: 'A' })).toEqual({
    view: '',
    headers: ['A'],
    intermediate: false,
    folded: [],
    widths: { A: 80 },
    frozen: 0,
  });
});

it('a sheet and a column may be called as what every object has', () => {
  expect(layoutIn(noLook, 'constructor')).toBeUndefined();
  expect(widthIn(firstLayout('Belts'), 'constructor')).toBeUndefined();
});
