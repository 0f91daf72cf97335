import { jointsPerYear } from './search/shelf.ts';
import { Belt } from '../records/belt.ts';
import { recordName } from '../records/input-issues.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import type { TrialCosts } from './joint-trials.ts';

/** What joints cost in a year. */

/** Joints of a belt in a year, planned and unplanned; a text says why they can't be told. */
export function yearlyJoints(book: Workbook, record: number, failureShare: number): number | string {
  const belt = new Belt(book, record);
  const [joints, hoursPerYear, jointLife] = [
    belt.number('Joints'),
    belt.number('Hours per year'),
    belt.number('Life in hours'),
  ];
  if (joints === undefined || !(joints >= 0)) return 'its number of joints is not known';
  if (hoursPerYear === undefined || !(hoursPerYear >= 0)) return 'its hours per year are not known';
  if (jointLife === undefined || !(jointLife > 0)) return 'its joint life is not known';
  const { planned, unplanned } = jointsPerYear({
    belt: recordName(book, belts.name, record),
    joints,
    hoursPerYear,
    jointLife,
    failureShare,
  });
  return planned + unplanned;
}

interface YearlyRates {
  readonly crew: number;
  readonly lostPerHour: number;
  /** Per short length. */
  readonly belt: number;
  readonly failureShare: number;
}

export const yearlyRates = (book: Workbook): YearlyRates => ({
  crew: assumed(book, 'CrewRate'),
  lostPerHour: assumed(book, 'DowntimeCost'),
  belt: assumed(book, 'BeltPrice'),
  failureShare: assumed(book, 'UnplannedFailures'),
});

/** Parts, belt, hours and lost production of one joint. */
export const jointCost = (costs: TrialCosts, { crew, lostPerHour, belt }: YearlyRates): number =>
  costs['Parts cost'] + costs['Joint takes'] * belt + costs['Labour hours'] * crew + costs['Downtime'] * lostPerHour;
