import { describe, expect, it } from 'vitest';
import { comparedBooks } from '../../src/merge/compared-books.ts';
import { itemWords } from '../../src/merge/item-words.ts';
import type { Choose } from '../../src/merge/merge-item.ts';
import { mergePlan } from '../../src/merge/merge-plan.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';
import { noLook } from '../../src/workbook/book-look.ts';
import { firstLayout } from '../../src/workbook/column-layout.ts';
import { columnNamed } from '../../src/workbook/declared.ts';
import { ownColumnAt, withOwnColumn } from '../../src/workbook/own-columns.ts';
import { namesSheet, ownNameAt, withOwnName } from '../../src/workbook/own-names.ts';
import { withColumnAdded, withContents, withRecordsMoved, withSheet } from '../../src/workbook/state-changes.ts';
import { type BookState, type CellFormat, sheetOf, type UserColumn } from '../../src/workbook/state.ts';
import { bookOf, letters, rowOf, soundBelt } from '../workbook/books.ts';

/** Own columns, named values, formats of cells and views in a merge: nothing is lost, nothing decided in silence. */

const fleet = bookOf({ belts: ['A', 'B', 'C'].map((Belt) => ({ ...soundBelt, Belt })) });
const added = withColumnAdded(fleet, 'Belts', { header: 'Reach', kind: 'number' });
const place = columnNamed(sheetOf(added, 'Belts'), 'Reach') ?? -1;
const typed = (state: BookState, content: string | number, record = 0): BookState =>
  withContents(state, [{ sheet: 'Belts', record, column: place, content }]);
const base = [0, 1, 2].reduce((state, record) => typed(state, 5 + record, record), added);
const columnOf = (state: BookState): UserColumn | undefined => ownColumnAt(state, 'Belts', place);
const withFacts = (state: BookState, facts: Partial<UserColumn>): BookState =>
  withOwnColumn(state, 'Belts', place, { header: 'Reach', kind: 'number', ...columnOf(state), ...facts });
const withFormat = (state: BookState, format: CellFormat): BookState =>
  withSheet(state, 'Belts', (sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row, record) => (record === 0 ? { ...row, formats: { [place]: format } } : row)),
  }));
const reachOf = (state: BookState) => sheetOf(state, 'Belts').rows.map(({ cells }) => cells[place]);

const names = { base: 'base', mine: 'mine', theirs: 'theirs' };
function tried(mine: BookState, theirs: BookState, choose?: Choose, from: BookState = base) {
  const plan = mergePlan({ base: { state: from }, mine: { state: mine }, theirs: { state: theirs } });
  const { state, open } = mergedBook(plan, choose);
  return {
    state,
    words: plan.items.map((item) => itemWords(item, names, plan.units)),
    open: open.map(({ item }) => item.fact ?? item.column),
  };
}

describe('a merge of own columns', () => {
  it('takes each fact from the book that changed it', () => {
    const mine = withFacts(base, { doc: 'how far', digits: 1 });
    const theirs = withFacts(base, { kind: 'length' });
    const { state, words, open } = tried(mine, theirs);
    expect(columnOf(state)).toEqual({ header: 'Reach', kind: 'length', digits: 1, doc: 'how far' });
    expect(open).toEqual([]);
    expect(words).toEqual([
      'Belts, own column "Reach", kind and unit: "number" in mine, "length in mm" in theirs, "number" in base',
      'Belts, own column "Reach", decimals: 1 in mine, empty in theirs, empty in base',
      'Belts, own column "Reach", meaning: "how far" in mine, empty in theirs, empty in base',
    ]);
  });

  it('leaves open what both changed, and numbers typed for another unit', () => {
    const percent = withFacts(base, { percent: true });
    const pieces = withFacts(base, { unit: 'pcs' });
    expect(tried(percent, pieces).open).toEqual(['kind and unit']);
    expect(columnOf(tried(percent, pieces).state)?.percent).toBe(true);
    expect(columnOf(tried(percent, pieces, () => 'theirs').state)).toEqual({
      header: 'Reach',
      kind: 'number',
      unit: 'pcs',
    });
    expect(tried(typed(base, 9), pieces).open).toEqual(['kind and unit']);
    expect(tried(pieces, typed(base, 9)).open).toEqual(['kind and unit']);
  });

  it('takes a formula of a whole column as one change, and keeps what else was typed', () => {
    const empty = [0, 1, 2].reduce(
      (state, record) => withContents(state, [{ sheet: 'Belts', record, column: place, content: null }]),
      base,
    );
    const theirs = withFacts(empty, { formula: `=${letters('Width')}2*2` });
    const width = letters('Width');
    const { state, words, open } = tried(typed(empty, 7, 1), theirs, undefined, empty);
    expect(reachOf(state)).toEqual([`=${width}2*2`, 7, `=${width}4*2`]);
    expect(open).toEqual([]);
    expect(words.filter((text) => text.includes('formula'))).toHaveLength(1);
    expect(words).toHaveLength(2);

    const ruled = theirs;
    const mine = withRecordsMoved(ruled, 'Belts', 0, 0, [rowOf('Belts', { ...soundBelt, Belt: 'New' })]);
    const again = tried(mine, withFacts(ruled, { formula: `=${width}2*3` }), undefined, ruled);
    expect(again.open).toEqual([]);
    expect(reachOf(again.state)).toEqual([2, 3, 4, 5].map((row) => `=${width}${row}*3`));
    const dropped = withFacts(ruled, {});
    const { formula: _, ...plain } = columnOf(dropped) ?? { header: '', kind: 'text' };
    const without = withOwnColumn(ruled, 'Belts', place, plain);
    expect(reachOf(tried(ruled, without, undefined, ruled).state)).toEqual([null, null, null]);
  });

  it('tells how a cell shows its number, and takes it with the cell', () => {
    const theirs = withFormat(base, { kind: 'number', percent: true, digits: 1 });
    const { state, words } = tried(typed(base, 9, 1), theirs);
    expect(sheetOf(state, 'Belts').rows[0]?.formats?.[place]).toEqual({ kind: 'number', percent: true, digits: 1 });
    expect(words).toContain(
      'Belts, A, Reach: 5 shown as its column is in mine, 5 shown as percent, 1 decimal in theirs, ' +
        '5 shown as its column is in base',
    );
    expect(tried(typed(base, 9), theirs).open).toEqual(['Reach']);
    expect(comparedBooks({ state: base }, { state: theirs }).items).toHaveLength(1);
  });
});

describe('a merge of formulas over whole columns', () => {
  it('covers the belts that both sides added', () => {
    const width = letters('Width');
    const sheet = { name: 'Notes', userColumns: [{ header: 'Sum', kind: 'number' }] } as const;
    const before = {
      ...base,
      sheets: [...base.sheets, { ...sheet, rows: [{ cells: [`=SUM(Belts!$${width}$2:$${width}$4)`] }] }],
    };
    const withBelt = (name: string, at: number): BookState =>
      withRecordsMoved(before, 'Belts', at, 0, [rowOf('Belts', { ...soundBelt, Belt: name })]);
    const sum = (mine: BookState, theirs: BookState): unknown => {
      const { state, open } = tried(mine, theirs, undefined, before);
      return [sheetOf(state, 'Notes').rows[0]?.cells[0], open];
    };
    const whole = (last: number): unknown => [`=SUM(Belts!$${width}$2:$${width}$${last})`, []];
    expect(sum(withBelt('X', 3), withBelt('Y', 3))).toEqual(whole(6));
    expect(sum(withBelt('X', 0), withBelt('Y', 3))).toEqual(whole(6));
    expect(sum(before, withBelt('Y', 3))).toEqual(whole(5));
    expect(sum(withBelt('X', 3), before)).toEqual(whole(5));
  });
});

describe('a merge of own named values', () => {
  const own = { name: 'Reserve', value: 10, unit: 'mm', meaning: 'kept over', source: '' };
  const named = withOwnName(base, own);
  const record = sheetOf(named, namesSheet).rows.length - 1;
  const withOwn = (change: Partial<typeof own>): BookState => withOwnName(named, { ...own, ...change }, record);

  it('takes meaning and source from the book that changed them', () => {
    const { state, open } = tried(withOwn({ meaning: 'spare' }), withOwn({ source: 'measured' }), undefined, named);
    expect(ownNameAt(state, namesSheet, record)).toEqual({ ...own, meaning: 'spare', source: 'measured' });
    expect(open).toEqual([]);
  });

  it('makes no other quantity of a number and a unit that two changed', () => {
    const both = [withOwn({ value: 12 }), withOwn({ value: 0.01, unit: 'm' })] as const;
    expect(tried(...both, undefined, named).open).toEqual(['Value']);
    const apart = tried(withOwn({ value: 12 }), withOwn({ unit: 'm' }), undefined, named);
    expect(apart.open.toSorted()).toEqual(['Unit', 'Value']);
    expect(ownNameAt(apart.state, namesSheet, record)).toEqual({ ...own, value: 12 });
  });
});

describe('a merge of views', () => {
  const viewed = (state: BookState, ...views: readonly (readonly [string, number])[]): BookState => ({
    ...state,
    look: {
      ...noLook,
      views: views.map(([name, frozen]) => ({ sheet: 'Belts', name, layout: { ...firstLayout('Belts'), frozen } })),
    },
  });

  it('keeps those of both, and leaves open what both changed', () => {
    const before = viewed(base, ['Round', 1], ['Mine', 1]);
    const { state, open, words } = tried(
      viewed(base, ['Round', 2], ['Mine', 1], ['Crew', 1]),
      viewed(base, ['Round', 3], ['Night', 1]),
      undefined,
      before,
    );
    expect(state.look?.views.map(({ name, layout }) => [name, layout.frozen])).toEqual([
      ['Round', 2],
      ['Crew', 1],
      ['Night', 1],
    ]);
    expect(open).toEqual(['Round']);
    expect(words).toContain('Belts, view "Night": new in theirs');
    expect(words).toContain('Belts, view "Mine": gone from theirs');
  });
});
