import { skew } from '../functions/parameters.ts';
import { standardPulleys } from '../functions/tables.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { belts, checkColumns } from '../../sheets/belts/index.ts';
import { columnDependents } from '../workbook/dependence.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { beltColumn, type Belt, type Change } from '../records/belt.ts';
import type { Verdict } from '../functions/checks.ts';
import { columnNames, isCalled, type Name } from '../records/inputs.ts';
import type { DecidingPulley } from '../records/belt-pulleys.ts';
import { amount, listed, rounded, withUnit } from '../sheet/words.ts';

/**
 * What would cure a belt's check, found by asking the book what-if and by the check itself.
 *
 * A cure of a check that fails lets it pass; of a check that is tight, fit. Cures after which nothing fails go first.
 */
export interface Sought {
  readonly belt: Belt;
  /** The column of the check. */
  readonly column: string;
  /** How the check stands now. */
  readonly verdict: Verdict;
}

/** Steps in degrees by which skews are tried. */
const skewStep = 0.5;
const greatestSkew = skew.max;
const skews: readonly number[] = Array.from({ length: greatestSkew / skewStep + 1 }, (_, index) => index * skewStep);

/**
 * Verdicts of the whole belt after a cure, the best first; then one that fails no more than now, then one that fails
 * anew.
 */
const ranks: readonly (Verdict | 'fails no more')[] = ['fits', 'tight', 'not known', 'fails no more', 'fails'];

const isCured = (verdict: Verdict, before: Verdict): boolean =>
  verdict === 'fits' || (before === 'fails' && verdict === 'tight');

/** Whether a change cures the check, whatever it does to others. */
export const cures = ({ belt, column, verdict }: Sought, change: Change): boolean =>
  isCured(belt.checkAfter(column, change), verdict);

const together = (names: readonly string[], one: string, several: string): string =>
  `${listed(names)} ${names.length === 1 ? one : several}`;

/** Checks that fail after a change: those that fail now too, and those that fail by it. */
function failing({ belt }: Sought, change: Change): { readonly still: string[]; readonly newly: string[] } {
  const now = new Set<string>(
    checkColumns.flatMap(({ header, word }) => (belt.verdict(header) === 'fails' ? [word] : [])),
  );
  const then = belt.after(change).with('fails');
  return { still: then.filter((word) => now.has(word)), newly: then.filter((word) => !now.has(word)) };
}

/** How good a cure is, 0 the best: every check fits, none fails, none fails that does not now, some newly fail. */
function rank(sought: Sought, change: Change): number {
  const { verdict } = sought.belt.after(change);
  return verdict === 'fails' && failing(sought, change).newly.length === 0
    ? ranks.indexOf('fails no more')
    : ranks.indexOf(verdict);
}

/** Whether a cure is worth naming: one that makes another check fail does not help a check that is only tight. */
const helps = (sought: Sought, change: Change): boolean =>
  sought.verdict === 'fails' || rank(sought, change) < ranks.length - 1;

/** How the whole belt stands after a cure. */
export function outcome(sought: Sought, change: Change): string {
  const { belt, verdict, column } = sought;
  const trial = belt.after(change);
  switch (trial.verdict) {
    case 'fits':
      return 'then every check fits';
    case 'tight':
      return `then no check fails, but ${together(trial.with('tight'), 'is tight', 'are tight')}`;
    case 'not known':
      return `then no check fails, but ${together(trial.with('not known'), 'is not known', 'are not known')}`;
    case 'fails': {
      const { still, newly } = failing(sought, change);
      const rest = [
        ...(still.length === 0 ? [] : [together(still, 'still fails', 'still fail')]),
        ...(newly.length === 0 ? [] : [together(newly, 'then fails', 'then fail')]),
      ];
      return (
        `then ${column.replace(/ check$/, '').toLowerCase()} ${verdict === 'tight' ? 'fits' : 'passes'}, but ` +
        `${rest.join(' and ')}`
      );
    }
  }
}

/** Whether changes of inputs could leave the belt with no check that fails: all that fail now must follow from them. */
function mayClear(belt: Belt, headers: readonly string[]): boolean {
  const followers = new Set(
    headers.flatMap((header) =>
      columnDependents(belts.name, belt.book.column(belts.name, header)).map(({ column }) => column),
    ),
  );
  return checkColumns.every(
    (check) =>
      belt.verdict(check.header) !== 'fails' ||
      followers.has(compiledSheets.get(belts.name)?.position.get(check.header) ?? -1),
  );
}

const bySkew = (skew: number): Change => ({ inputs: { Skew: skew } });

/** The skews that cure the check, from the least. */
const curingSkews = (sought: Sought): number[] => skews.filter((skew) => cures(sought, bySkew(skew)));

export const degrees = (skew: number): string => withUnit(rounded(skew, 1), '°');

/** Of some skews, in order, the first after which nothing fails, and the very first; of those that help. */
function bestSkews(sought: Sought, candidates: readonly number[]): number[] {
  const { belt } = sought;
  const [first] = candidates;
  if (first === undefined) return [];
  const clean = mayClear(belt, ['Skew'])
    ? candidates.find((skew) => belt.after(bySkew(skew)).verdict !== 'fails')
    : undefined;
  return [...new Set(clean === undefined ? [first] : [clean, first])].filter((skew) => helps(sought, bySkew(skew)));
}

const noSkew = (sought: Sought): string[] =>
  sought.verdict === 'fails' ? [`No skew up to ${degrees(greatestSkew)} cures it.`] : [];

/** The least skew that cures, and where that leaves others to fail, the least after which none does. */
export function leastSkew(sought: Sought): string[] {
  const found = curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  return bestSkews(sought, found).map(
    (skew) =>
      `Cut the joint at a skew of ${allAbove(found, skew) ? 'at least ' : ''}${degrees(skew)}: ` +
      `${outcome(sought, bySkew(skew))}.`,
  );
}

/** The greatest skew that cures. */
export function greatestSkewCure(sought: Sought): string[] {
  const found = curingSkews(sought).toReversed();
  if (found.length === 0) return noSkew(sought);
  return bestSkews(sought, found).map(
    (skew) => `Cut the joint at a skew of at most ${degrees(skew)}: ${outcome(sought, bySkew(skew))}.`,
  );
}

/** The nearest skews on either side that cure, those first after which least fails. */
export function nearestSkews(sought: Sought): string[] {
  const present = sought.belt.number('Skew') ?? 0;
  const found = curingSkews(sought);
  if (found.length === 0) return noSkew(sought);
  const below = bestSkews(sought, found.filter((skew) => skew < present).toReversed()).slice(0, 1);
  const above = bestSkews(
    sought,
    found.filter((skew) => skew > present),
  ).slice(0, 1);
  return [...below, ...above]
    .toSorted(
      (one, other) =>
        rank(sought, bySkew(one)) - rank(sought, bySkew(other)) || Math.abs(one - present) - Math.abs(other - present),
    )
    .map((skew) => `Cut the joint at a skew of ${degrees(skew)}: ${outcome(sought, bySkew(skew))}.`);
}

/** Whether every skew tried from this one up cures: then it is a least, not a lone one. */
const allAbove = (found: readonly number[], skew: number): boolean =>
  found.filter((item) => item >= skew).length === skews.filter((item) => item >= skew).length;

/** Skews tried together with other series, beside the present one. */
const roundSkews: readonly number[] = skews.filter((skew) => skew % 5 === 0);

/** Another series at another skew, when neither alone leaves the belt with no check that fails. */
function otherSeriesAndSkew(sought: Sought, names: readonly Name[]): string[] {
  const { belt, verdict } = sought;
  const present = belt.number('Skew');
  if (verdict !== 'fails' || present === undefined || !mayClear(belt, ['Plate series', 'Skew'])) return [];
  const both = (name: Name, skew: number): Change => ({ inputs: { 'Plate series': name, Skew: skew } });
  const found = names.flatMap((name) =>
    roundSkews
      .filter((skew) => cures(sought, both(name, skew)) && belt.after(both(name, skew)).verdict !== 'fails')
      .map((skew) => ({ name, skew })),
  );
  const [best] = found.toSorted(
    (one, other) =>
      rank(sought, both(one.name, one.skew)) - rank(sought, both(other.name, other.skew)) ||
      Math.abs(one.skew - present) - Math.abs(other.skew - present),
  );
  return best === undefined
    ? []
    : [`Use series ${best.name} at a skew of ${degrees(best.skew)}: ${outcome(sought, both(best.name, best.skew))}.`];
}

/** Plate series that cure the check with the rest as it is: those after which least goes wrong. */
export function otherSeries(sought: Sought): string[] {
  const { belt } = sought;
  const names = columnNames(belt.book, plateSeries.name, plateSeries.key).filter(
    (name) => !isCalled(belt.value('Plate series'), name),
  );
  const change = (name: Name): Change => ({ inputs: { 'Plate series': name } });
  const passing = names.filter((name) => cures(sought, change(name)));
  const best = Math.min(...passing.map((name) => rank(sought, change(name))));
  const further = best <= ranks.indexOf('not known') ? [] : otherSeriesAndSkew(sought, names);
  if (passing.length === 0)
    return sought.verdict !== 'fails' || further.length > 0
      ? further
      : ['No other series of the sheet Plate series cures it at this skew.'];
  const chosen = passing.filter((name) => rank(sought, change(name)) === best && helps(sought, change(name)));
  const [only] = chosen;
  if (only === undefined) return further;
  return [
    ...further,
    `Use series ${listed(chosen.map(String), 'or', 5)}: ` +
      `${chosen.length === 1 ? outcome(sought, change(only)) : manyThen(best)}.`,
  ];
}

function manyThen(rank: number): string {
  switch (ranks[rank]) {
    case 'fits':
      return 'then every check fits';
    case 'tight':
      return 'then no check fails, though some are tight';
    case 'not known':
      return 'then no check fails, though some are not known';
    case 'fails no more':
      return 'then this check passes, and what else fails still does';
    default:
      return 'then this check passes, but others fail by it';
  }
}

/** A standard diameter in the book's unit, and in mm where that is another. */
function standardWords(belt: Belt, diameter: number): string {
  const own = amount(diameter / (belt.named('MillimetresPerShort') ?? 1), beltColumn('Smallest pulley'), belt.units);
  return belt.units === 'metric' ? own : `${own} (${diameter} mm)`;
}

/**
 * The next standard pulley that cures, in mm and in the book's unit; in the place of a listed one where that decides.
 */
export function standardPulleyCure(sought: Sought, place?: DecidingPulley): string[] {
  const { belt } = sought;
  const millimetres = belt.named('MillimetresPerShort') ?? 1;
  if (place !== undefined) {
    const margin = sought.verdict === 'tight' ? (belt.named('TightMargin') ?? 0) : 0;
    const least =
      place.least === undefined
        ? undefined
        : standardPulleys.find((standard) => standard / millimetres >= (place.least ?? 0) * (1 + margin));
    return least === undefined
      ? []
      : [`Put in a ${place.name} pulley of at least ${standardWords(belt, least)}, a standard diameter.`];
  }
  const change = (diameter: number): Change => ({ inputs: { 'Smallest pulley': diameter / millimetres } });
  const diameter = standardPulleys.find(
    (standard) => standard / millimetres > (belt.number('Smallest pulley') ?? 0) && cures(sought, change(standard)),
  );
  if (diameter === undefined)
    return sought.verdict !== 'fails'
      ? []
      : [`No standard pulley is large enough: the series ends at ${standardPulleys.at(-1) ?? 0} mm.`];
  return [
    `Put in a pulley of at least ${standardWords(belt, diameter)}, the next standard one that will do: ` +
      `${outcome(sought, change(diameter))}.`,
  ];
}
