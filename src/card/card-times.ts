import { counted } from '../units/phrases.ts';
import { numberIn } from '../formula/values.ts';
import {
  type Counts,
  jointCounts,
  jobRates,
  type JointWork,
  jointWork,
  lostProduction,
  newBeltCounts,
  pertTime,
  type TimeEstimate,
} from '../job/job-time.ts';
import { unitOf } from '../units/quantities.ts';
import type { Belt } from '../records/belt.ts';

/** How long the job takes: the hours of the sheet Belts, the planned time, and the alternatives to this joint. */

interface TimeRow {
  readonly name: 'Labour hours' | 'Downtime';
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  readonly mean: number;
  /** The job is done within it with the chance of PlanningShare. */
  readonly planned: number;
}

interface OtherWay {
  readonly name: string;
  readonly crewHours: number;
  readonly outageHours: number;
}

export interface CardTimes {
  readonly crewSize: number;
  readonly share: number;
  readonly method: string;
  readonly rows: readonly TimeRow[];
  /** What the belt does not carry meanwhile; undefined without a capacity. */
  readonly lost: { readonly amount: number; readonly unit: string; readonly dutyShare: number } | undefined;
  /** The joint as it is and others in its place, as means. */
  readonly ways: readonly OtherWay[];
}

/** Work that might be done in place of another. */
interface Alternative {
  readonly name: string;
  readonly counts: Counts;
}

/** The same belt with its joint cut square. */
function squareWork(belt: Belt): JointWork | undefined {
  const { value } = belt.after({ inputs: { Skew: 0 } });
  return jointWork((header) => numberIn(value(header)));
}

function otherWays(belt: Belt, work: JointWork): Alternative[] {
  const { units } = belt;
  const skew = belt.number('Skew');
  const square = skew === 0 ? undefined : squareWork(belt);
  const length = belt.number('Belt to order');
  const joints = belt.number('Joints') ?? belt.number('Joints with whole rolls');
  return [
    { name: skew === 0 ? 'this joint, square' : 'this joint', counts: jointCounts(work, units) },
    ...(square === undefined ? [] : [{ name: 'a square joint instead', counts: jointCounts(square, units) }]),
    ...(length === undefined || joints === undefined
      ? []
      : [
          {
            name: `a new belt with ${counted(joints, 'joint')}`,
            counts: newBeltCounts({ length, joint: work, joints }, units),
          },
        ]),
  ];
}

/** The times of a belt's job, or what keeps them from being known, in sentences. */
export function cardTimes(belt: Belt): CardTimes | { readonly missing: readonly string[] } {
  const rates = jobRates((name) => belt.named(name));
  const work = jointWork((header) => belt.number(header));
  const [crewSize, share, dutyShare] = [belt.named('CrewSize'), belt.named('PlanningShare'), belt.named('LoadShare')];
  if ('faults' in rates) return { missing: rates.faults.map(({ reason }) => `${reason}.`) };
  if (work === undefined)
    return { missing: ['Hours are not known: enter the Skew, the Plate series and the Skive depth of the belt.'] };
  if (
    crewSize === undefined ||
    !(crewSize > 0) ||
    share === undefined ||
    !(share > 0 && share < 1) ||
    dutyShare === undefined
  ) {
    return {
      missing: [
        'Hours are not known: correct CrewSize, PlanningShare and LoadShare in Assumptions; each must be a ' +
          'number within its limits.',
      ],
    };
  }
  const counts: Counts = jointCounts(work, belt.units);
  const options = { crewSize, shares: [share] };
  const time = pertTime(counts, rates, options);
  const row = (
    name: TimeRow['name'],
    { mean, quantiles: [quantile] }: TimeEstimate['crewHours'],
  ): TimeRow | undefined => {
    const [low, likely, high, all] = (['low', 'likely', 'high'] as const)
      .map((part) => belt.number(`${name} ${part}`))
      .concat(belt.number(name));
    return low === undefined || likely === undefined || high === undefined || all === undefined
      ? undefined
      : { name, low, likely, high, mean: all, planned: quantile?.value ?? mean };
  };
  const rows = [row('Labour hours', time.crewHours), row('Downtime', time.outageHours)].flatMap((one) =>
    one === undefined ? [] : [one],
  );
  if (rows.length < 2)
    return { missing: ['Hours are not known: Labour hours or Downtime in the sheet Belts is not known.'] };
  const amount = lostProduction(time.outageHours.mean, belt.number('Capacity'), dutyShare);
  return {
    crewSize,
    share,
    method: time.method,
    rows,
    lost:
      amount === undefined
        ? undefined
        : { amount, unit: unitOf('capacity', belt.units).replace(/\/h$/, ''), dutyShare },
    ways: otherWays(belt, work).map(({ name, counts: other }) => {
      const { crewHours, outageHours } = pertTime(other, rates, options);
      return { name, crewHours: crewHours.mean, outageHours: outageHours.mean };
    }),
  };
}
