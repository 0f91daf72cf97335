import type { Interval, Moment } from '../moments.ts';

/**
 * What is asked of an outage plan and what it answers. Times are moments on the plant's clock; loss is in one unit of
 * your choice.
 */

export interface OutageJob {
  /** Unique; belts with several joints have several jobs. */
  readonly key: string;
  readonly belt: string;
  readonly area: string;
  /**
   * Downtime of the belt; or those hours by how many people do it, for one first: more than it tells of take as
   * long as the most.
   */
  readonly work: { readonly hours: number } | { readonly byPeople: readonly number[] };
  /** Crews that work on it together, at least one. */
  readonly crews: number;
  /** Names of the windows it may lie in; absent: any of its area. */
  readonly windows?: readonly string[];
  readonly earliest?: Moment;
  readonly due?: Moment;
  /** What the plant loses for each hour that it lasts, by its own belt's standing. */
  readonly lostPerHour: number;
  /** Keys of jobs that must be over before it begins. */
  readonly after?: readonly string[];
  /** How much it counts that it is planned at all; 1 when absent. */
  readonly weight?: number;
}

export interface Crew {
  readonly name: string;
  readonly people: number;
  /** The only area it works in; absent: all. */
  readonly area?: string;
  /** When it can work; absent: always. */
  readonly available?: readonly Interval[];
}

/** A time in which belts may be stopped. A job lies within one window. */
export interface OutageWindow extends Interval {
  readonly name: string;
  /** The area it is for; absent: all. */
  readonly area?: string;
  /**
   * Share of the loss that counts in it: 0 while the plant is stopped anyway, 1 when absent. Where windows overlap, the
   * least.
   */
  readonly lossShare?: number;
}

export interface OutageArea {
  readonly name: string;
  /** Jobs that may go on in it at once; absent: any number. */
  readonly atOnce?: number;
  /**
   * The whole area is stopped as long as any job is done in it, at this loss per hour; the jobs' own losses do not
   * count then. Belts that feed each other, or several joints of one belt.
   */
  readonly standsAtLoss?: number;
}

export const aims = ['minimum lost production', 'earliest finish'] as const;
export type Aim = (typeof aims)[number];

export interface OutageRequest {
  readonly jobs: readonly OutageJob[];
  readonly crews: readonly Crew[];
  readonly windows: readonly OutageWindow[];
  readonly areas?: readonly OutageArea[];
  /** Minutes; jobs start on whole steps from the first window's start, and last whole steps. */
  readonly step: number;
  readonly aim: Aim;
  /** What loss is counted in, for texts. */
  readonly lossUnit?: string;
}

export interface PlannedJob extends Interval {
  readonly key: string;
  readonly belt: string;
  readonly area: string;
  readonly window: string;
  /** Booked, whole steps. */
  readonly hours: number;
  readonly crews: readonly string[];
  /** 0 in an area that stops as one. */
  readonly lost: number;
}

type Hindrance = 'window' | 'crew' | 'due' | 'order' | 'room';

export interface UnplannedJob {
  readonly key: string;
  readonly belt: string;
  readonly area: string;
  readonly cause: Hindrance;
  /** A sentence, with what would have to change. */
  readonly reason: string;
}

/** One aim after the other, each kept while the next is looked for. */
export interface Stage {
  readonly name: 'jobs planned' | 'lost production' | 'hours to the last end' | 'sum of ends';
  readonly value: number;
  /** What no plan can do better than. */
  readonly bound: number;
  /** Distance from value to bound over the value; 0 when proven best. */
  readonly gap: number;
  readonly proven: boolean;
}

interface StandingArea {
  readonly area: string;
  readonly hours: number;
  readonly lost: number;
}

export interface OutagePlan {
  /** By start, then by the order of the request. */
  readonly planned: readonly PlannedJob[];
  readonly unplanned: readonly UnplannedJob[];
  /** Areas that stop as one while jobs are done in them. */
  readonly standing: readonly StandingArea[];
  readonly lost: number;
  /** End of the last job; absent when none is planned. */
  readonly finish?: Moment;
  /** In order; the first decide. A stage that time did not reach is missing. */
  readonly stages: readonly Stage[];
  /** Whether it is proven that no plan does better in any of the aims, in that order. */
  readonly proven: boolean;
}

export interface RequestFault {
  /** Which job, crew, window or area. */
  readonly what: string;
  readonly reason: string;
}

/**
 * Thrown for a request that is no question: names that do not exist or stand twice, times that run backward, orders in
 * a circle.
 */
export class OutageRefusal extends Error {
  readonly faults: readonly RequestFault[];
  constructor(faults: readonly RequestFault[]) {
    super(faults.map(({ what, reason }) => `${what}: ${reason}`).join('; '));
    this.name = 'OutageRefusal';
    this.faults = faults;
  }
}

const twice = (names: readonly string[]): string[] => [
  ...new Set(names.filter((name, index) => names.indexOf(name) !== index)),
];

/** A year and a half in steps of a quarter of an hour: beyond it there is no planning by the hour. */
const mostSteps = 50_000;

/** What is wrong with a request; empty when it can be planned. */
export function requestFaults({ jobs, crews, windows, areas = [], step }: OutageRequest): RequestFault[] {
  const faults: RequestFault[] = [];
  const fault = (what: string, reason: string): void => void faults.push({ what, reason });
  for (const [kind, names] of [
    ['job', jobs.map(({ key }) => key)],
    ['crew', crews.map(({ name }) => name)],
    ['window', windows.map(({ name }) => name)],
    ['area', areas.map(({ name }) => name)],
  ] as const) {
    for (const name of twice(names)) fault(`${kind} ${name}`, 'the name is used twice; give each its own');
  }
  if (!(Number.isInteger(step) && step >= 1))
    fault('step', `it must be a whole number of minutes, at least 1; ${step} is given`);
  const runs = ({ start, end }: Interval): boolean => Number.isFinite(start) && Number.isFinite(end) && start < end;
  for (const window of windows) {
    if (!runs(window)) fault(`window ${window.name}`, 'its end must be after its start');
    if (window.lossShare !== undefined && !(window.lossShare >= 0 && window.lossShare <= 1))
      fault(`window ${window.name}`, `its production loss must be from 0 to 1; ${window.lossShare} is given`);
  }
  const steps =
    windows.length === 0
      ? 0
      : (Math.max(...windows.map(({ end }) => end)) - Math.min(...windows.map(({ start }) => start))) / step;
  if (steps > mostSteps)
    fault(
      'step',
      `from the first window to the last there are ${Math.ceil(steps)} steps, more than ${mostSteps}: choose a ` +
        `longer step`,
    );
  for (const { name, people, available = [] } of crews) {
    if (!(people > 0)) fault(`crew ${name}`, `it needs at least 1 person; ${people} are given`);
    if (!available.every(runs)) fault(`crew ${name}`, 'each time it is available must end after it starts');
  }
  for (const { name, atOnce, standsAtLoss } of areas) {
    if (atOnce !== undefined && !(Number.isInteger(atOnce) && atOnce >= 1))
      fault(`area ${name}`, `the maximum of jobs at once must be a whole number, at least 1; ${atOnce} is given`);
    if (standsAtLoss !== undefined && !(standsAtLoss >= 0))
      fault(`area ${name}`, `its loss per hour must be at least 0; ${standsAtLoss} is given`);
  }
  const keys = new Set(jobs.map(({ key }) => key));
  for (const job of jobs) {
    const what = `job ${job.key}`;
    const hours = 'hours' in job.work ? [job.work.hours] : job.work.byPeople;
    const wrong = hours.length === 0 ? 'none' : hours.find((each) => !(each > 0 && Number.isFinite(each)));
    if (wrong !== undefined) fault(what, `its hours must be more than 0; ${wrong} are given`);
    if (!(Number.isInteger(job.crews) && job.crews >= 1))
      fault(what, `its crews at once must be a whole number, at least 1; ${job.crews} is given`);
    if (!(job.lostPerHour >= 0)) fault(what, `its loss per hour must be at least 0; ${job.lostPerHour} is given`);
    if (job.weight !== undefined && !(job.weight > 0))
      fault(what, `its priority must be more than 0; ${job.weight} is given`);
    for (const name of job.windows ?? [])
      if (!windows.some((window) => window.name === name)) fault(what, `there is no window ${name}`);
    for (const before of job.after ?? [])
      if (!keys.has(before)) fault(what, `it comes after ${before}, which is not in this plan`);
  }
  const circle = circleOf(jobs);
  if (circle !== undefined)
    fault(`job ${circle[0]}`, `the order runs in a circle: ${circle.join(' after ')} after ${circle[0]}`);
  return faults;
}

/** Keys of jobs that wait for each other; undefined when none do. */
function circleOf(jobs: readonly OutageJob[]): [string, ...string[]] | undefined {
  const byKey = new Map(jobs.map((job) => [job.key, job]));
  const done = new Set<string>();
  const walk = (key: string, path: readonly string[]): [string, ...string[]] | undefined => {
    const at = path.indexOf(key);
    const [first, ...rest] = path.slice(Math.max(0, at));
    if (at >= 0 && first !== undefined) return [first, ...rest];
    if (done.has(key)) return undefined;
    for (const before of byKey.get(key)?.after ?? []) {
      const found = walk(before, [...path, key]);
      if (found !== undefined) return found;
    }
    done.add(key);
    return undefined;
  };
  for (const { key } of jobs) {
    const found = walk(key, []);
    if (found !== undefined) return found;
  }
  return undefined;
}
