import { hoursText, momentText } from './moments.ts';
import { Board, type Chosen, greedyPlan, scoreOf, standingSteps } from './outage-board.ts';
import { type Choice, type Choices, outageChoices } from './outage-choices.ts';
import { OpenChoices, type SharedCost } from './outage-bounds.ts';
import { outageProgram } from './outage-program.ts';
import { improvedPlan } from './outage-search.ts';
import { type OutagePlan, OutageRefusal, type OutageRequest, type PlannedJob, requestFaults, type Stage, type UnplannedJob } from './outage.ts';
import type { SolverLimits, SolverProgress, WholeSolver } from './whole-program.ts';

/**
 * When which belts stand and which crews work on them: exact on the grid of steps, as far as time allows.
 *
 * First as many jobs as can be, by weight; then the aim; then the rest, the ends as early as they can be. Each stage keeps
 * what the ones before reached (a millionth of the greatest single cost is not told apart). A quick plan made job by job
 * is at hand from the start, so there is an answer whenever the search ends. The same request gives the same plan, unless
 * the time limit ends the search: then it depends on the machine, and the plan says that it is not proven.
 */
export interface PlanOptions extends SolverLimits {
  /** Loads the solver; not called where the quick plan is proven best at once. */
  readonly solver: () => Promise<WholeSolver>;
  /** Is handed the best plan so far: the quick one first, then that of each stage. */
  readonly found?: (plan: OutagePlan) => void;
}

/** More places than this make a program that takes minutes to load: a longer step is needed. */
const mostChoices = 60_000;

interface Aimed {
  readonly name: Stage['name'];
  readonly costs: readonly number[];
  /** What a cost is in the plan's own figures. */
  readonly figure: (cost: number) => number;
  /** A bound that needs no solver. */
  readonly least: (open: OpenChoices) => number;
  /** The cost as its choices share it; absent where none is too dear. */
  readonly shared?: SharedCost;
}

/** What a stage may take of the time that is left, so that a hard one does not leave the ends lying about. */
const shareOfRest = 0.7;
/** What the last stage may take of all the time: it only tidies, and is often hard to prove. */
const shareOfTidying = 0.25;

/** Lets messages come in between two solves. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

export async function planOutage(request: OutageRequest, { solver: load, seconds = 20, progress, signal, found: hand }: PlanOptions): Promise<OutagePlan> {
  const faults = requestFaults(request);
  if (faults.length > 0) throw new OutageRefusal(faults);
  const choices = outageChoices(request);
  const count = choices.byJob.reduce((sum, own) => sum + own.length, 0);
  if (count > mostChoices) {
    throw new OutageRefusal([{ what: 'step', reason: `${request.step} minutes give ${count} places for the jobs to lie, more than the ${mostChoices} that can be searched: take longer steps, fewer jobs or shorter windows` }]);
  }
  const began = Date.now();
  const left = (): number => seconds - (Date.now() - began) / 1000;
  let chosen = improvedPlan(request, choices, greedyPlan(request, choices));
  const stages: Stage[] = [];
  let solver: WholeSolver | undefined;
  hand?.(answerOf(request, choices, chosen, [], false));
  const program = outageProgram(request, choices);
  const closed = new Set<number>();
  const open = (): OpenChoices => new OpenChoices(choices.byJob, closed, choices.byJob.every((own, job) => own.length === 0 || chosen[job] !== undefined));
  const close = (shared: SharedCost | undefined, best: number, scale: number): void => {
    const dear = shared === undefined ? [] : open().dearer(shared, best + 1e-6 * scale);
    for (const column of dear) closed.add(column);
    if (dear.length > 0) program.builder.row({ upper: 0 }, dear.map((column) => [column, 1]));
  };
  for (const { name, costs, figure, least: leastOf, shared } of aimsOf(request, choices, program.costs)) {
    const start = program.valuesOf(chosen);
    const least = leastOf(open());
    const cost = costOf(costs, start);
    const scale = Math.max(1e-9, ...costs.map(Math.abs));
    let [best, bound, proven] = [cost, least, cost <= least + 1e-9 * Math.max(1, Math.abs(least))];
    if (!proven) {
      close(shared, cost, scale);
      if (left() <= 0 || signal?.aborted === true) break;
      solver ??= await load();
      await pause();
      const answer = solver.whole(program.builder.withCosts(costs.map((one) => one / scale)), {
        seconds: Math.max(0.1, name === 'sum of ends' ? Math.min(left(), shareOfTidying * seconds) : left() * shareOfRest),
        start,
        stage: name,
        ...(progress === undefined ? {} : { progress: (seen: SolverProgress) => progress(inFigures(seen, (value) => figure(value * scale))) }),
        ...(signal === undefined ? {} : { signal }),
      });
      const found = answer.values.length === 0 ? cost : costOf(costs, answer.values);
      if (answer.values.length > 0 && found < cost - 1e-9 * scale) chosen = improvedPlan(request, choices, program.chosenOf(answer.values));
      best = costOf(costs, program.valuesOf(chosen));
      proven = answer.outcome === 'optimal';
      bound = proven ? best : Math.min(best, Math.max(bound, answer.bound * scale));
    }
    stages.push(stageOf(name, figure(best), figure(proven ? best : bound), proven));
    hand?.(answerOf(request, choices, chosen, [...stages], false));
    builderKeeps(program.builder, costs, best, scale);
    close(shared, best, scale);
  }
  return answerOf(request, choices, chosen, stages, stages.length === stagesIn(request.aim) && stages.every((stage) => stage.proven));
}

const costOf = (costs: readonly number[], values: readonly number[]): number => costs.reduce((sum, cost, column) => sum + cost * (values[column] ?? 0), 0);

/** A row that keeps what a stage reached while the next ones are solved. */
function builderKeeps(builder: { row: (bounds: { upper: number }, entries: (readonly [number, number])[]) => void }, costs: readonly number[], best: number, scale: number): void {
  builder.row({ upper: best / scale + 1e-6 }, costs.flatMap((cost, column) => (cost === 0 ? [] : [[column, cost / scale] as const])));
}

const stagesIn = (aim: OutageRequest['aim']): number => (aim === 'earliest finish' ? 4 : 3);

/** An aim whose cost is that of the choices, shared by some. */
const aim = (name: Stage['name'], costs: readonly number[], figure: (cost: number) => number, shared: SharedCost): Aimed => ({ name, costs, figure, least: (open) => open.least(shared), shared });

function aimsOf(request: OutageRequest, { byJob, grid, standingLoss }: Choices, costs: Record<'placed' | 'lost' | 'finish' | 'ends', readonly number[]>): Aimed[] {
  const { jobs, areas = [] } = request;
  const hours = (steps: number): number => (steps * grid.step) / 60;
  const firstEnd = byJob.flat().reduce((found, { end }) => Math.min(found, end), Number.POSITIVE_INFINITY);
  const standing = new Set(areas.flatMap(({ name, standsAtLoss }) => (standsAtLoss === undefined ? [] : [name])));
  const areaOf = (job: number): string => jobs[job]?.area ?? '';
  const lossOf = (choice: Choice): number => {
    let sum = choice.lost;
    if (standing.has(areaOf(choice.job))) for (let step = choice.start; step < choice.end; step += 1) sum += standingLoss(areaOf(choice.job), step);
    return sum;
  };

  const most = byJob.reduce((sum, own, job) => sum + (own.length === 0 ? 0 : (jobs[job]?.weight ?? 1)), 0);
  const placed: Aimed = { name: 'jobs planned', costs: costs.placed, figure: (cost) => -cost, least: () => -most };
  const lost = aim('lost production', costs.lost, (cost) => cost, { of: lossOf, group: (job) => (standing.has(areaOf(job)) ? areaOf(job) : job) });
  const ends = aim('sum of ends', costs.ends, hours, { of: ({ end }) => end, group: (job) => job });
  const finish = aim('hours to the last end', costs.finish, (cost) => (Number.isFinite(firstEnd) ? hours(cost + firstEnd) : 0), { of: ({ end }) => end - firstEnd, group: () => '' });
  return request.aim === 'earliest finish' ? [placed, finish, lost, ends] : [placed, lost, ends];
}

function stageOf(name: Stage['name'], value: number, bound: number, proven: boolean): Stage {
  const gap = proven || value === bound ? 0 : Math.abs(value - bound) / Math.max(1e-9, Math.abs(value));
  return { name, value, bound, gap, proven };
}

function inFigures({ best, bound, ...rest }: SolverProgress, figure: (cost: number) => number): SolverProgress {
  return { ...rest, ...(best === undefined ? {} : { best: figure(best) }), ...(bound === undefined ? {} : { bound: figure(bound) }) };
}

function answerOf(request: OutageRequest, choices: Choices, chosen: Chosen, stages: readonly Stage[], proven: boolean): OutagePlan {
  const { grid } = choices;
  const moment = (step: number): number => grid.base + step * grid.step;
  const names = crewNames(choices, chosen);
  const planned = request.jobs.flatMap((job, place): PlannedJob[] => {
    const choice = chosen[place];
    if (choice === undefined) return [];
    const { start, end, window, lost } = choice;
    return [{ key: job.key, belt: job.belt, area: job.area, window, start: moment(start), end: moment(end), hours: ((end - start) * grid.step) / 60, crews: names.get(place) ?? [], lost }];
  });
  const standing = [...standingSteps(request, chosen)].map(([area, steps]) => ({
    area,
    hours: (steps.size * grid.step) / 60,
    lost: [...steps].reduce((sum, step) => sum + choices.standingLoss(area, step), 0),
  }));
  const most = stages.find(({ name }) => name === 'jobs planned')?.proven === true;
  return {
    planned: planned.toSorted((a, b) => a.start - b.start),
    unplanned: unplannedJobs(request, choices, chosen, most),
    standing,
    lost: scoreOf(request, choices, chosen).lost,
    ...(planned.length === 0 ? {} : { finish: Math.max(...planned.map(({ end }) => end)) }),
    stages,
    proven,
  };
}

/** Which crews: for jobs in the order of their starts the first of each kind that are free, of which there are always enough. */
function crewNames({ kinds }: Choices, chosen: Chosen): Map<number, string[]> {
  const names = new Map<number, string[]>();
  const freeFrom = kinds.map((kind) => kind.names.map(() => 0));
  const made = chosen.flatMap((choice) => (choice === undefined ? [] : [choice])).toSorted((a, b) => a.start - b.start || a.job - b.job);
  for (const { job, team, start, end } of made) {
    const crews = team.flatMap((taken, kind) => {
      const free = (freeFrom[kind] ?? []).flatMap((from, crew) => (from <= start ? [crew] : [])).slice(0, taken);
      if (free.length < taken) throw new Error(`the plan takes more crews than there are for the job ${job + 1}`);
      return free.map((crew) => {
        freeFrom[kind]?.splice(crew, 1, end);
        return kinds[kind]?.names[crew] ?? '';
      });
    });
    names.set(job, crews);
  }
  return names;
}

function unplannedJobs(request: OutageRequest, choices: Choices, chosen: Chosen, most: boolean): UnplannedJob[] {
  const board = new Board(request, choices);
  for (const choice of chosen) if (choice !== undefined) board.put(choice);
  return request.jobs.flatMap((job, place): UnplannedJob[] => {
    if (chosen[place] !== undefined) return [];
    const { key, belt, area } = job;
    const alone = choices.impossible.get(place);
    if (alone !== undefined) return [{ key, belt, area, ...alone }];
    return [{ key, belt, area, ...crowdedOut(request, choices, board, choices.byJob[place] ?? [], most) }];
  });
}

/** Why a job that could lie somewhere alone is left out beside the others. */
function crowdedOut(request: OutageRequest, { grid }: Choices, board: Board, own: readonly Choice[], most: boolean): Pick<UnplannedJob, 'cause' | 'reason'> {
  const job = request.jobs[own[0]?.job ?? -1];
  const left = job?.after?.find((key) => board.chosen[request.jobs.findIndex((one) => one.key === key)] === undefined);
  if (left !== undefined) return { cause: 'order', reason: `it comes after ${left}, which is not planned` };
  const starts = new Map<number, ReturnType<Board['hindrance']>>();
  for (const choice of own) if (!starts.has(choice.start) || board.hindrance(choice) === undefined) starts.set(choice.start, board.hindrance(choice));
  const counted = (what: ReturnType<Board['hindrance']>): number => [...starts.values()].filter((one) => one === what).length;
  const parts = [
    [counted('crews'), 'the crews are at other jobs'], [counted('area'), `the area ${job?.area ?? ''} bears no more jobs at once`], [counted('order'), 'a job before it is not over'],
    [counted(undefined), 'it would fit: the search ended too soon'],
  ] as const;
  const why = parts.filter(([count]) => count > 0).map(([count, text]) => `at ${count} ${text}`).join(', ');
  const shortest = own.reduce((best, one) => (one.end - one.start < best.end - best.start ? one : best), own[0] ?? { start: 0, end: 0 });
  const proof = most ? 'it is proven that no plan holds more, by weight' : 'a longer search may find a plan that holds it';
  return {
    cause: 'room',
    reason: `of the ${starts.size} times it could begin, from ${momentText(grid.base + Math.min(...starts.keys()) * grid.step)}, ${why} (it takes at least ${hoursText(((shortest.end - shortest.start) * grid.step) / 60)}); ${proof}`,
  };
}
