import { better, Board, type Chosen, scoreOf, standingSteps, type Score } from './outage-board.ts';
import type { Choice, Choices } from './outage-choices.ts';
import type { OutageRequest } from './outage.ts';

/**
 * A plan made better by moving jobs, one or two at a time, until that helps no more.
 *
 * What it finds is the solver's first plan: the closer that is to the best, the less is left to search. It ends after so many
 * looks, not after so much time, so that the same request gives the same plan on any machine.
 */
const mostLooks = 3_000_000;

class Search {
  readonly #request: OutageRequest;
  readonly #choices: Choices;
  /** Places of the jobs that come after each. */
  readonly #later: readonly (readonly number[])[];
  chosen: (Choice | undefined)[];
  #looks = 0;

  constructor(request: OutageRequest, choices: Choices, chosen: Chosen) {
    this.#request = request;
    this.#choices = choices;
    this.#later = request.jobs.map(({ key }) => request.jobs.flatMap(({ after }, place) => (after?.includes(key) === true ? [place] : [])));
    this.chosen = [...chosen];
  }

  get spent(): boolean {
    return this.#looks >= mostLooks;
  }

  /** What is put in without some jobs, to put them elsewhere. */
  without(jobs: readonly number[]): Board {
    const board = new Board(this.#request, this.#choices);
    for (const choice of this.chosen) if (choice !== undefined && !jobs.includes(choice.job)) board.put(choice);
    return board;
  }

  fits(board: Board, choice: Choice): boolean {
    this.#looks += 1;
    // A job's way is barred by those that wait for it too, which a board that is filled in order need not ask.
    const early = this.#later[choice.job]?.some((place) => (board.chosen[place]?.start ?? Number.POSITIVE_INFINITY) < choice.end) === true;
    return !early && board.hindrance(choice) === undefined;
  }

  /** What a plan comes to with one more choice, without adding it up anew. */
  with(score: Score, stands: ReadonlyMap<string, ReadonlySet<number>>, choice: Choice): Score {
    const { area, weight = 1 } = this.#request.jobs[choice.job] ?? { area: '' };
    const steps = stands.get(area);
    let lost = score.lost + choice.lost;
    if (steps !== undefined) for (let step = choice.start; step < choice.end; step += 1) if (!steps.has(step)) lost += this.#choices.standingLoss(area, step);
    return { weight: score.weight + weight, lost, finish: Math.max(score.finish, choice.end), ends: score.ends + choice.end };
  }

  /** The best place for a job beside the others; undefined when it has none. */
  best(board: Board, job: number): { readonly choice: Choice; readonly score: Score } | undefined {
    const score = scoreOf(this.#request, this.#choices, board.chosen);
    const stands = standingSteps(this.#request, board.chosen);
    let found: { readonly choice: Choice; readonly score: Score } | undefined;
    for (const choice of this.#choices.byJob[job] ?? []) {
      const next = this.with(score, stands, choice);
      if ((found === undefined || better(next, found.score, this.#request.aim)) && this.fits(board, choice)) found = { choice, score: next };
    }
    return found;
  }

  get score(): Score {
    return scoreOf(this.#request, this.#choices, this.chosen);
  }

  /** Whether moving one job made the plan better. */
  moveOne(job: number): boolean {
    const found = this.best(this.without([job]), job);
    if (found === undefined || !better(found.score, this.score, this.#request.aim)) return false;
    this.chosen[job] = found.choice;
    return true;
  }

  /** Whether putting a job into any of its places and another one after it made the plan better. */
  moveTwo(first: number, second: number): boolean {
    let score = this.score;
    let found: readonly Choice[] | undefined;
    for (const choice of this.#choices.byJob[first] ?? []) {
      if (this.spent) break;
      const board = this.without([first, second]);
      if (!this.fits(board, choice)) continue;
      board.put(choice);
      const other = this.best(board, second);
      if (other === undefined || !better(other.score, score, this.#request.aim)) continue;
      score = other.score;
      found = [choice, other.choice];
    }
    for (const choice of found ?? []) this.chosen[choice.job] = choice;
    return found !== undefined;
  }
}

export function improvedPlan(request: OutageRequest, choices: Choices, chosen: Chosen): Chosen {
  const search = new Search(request, choices, chosen);
  const jobs = [...request.jobs.keys()].filter((job) => (choices.byJob[job]?.length ?? 0) > 0);
  for (let improved = true; improved && !search.spent; ) {
    improved = false;
    for (const job of jobs) while (!search.spent && search.moveOne(job)) improved = true;
    if (improved) continue;
    for (const first of jobs) {
      for (const second of jobs) {
        if (first === second || search.spent) continue;
        if (search.moveTwo(first, second)) improved = true;
      }
    }
  }
  return search.chosen;
}
