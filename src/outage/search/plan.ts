import { hoursText, momentText } from '../moments.ts';
import { Board, type Chosen, scoreOf, standingSteps } from './board.ts';
import { type Choice, type Choices, outageChoices } from './choices.ts';
import { StagedSearch } from './stages.ts';
import {
  type OutagePlan,
  OutageRefusal,
  type OutageRequest,
  type PlannedJob,
  requestFaults,
  type Stage,
  type UnplannedJob,
} from './request.ts';
import type { Limits, WholeSolver } from '../../solver/program.ts';

/**
 * When each belt is stopped and which crews work on it: exact on the grid of steps, as far as time allows.
 *
 * First as many jobs as possible, by weight; then the aim; then the rest, the ends as early as possible. Each stage
 * keeps what the ones before reached (a millionth of the largest single cost makes no difference). A quick plan made
 * job by job is at hand from the start, so there is an answer whenever the search ends. The same request gives the same
 * plan, unless the time limit ends the search: then it depends on the machine, and the plan says that it is not proven.
 */
interface PlanOptions extends Limits {
  /** Loads the solver; not called where the quick plan is proven best at once. */
  readonly solver: () => Promise<WholeSolver>;
  /** Is handed the best plan so far: the quick one first, then that of each stage. */
  readonly found?: (plan: OutagePlan) => void;
}

/** More places than this fill the memory before anything is planned: a longer step is needed. */
const mostChoices = 400_000;

/** What a stage may take of the time that is left, so that a hard one leaves time for the ends. */
const shareOfRest = 0.7;
/** What the last stage may take of all the time: it only tidies, and is often hard to prove. */
const shareOfTidying = 0.25;

/** Lets messages come in between two solves. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

export async function planOutage(
  request: OutageRequest,
  { solver: load, seconds = 20, progress, signal, found: hand }: PlanOptions,
): Promise<OutagePlan> {
  const faults = requestFaults(request);
  if (faults.length > 0) throw new OutageRefusal(faults);
  const choices = outageChoices(request);
  const count = choices.byJob.reduce((sum, own) => sum + own.length, 0);
  if (count > mostChoices) {
    throw new OutageRefusal([
      {
        what: 'step',
        reason:
          `${request.step} minutes give ${count} possible starts, more than the ${mostChoices} that can be searched: ` +
          `choose longer steps, fewer jobs or shorter windows`,
      },
    ]);
  }
  const began = Date.now();
  const left = (): number => seconds - (Date.now() - began) / 1000;
  const search = new StagedSearch(request, choices);
  const answer = (proven = false): OutagePlan => answerOf(request, choices, search.chosen, [...search.stages], proven);
  let solver: WholeSolver | undefined;
  hand?.(answer());
  for (const aimed of search.aims) {
    if (!search.bounded(aimed)) {
      if (left() <= 0 || signal?.aborted === true) break;
      if (search.solvable) {
        solver ??= await load();
        await pause();
        search.solve(aimed, solver, {
          seconds: Math.max(
            0.1,
            aimed.name === 'sum of ends' ? Math.min(left(), shareOfTidying * seconds) : left() * shareOfRest,
          ),
          ...(progress === undefined ? {} : { progress }),
          ...(signal === undefined ? {} : { signal }),
        });
      } else search.leave(aimed, () => left() > 0 && signal?.aborted !== true);
    }
    hand?.(answer());
  }
  return answer(search.stages.length === search.aims.length && search.stages.every((stage) => stage.proven));
}

function answerOf(
  request: OutageRequest,
  choices: Choices,
  chosen: Chosen,
  stages: readonly Stage[],
  proven: boolean,
): OutagePlan {
  const { grid } = choices;
  const moment = (step: number): number => grid.base + step * grid.step;
  const names = crewNames(choices, chosen);
  const planned = request.jobs.flatMap((job, place): PlannedJob[] => {
    const choice = chosen[place];
    if (choice === undefined) return [];
    const { start, end, window, lost } = choice;
    return [
      {
        key: job.key,
        belt: job.belt,
        area: job.area,
        window,
        start: moment(start),
        end: moment(end),
        hours: ((end - start) * grid.step) / 60,
        crews: names.get(place) ?? [],
        lost,
      },
    ];
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

/**
 * Which crews: for jobs in the order of their starts the first of each kind that are free, of which there are always
 * enough.
 */
function crewNames({ kinds }: Choices, chosen: Chosen): Map<number, string[]> {
  const names = new Map<number, string[]>();
  const freeFrom = kinds.map((kind) => kind.names.map(() => 0));
  const made = chosen
    .flatMap((choice) => (choice === undefined ? [] : [choice]))
    .toSorted((a, b) => a.start - b.start || a.job - b.job);
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

/** Why a job that would fit alone is left out beside the others. */
function crowdedOut(
  request: OutageRequest,
  { grid }: Choices,
  board: Board,
  own: readonly Choice[],
  most: boolean,
): Pick<UnplannedJob, 'cause' | 'reason'> {
  const job = request.jobs[own[0]?.job ?? -1];
  const left = job?.after?.find((key) => board.chosen[request.jobs.findIndex((one) => one.key === key)] === undefined);
  if (left !== undefined) return { cause: 'order', reason: `it comes after ${left}, which is not planned` };
  const starts = new Map<number, ReturnType<Board['hindrance']>>();
  for (const choice of own)
    if (!starts.has(choice.start) || board.hindrance(choice) === undefined)
      starts.set(choice.start, board.hindrance(choice));
  const counted = (what: ReturnType<Board['hindrance']>): number =>
    [...starts.values()].filter((one) => one === what).length;
  const parts = [
    [counted('crews'), 'the crews are on other jobs'],
    [counted('area'), `the area ${job?.area ?? ''} has its maximum of jobs at once`],
    [counted('order'), 'a job before it is not finished'],
    [counted(undefined), 'it would fit, but the search ended too soon'],
  ] as const;
  const why = parts
    .filter(([count]) => count > 0)
    .map(([count, text]) => `at ${count} ${text}`)
    .join(', ');
  const shortest = own.reduce(
    (best, one) => (one.end - one.start < best.end - best.start ? one : best),
    own[0] ?? { start: 0, end: 0 },
  );
  const proof = most
    ? 'no plan can hold more jobs, by priority (proven)'
    : 'a longer search may find a plan that holds it';
  return {
    cause: 'room',
    reason:
      `of its ${starts.size} possible starts, from ` +
      `${momentText(grid.base + Math.min(...starts.keys()) * grid.step)}, ${why} (the job takes at least ` +
      `${hoursText(((shortest.end - shortest.start) * grid.step) / 60)}); ${proof}`,
  };
}
