import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { belts } from '../../../sheets/belts/index.ts';
import { isComputed } from '../../../src/sheet/declaration.ts';
import { headerWithUnit } from '../../../src/sheet/header.ts';
import { isWords, quantities, unitOf } from '../../../src/units/quantities.ts';
import { inSystemUnit, unitNamed } from '../../../src/units/reading.ts';
import { bookColumns } from '../../../src/workbook/declared.ts';
import { positionName, columnName } from '../../../src/xlsx/read/cell-address.ts';
import { cellText, shownBook } from '../../../src/xlsx/read/raw-cells.ts';
import { recordRows } from '../../../src/xlsx/import/list-rows.ts';
import { type GridValue, rawSheet } from '../grid.ts';
import { imported, list } from './imported.ts';

/** What does not change a list's meaning does not change what is imported. */

const inputs = belts.columns.filter((column) => !isComputed(column));

/** A plausible value for a declared input. */
const valueFor = (index: number): fc.Arbitrary<GridValue> => {
  const column = inputs[index];
  if (column === undefined) return fc.constant(null);
  if (column.header === 'Belt') return fc.integer({ min: 1, max: 99_999 }).map((number) => `C${number}`);
  if (column.header === 'Service') return fc.constantFrom('none', 'underground', 'underground, magnet', null);
  if (column.header === 'Skew') return fc.constantFrom(0, 22.5, 45, null);
  if (column.header === 'Construction') return fc.constantFrom('EP 400/3 4+2', 'EP 630/4 6+2', null);
  if (isWords(column.kind)) return fc.option(fc.constantFrom('north', 'south', 'salt', 'grain'), { nil: null });
  if (column.kind === 'date')
    return fc.option(
      fc.integer({ min: 40_000, max: 46_000 }).map((value) => ({ value, date: true })),
      { nil: null },
    );
  if (column.kind === 'count') return fc.option(fc.integer({ min: 1, max: 9 }), { nil: null });
  return fc.option(
    fc.integer({ min: 4, max: 30_000 }).map((number) => number / 8),
    { nil: null },
  );
};

interface List {
  readonly columns: readonly number[];
  readonly rows: readonly (readonly GridValue[])[];
}

/** Belts with a name, a width and some other inputs. */
const lists: fc.Arbitrary<List> = fc
  .subarray(inputs.map((_, index) => index).slice(1), { minLength: 4 })
  .chain((some) => {
    const columns = [...new Set([0, 3, ...some])];
    return fc
      .array(fc.tuple(...columns.map(valueFor)), { minLength: 2, maxLength: 6 })
      .map((rows) => ({ columns, rows: rows.map((row, index) => [`C${index}`, 200 + 100 * index, ...row.slice(2)]) }));
  });

const headersOf = ({ columns }: List): string[] =>
  columns.map((index) => headerWithUnit(inputs[index]?.header ?? '', inputs[index]?.kind ?? 'text', 'metric'));
const grid = (source: List): GridValue[][] => [headersOf(source), ...source.rows.map((row) => [...row])];
const permuted = <Item>(row: readonly Item[], order: readonly number[]): (Item | null)[] =>
  order.map((index) => row[index] ?? null);
const orders = (length: number): fc.Arbitrary<number[]> =>
  fc.shuffledSubarray(
    Array.from({ length }, (_, index) => index),
    { minLength: length, maxLength: length },
  );

describe('an import is the same', () => {
  it('with columns in any order', () => {
    fc.assert(
      fc.property(
        lists.chain((source) => orders(source.columns.length).map((order) => ({ source, order }))),
        ({ source, order }) => {
          const plain = imported(list(grid(source)));
          const shuffled = imported(list(grid(source).map((row) => permuted(row, order))));
          // A view shows the columns as the list has them, so that one differs.
          const { look: _, ...book } = shuffled.state;
          expect({ ...book, look: plain.state.look }).toEqual(plain.state);
        },
      ),
      { numRuns: 40 },
    );
  }, 120_000);

  it('with titles above, blank rows anywhere, cases changed and a total below', () => {
    fc.assert(
      fc.property(
        lists,
        fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
        fc.nat(3),
        fc.boolean(),
        (source, gaps, titles, upper) => {
          const plain = imported(list(grid(source)), {});
          const [head = [], ...rows] = grid(source);
          const changed = [
            ...Array.from({ length: titles }, (_, index): GridValue[] => [`Title ${index}`]),
            ...(titles > 0 ? [[]] : []),
            head.map((header) => (upper ? String(header).toUpperCase() : String(header).toLowerCase())),
            ...rows.flatMap((row, index) => (gaps[index] === true ? [[], row] : [row])),
            [],
            ['Total', rows.reduce((sum, row) => sum + Number(row[1]), 0)],
          ];
          expect(imported(list(changed)).state.sheets).toEqual(plain.state.sheets);
        },
      ),
      { numRuns: 40 },
    );
  }, 120_000);

  it('with the columns in inches, feet and pounds, within 1e-9', () => {
    fc.assert(
      fc.property(lists, (source) => {
        const us = source.columns
          .map((index) => inputs[index])
          .map((column) =>
            column === undefined || quantities[column.kind].metricPerUs === 1
              ? undefined
              : unitNamed(unitOf(column.kind, 'us'), column.kind, 'us'),
          );
        const converted = source.rows.map((row) =>
          row.map((value, at) => {
            const column = inputs[source.columns[at] ?? -1];
            const metric =
              column === undefined ? undefined : unitNamed(unitOf(column.kind, 'metric'), column.kind, 'metric');
            return typeof value === 'number' && us[at] !== undefined && metric !== undefined && column !== undefined
              ? inSystemUnit(value, metric, column.kind, 'us')
              : value;
          }),
        );
        const usHeaders = source.columns.map((index) =>
          headerWithUnit(inputs[index]?.header ?? '', inputs[index]?.kind ?? 'text', 'us'),
        );
        const plain = imported(list(grid(source)), { units: 'metric' }).state.sheets[0]?.rows ?? [];
        const read = imported(list([usHeaders, ...converted]), { units: 'metric' }).state.sheets[0]?.rows ?? [];
        plain.forEach(({ cells }, record) =>
          cells.forEach((content, column) => {
            const other = read[record]?.cells[column] ?? null;
            if (typeof content === 'number')
              expect(Math.abs(Number(other) - content)).toBeLessThanOrEqual(1e-9 * Math.abs(content));
            else expect(other).toBe(content);
          }),
        );
      }),
      { numRuns: 40 },
    );
  }, 120_000);
});

const oddities: fc.Arbitrary<GridValue> = fc.oneof(
  fc.constantFrom<GridValue>(
    '600-650',
    'n/a',
    '-',
    '≈ 600',
    '1,234',
    '18 in',
    'EP 400/3',
    '=SUM(A1)',
    'soon',
    '2021',
    'UG',
    'wet',
    'Total:',
    'see note',
    'x',
    '§',
    true,
    false,
    0,
    -5,
    90,
  ),
  fc.constantFrom<GridValue>(
    { error: '#N/A' },
    { value: 45_000, date: true },
    { formula: 'Rates!A1' },
    { formula: 'B2*2', value: 7 },
    { value: 5, format: '0" in"' },
  ),
  fc.string({ maxLength: 12 }),
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 }),
);

describe('nothing is lost', () => {
  const headers = [
    'Belt',
    'Width (mm)',
    'Lift (m)',
    'Skew',
    'Installed',
    'Service',
    'Plate series',
    'Remark',
    'Plates',
    '',
  ];

  it('every cell of a list is in the book, or in the report with its text', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(...headers.map(() => fc.option(oddities, { nil: null }))), { minLength: 1, maxLength: 8 }),
        (rows) => {
          const source = list([
            headers.map((header) => (header === '' ? null : header)),
            ['C0', 800, 5, 45, null, 'none', null, 'first', 12, null],
            ...rows,
          ]);
          const { state, report, table } = imported(source);
          const belt = state.sheets[0];
          const columns = belt === undefined ? [] : bookColumns(belt).map(({ header }) => header);
          const sheet = shownBook({ sheets: [rawSheet(source)], names: [] }).sheets[0];
          const records = sheet === undefined ? [] : recordRows(sheet, table);
          const said = [...report.notUnderstood, ...report.remarks].map(({ cell, given }) => `${cell} ${given}`);
          for (const [row, cells] of sheet?.rows ?? []) {
            if (row === 1) continue;
            const record = belt?.rows[records.indexOf(row)];
            for (const cell of cells) {
              const place = positionName(cell);
              const text = cellText(cell);
              if (record === undefined) {
                if (!(table.skipped.find((skipped) => skipped.row === row)?.text.includes(text.trim()) ?? false))
                  throw new Error(`${place} "${text}" is in no record and not among the rows passed over`);
                continue;
              }
              const proposal = table.columns.find(({ letter }) => letter === columnName(cell.column));
              const own = proposal === undefined || proposal.target === 'own';
              const header = own
                ? columns.findLast(
                    (name) =>
                      name === proposal?.header ||
                      name === `${proposal?.header} (as listed)` ||
                      name === `Column ${columnName(cell.column)}`,
                  )
                : proposal.target;
              const content = record.cells[columns.indexOf(header ?? '')] ?? null;
              const verbatim = content === cell.value || String(content).replace(/^'=/, '=').trim() === text.trim();
              if (
                own
                  ? !(verbatim || (typeof content === 'string' && cell.formula !== undefined))
                  : content === null && !said.includes(`${place} ${text}`)
              ) {
                throw new Error(`${place} "${text}" became ${String(content)} in ${String(header)}`);
              }
              // What could not be read stays letter by letter and is reported; a ditto mark repeats even that.
              const repeats = text.trim() === '"' && said.includes(`${place} ${text.trim()}`);
              if (
                !own &&
                !repeats &&
                typeof content === 'string' &&
                !verbatim &&
                !['Service', 'Belt', 'Plate series'].includes(header ?? '') &&
                !content.startsWith('=')
              )
                throw new Error(`${place} "${text}" was changed to "${content}"`);
            }
          }
        },
      ),
      { numRuns: 200 },
    );
  }, 120_000);
});
