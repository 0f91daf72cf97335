import { counted } from '../../units/phrases.ts';
import { hoursText, joined, type Interval, momentText } from '../moments.ts';
import type { Crew, OutageJob, OutageRequest, OutageWindow, UnplannedJob } from './request.ts';

/**
 * Everywhere that a job can lie: in which window, from which step to which, with which crews.
 *
 * Crews with as many people, the same times and the same area are alike: a choice says how many of each kind it takes,
 * and which ones is settled when the plan is made. That spares the solver all plans that differ by two like crews
 * changed.
 */

/** Crews that are alike. */
interface CrewKind {
  readonly names: readonly string[];
  readonly people: number;
  /** The only area they work in; absent: all. */
  readonly area?: string;
  /** From step to step; absent: always. */
  readonly available?: readonly Interval[];
}

export interface Choice {
  /** Place of the job in the request. */
  readonly job: number;
  /** How many crews of each kind. */
  readonly team: readonly number[];
  /** First step, and the step after the last. */
  readonly start: number;
  readonly end: number;
  readonly window: string;
  /** What the job itself loses; 0 in an area that stands as a whole. */
  readonly lost: number;
}

interface Grid {
  /** The moment of step 0. */
  readonly base: number;
  /** Minutes. */
  readonly step: number;
  readonly steps: number;
}

export interface Choices {
  readonly grid: Grid;
  readonly kinds: readonly CrewKind[];
  /** By job. */
  readonly byJob: readonly (readonly Choice[])[];
  /** Jobs that lie nowhere, and why. */
  readonly impossible: ReadonlyMap<number, Pick<UnplannedJob, 'cause' | 'reason'>>;
  /** What an area that stands as a whole loses in a step. */
  readonly standingLoss: (area: string, step: number) => number;
}

/** The steps that lie wholly in an interval. */
const within = ({ start, end }: Interval, { base, step }: Grid): Interval => ({
  start: Math.ceil((start - base) / step),
  end: Math.floor((end - base) / step),
});

function gridOf({ windows, step }: OutageRequest): Grid {
  const base = Math.min(...windows.map(({ start }) => start));
  const end = Math.max(...windows.map((window) => window.end));
  return windows.length === 0 ? { base: 0, step, steps: 0 } : { base, step, steps: Math.floor((end - base) / step) };
}

function crewKinds(crews: readonly Crew[], grid: Grid): CrewKind[] {
  const kinds = new Map<string, { names: string[]; people: number; area?: string; available?: readonly Interval[] }>();
  for (const { name, people, area, available } of crews) {
    const steps =
      available === undefined
        ? undefined
        : joined(available)
            .map((interval) => within(interval, grid))
            .filter(({ start, end }) => start < end);
    const alike = JSON.stringify([people, steps, area]);
    const kind = kinds.get(alike);
    if (kind !== undefined) kind.names.push(name);
    else
      kinds.set(alike, {
        names: [name],
        people,
        ...(area === undefined ? {} : { area }),
        ...(steps === undefined ? {} : { available: steps }),
      });
  }
  return [...kinds.values()];
}

/** All ways to take so many crews that work in an area, as numbers of each kind. */
function teams(kinds: readonly CrewKind[], crews: number, area: string): number[][] {
  const [first, ...rest] = kinds;
  if (first === undefined) return crews === 0 ? [[]] : [];
  const most = worksIn(first, area) ? Math.min(first.names.length, crews) : 0;
  return Array.from({ length: most + 1 }, (_, index) => index).flatMap((taken) =>
    teams(rest, crews - taken, area).map((others) => [taken, ...others]),
  );
}

const worksIn = (crew: Pick<Crew, 'area'>, area: string): boolean => crew.area === undefined || crew.area === area;

/** Hours that a job lasts with a team. */
function hoursWith(job: OutageJob, team: readonly number[], kinds: readonly CrewKind[]): number {
  if ('hours' in job.work) return job.work.hours;
  const people = team.reduce((sum, taken, kind) => sum + taken * (kinds[kind]?.people ?? 0), 0);
  const { byPeople } = job.work;
  return byPeople[Math.min(people, byPeople.length) - 1] ?? Number.NaN;
}

/** Whole steps, a hair's breadth beyond one not counted. */
const stepsOf = (hours: number, step: number): number => Math.max(1, Math.ceil((hours * 60) / step - 1e-9));

const mayUse = (job: OutageJob, window: OutageWindow): boolean =>
  (window.area === undefined || window.area === job.area) &&
  (job.windows === undefined || job.windows.includes(window.name));

export function outageChoices(request: OutageRequest): Choices {
  const grid = gridOf(request);
  const kinds = crewKinds(request.crews, grid);
  const shares = lossShares(request, grid);
  const standing = new Map(
    (request.areas ?? []).flatMap(({ name, standsAtLoss }) =>
      standsAtLoss === undefined ? [] : [[name, standsAtLoss] as const],
    ),
  );
  const hours = grid.step / 60;
  const impossible = new Map<number, Pick<UnplannedJob, 'cause' | 'reason'>>();
  const byJob = request.jobs.map((job, place): Choice[] => {
    const share = shares(job.area);
    const lost = (start: number, end: number): number => {
      if (standing.has(job.area)) return 0;
      let sum = 0;
      for (let step = start; step < end; step += 1) sum += share(step);
      return sum * hours * job.lostPerHour;
    };
    const found = places(
      job,
      request.windows.filter((window) => mayUse(job, window)),
      kinds,
      grid,
    );
    if (found.length === 0) impossible.set(place, whyNowhere(job, request, kinds, grid));
    return found.map(({ team, start, end, window }) => ({
      job: place,
      team,
      start,
      end,
      window: window.name,
      lost: lost(start, end),
    }));
  });
  spreadImpossible(request.jobs, byJob, impossible);
  return {
    grid,
    kinds,
    byJob,
    impossible,
    standingLoss: (area, step) => (standing.get(area) ?? 0) * shares(area)(step) * hours,
  };
}

/** The least share of the loss that any window of an area asks for in a step; 1 outside of them. */
function lossShares({ windows }: OutageRequest, grid: Grid): (area: string) => (step: number) => number {
  const kept = new Map<string, Float64Array>();
  return (area) => {
    const shares = kept.get(area) ?? new Float64Array(grid.steps).fill(1);
    if (!kept.has(area)) {
      for (const window of windows) {
        const { start, end } = within(window, grid);
        if (window.area !== undefined && window.area !== area) continue;
        for (let step = start; step < end; step += 1) shares[step] = Math.min(shares[step] ?? 1, window.lossShare ?? 1);
      }
      kept.set(area, shares);
    }
    return (step) => shares[step] ?? 1;
  };
}

interface Place {
  readonly team: readonly number[];
  readonly start: number;
  readonly end: number;
  readonly window: OutageWindow;
}

interface Heeded {
  readonly crews: boolean;
  readonly dates: boolean;
}

function places(
  job: OutageJob,
  windows: readonly OutageWindow[],
  kinds: readonly CrewKind[],
  grid: Grid,
  heeded: Heeded = { crews: true, dates: true },
): Place[] {
  return teams(kinds, job.crews, job.area).flatMap((team) => {
    const length = stepsOf(hoursWith(job, team, kinds), grid.step);
    const starts = new Map<number, Place>();
    for (const window of windows) {
      const room = within(window, grid);
      const dates = within(
        {
          start: heeded.dates ? (job.earliest ?? window.start) : window.start,
          end: heeded.dates ? (job.due ?? window.end) : window.end,
        },
        grid,
      );
      const last = Math.min(room.end, dates.end) - length;
      for (let start = Math.max(room.start, dates.start); start <= last; start += 1) {
        const there =
          !heeded.crews || team.every((taken, kind) => taken === 0 || isThere(kinds[kind], start, start + length));
        if (there && !starts.has(start)) starts.set(start, { team, start, end: start + length, window });
      }
    }
    return [...starts.values()].toSorted((a, b) => a.start - b.start);
  });
}

const isThere = (kind: CrewKind | undefined, from: number, to: number): boolean =>
  kind !== undefined &&
  (kind.available === undefined || kind.available.some(({ start, end }) => start <= from && to <= end));

/** Why a job lies nowhere, even if it were alone. */
function whyNowhere(
  job: OutageJob,
  request: OutageRequest,
  kinds: readonly CrewKind[],
  grid: Grid,
): Pick<UnplannedJob, 'cause' | 'reason'> {
  const windows = request.windows.filter((window) => mayUse(job, window));
  const lengths = teams(kinds, job.crews, job.area).map((team) => stepsOf(hoursWith(job, team, kinds), grid.step));
  if (lengths.length === 0) {
    const there = request.crews.filter((crew) => worksIn(crew, job.area)).length;
    const where = there === request.crews.length ? '' : ` for the area ${job.area}`;
    return {
      cause: 'crew',
      reason:
        `it needs ${counted(job.crews, 'crew')} at once; there ` + `${there === 1 ? 'is 1' : `are ${there}`}${where}`,
    };
  }
  if (windows.length === 0) {
    const asked = job.windows === undefined ? '' : ` among those it may use (${job.windows.join(', ')})`;
    return { cause: 'window', reason: `there is no window for the area ${job.area}${asked}` };
  }
  const shortest = Math.min(...lengths);
  const room = (window: OutageWindow): number => within(window, grid).end - within(window, grid).start;
  const longest = windows.reduce((best, window) => (room(window) > room(best) ? window : best));
  const takes = hoursText((shortest * grid.step) / 60);
  if (room(longest) < shortest) {
    return {
      cause: 'window',
      reason:
        `no window is long enough: it takes ${takes}, and the longest, ${longest.name}, has ` +
        `${hoursText((Math.max(0, room(longest)) * grid.step) / 60)} in whole steps`,
    };
  }
  const withoutDates = places(job, windows, kinds, grid, { crews: true, dates: false });
  if (withoutDates.length === 0)
    return {
      cause: 'crew',
      reason:
        `no window has ${job.crews === 1 ? 'a crew' : `${job.crews} crews`} there for the ${takes} that it ` +
        `takes at least`,
    };
  const text = (step: number): string => momentText(grid.base + step * grid.step);
  const onTime = places({ ...job, due: Number.POSITIVE_INFINITY }, windows, kinds, grid);
  if (onTime.length === 0)
    return {
      cause: 'due',
      reason:
        `it may not begin before ${momentText(job.earliest ?? grid.base)}, and after that no window has room ` +
        `and crews for it`,
    };
  const first = onTime.reduce((best, one) => (one.end < best.end ? one : best));
  return {
    cause: 'due',
    reason:
      `it is due by ${momentText(job.due ?? grid.base)}; the first time it can end is ${text(first.end)}, in ` +
      `the window ${first.window.name}`,
  };
}

/** What comes after an impossible job is impossible too. */
function spreadImpossible(
  jobs: readonly OutageJob[],
  byJob: Choice[][],
  impossible: Map<number, Pick<UnplannedJob, 'cause' | 'reason'>>,
): void {
  const keyAt = new Map(jobs.map(({ key }, place) => [key, place]));
  for (let changed = true; changed;) {
    changed = false;
    for (const [place, job] of jobs.entries()) {
      const before = job.after?.find((key) => impossible.has(keyAt.get(key) ?? -1));
      if (before === undefined || impossible.has(place)) continue;
      impossible.set(place, { cause: 'order', reason: `it comes after ${before}, which does not fit` });
      byJob[place] = [];
      changed = true;
    }
  }
}
