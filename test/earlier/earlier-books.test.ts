import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Value } from '../../src/formula/values.ts';
import { adaptedBook, type StoredColumns } from '../../src/workbook/adapted-book.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { compiledSheets, emptyBook, headerPosition } from '../../src/workbook/declared.ts';
import { presentFormula, presentPosition } from '../../src/workbook/earlier-names.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import { columnOf } from '../workbook/books.ts';
import { imported } from '../xlsx/import/imported.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import type { ImportResult } from '../../src/xlsx/import/import-model.ts';

/** Books of the version before columns and named values were renamed: they open with nothing lost. */

type Sheets = Readonly<Record<string, readonly Readonly<Record<string, Value>>[]>>;

interface Stored {
  readonly columns: StoredColumns;
  readonly state: BookState;
  /** What the earlier version computed, by sheet, record and its header. */
  readonly values: Sheets;
}

const file = (name: string): Buffer => readFileSync(join(import.meta.dirname, name));
const storedBook = (units: string): Stored => JSON.parse(String(file(`stored-${units}.json`)));

const byPower = 'power is taken at start-up';

/**
 * Computed columns whose rules have become stricter or finer since, with why; all others have the values that they had.
 */
const changed: Readonly<Record<string, string>> = {
  'Pull by power': byPower,
  'Slack by power': byPower,
  'Tension by power': byPower,
  'Route difference': byPower,
  'Belt pull': byPower,
  'Working tension': byPower,
  'Plate force': byPower,
  'Pull used': byPower,
  'Tension check': byPower,
  'Carcass steps': 'the slack side by power is set at start-up, the tension is the steady one',
  'Carcass pulley': 'the slack side by power is set at start-up, the tension is the steady one',
  'Carcass check': 'the slack side by power is set at start-up, the tension is the steady one',
  'Tail tension': 'the empty belt starts too',
  'Belt to order': 'it has as many joints as its rolls make',
  'Parts cost': "prices of a series count in its supplier's currency",
  'Joint cost': "prices of a series count in its supplier's currency",
  Verdict: 'more checks are made',
  Findings: 'more checks are made',
  'Joint pulley': "it keeps the height of the plate's end, flat above 45 degrees",
  'Take-up check': 'it asks for what is cut out, for trims and for stretch',
};

function differences(stored: Stored, book: Workbook): string[] {
  return Object.entries(stored.values).flatMap(([sheet, records]) =>
    records.flatMap((cells, record) =>
      Object.entries(cells).flatMap(([header, before]) => {
        if (header in changed) return [];
        const column = compiledSheets.has(sheet)
          ? (presentPosition(sheet, header) ?? book.findColumn(sheet, header))
          : book.findColumn(sheet, header);
        if (column === undefined) return [`${sheet} has no ${header}`];
        const now = book.value({ sheet, record, column });
        const words: Value = before === 'permitted' ? 'belt rating' : before === 'greatest' ? 'maximum' : before;
        const same =
          typeof before === 'number' && typeof now === 'number'
            ? Math.abs(now - before) <= 1e-9 * Math.max(1, Math.abs(before))
            : String(now ?? '') === String(words ?? '');
        return same ? [] : [`${sheet} ${record} ${header}: ${String(before)} then, ${String(now)} now`];
      }),
    ),
  );
}

/** What the user had put in beside cells: a changed value with its source, a value of their own, a remark, formulas. */
function own(book: Workbook): unknown {
  const named = book.sheet('Assumptions').rows.map(({ cells }) => cells);
  const row = (name: string): unknown => named.find(([first]) => first === name)?.filter((_, column) => column !== 3);
  const belts = book.sheet('Belts');
  const reckoned = columnOf(book, 'Belts', 'Reckoned');
  return {
    idlers: row('CarryIdlers')?.valueOf(),
    margin: book.named('MethodMargin'),
    own: row('OurFactor')?.valueOf(),
    remark: book.note({ sheet: 'Belts', record: 0, column: book.column('Belts', 'Smallest pulley') }),
    formulas: belts.rows.map(({ cells }) => String(cells[reckoned]).replace(/[A-Z]+(?=\d)/g, '?')),
    earlier: named.filter(([name]) => ['CarryRollers', 'RouteMargin', 'SawLoss'].includes(String(name))),
  };
}

const kept = {
  margin: 0.2,
  remark: 'the drawing says less',
  formulas: [
    '=?2+Kerf',
    '=?3*2+LowFriction',
    '=IF(?4>0,?4*DowntimeCost,0)',
    '=SUM(?2:?6)',
    "='Plate series'!?2+CarryIdlers",
  ],
  earlier: [],
};

describe.each(['metric', 'us'] as const)('%s', (units) => {
  const stored = storedBook(units);
  const unit = units === 'us' ? 'lb/ft' : 'kg/m';
  let read: ImportResult;
  beforeAll(() => {
    const raw = readBook(new Uint8Array(file(`earlier-${units}.xlsx`)));
    read = acceptImport(raw, proposeImport(raw, {}), emptyBook('metric'), { title: '' });
  });
  test('a stored book opens with what it held, and says what has another name', () => {
    const { state, told } = adaptedBook(stored.state, stored.columns);
    const book = new Workbook(state);
    expect(differences(stored, book)).toEqual([]);
    expect(own(book)).toMatchObject({ ...kept, idlers: ['CarryIdlers', 17.5, unit, 'weighed on site'] });
    expect(told).toHaveLength(2);
    expect(told.join(' ')).toMatch(/Columns .*Duty is now Material.*Named values .*CarryRollers is now CarryIdlers/);
  });
  test('so does an exported file', () => {
    const book = new Workbook(read.state);
    expect(read.report.notUnderstood).toEqual([]);
    expect(differences(stored, book)).toEqual([]);
    expect(own(book)).toMatchObject({ ...kept, idlers: ['CarryIdlers', 17.5, unit, 'weighed on site'] });
    expect(read.report.assumed.join(' ')).toMatch(/Columns .*Duty is now Material.*Named values .*is now CarryIdlers/);
  });
});

test('a list under earlier headers is taken as sure', () => {
  const inputs = compiledSheets.get('Belts')?.columns.filter(({ formula }) => formula === undefined) ?? [];
  const { table } = imported({ rows: [inputs.map(({ formerly, header }) => formerly ?? header), ['B1']] });
  expect(table.columns.map(({ target }) => target)).toEqual(inputs.map(({ header }) => header));
  expect(table.columns.filter(({ confidence }) => confidence < 0.99)).toEqual([]);
});

test('a typed formula by an earlier name computes, unless the book has a name of its own that is so', () => {
  const none = new Set<string>();
  expect(presentFormula('=carryrollers*2+"CarryRollers"', 'Belts', none)).toEqual({
    text: '=CarryIdlers*2+"CarryRollers"',
    renamed: [{ before: 'carryrollers', now: 'CarryIdlers' }],
  });
  expect(presentFormula('=CarryRollers', 'Belts', new Set(['carryrollers'])).text).toBe('=CarryRollers');
  expect(presentFormula('=SUM(A1:B2', 'Belts', none).text).toBe('=SUM(A1:B2');
  const method = `${columnLetters(headerPosition('Belts', 'Tension from'))}2`;
  expect(presentFormula(`=IF(${method}="permitted",1,"permitted")`, 'Belts', none).text).toBe(
    `=IF(${method}="belt rating",1,"belt rating")`,
  );
  expect(presentFormula('=IF(A2="permitted",1,0)', 'Belts', none).text).toBe('=IF(A2="permitted",1,0)');
});
