import { assumed } from '../records/assumed.ts';
import type { Belt, Missing } from '../records/belt.ts';
import { severalWords } from '../records/cell-issue.ts';
import { type ChoiceTerms, type ChosenBelt, type LeftOut, ofChosenBelts, type Scope } from '../records/chosen-belts.ts';
import type { CellRemark, SheetRow } from '../records/sheet-rows.ts';
import { listed } from '../sheet/words.ts';
import {
  jobRates,
  jointsCounts,
  jointWork,
  lostProduction,
  pertTime,
  type Rate,
  workHeaders,
} from '../job/job-time.ts';
import { type Moment, momentOf } from './moments.ts';
import {
  type Aim,
  type OutageArea,
  type OutageJob,
  OutageRefusal,
  type OutageRequest,
  type OutageWindow,
} from './search/request.ts';
import { isoDate } from '../units/dates.ts';
import { unitOf } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { areas as areaSheet } from '../../sheets/work/areas.ts';
import { belts } from '../../sheets/belts/index.ts';
import { outageJobs } from '../../sheets/work/outage-jobs.ts';
import { AreaNames } from './area-names.ts';
import { momentIn, type NamedRow, namedRows } from './named-rows.ts';
import { bookCrews, bookWindows } from './outage-times.ts';

/** The outage plan that a book asks for: a job for the joints of each belt, its crews, windows and areas. */

export interface OutageTerms extends ChoiceTerms {
  readonly scope: Scope;
  readonly aim: Aim;
  /** Minutes. */
  readonly step: number;
  /** A joint that is not overdue yet must be made before the day it is due is over. */
  readonly dueLimits: boolean;
  /** Names; all of the book when absent. */
  readonly crews?: readonly string[];
  readonly windows?: readonly string[];
}

/** The job of one belt. */
export interface OutageBelt {
  readonly record: number;
  readonly job: OutageJob;
  /** Unknown only where the hours are booked by hand. */
  readonly joints: number | undefined;
  readonly due: number | undefined;
  /** Checks of its joint that could not be made. */
  readonly unknown: readonly string[];
}

export interface FleetOutage {
  readonly request: OutageRequest;
  readonly belts: readonly OutageBelt[];
  readonly leftOut: readonly LeftOut[];
  /** Cells that could not be used, and what was done without them. */
  readonly remarks: readonly CellRemark[];
  /** What the reader must know of the jobs, in sentences. */
  readonly notes: readonly string[];
  /** Chance that the time booked for a job suffices. */
  readonly share: number;
}

/** Crews larger than this take no less time: our choice, no effect on safety; no joint has room for so many. */
const mostPeople = 200;

interface Sheets {
  readonly windows: readonly OutageWindow[];
  readonly rates: readonly Rate[];
  readonly share: number;
  readonly dutyShare: number;
  readonly people: number;
  readonly special: ReadonlyMap<string, NamedRow<'Outage jobs'>>;
  readonly areas: ReadonlyMap<string, NamedRow<'Areas'>>;
}

/** The request of a book. Throws a Refusal that names an assumption which cannot be used, or an OutageRefusal. */
export function fleetOutage(book: Workbook, terms: OutageTerms): FleetOutage {
  const remarks: CellRemark[] = [];
  const notes: string[] = [];
  const areas = new AreaNames(book);
  const rates = jobRates((name) => book.named(name));
  if ('faults' in rates)
    throw new OutageRefusal(rates.faults.map(({ name, reason }) => ({ what: `assumption ${name}`, reason })));
  const today = momentOf(Math.floor(assumed(book, 'ReviewDate')));
  const windows = bookWindows(book, areas, today, terms.windows, remarks);
  const crews = bookCrews(book, areas, assumed(book, 'CrewSize'), windows, terms.crews, remarks);
  const people = Math.min(
    mostPeople,
    Math.max(
      1,
      crews.reduce((sum, crew) => sum + crew.people, 0),
    ),
  );
  const special = new Map(namedRows(book, outageJobs, remarks).map((one) => [one.name.toLowerCase(), one]));
  const areaRows = new Map(
    namedRows(book, areaSheet, remarks)
      .filter(({ row, usable }) => !usable || areas.of(row, areaSheet.key) !== null)
      .map((one) => [areas.spelled(one.name), one]),
  );
  const sheets: Sheets = {
    windows,
    rates,
    share: assumed(book, 'PlanningShare'),
    dutyShare: assumed(book, 'LoadShare'),
    people,
    special,
    areas: areaRows,
  };
  const names = new Set<string>();
  const { made, leftOut } = ofChosenBelts(book, terms.scope, terms, (chosen) => {
    if (names.has(chosen.name.toLowerCase()))
      return { column: belts.key, reason: 'its name is used twice: give each belt a different name' };
    names.add(chosen.name.toLowerCase());
    return beltJob(chosen, sheets, areas, remarks);
  });
  const planned = withOrder(made, sheets.special, notes);
  const limited = planned.map((one) => withDue(one, today, terms, notes));
  return {
    request: {
      jobs: limited.map(({ job }) => job),
      crews,
      windows,
      areas: standingAreas(areaRows, limited, sheets.dutyShare),
      step: terms.step,
      aim: terms.aim,
      lossUnit: unitOf('capacity', book.units).replace(/\/h$/, ''),
    },
    belts: limited,
    leftOut,
    remarks,
    notes,
    share: sheets.share,
  };
}

/** Why nothing can be planned for a belt, whatever its own figures: a row that limits it cannot be used. */
function unusableRow(name: string, area: string, sheets: Sheets): Missing | undefined {
  if (sheets.special.get(name.toLowerCase())?.usable === false)
    return { column: belts.key, reason: `its row in the sheet ${outageJobs.name} cannot be used: correct it` };
  return sheets.areas.get(area)?.usable === false
    ? { column: 'Area', reason: `the row of its area in the sheet ${areaSheet.name} cannot be used: correct it` }
    : undefined;
}

/** How long its joints take: the planned downtime entered, or hours by the number of people. */
function workOf(belt: Belt, booked: number | undefined, sheets: Sheets): OutageJob['work'] | Missing {
  const joints = belt.given('Joints');
  if (booked === undefined && joints === undefined)
    return { column: 'Joints', reason: 'the number of its joints is not known' };
  if (joints === 0) return { column: 'Joints', reason: 'it has no bolted joint' };
  if (booked !== undefined) return { hours: booked };
  const missing = workHeaders.map((header) => belt.needed(header)).find((value) => typeof value !== 'number');
  if (missing !== undefined) return missing;
  const work = jointWork((header) => belt.number(header));
  return work === undefined || joints === undefined
    ? { hours: Number.NaN }
    : { byPeople: hoursByPeople(jointsCounts(work, joints, belt.units), sheets) };
}

/** The windows that a row of Outage jobs allows a belt; undefined for all. */
function windowsFor(row: SheetRow<'Outage jobs'> | undefined, sheets: Sheets): readonly string[] | undefined | Missing {
  const only = row === undefined ? [] : severalWords(row.text('Allowed windows'));
  if (only.length === 0) return undefined;
  const allowed = sheets.windows
    .filter((window) => only.some((one) => one.toLowerCase() === window.name.toLowerCase()))
    .map((window) => window.name);
  return allowed.length > 0
    ? allowed
    : {
        column: belts.key,
        reason:
          `it is allowed in ${listed(only)} only (sheet ${outageJobs.name}), and no such window exists or is ` +
          `chosen`,
      };
}

function beltJob(
  { record, name, belt, due, unknown }: ChosenBelt,
  sheets: Sheets,
  areas: AreaNames,
  remarks: CellRemark[],
): OutageBelt | Missing {
  const area = areas.spelled(belt.text('Area'));
  const unusable = unusableRow(name, area, sheets);
  if (unusable !== undefined) return unusable;
  const row = sheets.special.get(name.toLowerCase())?.row;
  const work = workOf(belt, row?.number('Planned downtime'), sheets);
  if ('reason' in work) return work;
  const capacity = belt.given('Capacity');
  if (capacity === undefined)
    remarks.push({
      sheet: belts.name,
      record,
      column: 'Capacity',
      cell: belt.cell('Capacity'),
      message: `the Capacity of ${name} is not known, so its lost production counts as 0: enter it`,
    });
  const windows = windowsFor(row, sheets);
  if (windows !== undefined && 'reason' in windows) return windows;
  const [crews, earliest, weight] = [
    row?.number('Crews at once'),
    row === undefined ? undefined : momentIn(row, 'Earliest start'),
    row?.number('Priority'),
  ];
  return {
    record,
    joints: belt.given('Joints'),
    due,
    unknown,
    job: {
      key: name,
      belt: name,
      area,
      work,
      crews: crews ?? 1,
      lostPerHour: lostProduction(1, capacity, sheets.dutyShare) ?? 0,
      ...(windows === undefined ? {} : { windows }),
      ...(earliest === undefined ? {} : { earliest }),
      ...(weight === undefined ? {} : { weight }),
    },
  };
}

/** Hours within which the work is done with the chance of PlanningShare, for one person first. */
const hoursByPeople = (counts: ReturnType<typeof jointsCounts>, { rates, share, people }: Sheets): number[] =>
  Array.from({ length: people }, (_, index) => {
    const {
      outageHours: { mean, quantiles },
    } = pertTime(counts, rates, { crewSize: index + 1, shares: [share] });
    return quantiles[0]?.value ?? mean;
  });

/** The jobs that each job waits for, among those of the plan. */
function withOrder(made: readonly OutageBelt[], special: Sheets['special'], notes: string[]): OutageBelt[] {
  const keys = new Map(made.map(({ job }) => [job.key.toLowerCase(), job.key]));
  return made.map((one) => {
    const wanted = severalWords(special.get(one.job.key.toLowerCase())?.row.text('After') ?? '');
    const after = [...new Set(wanted.flatMap((name) => keys.get(name.toLowerCase()) ?? []))];
    const absent = wanted.filter((name) => !keys.has(name.toLowerCase()));
    if (absent.length > 0)
      notes.push(
        `${one.job.key} comes after ${listed(absent)}, which ${absent.length === 1 ? 'is' : 'are'} not in this plan: ` +
          `the order is ignored.`,
      );
    return after.length === 0 ? one : { ...one, job: { ...one.job, after } };
  });
}

/** The date a joint is due as a limit, unless it is past already. */
function withDue(one: OutageBelt, today: Moment, { dueLimits }: OutageTerms, notes: string[]): OutageBelt {
  if (one.due === undefined) return one;
  const end = momentOf(Math.floor(one.due) + 1);
  if (end <= today) {
    notes.push(
      `${one.job.key} is overdue (due ${isoDate(Math.floor(one.due))}): its due date cannot limit the plan. ` +
        'Decide whether it may run until then.',
    );
    return one;
  }
  return dueLimits ? { ...one, job: { ...one.job, due: end } } : one;
}

function standingAreas(rows: Sheets['areas'], jobs: readonly OutageBelt[], dutyShare: number): OutageArea[] {
  return [...rows].flatMap(([name, { row }]): OutageArea[] => {
    const own = jobs.filter(({ job }) => job.area === name);
    if (own.length === 0) return [];
    const [atOnce, whole, capacity] = [
      row.number('Maximum jobs at once'),
      row.text('Stops as one') === 'yes',
      row.number('Area capacity'),
    ];
    const loss =
      capacity === undefined
        ? Math.max(...own.map(({ job }) => job.lostPerHour))
        : (lostProduction(1, capacity, dutyShare) ?? 0);
    return [{ name, ...(atOnce === undefined ? {} : { atOnce }), ...(whole ? { standsAtLoss: loss } : {}) }];
  });
}
