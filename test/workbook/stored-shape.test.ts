import { describe, expect, test } from 'vitest';
import { lookDamaged, noLook, readBookLook } from '../../src/workbook/book-look.ts';
import { headFault, rowsFault } from '../../src/workbook/stored-shape.ts';
import { presentColumns } from '../../src/workbook/adapted-book.ts';
import { demoBook } from '../../src/workbook/demo.ts';

/** Stores that were damaged by hand: what the page can't use it says, and takes nothing else for a fault. */

const demo = demoBook('metric');
const head = {
  title: demo.title,
  units: demo.units,
  columns: presentColumns(),
  sheets: demo.sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length })),
};
const [first, ...others] = head.sheets;

test('a book as it is stored has no fault', () => {
  expect(headFault(head)).toBeUndefined();
  for (const { name, rows } of demo.sheets) expect(rowsFault(name, rows)).toBeUndefined();
  expect(rowsFault('Belts', [{ cells: [Number.NaN, undefined, 'x'.repeat(40_000)], notes: { 3: 'why' } }])).toBe(
    undefined,
  );
});

describe('a head that is none', () => {
  test.each<[string, unknown, string]>([
    ['a text', 'abc', 'description is missing'],
    ['nothing', null, 'description is missing'],
    ['a title of another kind', { ...head, title: 5 }, 'title is not a text'],
    ['unknown units', { ...head, units: 'furlong' }, 'neither metric nor US'],
    ['no columns', { ...head, columns: undefined }, 'list of its columns'],
    ['columns that are no texts', { ...head, columns: { Belts: [{}] } }, 'list of its columns'],
    ['no sheets', { ...head, sheets: undefined }, 'list of its sheets is missing'],
    ['a sheet that is none', { ...head, sheets: [first, null] }, 'of its sheet 2'],
    ['a name that is a number', { ...head, sheets: [{ name: 12, userColumns: [], rows: 0 }] }, 'of its sheet 1'],
    ['one sheet twice', { ...head, sheets: [first, ...others, first] }, 'two sheets called Belts'],
    ['no own columns', { ...head, sheets: [{ name: 'Belts', rows: 0 }] }, 'own columns of the sheet Belts'],
    [
      'an own header that is a number',
      { ...head, sheets: [{ ...first, userColumns: [{ header: 5, kind: 'text' }] }] },
      'own columns of the sheet Belts',
    ],
    [
      'an own column of a kind that every object has',
      { ...head, sheets: [{ ...first, userColumns: [{ header: 'Mine', kind: 'constructor' }] }] },
      'own column Mine of the sheet Belts is of no known kind or format',
    ],
  ])('%s', (_name, damaged, words) => expect(headFault(damaged)).toContain(words));
});

test.each<[string, unknown, string]>([
  ['nothing', null, 'row 3 of the sheet Belts'],
  ['no cells', {}, 'row 3 of the sheet Belts'],
  ['cells that are a text', { cells: 'abc' }, 'row 3 of the sheet Belts'],
  ['a day', { cells: ['B', new Date()] }, 'cell B3 of the sheet Belts'],
  ['a number of any length', { cells: ['B', 'C', 10n] }, 'cell C3 of the sheet Belts'],
  ['a list', { cells: [[1, 2]] }, 'cell A3 of the sheet Belts'],
  ['remarks that are a text', { cells: [], notes: 'abc' }, 'remarks of row 3'],
  ['remarks that are numbers', { cells: [], notes: { 3: 12 } }, 'remarks of row 3'],
])('a row that is %s', (_name, row, words) => expect(rowsFault('Belts', [{ cells: [] }, row])).toContain(words));

test('a look is read as far as it is one', () => {
  const layout = { view: '', headers: 'all', intermediate: false, folded: [], widths: { Belt: 90 }, frozen: 1 };
  const look = { layouts: { Belts: layout }, views: [{ sheet: 'Belts', name: 'Mine', layout }] };
  expect(readBookLook(look)).toEqual(look);
  expect(lookDamaged(look, readBookLook(look))).toBe(false);
  expect(lookDamaged(undefined, undefined)).toBe(false);
  for (const none of ['abc', null, { layouts: 5, views: [] }, { layouts: {}, views: 'q' }])
    expect([readBookLook(none), lookDamaged(none, undefined)]).toEqual([undefined, true]);
  const narrow = { layouts: { Belts: { ...layout, widths: { Belt: '90' } } }, views: [] };
  expect(lookDamaged(narrow, readBookLook(narrow))).toBe(true);
  expect(readBookLook({ layouts: { Belts: 'q' }, views: [{ sheet: 'Belts', layout }] })).toEqual(noLook);
  expect(
    readBookLook({ layouts: { Belts: { ...layout, widths: { Belt: '90' } } }, views: [] })?.layouts['Belts'],
  ).toEqual({ ...layout, widths: {} });
});
