import { describe, expect, test } from 'vitest';
import { beltViews } from '../../sheets/belt-views.ts';
import { adaptedBook, presentColumns } from '../../src/workbook/adapted-book.ts';
import { firstLayout, readyView, shownHeaders, withHeader, withMoved } from '../../src/workbook/column-layout.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Which columns are on show, in which order, and what becomes of that when the book changes. */

const book = new Workbook(demoBook('metric'));
const columns = book.columns('Belts');
const shown = (change: Partial<ReturnType<typeof firstLayout>> = {}): string[] =>
  shownHeaders('Belts', { ...firstLayout('Belts'), ...change }, columns, 'Belt');

describe('ready-made views', () => {
  test('name columns that there are, each once, the belt first', () => {
    const headers = new Set(columns.map(({ header }) => header));
    for (const view of beltViews) {
      if (view.headers === 'all') continue;
      const names: readonly string[] = view.headers;
      expect(names.filter((header) => !headers.has(header))).toEqual([]);
      expect(new Set(names).size).toBe(names.length);
      expect(names[0]).toBe('Belt');
    }
  });

  test('the first is short enough to be looked through', () => {
    expect(shown().length).toBeLessThan(30);
    expect(shown()).toContain('Verdict');
  });

  test('all columns are all but the intermediate ones', () => {
    const all = shown({ headers: 'all' });
    expect(all.length).toBe(columns.filter(({ declared }) => declared?.background !== true).length);
    expect(shown({ headers: 'all', intermediate: true })).toHaveLength(columns.length);
  });

  test("show the user's own columns behind their own", () => {
    const own = new Workbook(demoBook('metric'));
    own.addColumn('Belts', 'WO number');
    const layout = firstLayout('Belts');
    expect(shownHeaders('Belts', layout, own.columns('Belts'), 'Belt').at(-1)).toBe('WO number');
  });
});

test('a folded group goes, its columns in other groups and the name stay', () => {
  expect(shown({ folded: ['Joint'] })).not.toContain('Skew');
  expect(shown({ folded: ['Joint', 'Belt'] })[0]).toBe('Belt');
});

test('a header that there is no more is passed over', () => {
  expect(shown({ headers: ['Belt', 'Gone', 'Width'] })).toEqual(['Belt', 'Width']);
});

test('a column is put in where it stands in the sheet, and moved not past the ends', () => {
  expect(withHeader(['Belt', 'Width', 'Skew'], 'Pulley centres', columns)).toEqual([
    'Belt',
    'Width',
    'Pulley centres',
    'Skew',
  ]);
  expect(withMoved(['A', 'B', 'C'], 'C', -1)).toEqual(['A', 'C', 'B']);
  expect(withMoved(['A', 'B', 'C'], 'A', -1)).toEqual(['A', 'B', 'C']);
});

describe('what the book keeps', () => {
  const looked = (): Workbook => {
    const one = new Workbook(demoBook('metric'));
    one.addColumn('Belts', 'WO number');
    const layout = { ...firstLayout('Belts'), headers: ['Belt', 'WO number'], widths: { 'WO number': 120 } };
    one.lookAs({ layouts: { Belts: layout }, views: [{ sheet: 'Belts', name: 'Mine', layout }] });
    return one;
  };

  test('is no step to undo, and undo leaves it as it is', () => {
    const one = looked();
    one.edit([{ sheet: 'Belts', record: 0, column: 3, content: 1000 }]);
    const later = { layouts: { Belts: firstLayout('Belts') }, views: [] };
    one.lookAs(later);
    one.undo();
    expect(one.look).toEqual(later);
    expect(one.undoable).toBe('add column');
  });

  test('follows a column of the user’s own that is renamed', () => {
    const one = looked();
    one.changeColumn('Belts', columns.length, { header: 'Work order', kind: 'text' });
    expect(one.look.layouts['Belts']?.headers).toEqual(['Belt', 'Work order']);
    expect(one.look.layouts['Belts']?.widths).toEqual({ 'Work order': 120 });
    expect(one.look.views[0]?.layout.headers).toEqual(['Belt', 'Work order']);
  });

  test('stays when a list is imported in place of the book, and comes with a book that has its own', () => {
    const one = looked();
    one.replace(demoBook('metric'), 'import');
    expect(one.look.views.map(({ name }) => name)).toEqual(['Mine']);
    one.replace({ ...demoBook('metric'), look: { layouts: {}, views: [] } }, 'import');
    expect(one.look.views).toEqual([]);
  });

  test('goes by present headers in a later version', () => {
    const layout = { ...firstLayout('Belts'), headers: ['Belt', 'Duty'] };
    const { state } = adaptedBook(
      { ...demoBook('metric'), look: { layouts: { Belts: layout }, views: [] } },
      presentColumns(),
    );
    expect(state.look?.layouts['Belts']?.headers).toEqual(['Belt', 'Material']);
  });

  test('a view of another sheet is none of this one', () => {
    expect(readyView('Strips', 'Planner')).toBeUndefined();
    expect(firstLayout('Strips').headers).toBe('all');
  });
});
