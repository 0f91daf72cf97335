import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Content, Value } from '../../src/formula/values.ts';
import { converted, convertible, quantities, type QuantityKind } from '../../src/units/quantities.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { nameDependents } from '../../src/workbook/dependence.ts';
import { bookColumns, compiledSheets, emptyBook } from '../../src/workbook/declared.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { columnOf, bookOf, type Cells, plover, randomBooks, soundBelt } from './books.ts';
import { agree } from './differences.ts';
import { placeWords } from './place-words.ts';

/**
 * A book in the other unit system is the same book: inputs there and back, computed values in their other unit,
 * verdicts alike.
 */

const cells = (state: BookState): { readonly place: string; readonly content: Content }[] =>
  state.sheets.flatMap((sheet) =>
    sheet.rows.flatMap(({ cells: contents }, record) =>
      contents.map((content, column) => ({
        place: [sheet.name, contents[0] ?? `row ${record + 2}`, bookColumns(sheet)[column]?.header].join(', '),
        content,
      })),
    ),
  );

/** Contents that differ after a conversion there and back, beyond a share of 1e-9. */
function changed(before: BookState, after: BookState): string[] {
  const other = cells(after);
  return cells(before).flatMap(({ place, content }, index) =>
    agree(content, other[index]?.content ?? null, 1e-9)
      ? []
      : [`${place}: ${String(content)} became ${String(other[index]?.content)}`],
  );
}

const verdictColumns = new Set<string>([...checkColumns.map(({ header }) => header), 'Verdict', 'Findings']);

/**
 * A book's state with gravity to the digit. Metric books round it to 9.81 N/kg, while a pound weighs a pound-force by
 * definition at 9.80665: the two differ by a three-thousandth, which would hide other differences here.
 */
function withSameGravity(state: BookState): BookState {
  if (state.units === 'metric') return state;
  return {
    ...state,
    sheets: state.sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) =>
        sheet.name === 'Units' && row.cells[0] === 'Gravity'
          ? { ...row, cells: row.cells.with(1, 9.81 / 9.80665) }
          : row,
      ),
    })),
  };
}

/**
 * Computed values of two books in different units that are not the same quantity, and verdicts that are not the same.
 */
function unlike(book: Workbook, other: Workbook): string[] {
  return book.state.sheets.flatMap(({ name, rows }) => {
    const columns = book.columns(name);
    return rows.flatMap((_, record) =>
      columns.flatMap(({ header, kind, computed }, column) => {
        if (!computed) return [];
        const place = { sheet: name, record, column };
        const value = book.value(place);
        const same: Value = typeof value === 'number' ? converted(value, kind, book.units, other.units) : value;
        return agree(same, other.value(place), verdictColumns.has(header) ? 0 : 1e-9)
          ? []
          : [`${placeWords(book, name, record, header)}: ${String(same)} expected, ${String(other.value(place))}`];
      }),
    );
  });
}

test.each(Object.entries(quantities))('%s: a number there and back', (kind, { metricPerUs }) => {
  fc.assert(
    fc.property(
      fc
        .double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 })
        .filter((value) => value === 0 || Math.abs(value) > 1e-290),
      (value) => {
        const there = converted(value, kind as QuantityKind, 'metric', 'us');
        expect(agree(there * metricPerUs, value, 1e-14)).toBe(true);
        expect(agree(converted(there, kind as QuantityKind, 'us', 'metric'), value, 1e-14)).toBe(true);
      },
    ),
    { numRuns: 50 },
  );
});

describe('a book', () => {
  test('random ones: inputs there and back, computed values alike, verdicts the same', () => {
    fc.assert(
      // Differences of numbers that are past all measure keep none of their digits.
      fc.property(randomBooks({ belts: 4, series: 2, named: 1, formulas: false, extremes: false }), (state) => {
        const other = convertedBook(state, state.units === 'us' ? 'metric' : 'us');
        expect(other.review).toEqual([]);
        const back = convertedBook(other.state, state.units).state;
        expect(changed(state, back)).toEqual([]);
        const [book, turned] = [new Workbook(withSameGravity(state)), new Workbook(withSameGravity(other.state))];
        expect(unlike(book, turned)).toEqual([]);
      }),
      { numRuns: 100 },
    );
  }, 120_000);

  test('a belt that stands on every limit keeps its verdicts', () => {
    const limits: readonly Cells[] = [
      { Thickness: 12 },
      { Thickness: 14.3, 'Skive depth': 2.3 },
      { Thickness: 6 },
      { 'Take-up travel': 800 },
      { Skew: 0, 'Smallest pulley': 315, 'Carcass thickness': 2 },
      { 'Known tension': 34 },
      { 'Known tension': 24, 'Belt rating': 40 },
      { 'Known tension': 12, 'Belt rating': 40 },
      { 'Known tension': 40, 'Belt rating': 40 },
      { 'Smallest pulley': 400, 'Belt rating': 30 },
      { Power: null, Capacity: 300, 'Pulley centres': 80 },
      { Thickness: 8.8 },
      { Thickness: 9.9, 'Skive depth': 1.1 },
      { 'Joint life': 3000, Installed: 45985.75 },
      { Skew: 0, Width: 10 * 2 + 30.5 + 34 * 9, 'Smallest pulley': 630 },
      { Skew: 0, Width: 29 * 2 + 30.5 + 34 * 9, 'Smallest pulley': 630 },
    ];
    const state = bookOf({
      belts: limits.map((changed) => ({ ...soundBelt, ...changed })),
      series: [{ ...plover, 'Minimum pulley at 45': null }],
    });
    const other = convertedBook(state, 'us').state;
    expect(unlike(new Workbook(withSameGravity(state)), new Workbook(withSameGravity(other)))).toEqual([]);
    expect(unlike(new Workbook(state), new Workbook(convertedBook(other, 'metric').state))).toEqual([]);
  });

  test('the demo: all inputs within 1e-9, all values alike, in both directions', () => {
    const metric = demoBook('metric');
    const us = demoBook('us');
    expect(changed(metric, convertedBook(us, 'metric').state)).toEqual([]);
    const same = withSameGravity(us);
    expect(unlike(new Workbook(metric), new Workbook(same))).toEqual([]);
    expect(unlike(new Workbook(same), new Workbook(metric))).toEqual([]);
    // With gravity as each system has it, figures by resistances differ in the fourth digit, verdicts do not.
    const rounded = unlike(new Workbook(metric), new Workbook(us));
    const weighed = new Set(
      nameDependents('Gravity').map(({ sheet, column }) => compiledSheets.get(sheet)?.columns[column]?.header),
    );
    const headers = new Set(rounded.map((line) => line.split(/, |:/)[2]));
    expect([...headers].filter((header) => !weighed.has(header))).toEqual([]);
    expect(headers).toContain('Working tension');
  });

  test('in place: undo leads back to the very state', () => {
    const state = bookOf({ belts: [soundBelt] });
    const book = new Workbook(state);
    book.convert('us');
    expect(book.read('Belts', 0, 'Width')).toBeCloseTo(800 / 25.4, 9);
    expect(book.named('ShortPerLong')).toBe(12);
    expect(book.read('Belts', 0, 'Verdict')).toBe('fits');
    book.undo();
    expect(book.state).toBe(state);
    expect(book.read('Belts', 0, 'Width')).toBe(800);
  });

  test('fifty times there and back it is the first one, to the last digit', () => {
    for (const units of ['metric', 'us'] as const) {
      const first = demoBook(units);
      let state = first;
      for (let turn = 0; turn < 100; turn += 1)
        ({ state } = convertedBook(state, state.units === 'metric' ? 'us' : 'metric'));
      expect(state).toEqual(first);
    }
  });

  test('so is any number as it is typed, of any kind; one of more digits settles at the first turn', () => {
    const kinds = (Object.keys(quantities) as QuantityKind[]).filter(convertible);
    const column = { header: 'Own', kind: 'length' as QuantityKind };
    const turns = (value: number, kind: QuantityKind, count: number): Content => {
      let state: BookState = {
        ...emptyBook('metric'),
        sheets: [{ name: 'Mine', userColumns: [{ ...column, kind }], rows: [{ cells: [value] }] }],
      };
      for (let turn = 0; turn < 2 * count; turn += 1)
        ({ state } = convertedBook(state, state.units === 'metric' ? 'us' : 'metric'));
      return state.sheets[0]?.rows[0]?.cells[0] ?? null;
    };
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999_999_999_999, max: 999_999_999_999_999 }),
        fc.integer({ min: -20, max: 12 }),
        fc.constantFrom(...kinds),
        (digits, power, kind) => {
          const typed = Number(`${digits}e${power}`);
          expect(turns(typed, kind, 50)).toBe(typed);
        },
      ),
      { numRuns: 300 },
    );
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), fc.constantFrom(...kinds), (value, kind) => {
        expect(turns(value, kind, 50)).toBe(turns(value, kind, 1));
      }),
      { numRuns: 300 },
    );
  });
});

describe('what a conversion can not know', () => {
  test('formulas with numbers of their own, and own columns, are listed and left', () => {
    const book = new Workbook(
      bookOf({
        belts: [
          { ...soundBelt, Width: '=400*2', 'Skive depth': '=F2*0', Speed: '=O3' },
          { ...soundBelt, Belt: 'B2' },
        ],
      }),
    );
    book.addColumn('Belts', 'Cleaner reach');
    book.edit(
      [0, 1].map((record) => ({
        sheet: 'Belts',
        record,
        column: columnOf(book, 'Belts', 'Cleaner reach'),
        content: 900,
      })),
    );
    const review = book.convert('us');
    expect(review.map(({ place, column, content }) => `${place} ${column} ${content}`)).toEqual([
      'Belts!D2 Width =400*2',
      'Belts!X2 Skive depth =F2*0',
      `Belts!${columnLetters(columnOf(book, 'Belts', 'Cleaner reach'))}2 Cleaner reach 900`,
    ]);
    expect(book.content({ sheet: 'Belts', record: 0, column: 3 })).toBe('=400*2');
    expect(book.value({ sheet: 'Belts', record: 1, column: columnOf(book, 'Belts', 'Cleaner reach') })).toBe(900);
    expect(book.read('Belts', 0, 'Speed')).toBeCloseTo((2.5 / 0.3048) * 60, 9);
  });

  test('an own column whose kind is told is converted', () => {
    const book = new Workbook(bookOf({ belts: [soundBelt] }));
    book.addColumn('Belts', 'Cleaner reach', 'length');
    book.edit([{ sheet: 'Belts', record: 0, column: columnOf(book, 'Belts', 'Cleaner reach'), content: 254 }]);
    expect(book.convert('us')).toEqual([]);
    expect(book.value({ sheet: 'Belts', record: 0, column: columnOf(book, 'Belts', 'Cleaner reach') })).toBeCloseTo(
      10,
      12,
    );
  });

  test('an override of a computed cell is converted with its column', () => {
    const book = new Workbook(bookOf({ belts: [{ ...soundBelt, 'Joint minimum pulley': 254 }], series: [plover] }));
    expect(book.convert('us')).toEqual([]);
    expect(book.read('Belts', 0, 'Joint minimum pulley')).toBeCloseTo(10, 12);
  });
});
