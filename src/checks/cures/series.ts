import { plateSeries } from '../../../sheets/series/plate-series.ts';
import type { Asking, Trying } from '../../records/belt-trials.ts';
import { columnNames, isCalled, type Name } from '../../records/inputs.ts';
import { listed } from '../../sheet/words.ts';
import { degrees, roundSkews } from './skews.ts';
import {
  type Cure,
  curing,
  helps,
  known,
  mayClear,
  outcome,
  rank,
  ranks,
  type Sought,
  tried,
  untried,
} from './sought.ts';

/** Cures by another plate series. */

/** Another series at another skew, when neither alone leaves the belt with no check that fails. */
function* otherSeriesAndSkew(sought: Sought, names: readonly Name[]): Asking<Cure[]> {
  const { belt, verdict } = sought;
  const present = belt.number('Skew');
  if (verdict !== 'fails' || present === undefined || !mayClear(belt, ['Plate series', 'Skew'])) return [];
  const pairs = names.flatMap((name) => roundSkews.map((skew) => ({ name, skew })));
  const both = ({ name, skew }: (typeof pairs)[number]): Trying => ({
    inputs: { ...belt.atSkew(skew), 'Plate series': name },
  });
  const passing = yield* curing(sought, pairs, both);
  yield* known(belt, passing.map(both));
  const found = passing.filter((pair) => belt.after(both(pair)).verdict !== 'fails');
  const [best] = found.toSorted(
    (one, other) =>
      rank(sought, both(one)) - rank(sought, both(other)) ||
      Math.abs(one.skew - present) - Math.abs(other.skew - present),
  );
  return best === undefined
    ? []
    : [
        tried(
          sought,
          both(best),
          `Use series ${best.name} at a skew of ${degrees(best.skew)}: ${outcome(sought, both(best))}.`,
        ),
      ];
}

/** Plate series that cure the check with the rest as it is: those after which least goes wrong. */
export function* otherSeries(sought: Sought): Asking<Cure[]> {
  const { belt } = sought;
  const names = columnNames(belt.book, plateSeries.name, plateSeries.key).filter(
    (name) => !isCalled(belt.value('Plate series'), name),
  );
  const change = (name: Name): Trying => ({ inputs: { 'Plate series': name } });
  const passing = yield* curing(sought, names, change);
  yield* known(belt, passing.map(change));
  const best = Math.min(...passing.map((name) => rank(sought, change(name))));
  const further = best <= ranks.indexOf('not known') ? [] : yield* otherSeriesAndSkew(sought, names);
  if (passing.length === 0)
    return sought.verdict !== 'fails' || further.length > 0
      ? further
      : [untried('No other series in the sheet Plate series cures it at this skew.')];
  const chosen = passing.filter((name) => rank(sought, change(name)) === best && helps(sought, change(name)));
  const [only] = chosen;
  if (only === undefined) return further;
  return [
    ...further,
    tried(
      sought,
      change(only),
      `Use series ${listed(chosen.map(String), 'or', 5)}: ` +
        `${chosen.length === 1 ? outcome(sought, change(only)) : manyThen(best)}.`,
    ),
  ];
}

function manyThen(rank: number): string {
  switch (ranks[rank]) {
    case 'fits':
      return 'all checks then fit';
    case 'tight':
      return 'no check then fails, but some are tight';
    case 'not known':
      return 'no check then fails, but some are not known';
    case 'fails no more':
      return 'this check then passes; the other failures remain';
    default:
      return 'this check then passes, but other checks then fail';
  }
}
