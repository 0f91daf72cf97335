import type { Choice } from './outage-choices.ts';

/**
 * Bounds that need no solver, and the places that no plan as good as a known one can use: without them the search is much
 * smaller, or there is nothing left to search.
 *
 * What a plan costs is at least the sum, over groups of jobs, of the greatest cost that any job of the group has at its
 * cheapest. Jobs whose costs add up are a group each; jobs of an area that stands as a whole are one, since they may share
 * its time; for the end of the whole plan all are one.
 */
export interface SharedCost {
  readonly of: (choice: Choice) => number;
  /** Jobs with the same answer are a group. */
  readonly group: (job: number) => string | number;
}

/** The choices that are left, job by job; `everyJob` says that each job which has any is planned. */
export class OpenChoices {
  readonly #columns: readonly { readonly column: number; readonly choice: Choice }[];
  readonly #everyJob: boolean;

  /** Columns are counted as `byJob.flat()` counts. */
  constructor(byJob: readonly (readonly Choice[])[], closed: ReadonlySet<number>, everyJob: boolean) {
    this.#columns = byJob.flat().map((choice, column) => ({ column, choice })).filter(({ column }) => !closed.has(column));
    this.#everyJob = everyJob;
  }

  #groups({ of, group }: SharedCost): ReadonlyMap<string | number, number> {
    const cheapest = new Map<number, number>();
    for (const { choice } of this.#columns) cheapest.set(choice.job, Math.min(cheapest.get(choice.job) ?? Number.POSITIVE_INFINITY, of(choice)));
    const groups = new Map<string | number, number>();
    for (const [job, cost] of cheapest) groups.set(group(job), Math.max(groups.get(group(job)) ?? 0, this.#everyJob ? cost : 0));
    return groups;
  }

  /** What no plan costs less than. */
  least(shared: SharedCost): number {
    return [...this.#groups(shared).values()].reduce((sum, cost) => sum + cost, 0);
  }

  /** Columns of choices that are in no plan which costs at most `best`. */
  dearer(shared: SharedCost, best: number): number[] {
    const groups = this.#groups(shared);
    const all = this.least(shared);
    return this.#columns.flatMap(({ column, choice }) => {
      const own = groups.get(shared.group(choice.job)) ?? 0;
      return all - own + Math.max(own, shared.of(choice)) > best ? [column] : [];
    });
  }
}
