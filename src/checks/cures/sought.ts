import type { AssumptionName } from '../../../sheets/belts/check-declaration.ts';
import { checkColumns, type CheckHeader } from '../../../sheets/belts/check-columns.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { type Verdict, verdictOf } from '../../functions/checks.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { columnDependents } from '../../workbook/dependence.ts';

import type { Belt } from '../../records/belt.ts';
import type { Asking, Trying } from '../../records/belt-trials.ts';
import { listed } from '../../sheet/words.ts';

/**
 * What would cure a belt's check, found by asking the book what-if and by the check itself.
 *
 * A cure of a check that fails lets it pass; of a check that is tight, fit. Cures after which nothing fails go first.
 */
export interface Sought {
  readonly belt: Belt;
  readonly check: {
    readonly word: string;
    /** The column of its verdict. */
    readonly column: CheckHeader;
    /** The named value of its margin. */
    readonly margin: AssumptionName;
  };
  /** The check's verdict now. */
  readonly verdict: Verdict;
}

/** The share of a limit that a cure must keep from it: the check's margin where it is tight now. */
export const marginToKeep = ({ belt, check, verdict }: Sought): number =>
  verdict === 'tight' ? (belt.named(check.margin) ?? 0) : 0;

/**
 * Verdicts of the whole belt after a cure, the best first; then one that fails no more than now, then one that fails
 * anew.
 */
export const ranks: readonly (Verdict | 'fails no more')[] = ['fits', 'tight', 'not known', 'fails no more', 'fails'];

const isCured = (verdict: Verdict, before: Verdict): boolean =>
  verdict === 'fits' || (before === 'fails' && verdict === 'tight');

/** Those of some changes that cure the check, whatever they do to others. */
export function* curing<Item>(
  { belt, check: { column }, verdict }: Sought,
  items: readonly Item[],
  change: (item: Item) => Trying,
): Asking<Item[]> {
  if (items.length === 0) return [];
  const tried = yield { belt, changes: items.map(change), wanted: [column] };
  return items.filter((_, index) => isCured(verdictOf(tried(index, column)), verdict));
}

/** What is told of a belt after a change. */
const told: readonly BeltHeader[] = ['Verdict', 'Insert to order', ...checkColumns.map(({ header }) => header)];

/** Gets to know what the whole belt is after changes, for what is asked of them next. */
export function* known(belt: Belt, changes: readonly Trying[]): Asking<void> {
  const open = changes.filter((change) => !belt.isTried(change));
  if (open.length === 0) return;
  const tried = yield { belt, changes: open, wanted: told };
  for (const [index, change] of open.entries()) belt.keepTrial(change, (header) => tried(index, header));
}

/** Whether a change cures the check; what else it does is then known. */
export function* curedBy(sought: Sought, change: Trying): Asking<boolean> {
  const { belt, check, verdict } = sought;
  yield* known(belt, [change]);
  return isCured(verdictOf(belt.after(change).value(check.column)), verdict);
}

const together = (names: readonly string[], one: string, several: string): string =>
  `${listed(names)} ${names.length === 1 ? one : several}`;

/** Checks that fail after a change: those that fail now too, and those that fail by it. */
function failing({ belt }: Sought, change: Trying): { readonly still: string[]; readonly newly: string[] } {
  const now = belt.failing();
  const then = belt.after(change).with('fails');
  return { still: then.filter((word) => now.has(word)), newly: then.filter((word) => !now.has(word)) };
}

/** How good a cure is, 0 the best: every check fits, none fails, none fails that does not now, some newly fail. */
export function rank(sought: Sought, change: Trying): number {
  const { verdict } = sought.belt.after(change);
  return verdict === 'fails' && failing(sought, change).newly.length === 0
    ? ranks.indexOf('fails no more')
    : ranks.indexOf(verdict);
}

/** Whether a cure is worth naming: one that makes another check fail does not help a check that is only tight. */
export const helps = (sought: Sought, change: Trying): boolean =>
  sought.verdict === 'fails' || rank(sought, change) < ranks.length - 1;

/** One sentence of what would cure a check, and what trying it did: an untried one only advises. */
export interface Cure {
  readonly text: string;
  readonly effect: 'cures' | 'worsens' | 'untried';
  /** The belt's inputs that were tried; none where a cure is not, or not only, a matter of inputs. */
  readonly inputs?: NonNullable<Trying['inputs']>;
}

export const untried = (text: string): Cure => ({ text, effect: 'untried' });

/** A cure that a change was tried for; it worsens where another check fails by it. */
export const tried = (sought: Sought, change: Trying, text: string): Cure => ({
  text,
  effect: rank(sought, change) === ranks.length - 1 ? 'worsens' : 'cures',
  ...(change.inputs === undefined || change.named !== undefined ? {} : { inputs: change.inputs }),
});

/**
 * Cures as they are listed: one by which another check fails is left out where a better one is known, and comes last
 * where none is.
 */
export function ordered(found: readonly Cure[]): readonly Cure[] {
  const worsening = found.filter(({ effect }) => effect === 'worsens');
  const others = found.filter(({ effect }) => effect !== 'worsens');
  return others.some(({ effect }) => effect === 'cures') ? others : [...others, ...worsening];
}

/** The verdict of the whole belt after a cure, in words. */
export function outcome(sought: Sought, change: Trying): string {
  const { belt, verdict, check } = sought;
  const trial = belt.after(change);
  switch (trial.verdict) {
    case 'fits':
      return 'all checks then fit';
    case 'tight':
      return `no check then fails, but ${together(trial.with('tight'), 'is tight', 'are tight')}`;
    case 'not known':
      return `no check then fails, but ${together(trial.with('not known'), 'is not known', 'are not known')}`;
    case 'fails': {
      const { still, newly } = failing(sought, change);
      const rest = [
        ...(still.length === 0 ? [] : [together(still, 'still fails', 'still fail')]),
        ...(newly.length === 0 ? [] : [together(newly, 'then fails', 'then fail')]),
      ];
      return `${check.word} then ${verdict === 'tight' ? 'fits' : 'passes'}, but ${rest.join(' and ')}`;
    }
  }
}

/** Whether changes of inputs could leave the belt with no check that fails: all that fail now must follow from them. */
export function mayClear(belt: Belt, headers: readonly BeltHeader[]): boolean {
  const followers = new Set(
    headers.flatMap((header) =>
      columnDependents(belts.name, belt.book.column(belts.name, header)).map(({ column }) => column),
    ),
  );
  return checkColumns.every(
    (check) => belt.verdict(check.header) !== 'fails' || followers.has(belt.book.column(belts.name, check.header)),
  );
}
