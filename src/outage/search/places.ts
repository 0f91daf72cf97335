import { type Interval, joined } from '../moments.ts';
import type { Crew, OutageJob, OutageRequest, OutageWindow } from './request.ts';

/** The steps in which a job can lie with a team, on the grid that all jobs begin and end on. */

/** Crews that are alike. */
export interface CrewKind {
  readonly names: readonly string[];
  readonly people: number;
  /** The only area they work in; absent: all. */
  readonly area?: string;
  /** From step to step; absent: always. */
  readonly available?: readonly Interval[];
}

export interface Grid {
  /** The moment of step 0. */
  readonly base: number;
  /** Minutes. */
  readonly step: number;
  readonly steps: number;
}

/** The steps that lie wholly in an interval. */
export const within = ({ start, end }: Interval, { base, step }: Grid): Interval => ({
  start: Math.ceil((start - base) / step),
  end: Math.floor((end - base) / step),
});

export function gridOf({ windows, step }: OutageRequest): Grid {
  const base = Math.min(...windows.map(({ start }) => start));
  const end = Math.max(...windows.map((window) => window.end));
  return windows.length === 0 ? { base: 0, step, steps: 0 } : { base, step, steps: Math.floor((end - base) / step) };
}

export function crewKinds(crews: readonly Crew[], grid: Grid): CrewKind[] {
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
export function teams(kinds: readonly CrewKind[], crews: number, area: string): number[][] {
  const [first, ...rest] = kinds;
  if (first === undefined) return crews === 0 ? [[]] : [];
  const most = worksIn(first, area) ? Math.min(first.names.length, crews) : 0;
  return Array.from({ length: most + 1 }, (_, index) => index).flatMap((taken) =>
    teams(rest, crews - taken, area).map((others) => [taken, ...others]),
  );
}

export const worksIn = (crew: Pick<Crew, 'area'>, area: string): boolean =>
  crew.area === undefined || crew.area === area;

/** Hours that a job lasts with a team. */
export function hoursWith(job: OutageJob, team: readonly number[], kinds: readonly CrewKind[]): number {
  if ('hours' in job.work) return job.work.hours;
  const people = team.reduce((sum, taken, kind) => sum + taken * (kinds[kind]?.people ?? 0), 0);
  const { byPeople } = job.work;
  return byPeople[Math.min(people, byPeople.length) - 1] ?? Number.NaN;
}

/** Whole steps, a hair's breadth beyond one not counted. */
export const stepsOf = (hours: number, step: number): number => Math.max(1, Math.ceil((hours * 60) / step - 1e-9));

export const mayUse = (job: OutageJob, window: OutageWindow): boolean =>
  (window.area === undefined || window.area === job.area) &&
  (job.windows === undefined || job.windows.includes(window.name));

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

export function places(
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
