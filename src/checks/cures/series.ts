import { plateSeries } from '../../../sheets/series/plate-series.ts';
import type { Change } from '../../records/belt.ts';
import { columnNames, isCalled, type Name } from '../../records/inputs.ts';
import { listed } from '../../sheet/words.ts';
import { degrees, roundSkews } from './skews.ts';
import { type Cure, cures, helps, mayClear, outcome, rank, ranks, type Sought, tried, untried } from './sought.ts';

/** Cures by another plate series. */

/** Another series at another skew, when neither alone leaves the belt with no check that fails. */
function otherSeriesAndSkew(sought: Sought, names: readonly Name[]): Cure[] {
  const { belt, verdict } = sought;
  const present = belt.number('Skew');
  if (verdict !== 'fails' || present === undefined || !mayClear(belt, ['Plate series', 'Skew'])) return [];
  const both = (name: Name, skew: number): Change => ({ inputs: { ...belt.atSkew(skew), 'Plate series': name } });
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
    : [
        tried(
          sought,
          both(best.name, best.skew),
          `Use series ${best.name} at a skew of ${degrees(best.skew)}: ` +
            `${outcome(sought, both(best.name, best.skew))}.`,
        ),
      ];
}

/** Plate series that cure the check with the rest as it is: those after which least goes wrong. */
export function otherSeries(sought: Sought): Cure[] {
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
