import type { OutageJob, OutagePlan, OutageRequest } from '../../src/outage/search/request.ts';

/** Rules of an outage, told a second time, minute by minute and crew by crew, for plans from anywhere. */

export interface Placed {
  readonly key: string;
  readonly start: number;
  readonly end: number;
  readonly crews: readonly string[];
}

/** Work that people share, and hours beside that, by how many do it. */
export const shared = (crewHours: number, fixedHours: number): OutageJob['work'] => ({
  byPeople: Array.from({ length: 40 }, (_, index) => fixedHours + crewHours / (index + 1)),
});

const hoursOf = ({ work }: OutageJob, people: number): number =>
  'hours' in work ? work.hours : (work.byPeople[people - 1] ?? Number.NaN);

/** The rules that a plan breaks. */
export function broken(request: OutageRequest, placed: readonly Placed[]): string[] {
  const wrong: string[] = [];
  const first = Math.min(...request.windows.map(({ start }) => start));
  for (const one of placed) {
    const job = request.jobs.find(({ key }) => key === one.key);
    if (job === undefined) {
      wrong.push(`${one.key} is no job`);
      continue;
    }
    const people = one.crews.reduce(
      (sum, name) => sum + (request.crews.find((crew) => crew.name === name)?.people ?? Number.NaN),
      0,
    );
    const minutes = 60 * hoursOf(job, people);
    if (one.end - one.start < minutes - 1e-6) wrong.push(`${job.key} is too short`);
    if (one.end - one.start >= minutes + request.step) wrong.push(`${job.key} is a step too long`);
    if ((one.start - first) % request.step !== 0) wrong.push(`${job.key} begins between steps`);
    if (new Set(one.crews).size !== job.crews || one.crews.length !== job.crews)
      wrong.push(`${job.key} has not ${job.crews} crews`);
    if (job.earliest !== undefined && one.start < job.earliest) wrong.push(`${job.key} begins too early`);
    if (job.due !== undefined && one.end > job.due) wrong.push(`${job.key} ends too late`);
    const window = request.windows.some(
      ({ name, start, end, area }) =>
        start <= one.start &&
        one.end <= end &&
        (area ?? job.area) === job.area &&
        (job.windows?.includes(name) ?? true),
    );
    if (!window) wrong.push(`${job.key} lies in no window`);
    for (const name of one.crews) {
      const crew = request.crews.find((each) => each.name === name);
      if (crew?.area !== undefined && crew.area !== job.area) wrong.push(`${name} does not work in ${job.area}`);
      for (let minute = one.start; minute < one.end; minute += 1) {
        if (crew?.available === undefined || crew.available.some(({ start, end }) => start <= minute && minute < end))
          continue;
        wrong.push(`${name} is not there for ${job.key}`);
        break;
      }
    }
    for (const key of job.after ?? []) {
      const before = placed.find((other) => other.key === key);
      if (before === undefined || before.end > one.start) wrong.push(`${job.key} does not wait for ${key}`);
    }
    if (placed.filter(({ key }) => key === one.key).length > 1) wrong.push(`${one.key} is planned twice`);
    for (const other of placed) {
      if (other.key === one.key || other.end <= one.start || one.end <= other.start) continue;
      for (const crew of one.crews)
        if (other.crews.includes(crew)) wrong.push(`${crew} is at ${one.key} and ${other.key}`);
    }
    const area = request.areas?.find(({ name }) => name === job.area);
    const together = placed.filter(
      ({ key, start, end }) =>
        request.jobs.find((other) => other.key === key)?.area === job.area && start <= one.start && one.start < end,
    );
    if (area?.atOnce !== undefined && together.length > area.atOnce)
      wrong.push(`${together.length} jobs at once in ${job.area}`);
  }
  return wrong;
}

/** Weight planned, loss, last end and sum of ends, counted minute by minute. */
export function worth(
  request: OutageRequest,
  placed: readonly Placed[],
): { readonly weight: number; readonly lost: number; readonly finish: number; readonly ends: number } {
  const share = (area: string, minute: number): number =>
    Math.min(
      1,
      ...request.windows
        .filter((window) => (window.area ?? area) === area && window.start <= minute && minute < window.end)
        .map(({ lossShare = 1 }) => lossShare),
    );
  let lost = 0;
  for (const job of request.jobs) {
    const one = placed.find(({ key }) => key === job.key);
    const standing = request.areas?.find(({ name }) => name === job.area)?.standsAtLoss !== undefined;
    for (let minute = one?.start ?? 0; minute < (standing ? 0 : (one?.end ?? 0)); minute += 1)
      lost += (job.lostPerHour * share(job.area, minute)) / 60;
  }
  for (const { name, standsAtLoss = 0 } of request.areas ?? []) {
    const minutes = new Set<number>();
    for (const { key, start, end } of placed) {
      if (request.jobs.find((job) => job.key === key)?.area !== name) continue;
      for (let minute = start; minute < end; minute += 1) minutes.add(minute);
    }
    for (const minute of minutes) lost += (standsAtLoss * share(name, minute)) / 60;
  }
  return {
    weight: placed.reduce((sum, { key }) => sum + (request.jobs.find((job) => job.key === key)?.weight ?? 1), 0),
    lost,
    finish: Math.max(...request.windows.map(({ start }) => start), 0, ...placed.map(({ end }) => end)),
    ends: placed.reduce((sum, { end }) => sum + end, 0),
  };
}

const subsets = <Item>(items: readonly Item[], size: number): Item[][] => {
  const [first, ...rest] = items;
  if (size === 0) return [[]];
  if (first === undefined) return [];
  return [...subsets(rest, size - 1).map((others) => [first, ...others]), ...subsets(rest, size)];
};

/**
 * The best of all plans on the grid, each of them looked at; for small requests. Aims in their order, as numbers to be
 * made least.
 */
export function bestOfAll(request: OutageRequest): number[] {
  const first = Math.min(...request.windows.map(({ start }) => start));
  const last = Math.max(...request.windows.map(({ end }) => end));
  const options = request.jobs.map((job): (Placed | undefined)[] => {
    const places: Placed[] = [];
    for (const crews of subsets(request.crews, job.crews)) {
      const people = crews.reduce((sum, crew) => sum + crew.people, 0);
      const hours = hoursOf(job, people);
      const length = Math.ceil((hours * 60) / request.step - 1e-9) * request.step;
      for (let start = first; start + length <= last; start += request.step) {
        const one = { key: job.key, start, end: start + length, crews: crews.map(({ name }) => name) };
        if (broken({ ...request, jobs: [{ ...job, after: [] }] }, [one]).length === 0) places.push(one);
      }
    }
    return [undefined, ...places];
  });
  let best: number[] | undefined;
  const visit = (place: number, placed: readonly Placed[]): void => {
    if (place < options.length) {
      for (const one of options[place] ?? []) visit(place + 1, one === undefined ? placed : [...placed, one]);
      return;
    }
    const { weight, lost, finish, ends } = worth(request, placed);
    const found = request.aim === 'earliest finish' ? [-weight, finish, lost, ends] : [-weight, lost, ends];
    const difference =
      best === undefined
        ? -1
        : (found.map((value, index) => value - (best?.[index] ?? 0)).find((value) => Math.abs(value) > 1e-6) ?? 0);
    if (difference < 0 && broken(request, placed).length === 0) best = found;
  };
  visit(0, []);
  return best ?? [];
}

export const placedOf = (plan: OutagePlan): readonly Placed[] => plan.planned;
