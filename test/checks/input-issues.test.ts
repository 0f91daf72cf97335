import { describe, expect, test } from 'vitest';
import { cellIssue } from '../../src/records/cell-issue.ts';
import { sheetInputIssues } from '../../src/records/input-issues.ts';
import type { Finding } from '../../src/records/finding.ts';
import { changes, nearest } from '../../src/units/nearest.ts';
import type { Content } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { columnOf, bookOf, heron, plover, reed, soundBelt } from '../workbook/books.ts';
import type { BeltHeader, SeriesHeader } from '../../sheets/index.ts';

/** What stands in cells and should not: what is said of it, where, and what to do. */

const inputIssues = (book: Workbook): Finding[] =>
  book.state.sheets.flatMap(({ name }) => sheetInputIssues(book, name));

const withCell = (header: BeltHeader, content: Content): Workbook =>
  new Workbook(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'B2', [header]: content }] }));

const issueOf = (header: BeltHeader, content: Content): string | undefined => {
  const book = withCell(header, content);
  return cellIssue(book, { sheet: 'Belts', record: 1, column: book.column('Belts', header) });
};

test('a sound book and an empty one have no issue', () => {
  expect(inputIssues(new Workbook(bookOf({ belts: [soundBelt] })))).toEqual([]);
  expect(inputIssues(new Workbook(emptyBook('metric')))).toEqual([]);
  expect(inputIssues(new Workbook(emptyBook('us')))).toEqual([]);
});

describe('cells', () => {
  test.each<[BeltHeader, Content, string]>([
    ['Width', 'wide', 'Width holds the text "wide", which is not a number: enter a number (mm), more than 0'],
    ['Width', -800, 'Width is -800 mm: enter a number (mm), more than 0'],
    ['Width', 0, 'Width is 0 mm: enter a number (mm), more than 0'],
    ['Width', true, 'Width holds TRUE, which is not a number: enter a number (mm), more than 0'],
    ['Drive friction', 2, 'Drive friction is 2: enter a number, more than 0 and at most 1.5'],
    ['Joints', 1.5, 'Joints is 1.5: enter a whole number, from 0 to 200'],
    [
      'Installed',
      'last May',
      'Installed holds the text "last May", which is not a date: enter a date as year-month-day',
    ],
    ['Installed', 46352, 'Installed, 2026-11-26, must not be after ReviewDate, 2026-11-25: correct one of the two'],
    ['Skive depth', 9.8, 'Skive depth, 9.8 mm, must be less than Thickness, 9.8 mm: correct one of the two'],
    [
      'Smallest pulley',
      700,
      'Smallest pulley, 700 mm, must not be more than Head pulley, 630 mm: correct one of the two',
    ],
    [
      'Plate series',
      'Herno',
      'Plate series names "Herno", which is not in the sheet Plate series: choose Heron, or enter ' +
        '"Herno" in the sheet Plate series',
    ],
    [
      'Plate series',
      'Xyz',
      'Plate series names "Xyz", which is not in the sheet Plate series: choose Plover or Heron, or ' +
        'enter "Xyz" in the sheet Plate series',
    ],
    [
      'Service',
      'food; dusty, wet',
      'Service holds "dusty" and "wet", which are not allowed: choose one or more of ' +
        'underground, fire-rated, metal detector, magnet, corrosive or food, separated by commas, or none',
    ],
    [
      'Speed',
      '=1/0',
      'The formula gives #DIV/0!: division by zero: the divisor is 0 or an empty cell (comes from Belts!O3): correct ' +
        'the formula or enter a value',
    ],
    ['Speed', '=""', "Speed is empty (the belt's speed): enter a number (m/s), more than 0"],
    [
      'Plates',
      'nine',
      '"nine" replaces the sheet\'s own formula and is not a number: restore the formula, or enter a number',
    ],
  ])('%s: %s', (header, content, message) => {
    expect(issueOf(header, content)).toBe(message);
  });

  test('a skew beyond 60 degrees is told of both ways to count', () => {
    expect(issueOf('Skew', 90)).toBe(
      'Skew is 90°: enter a number of degrees, from 0 to 60. Skew counts from the square cut: a joint named by ' +
        'its angle to the belt edge ("90 degrees") is square, so enter 90 less that angle',
    );
  });

  test.each<[BeltHeader, Content]>([
    ['Width', 800.5],
    ['Lift', -3],
    ['Capacity', null],
    ['Service', 'Underground; FOOD'],
    ['Plate series', 'hERON'],
    ['Speed', '=1+1'],
    ['Area', 12],
    ['Plates', 9],
    ['Plates', '=3*3'],
    ['Installed', 46351],
  ])('%s: %s will do', (header, content) => {
    expect(issueOf(header, content)).toBeUndefined();
  });

  test('in US customary units the unit is told', () => {
    const book = withCell('Width', 'wide');
    book.convert('us');
    expect(cellIssue(book, { sheet: 'Belts', record: 1, column: book.column('Belts', 'Width') })).toContain(
      'enter a number (in), more than 0',
    );
  });

  test('what the import said of a cell is told first', () => {
    const state = bookOf({ belts: [{ ...soundBelt, Width: '80O' }] });
    const column = 3;
    const noted = {
      ...state,
      sheets: state.sheets.map((sheet) =>
        sheet.name === 'Belts'
          ? {
              ...sheet,
              rows: sheet.rows.map((row) => ({ ...row, notes: { [column]: 'the letter O stands in "80O"' } })),
            }
          : sheet,
      ),
    };
    const book = new Workbook(noted);
    expect(cellIssue(book, { sheet: 'Belts', record: 0, column })).toBe(
      'The letter O stands in "80O": enter a number (mm), more than 0',
    );
    book.edit([{ sheet: 'Belts', record: 0, column, content: 800 }]);
    expect(cellIssue(book, { sheet: 'Belts', record: 0, column })).toBeUndefined();
  });
});

describe('names', () => {
  const keyIssue = (names: readonly Content[], record: number): string | undefined => {
    const book = new Workbook(bookOf({ belts: names.map((name) => ({ ...soundBelt, Belt: name })) }));
    return cellIssue(book, { sheet: 'Belts', record, column: 0 });
  };

  test('are given, and each is its own, without case', () => {
    expect(keyIssue(['C1', 'C2', 'c1 '], 2)).toBe(
      'The name "c1 " is already used in row 2: give each belt a different name',
    );
    expect(keyIssue(['C1', 'C2', 'c1 '], 0)).toBeUndefined();
    expect(keyIssue(['C1', null], 1)).toBe('The belt has no name: enter a name in Belt that no other row has');
    expect(keyIssue(['C1', ' '], 1)).toContain('has no name');
    expect(keyIssue(['C1', '="C"&1'], 1)).toContain('is already used in row 2');
  });

  test('are looked at anew after an edit', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'B2' }] }));
    const place = { sheet: 'Belts', record: 1, column: 0 };
    expect(cellIssue(book, place)).toBeUndefined();
    book.edit([{ ...place, content: 'B1' }]);
    expect(cellIssue(book, place)).toContain('already');
    book.undo();
    expect(cellIssue(book, place)).toBeUndefined();
  });

  test('hold no sign that other programs take for any letters', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt], series: [plover, { ...heron, Series: 'He*' }] }));
    expect(cellIssue(book, { sheet: 'Plate series', record: 1, column: 0 })).toContain('remove these characters');
  });
});

describe('other sheets', () => {
  test("a series' figures that do not go together", () => {
    const series = [{ ...plover, 'Maximum thickness': 5, 'Maximum edge': 4, Pitch: 20, 'Long bolt above': null }];
    const list = inputIssues(new Workbook(bookOf({ belts: [soundBelt], series })));
    expect(list.map(({ column, cell, name }) => `${name} ${column} ${cell}`)).toEqual([
      "Plover Maximum thickness 'Plate series'!D2",
      "Plover Pitch 'Plate series'!L2",
      "Plover Maximum edge 'Plate series'!O2",
    ]);
    expect(list[0]?.message).toBe(
      'Maximum thickness, 5 mm, must not be less than Minimum thickness, 6 mm (sheet Plate series, row 2, column ' +
        'Maximum thickness).',
    );
  });

  test.each<[SeriesHeader, number, number, Readonly<Partial<Record<SeriesHeader, number>>>]>([
    ['Minimum pulley at 45', 316, 315, {}],
    ['Minimum pulley at 22', 316, 315, {}],
    ['Punch size', 30.5, 30.4, {}],
    ['Hole spacing', 7.2, 7.3, { 'Holes per side': 2 }],
    ['Plate length', 13.5, 13.6, {}],
    ['Long bolt above', 5.9, 6, {}],
    ['Long bolt above', 12.1, 12, {}],
    ['Long bolt length', 33, 34, {}],
  ])("a series' %s of %s can't be made, one of %s can", (header, wrong, right, others) => {
    const issue = (value: number): string | undefined => {
      const series = [{ ...plover, ...others, [header]: value }];
      const book = new Workbook(bookOf({ belts: [soundBelt], series }));
      return cellIssue(book, { sheet: 'Plate series', record: 0, column: book.column('Plate series', header) });
    };
    expect(issue(wrong)).toMatch(new RegExp(`^${header}, .* must (not )?be (more|less) than`));
    expect(issue(right)).toBeUndefined();
  });

  test('the gap between holes does not matter where a plate has one a side', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt], series: [{ ...plover, 'Hole spacing': 1 }] }));
    expect(inputIssues(book)).toEqual([]);
  });

  test.each<[string, Content, string]>([
    ['TightMargin', -1, 'TightMargin is -1: enter a number, from 0 to 1'],
    ['TightMargin', 'small', 'TightMargin holds the text "small", which is not a number: enter a number, from 0 to 1'],
    ['CrewRate', null, 'CrewRate is empty (cost of one labour hour): enter a number (per h), at least 0'],
    ['PulleyGroup', 'D', 'PulleyGroup holds "D", which is not allowed: choose A, B or C'],
    ['TightMargin', 0.1, ''],
  ])('the assumption %s: %s', (name, content, message) => {
    const book = new Workbook(bookOf({ belts: [soundBelt], named: { [name]: content } }));
    const record = book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === name);
    expect(cellIssue(book, { sheet: 'Assumptions', record, column: 1 }) ?? '').toBe(message);
    expect(inputIssues(book)).toHaveLength(message === '' ? 0 : 1);
  });

  test('a changed unit', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt] }));
    book.edit([{ sheet: 'Units', record: 0, column: 1, content: 12 }]);
    expect(cellIssue(book, { sheet: 'Units', record: 0, column: 1 })).toBe(
      "ShortPerLong is 12; the book's unit system sets it to 1000: restore 1000",
    );
  });

  test('a formula that fails in a column of your own', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt] }));
    book.addColumn('Belts', 'Inspector');
    const column = columnOf(book, 'Belts', 'Inspector');
    book.edit([{ sheet: 'Belts', record: 0, column, content: '=NOSUCH(1)' }]);
    const [issue] = inputIssues(book);
    expect(issue?.column).toBe('Inspector');
    expect(issue?.message).toContain('The formula gives #NAME?');
  });
});

test('an issue is a finding: where, what was given, what to do', () => {
  const book = withCell('Width', 'wide');
  expect(inputIssues(book)).toEqual([
    {
      sheet: 'Belts',
      record: 1,
      name: 'B2',
      check: 'input',
      verdict: 'not known',
      column: 'Width',
      cell: 'Belts!D3',
      message: 'Width holds the text "wide", which is not a number (sheet Belts, row 3, column Width).',
      given: { label: 'Width', value: 'wide', kind: 'length', unit: 'mm' },
      limit: null,
      cures: ['Enter a number (mm), more than 0.'],
    },
  ]);
});

test('nearest names', () => {
  expect(changes('plover', 'plovre')).toBe(1);
  expect(changes('kitten', 'sitting')).toBe(3);
  expect(nearest('herron', ['Plover', 'Heron', 'Heron long'])).toEqual(['Heron', 'Heron long']);
  expect(nearest('L-20', ['L20', 'L200', 'M7'])).toEqual(['L20', 'L200']);
  expect(nearest('zzz', ['Plover'])).toEqual([]);
});

test('the strip of a series is one of the strips', () => {
  const book = new Workbook(bookOf({ belts: [soundBelt], series: [{ ...plover, Strip: 'Rede' }], strips: [reed] }));
  expect(inputIssues(book).map(({ message }) => message)).toEqual([
    'Strip names "Rede", which is not in the sheet Strips (sheet Plate series, row 2, column Strip).',
  ]);
});
