import { writtenBook } from '../write/written-book.ts';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Content } from '../../../src/formula/values.ts';
import { demoBook } from '../../../src/workbook/demo.ts';
import { bookColumns, emptyBook } from '../../../src/workbook/declared.ts';
import type { BookState, SheetState } from '../../../src/workbook/state.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import type { ImportChoices, ImportResult } from '../../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import type { RawBook, RawCell, RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { rawSheet } from '../grid.ts';

/** An export that was worked on in another program before it comes back. */

const demo = demoBook('metric');
const belts = (state: BookState): SheetState => state.sheets[0] ?? { name: '', userColumns: [], rows: [] };
const at = (state: BookState, header: string): number =>
  bookColumns(belts(state)).findIndex((column) => column.header === header);
const content = (state: BookState, record: number, header: string): Content =>
  belts(state).rows[record]?.cells[at(state, header)] ?? null;

function withCells(
  state: BookState,
  changes: readonly (readonly [record: number, header: string, content: Content])[],
): BookState {
  const sheet = belts(state);
  const rows = sheet.rows.map((row, record) => {
    const here = changes.filter(([changed]) => changed === record);
    return here.length === 0
      ? row
      : { ...row, cells: here.reduce((cells, [, header, value]) => cells.with(at(state, header), value), row.cells) };
  });
  return { ...state, sheets: [{ ...sheet, rows }, ...state.sheets.slice(1)] };
}

/** A demo with an override of each sort, a formula of ours, and a remark. */
const worked = withCells(demo, [
  [0, 'Plates', 31],
  [1, 'Cut length', '=SKEWLENGTH(D3,V3)+5'],
  [2, 'Take-up travel', '=SKEWOFFSET(D4,V4)*2'],
  [3, 'Smallest pulley', 'about 500'],
]);
const original: BookState = {
  ...worked,
  sheets: worked.sheets.map((sheet, index) =>
    index > 0
      ? sheet
      : {
          ...sheet,
          rows: sheet.rows.map((row, record) =>
            record === 3 ? { ...row, notes: { [at(demo, 'Smallest pulley')]: '"about 500": a limit' } } : row,
          ),
        },
  ),
};

/** Files do not tell empty texts from empty cells. */
const told = (state: BookState): BookState => ({
  ...state,
  sheets: state.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => ({ ...row, cells: row.cells.map((cell) => (cell === '' ? null : cell)) })),
  })),
});

let written: RawBook;
beforeAll(async () => {
  written = readBook(await writtenBook(new Workbook(original), []));
}, 120_000);

const changed = (
  change: (rows: Map<number, readonly RawCell[]>, sheet: RawSheet) => void,
  more: readonly RawSheet[] = [],
  name = 'Belts',
): RawBook => ({
  ...written,
  sheets: [
    ...written.sheets.map((sheet) => {
      if (sheet.name !== name) return sheet;
      const rows = new Map(sheet.rows);
      change(rows, sheet);
      return {
        ...sheet,
        rows,
        lastRow: Math.max(...rows.keys()),
        lastColumn: Math.max(...[...rows.values()].map((cells) => cells.at(-1)?.column ?? 0)),
      };
    }),
    ...more,
  ],
});

const read = (book: RawBook, choices: ImportChoices = {}): ImportResult =>
  acceptImport(book, proposeImport(book, choices), emptyBook('metric'));
const edited = (
  rows: Map<number, readonly RawCell[]>,
  row: number,
  column: number,
  cell: Partial<RawCell> | undefined,
): void => {
  const others = (rows.get(row) ?? []).filter((item) => item.column !== column);
  const next =
    cell === undefined
      ? others
      : [...others, { value: null, ...cell, row, column }].toSorted((a, b) => a.column - b.column);
  rows.set(row, next);
};

describe('an export that was changed in another program', () => {
  it('comes back as it was when it was not', () => {
    const { state, report } = read(written);
    expect(state).toEqual(told(original));
    expect(report).toMatchObject({ ours: true, notUnderstood: [], remarks: [] });
  });

  it.each([
    ['a sheet of the program in other letters', 'BELTS'],
    ['a sheet that it names already', 'Plate Series'],
  ])('opens when its About sheet was made to name %s', (_, name) => {
    const book = changed(
      (rows) => {
        const [row] = [...rows].find(([, cells]) => cells[0]?.value === 'Sheet' && cells[1]?.value === 'Strips') ?? [];
        edited(rows, row ?? Number.NaN, 2, { value: name });
      },
      [],
      'About',
    );
    const { state } = read(book);
    const names = state.sheets.map((sheet) => sheet.name.toLowerCase());
    expect(new Set(names).size).toBe(names.length);
    expect(new Workbook(state).read('Belts', 0, 'Width')).toBe(content(original, 0, 'Width'));
  });

  it('has the inputs that were typed there', () => {
    const { state } = read(changed((rows) => edited(rows, 7, at(demo, 'Width') + 1, { value: 1234 })));
    expect(content(state, 5, 'Width')).toBe(1234);
    expect(content(state, 4, 'Width')).toBe(content(original, 4, 'Width'));
  });

  it('has a number typed over a formula as an override, and says so', () => {
    const { state, report } = read(changed((rows) => edited(rows, 9, at(demo, 'Bolts') + 1, { value: 99 })));
    expect(content(state, 7, 'Bolts')).toBe(99);
    expect(content(state, 6, 'Bolts')).toBeNull();
    expect(report.remarks).toEqual([
      expect.objectContaining({
        sheet: 'Belts',
        column: 'Bolts',
        given: '99',
        what: expect.stringContaining('override'),
      }),
    ]);
  });

  it('has another formula in a computed column as an override', () => {
    const { state } = read(changed((rows) => edited(rows, 9, at(demo, 'Bolts') + 1, { value: 8, formula: 'D9/100' })));
    expect(content(state, 7, 'Bolts')).toBe('=D9/100');
  });

  it('takes a formula as it now is where it was changed', () => {
    const { state } = read(
      changed((rows) => edited(rows, 4, at(demo, 'Take-up travel') + 1, { value: 7, formula: 'D4*7' })),
    );
    expect(content(state, 2, 'Take-up travel')).toBe('=D4*7');
  });

  it('keeps overrides with their belts when rows were sorted', () => {
    const last = belts(original).rows.length + 1;
    const { state } = read(
      changed((rows, sheet) => {
        for (let row = 2; row <= last; row += 1) {
          const from = last + 2 - row;
          const moved = (formula: string): string =>
            formula.replaceAll(new RegExp(String.raw`(?<![\w$])(\$?[A-Z]{1,3})${from}(?![\d(])`, 'g'), `$1${row}`);
          rows.set(
            row,
            (sheet.rows.get(from) ?? []).map((cell) => ({
              ...cell,
              row,
              ...(cell.formula === undefined ? {} : { formula: moved(cell.formula) }),
            })),
          );
        }
      }),
    );
    const reversed = (record: number): number => belts(original).rows.length - 1 - record;
    expect(content(state, reversed(0), 'Belt')).toBe(content(original, 0, 'Belt'));
    expect(content(state, reversed(0), 'Plates')).toBe(31);
    expect(content(state, 0, 'Plates')).toBeNull();
    expect(belts(state).rows.filter(({ cells }) => cells[at(state, 'Plates')] !== null)).toHaveLength(1);
  });

  it('keeps remarks and overrides with their belts when a row was put in above them', () => {
    const { state } = read(
      changed((rows, sheet) => {
        for (let row = belts(original).rows.length + 1; row >= 2; row -= 1)
          rows.set(
            row + 1,
            (sheet.rows.get(row) ?? []).map((cell) => ({ ...cell, row: row + 1 })),
          );
        rows.set(2, [{ row: 2, column: 1, value: 'New' }]);
      }),
    );
    const pulley = at(state, 'Smallest pulley');
    expect(content(state, 0, 'Belt')).toBe('New');
    expect(belts(state).rows.flatMap(({ notes }, record) => (notes === undefined ? [] : [[record, notes]]))).toEqual([
      [4, { [pulley]: '"about 500": a limit' }],
    ]);
    expect([content(state, 4, 'Smallest pulley'), content(state, 1, 'Plates')]).toEqual(['about 500', 31]);
  });

  it("loses no column: one that was added stays the user's, one that is gone is told", () => {
    const { state, report } = read(
      changed((rows) => {
        for (const [row, cells] of rows) {
          const without = cells.filter(({ column }) => column !== at(demo, 'Drive friction') + 1);
          rows.set(row, [...without, { row, column: 900, value: row === 1 ? 'Checked by' : `person ${row}` }]);
        }
      }),
    );
    expect(belts(state).userColumns).toEqual([{ header: 'Checked by', kind: 'text' }]);
    expect(content(state, 0, 'Checked by')).toBe('person 2');
    expect(content(state, 0, 'Drive friction')).toBeNull();
    expect(report.assumed.join('\n')).toMatch(
      /no longer has "Drive friction"[^]*"Checked by" was added in another program/,
    );
  });

  it('finds columns that were moved', () => {
    const [width, speed] = [at(demo, 'Width') + 1, at(demo, 'Speed') + 1];
    const { state } = read(
      changed((rows) => {
        for (const [row, cells] of rows) {
          rows.set(
            row,
            cells
              .map((cell) => ({
                ...cell,
                column: cell.column === width ? speed : cell.column === speed ? width : cell.column,
              }))
              .toSorted((a, b) => a.column - b.column),
          );
        }
      }),
    );
    expect(content(state, 0, 'Width')).toBe(content(original, 0, 'Width'));
    expect(content(state, 0, 'Speed')).toBe(content(original, 0, 'Speed'));
  });

  it('has rows that were added below and not those that were deleted', () => {
    const count = belts(original).rows.length;
    const { state } = read(
      changed((rows) => {
        rows.delete(count + 1);
        rows.set(count + 3, [
          { row: count + 3, column: 1, value: 'New' },
          { row: count + 3, column: 4, value: 650 },
        ]);
      }),
    );
    expect(belts(state).rows).toHaveLength(count + 2);
    expect(content(state, count + 1, 'Belt')).toBe('New');
  });

  it('keeps sheets that were added, and does without those that are gone', () => {
    const added = rawSheet({
      name: 'Shifts',
      rows: [
        ['Name', 'Shift'],
        ['A', 1],
      ],
    });
    const book = changed(() => undefined, [added]);
    const { state, report } = read({ ...book, sheets: book.sheets.filter(({ name }) => name !== 'Strips') });
    expect(state.sheets.map(({ name }) => name)).toEqual([
      ...emptyBook('metric').sheets.map(({ name }) => name),
      'Shifts',
    ]);
    expect(state.sheets.find(({ name }) => name === 'Strips')?.rows).toEqual([]);
    expect(report.assumed.join()).toContain('no longer has this sheet');
  });

  it('has the named values that a file of another version lacks, and says so', () => {
    const book = changed(
      (rows) => {
        for (const [row, cells] of rows)
          if (cells.some(({ value }) => value === 'FirstHours' || value === 'SagRatio')) rows.delete(row);
      },
      [],
      'Assumptions',
    );
    const { state, report } = read(book);
    const names =
      state.sheets.find(({ name }) => name === 'Assumptions')?.rows.flatMap(({ cells }) => cells[0] ?? []) ?? [];
    expect(names).toContain('FirstHours');
    expect(new Set(names).size).toBe(names.length);
    expect(report.assumed.join()).toContain('lacks 2 of its values');
    expect(new Workbook(state).named('SagRatio')).toBe(0.01);
  });

  it('says where a text now stands in a column of numbers', () => {
    const { state, report } = read(changed((rows) => edited(rows, 5, at(demo, 'Width') + 1, { value: 'wide' })));
    expect(content(state, 3, 'Width')).toBe('wide');
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ sheet: 'Belts', cell: 'D5', column: 'Width', given: 'wide' }),
    ]);
  });

  it('is filled where asked, and says which choices it had no use for', () => {
    const { state, report } = read(written, {
      fill: [{ column: 'Known tension', value: '12 N/mm' }],
      decimal: 'comma',
    });
    expect(belts(state).rows.every(({ cells }) => cells[at(state, 'Known tension')] !== null)).toBe(true);
    expect(report.assumed.join('\n')).toMatch(
      /decimal mark was not used[^]*Known tension: \d+ blank cells filled with 12, as you chose/,
    );
  });

  it('is converted when other units are asked for', () => {
    const { state } = read(written, { units: 'us' });
    expect(state.units).toBe('us');
    expect(content(state, 0, 'Width')).toBeCloseTo(Number(content(original, 0, 'Width')) / 25.4, 9);
  });
});
