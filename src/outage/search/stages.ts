import { greedyPlan, type Chosen, type Score, scoreOf } from './board.ts';
import { OpenChoices, type SharedCost } from './bounds.ts';
import type { Choice, Choices } from './choices.ts';
import { type OutageProgram, outageProgram } from './program.ts';
import { improvedPlan } from './local-search.ts';
import type { OutageRequest, Stage } from './request.ts';
import type { Limits, Progress, WholeSolver } from '../../solver/program.ts';

/**
 * The search for a plan, one aim after the other: each is proven by bounds where they do, otherwise by the solver, and
 * kept while the next ones are looked for. Choices that no plan as good as the one known can use are dropped as soon as
 * that shows.
 */

/**
 * Larger programs take the solver minutes before it can even be stopped: they are left at the quick plan and the
 * bounds.
 */
const mostEntries = 250_000;
/** What is looked at instead, some ten seconds of it. */
const manyLooks = 20_000_000;

type CostName = keyof OutageProgram['costs'];

interface Aimed {
  readonly name: Stage['name'];
  readonly costs: CostName;
  /** What a plan costs, in steps, loss or weight. */
  readonly cost: (score: Score) => number;
  /** What a cost is in the plan's own figures. */
  readonly figure: (cost: number) => number;
  /** A bound that needs no solver. */
  readonly least: (open: OpenChoices) => number;
  /** The cost as its choices share it; absent where none is too dear. */
  readonly shared?: SharedCost;
}

export class StagedSearch {
  readonly #request: OutageRequest;
  readonly #choices: Choices;
  readonly #firstEnd: number;
  readonly aims: readonly Aimed[];
  readonly #kept: { readonly aimed: Aimed; readonly best: number }[] = [];
  #open: readonly (readonly Choice[])[];
  #program: OutageProgram | undefined;
  #searchedLong = false;
  chosen: Chosen;
  readonly stages: Stage[] = [];

  constructor(request: OutageRequest, choices: Choices) {
    this.#request = request;
    this.#choices = choices;
    this.#open = choices.byJob;
    this.#firstEnd = earliestEnd(choices.byJob);
    this.aims = aimsOf(request, choices, this.#firstEnd);
    this.chosen = improvedPlan(request, choices, greedyPlan(request, choices));
  }

  #costOf({ cost }: Aimed): number {
    return cost(scoreOf(this.#request, this.#choices, this.chosen));
  }

  #openChoices(): OpenChoices {
    return new OpenChoices(
      this.#open,
      this.#choices.byJob.every((own, job) => own.length === 0 || this.chosen[job] !== undefined),
    );
  }

  /** Drops what is dearer than the plan known; differences in the last digits are none. */
  #close({ shared }: Aimed, best: number): void {
    const dear =
      shared === undefined
        ? new Set<Choice>()
        : this.#openChoices().dearer(shared, best + 1e-9 * Math.max(1, Math.abs(best)));
    if (dear.size === 0) return;
    this.#open = this.#open.map((own) => own.filter((choice) => !dear.has(choice)));
    this.#program?.builder.row(
      { upper: 0 },
      this.#program.choices.flatMap((choice, column) => (dear.has(choice) ? [[column, 1] as const] : [])),
    );
  }

  /** Whether an aim is proven without the solver; what bounds leave over is for `solve`. */
  bounded(aimed: Aimed): boolean {
    const [cost, least] = [this.#costOf(aimed), aimed.least(this.#openChoices())];
    if (cost > least + 1e-9 * Math.max(1, Math.abs(least))) return false;
    this.#finish(aimed, cost, cost, true);
    return true;
  }

  /** A stage that is too large for the solver: moving jobs for longer must do. */
  leave(aimed: Aimed, goOn: () => boolean): void {
    if (!this.#searchedLong)
      this.chosen = improvedPlan(this.#request, this.#choices, this.chosen, { looks: manyLooks, goOn });
    this.#searchedLong = true;
    this.#finish(aimed, this.#costOf(aimed), aimed.least(this.#openChoices()), false);
  }

  /** Whether what is left is small enough for the solver. */
  get solvable(): boolean {
    if (this.#program !== undefined) return true;
    const entries = this.#open
      .flat()
      .reduce((sum, { start, end, team }) => sum + (end - start) * (2 + team.filter((taken) => taken > 0).length), 0);
    return entries <= mostEntries;
  }

  solve(aimed: Aimed, solver: WholeSolver, { progress, ...limits }: Limits): void {
    const cost = this.#costOf(aimed);
    this.#close(aimed, cost);
    const program = (this.#program ??= this.#built());
    const costs = program.costs[aimed.costs];
    const scale = Math.max(1e-9, ...costs.map(Math.abs));
    const offset = aimed.costs === 'finish' ? program.firstEnd - this.#firstEnd : 0;
    const answer = solver.whole(program.builder.withCosts(costs.map((one) => one / scale)), {
      ...limits,
      start: program.valuesOf(this.chosen),
      stage: aimed.name,
      ...(progress === undefined
        ? {}
        : { progress: (seen: Progress) => progress(inFigures(seen, (value) => aimed.figure(value * scale + offset))) }),
    });
    const found = answer.values.length === 0 ? cost : sumOf(costs, answer.values) + offset;
    if (found < cost - 1e-9 * scale)
      this.chosen = improvedPlan(this.#request, this.#choices, program.chosenOf(answer.values));
    const [best, proven] = [this.#costOf(aimed), answer.outcome === 'optimal'];
    this.#finish(
      aimed,
      best,
      proven ? best : Math.min(best, Math.max(aimed.least(this.#openChoices()), answer.bound * scale + offset)),
      proven,
    );
  }

  #finish(aimed: Aimed, best: number, bound: number, proven: boolean): void {
    const [value, limit] = [aimed.figure(best), aimed.figure(bound)];
    const gap = proven || value === limit ? 0 : Math.abs(value - limit) / Math.max(1e-9, Math.abs(value));
    this.stages.push({ name: aimed.name, value, bound: limit, gap, proven });
    this.#kept.push({ aimed, best });
    if (this.#program !== undefined) keep(this.#program, aimed, best, this.#firstEnd);
    this.#close(aimed, best);
  }

  #built(): OutageProgram {
    const program = outageProgram(this.#request, { ...this.#choices, byJob: this.#open });
    for (const { aimed, best } of this.#kept) keep(program, aimed, best, this.#firstEnd);
    return program;
  }
}

const earliestEnd = (byJob: readonly (readonly Choice[])[]): number =>
  byJob.flat().reduce((found, { end }) => Math.min(found, end), Number.POSITIVE_INFINITY);

const sumOf = (costs: readonly number[], values: readonly number[]): number =>
  costs.reduce((sum, cost, column) => sum + cost * (values[column] ?? 0), 0);

/** A row that keeps what a stage reached while the next ones are solved. */
function keep(program: OutageProgram, { costs: name }: Aimed, best: number, firstEnd: number): void {
  const costs = program.costs[name];
  const scale = Math.max(1e-9, ...costs.map(Math.abs));
  const offset = name === 'finish' ? program.firstEnd - firstEnd : 0;
  program.builder.row(
    { upper: (best - offset) / scale + 1e-6 },
    costs.flatMap((cost, column) => (cost === 0 ? [] : [[column, cost / scale] as const])),
  );
}

function aimsOf(request: OutageRequest, { byJob, grid, standingLoss }: Choices, firstEnd: number): Aimed[] {
  const { jobs, areas = [] } = request;
  const hours = (steps: number): number => (steps * grid.step) / 60;
  const standing = new Set(areas.flatMap(({ name, standsAtLoss }) => (standsAtLoss === undefined ? [] : [name])));
  const areaOf = (job: number): string => jobs[job]?.area ?? '';
  const lossOf = (choice: Choice): number => {
    let sum = choice.lost;
    if (standing.has(areaOf(choice.job)))
      for (let step = choice.start; step < choice.end; step += 1) sum += standingLoss(areaOf(choice.job), step);
    return sum;
  };
  const aim = (
    name: Stage['name'],
    costs: CostName,
    cost: Aimed['cost'],
    figure: Aimed['figure'],
    shared: SharedCost,
  ): Aimed => ({ name, costs, cost, figure, least: (open) => open.least(shared), shared });

  const most = byJob.reduce((sum, own, job) => sum + (own.length === 0 ? 0 : (jobs[job]?.weight ?? 1)), 0);
  const placed: Aimed = {
    name: 'jobs planned',
    costs: 'placed',
    cost: ({ weight }) => -weight,
    figure: (cost) => -cost,
    least: () => -most,
  };
  const lost = aim(
    'lost production',
    'lost',
    (score) => score.lost,
    (cost) => cost,
    { of: lossOf, group: (job) => (standing.has(areaOf(job)) ? areaOf(job) : job) },
  );
  const ends = aim('sum of ends', 'ends', (score) => score.ends, hours, { of: ({ end }) => end, group: (job) => job });
  const finish = aim(
    'hours to the last end',
    'finish',
    (score) => Math.max(0, score.finish - firstEnd),
    (cost) => (Number.isFinite(firstEnd) ? hours(cost + firstEnd) : 0),
    { of: ({ end }) => end - firstEnd, group: () => '' },
  );
  return request.aim === 'earliest finish' ? [placed, finish, lost, ends] : [placed, lost, ends];
}

function inFigures({ best, bound, ...rest }: Progress, figure: (cost: number) => number): Progress {
  return {
    ...rest,
    ...(best === undefined ? {} : { best: figure(best) }),
    ...(bound === undefined ? {} : { bound: figure(bound) }),
  };
}
