import { beforeAll, expect, test, vi } from 'vitest';
import { loadSolver } from '../../src/solver/solver.ts';
import { type FleetOutage, fleetOutage } from '../../src/outage/fleet-outage.ts';
import { outageBook } from '../../src/outage/outage-files.ts';
import { outageTableNames } from '../../src/outage/outage-tables.ts';
import type { OutagePlan } from '../../src/outage/search/request.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { RawBook, RawCell } from '../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';
import { recalculated } from '../xlsx/libreoffice.ts';

/** The plan's workbook: what stands in it, and that another program works its formulas out to the same. */

vi.setConfig({ testTimeout: 180_000, hookTimeout: 60_000 });

let book: Workbook;
let fleet: FleetOutage;
let plan: OutagePlan;
let bytes: Uint8Array;

beforeAll(async () => {
  book = new Workbook(demoBook('metric'));
  fleet = fleetOutage(book, { scope: { which: 'all' }, aim: 'minimum lost production', step: 30, dueLimits: true });
  plan = await planOutage(fleet.request, { solver: () => loadSolver(), seconds: 4 });
  bytes = await tableBook(book, outageBook(book.state, fleet, plan, 'the demo'));
});

const sheet = (file: RawBook, name: string): ReadonlyMap<number, readonly RawCell[]> =>
  file.sheets.find((one) => one.name === name)?.rows ?? new Map();

function records(file: RawBook, name: string): Record<string, unknown>[] {
  const [[, head = []] = [], ...rows] = [...sheet(file, name)];
  return rows.map(([, cells]) =>
    Object.fromEntries(
      head.map(({ column, value }) => [String(value), cells.find((cell) => cell.column === column)?.value ?? null]),
    ),
  );
}

test('holds every job once, as planned or with the reason why not, and each crew with all it does', () => {
  const file = readBook(bytes);
  const planned = records(file, outageTableNames.plan);
  expect(planned.at(-1)?.Belt).toBe('Total');
  expect(planned.slice(0, -1).map((row) => [row.Belt, row.Start, row.Window])).toEqual(
    plan.planned.map(({ belt, start, window }) => [belt, expect.closeTo(start / 1440, 9), window]),
  );
  const unplanned = records(file, outageTableNames.unplanned).map((row) => row.Belt);
  expect(unplanned).toEqual([...plan.unplanned.map(({ belt }) => belt), ...fleet.leftOut.map(({ belt }) => belt)]);
  expect(new Set([...planned.slice(0, -1).map(({ Belt }) => Belt), ...unplanned]).size).toBe(36);
  expect(records(file, outageTableNames.bookings)).toHaveLength(
    plan.planned.reduce((sum, { crews }) => sum + crews.length, 0),
  );
  const dates = [...sheet(file, outageTableNames.plan).values()][1]
    ?.filter(({ date }) => date === true)
    .map(({ format }) => format);
  expect(dates).toEqual(['yyyy-mm-dd hh:mm', 'yyyy-mm-dd hh:mm', 'yyyy-mm-dd']);
});

test('is worked out by another program to the same values', async () => {
  const { formulas, differing } = formulaDifferences(readBook(bytes), await recalculated(bytes));
  expect(differing).toEqual([]);
  expect(formulas).toBeGreaterThan(2 * plan.planned.length + 3 * fleet.request.crews.length);
  const total = records(readBook(bytes), outageTableNames.plan).at(-1);
  expect(total?.['Lost production, t']).toBeCloseTo(plan.lost, 9);
  expect(total?.['Hours (h)']).toBeCloseTo(
    plan.planned.reduce((sum, { hours }) => sum + hours, 0),
    9,
  );
});

test('of a plan in which nothing fits is still a file that says why', async () => {
  const none = fleetOutage(book, {
    scope: { which: 'all' },
    aim: 'earliest finish',
    step: 30,
    dueLimits: true,
    crews: [],
  });
  const nothing = await planOutage(none.request, { solver: () => loadSolver() });
  const file = readBook(await tableBook(book, outageBook(book.state, none, nothing, 'the demo')));
  expect(records(file, outageTableNames.plan)).toEqual([]);
  expect(
    records(file, outageTableNames.unplanned).filter(({ Reason }) =>
      String(Reason).startsWith('does not fit: it needs'),
    ),
  ).toHaveLength(none.request.jobs.length);
});
