import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { loadSolver } from '../../src/solver/solver.ts';
import { type FleetOutage, fleetOutage, type OutageTerms } from '../../src/outage/fleet-outage.ts';
import { type OutagePlan, OutageRefusal } from '../../src/outage/search/request.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import { serialOf } from '../../src/units/dates.ts';
import type { Content } from '../../src/formula/values.ts';
import { converted } from '../../src/units/quantities.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { broken } from './outage-checker.ts';
import { columnOf } from '../workbook/books.ts';

/** The outage plan of a book: what it asks of the planner, and that what comes back keeps what the sheets say. */

vi.setConfig({ testTimeout: 120_000 });

const day = (text: string): number => {
  const [year = 0, month = 0, date = 0, hour = 0, minute = 0] = text.split(/[- :]/).map(Number);
  return (serialOf(year, month, date) ?? Number.NaN) + (60 * hour + minute) / 1440;
};
const terms: OutageTerms = {
  scope: { which: 'due', until: day('2027-12-31') },
  aim: 'minimum lost production',
  step: 30,
  dueLimits: true,
};
const loader = (): ReturnType<typeof loadSolver> => loadSolver();

const demo = (): Workbook => new Workbook(demoBook('metric'));

/** Sets a cell by its record's name. */
function set(book: Workbook, sheet: string, name: string, header: string, content: Content): void {
  const record = book.sheet(sheet).rows.findIndex(({ cells }) => cells[0] === name);
  expect(record, `${sheet}, ${name}`).toBeGreaterThanOrEqual(0);
  book.edit([{ sheet, record, column: columnOf(book, sheet, header), content }], 'test');
}

/** Adds a record below the others. */
function add(book: Workbook, sheet: string, cells: Readonly<Record<string, Content>>): void {
  book.addRecords(sheet, book.sheet(sheet).rows.length, [
    book.columns(sheet).map(({ header }) => cells[header] ?? null),
  ]);
}

const job = (fleet: FleetOutage, key: string): FleetOutage['request']['jobs'][number] | undefined =>
  fleet.request.jobs.find((one) => one.key === key);

describe('the jobs of a book', () => {
  test('are those of the belts that are due, each for all its joints, with hours by how many people do it', () => {
    const book = demo();
    const fleet = fleetOutage(book, terms);
    expect(fleet.request.jobs.map(({ key }) => key).toSorted()).toEqual([
      'C1',
      'C2',
      'C5',
      'C7',
      'K1',
      'K2',
      'Q4',
      'S5',
    ]);
    expect(fleet.leftOut.map(({ belt, column }) => [belt, column])).toEqual([
      ['S6', 'Carcass check'],
      ['C4', 'Thickness check'],
      ['K5', 'Due'],
    ]);
    expect(fleet.request.lossUnit).toBe('t');
    // C1 has one joint: with half a chance, by as many as CrewSize, the booked hours are the sheet's own mean.
    set(book, 'Assumptions', 'PlanningShare', 'Value', 0.5);
    const even = job(fleetOutage(book, terms), 'C1');
    const record = book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'C1');
    expect(even !== undefined && 'byPeople' in even.work ? even.work.byPeople[2] : undefined).toBeCloseTo(
      Number(book.read('Belts', record, 'Downtime')),
      9,
    );
    expect(even?.lostPerHour).toBeCloseTo(1300 * 0.7, 9);
    // Of four joints the work is four times that of one, lock-out, running out and test run are there once.
    const [one, four] = [1, 4].map((joints) => {
      set(book, 'Belts', 'K2', 'Joints', joints);
      const work = job(fleetOutage(book, terms), 'K2')?.work;
      return work !== undefined && 'byPeople' in work ? (work.byPeople[0] ?? Number.NaN) : Number.NaN;
    });
    const once = (['RunningOutHours', 'TestRunHours', 'SettingUpHours'] as const).reduce(
      (sum, name) =>
        sum +
        (Number(book.named(`${name}Low`)) +
          4 * Number(book.named(`${name}Likely`)) +
          Number(book.named(`${name}High`))) /
          6,
      0,
    );
    expect((four ?? 0) - once).toBeCloseTo(4 * ((one ?? 0) - once), 9);
  });

  test('take limits, waits, windows and weights from their sheets', () => {
    const fleet = fleetOutage(demo(), terms);
    expect(job(fleet, 'C1')?.due).toBe(day('2027-01-06') * 1440);
    expect(job(fleet, 'S5')).toMatchObject({ weight: 2 });
    expect(job(fleet, 'S5')?.due).toBeUndefined();
    expect(fleet.notes).toEqual([
      'S5 is overdue (due 2026-07-22): its due date cannot limit the plan. Decide whether it may run until then.',
    ]);
    expect(job(fleet, 'K1')?.after).toEqual(['K2']);
    expect(job(fleet, 'K2')?.crews).toBe(2);
    expect(job(fleet, 'Q4')?.windows).toEqual(['Quay night', 'Spring stop']);
    expect(fleet.request.areas).toEqual([
      { name: 'Crusher', atOnce: 2, standsAtLoss: 700 },
      { name: 'Stockyard', atOnce: 2 },
      { name: 'Quay', atOnce: 1 },
    ]);
    expect(job(fleetOutage(demo(), { ...terms, dueLimits: false }), 'C1')?.due).toBeUndefined();
  });

  test('count areas, crews and windows alike in any case, and take those that are chosen', () => {
    const book = demo();
    set(book, 'Crews', 'Crusher fitters', 'Works in', 'crusher');
    set(book, 'Windows', 'Quay night', 'Area', 'QUAY');
    const { request, remarks } = fleetOutage(book, {
      ...terms,
      crews: ['NIGHT crew', 'Crusher fitters'],
      windows: ['quay night', 'Spring stop'],
    });
    expect(remarks).toEqual([]);
    expect(request.crews.map(({ name, people, area }) => [name, people, area])).toEqual([
      ['Night crew', 3, undefined],
      ['Crusher fitters', 3, 'Crusher'],
    ]);
    expect(request.windows.map(({ name, area, lossShare }) => [name, area, lossShare])).toEqual([
      ['Quay night', 'Quay', 0.5],
      ['Spring stop', undefined, 0],
    ]);
  });

  test('a shift over midnight ends on the next day; one of the whole day never does', () => {
    const book = demo();
    add(book, 'Crews', { Crew: 'All day', People: 2, 'Shift from': 6, 'Shift to': 6 });
    const { crews } = fleetOutage(book, { ...terms, windows: ['Quay night'] }).request;
    const of = (name: string): unknown =>
      crews.find((crew) => crew.name === name)?.available?.map(({ start, end }) => [start / 1440, end / 1440]);
    const first = day('2027-01-19');
    expect(of('Night crew')).toEqual([
      [first + 0.75, first + 1.25],
      [first + 1.75, first + 2.25],
      [first + 2.75, first + 3.25],
    ]);
    expect(of('All day')).toEqual([[first + 0.25, first + 3.25]]);
    expect(of('Hired crew')).toEqual([]);
  });

  test('are the same in US customary units, losses in short tons', () => {
    const [metric, us] = [fleetOutage(demo(), terms), fleetOutage(new Workbook(demoBook('us')), terms)];
    expect(us.request.lossUnit).toBe('short ton');
    for (const [index, one] of metric.request.jobs.entries()) {
      const other = us.request.jobs[index];
      expect(other?.key).toBe(one.key);
      expect(other?.lostPerHour).toBeCloseTo(converted(one.lostPerHour, 'capacity', 'metric', 'us'), 6);
      if ('byPeople' in one.work && other !== undefined && 'byPeople' in other.work)
        expect(other.work.byPeople[3]).toBeCloseTo(one.work.byPeople[3] ?? Number.NaN, 6);
    }
  });
});

describe('what can not be used', () => {
  test('is told with its cell, and lifts no limit: the row is left out, or the belt that it limits', () => {
    const book = demo();
    set(book, 'Crews', 'Night crew', 'People', 'three');
    set(book, 'Crews', 'Day crew', 'Shift to', null);
    set(book, 'Crews', 'Crusher fitters', 'Works in', 'Crushr');
    set(book, 'Windows', 'Spring stop', 'End', day('2027-04-01'));
    set(book, 'Windows', 'Crusher day', 'Start', null);
    set(book, 'Areas', 'Quay', 'Maximum jobs at once', -1);
    set(book, 'Areas', 'Stockyard', 'Area', 'Stokyard');
    set(book, 'Outage jobs', 'K1', 'After', 'K22');
    const { request, leftOut, remarks } = fleetOutage(book, terms);
    expect(request.crews.map(({ name, available }) => [name, available?.length])).toEqual([['Hired crew', 1]]);
    expect(request.windows.map(({ name }) => name)).toEqual(['New Year stop', 'Quay night']);
    expect(leftOut.filter(({ belt }) => ['Q4', 'K1'].includes(belt)).map(({ belt, reason }) => [belt, reason])).toEqual(
      [
        ['Q4', 'the row of its area in the sheet Areas cannot be used: correct it'],
        ['K1', 'its row in the sheet Outage jobs cannot be used: correct it'],
      ],
    );
    expect(remarks.map(({ cell, message }) => `${cell} ${message}`).toSorted()).toEqual([
      '\'Outage jobs\'!B3 After names "K22", which is not in the sheet Belts: choose K2, or enter ' +
        '"K22" in the sheet Belts',
      'Areas!A3 Area names "Stokyard", which no belt has as its area, so the row is left out: correct it, for ' +
        'example to Stockyard',
      'Areas!B4 Maximum jobs at once is -1: enter a whole number, at least 1',
      'Crews!B3 People holds the text "three", which is not a number: enter a whole number, from 1 to 50',
      'Crews!C4 Works in names "Crushr", which no belt has as its area, so the row is left out: correct it, for ' +
        'example to Crusher',
      'Crews!E2 Shift to is missing but Shift from is entered, so the crew is left out: enter both, or neither',
      'Windows!B3 Start is not known, so the window is left out: enter a date and a time',
      'Windows!C5 End, 2027-04-01 00:00, must be after Start, 2027-04-10 06:00: correct one of the two',
    ]);
  });

  test('a window that is over, a name that stands twice, a belt without capacity or joints', () => {
    const book = demo();
    set(book, 'Assumptions', 'ReviewDate', 'Value', day('2027-02-01'));
    add(book, 'Crews', { Crew: 'day crew', People: 9 });
    set(book, 'Belts', 'S5', 'Capacity', null);
    set(book, 'Belts', 'C2', 'Joints', null);
    set(book, 'Belts', 'K2', 'Joints', null);
    set(book, 'Outage jobs', 'K2', 'Planned downtime', 9);
    const { request, leftOut, remarks } = fleetOutage(book, terms);
    expect(request.windows.map(({ name }) => name)).toEqual(['Spring stop']);
    expect(request.crews.map(({ name }) => name)).toEqual(['Day crew', 'Night crew', 'Crusher fitters', 'Hired crew']);
    expect(leftOut.find(({ belt }) => belt === 'C2')).toMatchObject({
      column: 'Joints',
      reason: 'the number of its joints is not known',
    });
    expect(job(fleetOutage(book, terms), 'K2')?.work).toEqual({ hours: 9 });
    expect(remarks.map(({ sheet, column }) => `${sheet}, ${column}`)).toEqual([
      'Windows, End',
      'Windows, End',
      'Windows, End',
      'Crews, Crew',
      'Belts, Capacity',
    ]);
    expect(job(fleetOutage(book, { ...terms, dueLimits: false }), 'S5')?.lostPerHour).toBe(0);
  });

  test('jobs that wait for each other are refused by their names, an assumption by its own', async () => {
    const book = demo();
    add(book, 'Outage jobs', { Belt: 'C1', After: 'C2' });
    await expect(planOutage(fleetOutage(book, terms).request, { solver: loader })).rejects.toThrow(
      new OutageRefusal([{ what: 'job C1', reason: 'the order runs in a circle: C1 after C2 after C1' }]),
    );
    set(book, 'Assumptions', 'HoleHoursLow', 'Value', 'little');
    expect(() => fleetOutage(book, terms)).toThrow(
      'assumption HoleHoursLow: HoleHoursLow must be a number of hours; "little" is given',
    );
  });

  test('a job that waits for a belt that is not planned says so; one whose windows are not chosen is left out', () => {
    const fleet = fleetOutage(demo(), {
      ...terms,
      scope: { which: 'belts', records: [3, 27] },
      windows: ['New Year stop'],
    });
    expect(fleet.notes).toEqual(['K1 comes after K2, which is not in this plan: the order is ignored.']);
    expect(fleet.leftOut).toMatchObject([
      {
        belt: 'Q4',
        reason:
          'it is allowed in Quay night and Spring stop only (sheet Outage jobs), and no such window ' +
          'exists or is chosen',
      },
    ]);
  });
});

/** Rules told from the cells of the sheets themselves, minute by minute. */
function brokenBySheets(book: Workbook, { planned }: OutagePlan): string[] {
  const wrong: string[] = [];
  const rows = (sheet: string): Readonly<Record<string, unknown>>[] =>
    book
      .sheet(sheet)
      .rows.map((_, record) =>
        Object.fromEntries(
          book.columns(sheet).map(({ header }, column) => [header, book.value({ sheet, record, column })]),
        ),
      );
  const minutes = (serial: unknown): number => Math.round(Number(serial) * 1440);
  const [crews, windows, areas, special, belts] = ['Crews', 'Windows', 'Areas', 'Outage jobs', 'Belts'].map(rows);
  for (const one of planned) {
    const window = windows?.find((row) => row.Window === one.window);
    if (
      window === undefined ||
      one.start < minutes(window.Start) ||
      one.end > minutes(window.End) ||
      (window['Area'] ?? one.area) !== one.area
    )
      wrong.push(`${one.key} lies outside its window`);
    const row = special?.find(({ Belt }) => Belt === one.belt);
    if (one.crews.length !== Number(row?.['Crews at once'] ?? 1))
      wrong.push(`${one.key} has ${one.crews.length} crews`);
    for (const name of String(row?.After ?? '')
      .split(',')
      .map((text) => text.trim())) {
      const before = planned.find(({ belt }) => belt === name);
      if (before !== undefined && before.end > one.start) wrong.push(`${one.key} does not wait for ${name}`);
    }
    for (const name of one.crews) {
      const crew = crews?.find(({ Crew }) => Crew === name);
      if (crew === undefined || (crew['Works in'] ?? one.area) !== one.area)
        wrong.push(`${name} does not work in ${one.area}`);
      const [from, to] = [crew?.['Shift from'], crew?.['Shift to']].map((hour) =>
        hour === null ? undefined : 60 * Number(hour),
      );
      for (let minute = one.start; minute < one.end; minute += 1) {
        const clock = minute % 1440;
        const shift =
          from === undefined ||
          to === undefined ||
          (from < to ? from <= clock && clock < to : clock >= from || clock < to);
        if (
          !shift ||
          minute < minutes(crew?.['Available from'] ?? 0) ||
          minute >= minutes(crew?.['Available until'] ?? 1e6)
        ) {
          wrong.push(`${name} is not there for ${one.key}`);
          break;
        }
      }
      for (const other of planned)
        if (other.key !== one.key && other.crews.includes(name) && other.start < one.end && one.start < other.end)
          wrong.push(`${name} is at ${one.key} and ${other.key}`);
    }
    const most = areas?.find(({ Area }) => Area === one.area)?.['Maximum jobs at once'] ?? 99;
    const together = planned.filter(
      ({ area, start, end }) => area === one.area && start <= one.start && one.start < end,
    ).length;
    if (together > Number(most)) wrong.push(`${together} at once in ${one.area}`);
    const due = belts?.find(({ Belt }) => Belt === one.belt)?.Due;
    if (
      typeof due === 'number' &&
      Math.floor(due) + 1 > Number(book.named('ReviewDate')) &&
      one.end > (Math.floor(due) + 1) * 1440
    )
      wrong.push(`${one.key} is late`);
  }
  return wrong;
}

const hour = fc.option(fc.constantFrom(0, 6, 8, 14, 18, 22), { nil: null });
const plant = fc.record({
  crews: fc.array(
    fc.record({
      people: fc.integer({ min: 1, max: 6 }),
      area: fc.constantFrom(null, null, 'Crusher', 'Stockyard'),
      from: hour,
      to: hour,
    }),
    { minLength: 1, maxLength: 4 },
  ),
  windows: fc.array(
    fc.record({
      start: fc.integer({ min: 0, max: 60 }),
      hours: fc.integer({ min: 6, max: 40 }),
      area: fc.constantFrom(null, null, 'Crusher', 'Quay'),
      share: fc.constantFrom(null, 0, 0.5),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  whole: fc.boolean(),
  atOnce: fc.constantFrom(null, 1, 2),
  aim: fc.constantFrom('minimum lost production' as const, 'earliest finish' as const),
});

test('a plan keeps what the sheets say, whatever they say (property)', async () => {
  await fc.assert(
    fc.asyncProperty(plant, async ({ crews, windows, whole, atOnce, aim }) => {
      const state = demoBook('metric');
      const begins = day('2027-01-04 06:00');
      const rows = new Map<string, readonly (readonly Content[])[]>([
        [
          'Crews',
          crews.map(({ people, area, from, to }, index) => [
            `Crew ${index}`,
            people,
            area,
            to === null ? null : from,
            from === null ? null : to,
            null,
            null,
            null,
          ]),
        ],
        [
          'Windows',
          windows.map(({ start, hours, area, share }, index) => [
            `Window ${index}`,
            begins + start / 24,
            begins + (start + hours) / 24,
            area,
            share,
            null,
          ]),
        ],
        ['Areas', [['Crusher', atOnce, whole ? 'yes' : 'no', null, null]]],
      ]);
      const book = new Workbook({
        ...state,
        sheets: state.sheets.map((sheet) => ({
          ...sheet,
          rows: rows.get(sheet.name)?.map((cells) => ({ cells })) ?? sheet.rows,
        })),
      });
      const fleet = fleetOutage(book, { ...terms, aim, step: 60 });
      const plan = await planOutage(fleet.request, { solver: loader, seconds: 0.5 });
      expect(broken(fleet.request, plan.planned)).toEqual([]);
      expect(brokenBySheets(book, plan)).toEqual([]);
      expect(plan.planned.length + plan.unplanned.length).toBe(fleet.request.jobs.length);
      expect(plan.unplanned.every(({ reason }) => reason.length > 10)).toBe(true);
      book.destroy();
    }),
    { numRuns: 20 },
  );
});

test('the demo is planned whole, and as one would by hand where that is plain', async () => {
  const book = demo();
  const fleet = fleetOutage(book, terms);
  const plan = await planOutage(fleet.request, { solver: loader, seconds: 8 });
  expect(broken(fleet.request, plan.planned)).toEqual([]);
  expect(brokenBySheets(book, plan)).toEqual([]);
  expect(plan.unplanned).toEqual([]);
  // Two belts must stand before the loss-free stop in spring: C1 is due in January, and no two crews are there at once
  // in spring for K2.
  const early = plan.planned.filter(({ window }) => window === 'New Year stop').map(({ belt }) => belt);
  expect(early).toEqual(expect.arrayContaining(['C1', 'K2']));
  expect(plan.lost).toBeCloseTo(0.25 * (5 * 700 + 7 * 1540), 6);
  expect(plan.stages.slice(0, 2).every(({ proven }) => proven)).toBe(true);
});
