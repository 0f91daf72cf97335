import { describe, expect, test } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { Fault } from '../../src/formula/values.ts';
import { bookColumns, headerPosition } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { destination, destinationNames, nearDestinations } from '../../src/workbook/destinations.ts';
import { foundCells, replacedText } from '../../src/workbook/found-cells.ts';
import { summaryOf } from '../../src/workbook/selection-summary.ts';
import { withContents } from '../../src/workbook/state-changes.ts';

const state = demoBook('metric');
const here = { sheet: 'Belts', record: 4, column: 2 };
const to = (text: string, book = state): string => {
  const place = destination(text, book, here);
  return place === undefined ? 'nowhere' : `${place.sheet} ${place.record} ${place.column}`;
};
const width = headerPosition('Belts', 'Width');
const name = String(state.sheets.find((sheet) => sheet.name === 'Belts')?.rows[3]?.cells[0]);

describe('a typed text leads', () => {
  test.each([
    ['J7', 'Belts 5 9'],
    ['strips!b3', 'Strips 1 1'],
    ["'Plate series'!C4", 'Plate series 2 2'],
    [`${columnLetters(width)}:${columnLetters(width)}`, `Belts 4 ${width}`],
    ['width', `Belts 4 ${width}`],
    [`belt ${name}`, 'Belts 3 0'],
    [`Belt ${name.toLowerCase()}`, 'Belts 3 0'],
    ['Assumptions', 'Assumptions 0 0'],
    ['Plate series[Series]', `Plate series 0 ${headerPosition('Plate series', 'Series')}`],
    ['nothing of the kind', 'nowhere'],
    ['', 'nowhere'],
    ['ZZZ999', 'nowhere'],
    ['A1', 'nowhere'],
  ])('%s: %s', (text, wanted) => {
    expect(to(text)).toBe(wanted);
  });

  test('to a named value, and to a belt that is called like a cell of the headers', () => {
    const place = destination('RollingFriction', state, here);
    expect(place).toMatchObject({ sheet: 'Assumptions', column: 1 });
    const called = withContents(state, [{ sheet: 'Belts', record: 6, column: 0, content: 'C1' }]);
    expect(to('C1', called)).toBe('Belts 6 0');
  });

  test('names that lead somewhere are offered, and the nearest of one that does not', () => {
    const names = destinationNames(state, 'Belts');
    for (const known of ['Width', 'Verdict', `belt ${name}`, 'RollingFriction', 'Strips'])
      expect(names).toContain(known);
    expect(nearDestinations('Widht', state, 'Belts')).toContain('Width');
    expect(names.every((known) => destination(known, state, here) !== undefined)).toBe(true);
  });
});

describe('a text is found', () => {
  const book = withContents(state, [
    { sheet: 'Belts', record: 0, column: 1, content: 'North yard' },
    { sheet: 'Belts', record: 1, column: width, content: '=NORTHING*2' },
    { sheet: 'Strips', record: 0, column: 0, content: 'north strip' },
  ]);
  const widthOf = (sheet: string): number =>
    bookColumns(book.sheets.find((item) => item.name === sheet) ?? { name: sheet, userColumns: [], rows: [] }).length;
  const found = (sheet: string | undefined, matchCase: boolean, text = 'north'): string[] =>
    foundCells(book, { text, matchCase, sheet }, widthOf, () => '').map(
      ({ sheet: on, record, column }) => `${on} ${record} ${column}`,
    );

  test('in contents and formulas, of one sheet or all, in any case or its own', () => {
    expect(found('Belts', false)).toEqual(expect.arrayContaining(['Belts 0 1', `Belts 1 ${width}`]));
    expect(found(undefined, false)).toContain('Strips 0 0');
    expect(found('Belts', false)).not.toContain('Strips 0 0');
    expect(found(undefined, true)).toContain('Strips 0 0');
    expect(found(undefined, true)).not.toContain('Belts 0 1');
    expect(found(undefined, false, '')).toEqual([]);
  });

  test('in what a cell shows that holds nothing itself', () => {
    const places = foundCells(
      book,
      { text: 'shown', matchCase: false, sheet: 'Strips' },
      () => 1,
      () => 'as Shown',
    );
    expect(places.length).toBe(book.sheets.find((sheet) => sheet.name === 'Strips')?.rows.length);
  });

  test('and replaced as it stands, signs and all', () => {
    const search = { text: 'a.b', matchCase: false, sheet: undefined };
    expect(replacedText('A.B a.b axb', search, '$&')).toBe('$& $& axb');
    expect(replacedText('A.B', { ...search, matchCase: true }, 'x')).toBeUndefined();
    expect(replacedText('axb', search, 'x')).toBeUndefined();
  });
});

test('selected cells come to a sum, a mean and a count', () => {
  expect(summaryOf([1, 2, null, 'three', '', true, new Fault('#REF!', '')])).toEqual({
    filled: 5,
    numbers: 2,
    sum: 3,
    mean: 1.5,
  });
  expect(summaryOf(Array.from({ length: 10 }, () => 0.1)).sum).toBe(1);
  expect(summaryOf(['text']).mean).toBeUndefined();
});
