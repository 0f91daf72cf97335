import type { Choice } from './choices.ts';

/**
 * Bounds that need no solver, and the places that no plan as good as a known one can use: without them the search is
 * much smaller, or there is nothing left to search.
 *
 * What a plan costs is at least the sum, over groups of jobs, of the greatest cost that any job of the group has at its
 * cheapest. Jobs whose costs add up are a group each; jobs of an area that stops as one are one, since they may
 * share its time; for the end of the whole plan all are one.
 */
export interface SharedCost {
  readonly of: (choice: Choice) => number;
  /** Jobs with the same answer are a group. */
  readonly group: (job: number) => string | number;
}

/** The choices that are left, job by job; `everyJob` says that each job which has any is planned. */
export class OpenChoices {
  readonly #byJob: readonly (readonly Choice[])[];
  readonly #everyJob: boolean;

  constructor(byJob: readonly (readonly Choice[])[], everyJob: boolean) {
    this.#byJob = byJob;
    this.#everyJob = everyJob;
  }

  #groups({ of, group }: SharedCost): ReadonlyMap<string | number, number> {
    const groups = new Map<string | number, number>();
    for (const [job, own] of this.#byJob.entries()) {
      if (own.length === 0) continue;
      const cheapest = this.#everyJob
        ? own.reduce((least, choice) => Math.min(least, of(choice)), Number.POSITIVE_INFINITY)
        : 0;
      groups.set(group(job), Math.max(groups.get(group(job)) ?? 0, cheapest));
    }
    return groups;
  }

  /** What no plan costs less than. */
  least(shared: SharedCost): number {
    return [...this.#groups(shared).values()].reduce((sum, cost) => sum + cost, 0);
  }

  /** The choices that are in no plan which costs at most `best`. */
  dearer(shared: SharedCost, best: number): Set<Choice> {
    const groups = this.#groups(shared);
    const all = this.least(shared);
    return new Set(
      this.#byJob.flat().filter((choice) => {
        const own = groups.get(shared.group(choice.job)) ?? 0;
        return all - own + Math.max(own, shared.of(choice)) > best;
      }),
    );
  }
}
