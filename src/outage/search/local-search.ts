import { better, Board, type Chosen, type Score, scoreOf, standingSteps } from './board.ts';
import type { Choice, Choices } from './choices.ts';
import type { OutageRequest } from './request.ts';

/**
 * A plan made better by moving jobs, one or two at a time, until that helps no more.
 *
 * What it finds is the solver's first plan: the closer that is to the best, the less is left to search. It ends after
 * so many looks, not after so much time, so that the same request gives the same plan on any machine that is quick
 * enough.
 */
interface SearchLimits {
  readonly looks?: number;
  /** Asked now and then: false ends it. */
  readonly goOn?: () => boolean;
}

const usualLooks = 2_000_000;
/** Adding a plan up takes about as long as so many looks. */
const looksPerSum = 100;

class Search {
  readonly #request: OutageRequest;
  readonly #choices: Choices;
  /** Places of the jobs that come after each. */
  readonly #later: readonly (readonly number[])[];
  readonly #board: Board;
  readonly #most: number;
  readonly #goOn: () => boolean;
  #looks = 0;

  constructor(
    request: OutageRequest,
    choices: Choices,
    chosen: Chosen,
    { looks = usualLooks, goOn = () => true }: SearchLimits,
  ) {
    this.#most = looks;
    this.#goOn = goOn;
    this.#request = request;
    this.#choices = choices;
    this.#later = request.jobs.map(({ key }) =>
      request.jobs.flatMap(({ after }, place) => (after?.includes(key) === true ? [place] : [])),
    );
    this.#board = new Board(request, choices);
    for (const choice of chosen) if (choice !== undefined) this.#board.put(choice);
  }

  get chosen(): Chosen {
    return this.#board.chosen;
  }

  get spent(): boolean {
    return this.#looks >= this.#most || !this.#goOn();
  }

  #fits(choice: Choice): boolean {
    // A job's way is barred by those that wait for it too, which a board that is filled in order need not ask.
    const early =
      this.#later[choice.job]?.some((place) => (this.chosen[place]?.start ?? Number.POSITIVE_INFINITY) < choice.end) ===
      true;
    return !early && this.#board.hindrance(choice) === undefined;
  }

  /** What a plan comes to with one more choice, without adding it up anew. */
  #with(score: Score, stands: ReadonlyMap<string, ReadonlySet<number>>, choice: Choice): Score {
    const { area, weight = 1 } = this.#request.jobs[choice.job] ?? { area: '' };
    const steps = stands.get(area);
    let lost = score.lost + choice.lost;
    if (steps !== undefined)
      for (let step = choice.start; step < choice.end; step += 1)
        if (!steps.has(step)) lost += this.#choices.standingLoss(area, step);
    return {
      weight: score.weight + weight,
      lost,
      finish: Math.max(score.finish, choice.end),
      ends: score.ends + choice.end,
    };
  }

  get #score(): Score {
    this.#looks += looksPerSum;
    return scoreOf(this.#request, this.#choices, this.chosen);
  }

  /** The best place for a job that is not put in; undefined when it has none. */
  #best(job: number): { readonly choice: Choice; readonly score: Score } | undefined {
    const score = this.#score;
    const stands = standingSteps(this.#request, this.chosen);
    let found: { readonly choice: Choice; readonly score: Score } | undefined;
    for (const choice of this.#choices.byJob[job] ?? []) {
      this.#looks += 1;
      const next = this.#with(score, stands, choice);
      if ((found === undefined || better(next, found.score, this.#request.aim)) && this.#fits(choice))
        found = { choice, score: next };
    }
    return found;
  }

  /** Whether moving one job made the plan better. */
  moveOne(job: number): boolean {
    const [before, score] = [this.chosen[job], this.#score];
    this.#board.take(job);
    const found = this.#best(job);
    const helps = found !== undefined && better(found.score, score, this.#request.aim);
    const after = helps ? found.choice : before;
    if (after !== undefined) this.#board.put(after);
    return helps;
  }

  /** Whether putting a job into any of its places, and another one after it, made the plan better. */
  moveTwo(first: number, second: number): boolean {
    let score = this.#score;
    let kept = [this.chosen[first], this.chosen[second]];
    let helps = false;
    this.#board.take(first);
    this.#board.take(second);
    for (const choice of this.#choices.byJob[first] ?? []) {
      if (this.spent) break;
      this.#looks += 1;
      if (!this.#fits(choice)) continue;
      this.#board.put(choice);
      const other = this.#best(second);
      this.#board.take(first);
      if (other === undefined || !better(other.score, score, this.#request.aim)) continue;
      score = other.score;
      kept = [choice, other.choice];
      helps = true;
    }
    for (const choice of kept) if (choice !== undefined) this.#board.put(choice);
    return helps;
  }
}

export function improvedPlan(
  request: OutageRequest,
  choices: Choices,
  chosen: Chosen,
  limits: SearchLimits = {},
): Chosen {
  const search = new Search(request, choices, chosen, limits);
  const jobs = [...request.jobs.keys()].filter((job) => (choices.byJob[job]?.length ?? 0) > 0);
  for (let improved = true; improved && !search.spent;) {
    improved = false;
    for (const job of jobs) while (!search.spent && search.moveOne(job)) improved = true;
    if (improved) continue;
    for (const first of jobs)
      for (const second of jobs)
        if (first !== second && !search.spent && search.moveTwo(first, second)) improved = true;
  }
  return [...search.chosen];
}
