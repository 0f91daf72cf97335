import type { Choice, Choices } from './choices.ts';
import type { OutageRequest } from './request.ts';

/**
 * What is taken, step by step, of crews and areas; and plans made one job after the other, quickly and not the best.
 */

/** The choice of each job, by its place in the request; undefined for one that is not planned. */
export type Chosen = readonly (Choice | undefined)[];

export class Board {
  readonly #request: OutageRequest;
  readonly #choices: Choices;
  readonly #crews: readonly Int32Array[];
  readonly #areas = new Map<string, { readonly most: number; readonly taken: Int32Array }>();
  readonly #placeOf: ReadonlyMap<string, number>;
  readonly chosen: (Choice | undefined)[];

  constructor(request: OutageRequest, choices: Choices) {
    this.#request = request;
    this.#choices = choices;
    this.#crews = choices.kinds.map(() => new Int32Array(choices.grid.steps));
    for (const { name, atOnce } of request.areas ?? [])
      if (atOnce !== undefined) this.#areas.set(name, { most: atOnce, taken: new Int32Array(choices.grid.steps) });
    this.#placeOf = new Map(request.jobs.map(({ key }, place) => [key, place]));
    this.chosen = request.jobs.map(() => undefined);
  }

  /** What stands against a choice beside those made, the jobs before it first; undefined when nothing does. */
  hindrance(choice: Choice): 'order' | 'crews' | 'area' | undefined {
    const job = this.#request.jobs[choice.job];
    for (const key of job?.after ?? []) {
      const before = this.chosen[this.#placeOf.get(key) ?? -1];
      if (before === undefined || before.end > choice.start) return 'order';
    }
    for (const [kind, taken] of choice.team.entries()) {
      const most = (this.#choices.kinds[kind]?.names.length ?? 0) - taken;
      if (taken > 0 && (this.#crews[kind]?.subarray(choice.start, choice.end).some((busy) => busy > most) ?? true))
        return 'crews';
    }
    const area = this.#areas.get(job?.area ?? '');
    return area?.taken.subarray(choice.start, choice.end).some((busy) => busy >= area.most) === true
      ? 'area'
      : undefined;
  }

  put(choice: Choice): void {
    this.chosen[choice.job] = choice;
    this.#count(choice, 1);
  }

  /** Takes out what is put in for a job. */
  take(job: number): void {
    const choice = this.chosen[job];
    this.chosen[job] = undefined;
    if (choice !== undefined) this.#count(choice, -1);
  }

  #count(choice: Choice, by: 1 | -1): void {
    const area = this.#areas.get(this.#request.jobs[choice.job]?.area ?? '')?.taken;
    for (let step = choice.start; step < choice.end; step += 1) {
      for (const [kind, taken] of choice.team.entries()) {
        const busy = this.#crews[kind];
        if (busy !== undefined) busy[step] = (busy[step] ?? 0) + by * taken;
      }
      if (area !== undefined) area[step] = (area[step] ?? 0) + by;
    }
  }
}

export interface Score {
  readonly weight: number;
  readonly lost: number;
  readonly finish: number;
  readonly ends: number;
}

/** Steps in which an area that stops as one is stopped, by area. */
export function standingSteps({ jobs, areas = [] }: OutageRequest, chosen: Chosen): Map<string, Set<number>> {
  const standing = new Map(
    areas.flatMap(({ name, standsAtLoss }) => (standsAtLoss === undefined ? [] : [[name, new Set<number>()] as const])),
  );
  for (const choice of chosen) {
    if (choice === undefined) continue;
    const steps = standing.get(jobs[choice.job]?.area ?? '');
    for (let step = choice.start; step < choice.end; step += 1) steps?.add(step);
  }
  return standing;
}

/** What a plan comes to; finish and ends in steps. */
export function scoreOf(request: OutageRequest, { standingLoss }: Choices, chosen: Chosen): Score {
  const made = chosen.flatMap((choice) => (choice === undefined ? [] : [choice]));
  let lost = made.reduce((sum, choice) => sum + choice.lost, 0);
  for (const [area, steps] of standingSteps(request, chosen))
    for (const step of steps) lost += standingLoss(area, step);
  return {
    weight: made.reduce((sum, { job }) => sum + (request.jobs[job]?.weight ?? 1), 0),
    lost,
    finish: Math.max(0, ...made.map(({ end }) => end)),
    ends: made.reduce((sum, { end }) => sum + end, 0),
  };
}

/** Whether one plan is better, aim by aim. */
export function better(one: Score, other: Score, aim: OutageRequest['aim']): boolean {
  const steps = (score: Score): number[] =>
    aim === 'earliest finish'
      ? [-score.weight, score.finish, score.lost, score.ends]
      : [-score.weight, score.lost, score.ends];
  const others = steps(other);
  const difference = steps(one)
    .map((value, place) => value - (others[place] ?? 0))
    .find((value) => Math.abs(value) > 1e-9);
  return difference !== undefined && difference < 0;
}

/**
 * The best of a few plans made greedily: jobs in an order, each put where it costs least or ends first among what is
 * left.
 *
 * Orders: by due date, by loss, by length, by the fewest choices; a job never before those that it comes after.
 */
export function greedyPlan(request: OutageRequest, choices: Choices): Chosen {
  const { jobs, aim } = request;
  const length = (place: number): number =>
    Math.min(...(choices.byJob[place] ?? []).map(({ start, end }) => end - start));
  const ranks: ((place: number) => number)[] = [
    (place) => jobs[place]?.due ?? Number.POSITIVE_INFINITY,
    (place) => -(jobs[place]?.lostPerHour ?? 0),
    (place) => -length(place),
    (place) => choices.byJob[place]?.length ?? 0,
  ];
  const byAim = aim === 'earliest finish' ? [endFirst, lossFirst] : [lossFirst, endFirst];
  const plans = ranks.flatMap((rank) => byAim.map((prefer) => oneAfterTheOther(request, choices, rank, prefer)));
  return plans.reduce((best, plan) =>
    better(scoreOf(request, choices, plan), scoreOf(request, choices, best), aim) ? plan : best,
  );
}

const lossFirst = (a: Choice, b: Choice): number => a.lost - b.lost || a.end - b.end;
const endFirst = (a: Choice, b: Choice): number => a.end - b.end || a.lost - b.lost;

function oneAfterTheOther(
  request: OutageRequest,
  choices: Choices,
  rank: (place: number) => number,
  prefer: (a: Choice, b: Choice) => number,
): Chosen {
  const board = new Board(request, choices);
  const open = new Set(request.jobs.keys());
  const placeOf = new Map(request.jobs.map(({ key }, place) => [key, place]));
  while (open.size > 0) {
    const ready = [...open].filter(
      (place) => request.jobs[place]?.after?.every((key) => !open.has(placeOf.get(key) ?? -1)) ?? true,
    );
    const next = ready.reduce((best, place) => (rank(place) < rank(best) ? place : best));
    open.delete(next);
    const free = (choices.byJob[next] ?? []).toSorted(prefer).find((choice) => board.hindrance(choice) === undefined);
    if (free !== undefined) board.put(free);
  }
  return board.chosen;
}
