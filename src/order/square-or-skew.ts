import { degreesText } from '../units/shown-mark.ts';
import { type ComparedBelt, type Comparison, comparison, type JointWay } from './search/skew-comparison.ts';
import { ownJoint } from '../advice/belt-skews.ts';
import { isEmptyRecord, recordName } from '../records/input-issues.ts';
import { listed } from '../sheet/words.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import { JointTrials } from './joint-trials.ts';
import { yearlyJoints, yearlyRates } from './yearly.ts';

/** Square against skew for the fleet: each belt with its own plate series, square, and at its skew. */

/** The skew of a belt that is joined square now: common practice, no source. */
const usualSkew = 45;

export interface FleetComparison extends Comparison {
  readonly skews: ReadonlyMap<string, number>;
}

/**
 * Cost a year of square and skew joints.
 *
 * A joint that only the pulleys forbid is charged a larger pulley; one that fails any other check is impossible, and
 * its belt is reported and left out on both sides.
 */
export function fleetComparison(book: Workbook): FleetComparison {
  const trials = new JointTrials(book);
  const rates = yearlyRates(book);
  const change = { cost: assumed(book, 'PulleyChange'), years: assumed(book, 'PulleyYears') };
  const skews = new Map<string, number>();
  const compared: ComparedBelt[] = [];
  for (const [record, { cells }] of book.sheet(belts.name).rows.entries()) {
    if (isEmptyRecord(cells)) continue;
    const belt = recordName(book, belts.name, record);
    const own = ownJoint(book, record);
    const yearly = yearlyJoints(book, record, rates.failureShare);
    const way = (skew: number): JointWay => {
      const nothing = { skew, jointsPerYear: 0, parts: 0, belt: 0, crewHours: 0, outageHours: 0 };
      if (own.series === '') return { ...nothing, impossible: 'no plate series is entered' };
      if (typeof yearly === 'string') return { ...nothing, impossible: yearly };
      const against = trials.against(record, own.series, skew);
      const others = against.filter(({ word, verdict }) => !(word === 'pulley' && verdict === 'fails'));
      if (others.length > 0)
        return {
          ...nothing,
          impossible: `${skew === 0 ? 'square' : degreesText(skew)}: ${listed(
            others.map(({ word, verdict }) => `${word} ${verdict === 'fails' ? 'fails' : 'is not known'}`),
          )}`,
        };
      const costs = trials.costs(record, own.series, skew);
      if (costs === undefined) return { ...nothing, impossible: 'its costs are not known' };
      return {
        skew,
        jointsPerYear: yearly,
        parts: costs['Parts cost'],
        belt: costs['Joint takes'] * rates.belt,
        crewHours: costs['Labour hours'],
        outageHours: costs['Downtime'],
        ...(against.length === 0 ? {} : { pulleyChange: change }),
      };
    };
    const skew = own.skew === undefined || !(own.skew > 0) ? usualSkew : own.skew;
    skews.set(belt, skew);
    compared.push({ belt, square: way(0), skew: way(skew), lostPerHour: rates.lostPerHour });
  }
  return { ...comparison(compared, { crew: rates.crew, interest: assumed(book, 'Interest') }), skews };
}
