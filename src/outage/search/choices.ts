import { whyNowhere } from './nowhere.ts';
import { type CrewKind, crewKinds, type Grid, gridOf, mayUse, places, within } from './places.ts';
import type { OutageJob, OutageRequest, UnplannedJob } from './request.ts';

/**
 * Everywhere that a job can lie: in which window, from which step to which, with which crews.
 *
 * Crews with as many people, the same times and the same area are alike: a choice says how many of each kind it takes,
 * and which ones is settled when the plan is made. That spares the solver all plans that differ by two like crews
 * changed.
 */

export interface Choice {
  /** Place of the job in the request. */
  readonly job: number;
  /** How many crews of each kind. */
  readonly team: readonly number[];
  /** First step, and the step after the last. */
  readonly start: number;
  readonly end: number;
  readonly window: string;
  /** What the job itself loses; 0 in an area that stops as one. */
  readonly lost: number;
}

export interface Choices {
  readonly grid: Grid;
  readonly kinds: readonly CrewKind[];
  /** By job. */
  readonly byJob: readonly (readonly Choice[])[];
  /** Jobs that lie nowhere, and why. */
  readonly impossible: ReadonlyMap<number, Pick<UnplannedJob, 'cause' | 'reason'>>;
  /** What an area that stops as one loses in a step. */
  readonly standingLoss: (area: string, step: number) => number;
}

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
