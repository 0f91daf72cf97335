import { type Counted, type Operation, operations, type RateName, rateNames } from '../../sheets/values/job-rates.ts';
import { converted, type UnitSystem } from '../units/quantities.ts';
import { type Estimate, pertMethod, pertSum, type Spread, spreadFault, type Term } from './spread.ts';

/**
 * Labour hours and outage hours of a job from what one plate, bolt, hole or metre takes.
 *
 * The critical path of a joint is plain: run empty and isolate, the crew's work one piece after another, guards back
 * and test run. So the outage is the belt's own hours plus the crew's hours in the outage over the size of the crew.
 * That the work shares evenly among the crew is an assumption: at a narrow belt a third person does not save a third.
 * The spread of a rate holds for all pieces of a job, and all rates are long together: a crew that is slow at one bolt
 * is slow at all, and at everything else.
 */

/** What a joint is, in the units of a book. */
export interface JointWork {
  readonly cutLength: number;
  readonly plates: number;
  readonly bolts: number;
  /** Holes in both belt ends. */
  readonly holes: number;
  readonly skived: boolean;
}

/** The columns of Belts that a joint's work is counted by. */
export const workHeaders = ['Cut length', 'Plates', 'Bolts', 'Holes', 'Skive depth'] as const;

/** The work of a joint from those columns; undefined until all are known. */
export function jointWork(number: (header: (typeof workHeaders)[number]) => number | undefined): JointWork | undefined {
  const [cutLength, plates, bolts, holes, skive] = workHeaders.map(number);
  if (
    cutLength === undefined ||
    plates === undefined ||
    bolts === undefined ||
    holes === undefined ||
    skive === undefined
  )
    return undefined;
  return { cutLength, plates, bolts, holes, skived: skive > 0 };
}

interface NewBelt {
  /** Belt to pull in, in the book's unit of distance. */
  readonly length: number;
  /** How its ends are joined, and how many such joints it gets. */
  readonly joint: JointWork;
  readonly joints: number;
}

export type Counts = Readonly<Partial<Record<Counted, number>>>;

/** Pieces of work of one joint; both ends are cut and skived. */
export function jointCounts({ cutLength, plates, bolts, holes, skived }: JointWork, units: UnitSystem): Counts {
  const metres = (2 * converted(cutLength, 'length', units, 'metric')) / 1000;
  return {
    job: 1,
    'metre of cut': metres,
    'metre of skive': skived ? metres : 0,
    hole: holes,
    plate: plates,
    bolt: bolts,
  };
}

/** Pieces of work of several like joints that are made in one job, one after the other. */
export const jointsCounts = (work: JointWork, joints: number, units: UnitSystem): Counts =>
  Object.fromEntries(
    Object.entries(jointCounts(work, units)).map(([counted, count]) => [
      counted,
      counted === 'job' ? 1 : joints * count,
    ]),
  );

/** Pieces of work of fitting a new belt and joining it. */
export function newBeltCounts({ length, joint, joints }: NewBelt, units: UnitSystem): Counts {
  return {
    ...jointsCounts(joint, joints, units),
    'new belt': 1,
    '100 m of new belt': converted(length, 'distance', units, 'metric') / 100,
  };
}

export interface Rate {
  readonly operation: Operation;
  readonly spread: Spread;
}

interface RateFault {
  /** The named value to look at. */
  readonly name: string;
  readonly reason: string;
}

/** The rates from the book's named values, or what is wrong with them. */
export function jobRates(
  valueOf: (name: RateName) => unknown,
): readonly Rate[] | { readonly faults: readonly RateFault[] } {
  const faults: RateFault[] = [];
  const rates = operations.map((operation): Rate => {
    const names = rateNames(operation);
    const [low = Number.NaN, likely = Number.NaN, high = Number.NaN] = names.map((name) => {
      const value = valueOf(name);
      if (typeof value === 'number' && Number.isFinite(value)) return value;
      faults.push({
        name,
        reason:
          `${name} must be a number of hours; ` +
          `${value === undefined || value === null || value === '' ? 'it is missing' : `"${String(value)}" is given`}`,
      });
      return Number.NaN;
    });
    const spread = { low, likely, high };
    const fault = spreadFault(spread);
    if (fault !== undefined && [low, likely, high].every(Number.isFinite))
      faults.push({ name: names[0], reason: `${operation.name}: ${fault}` });
    return { operation, spread };
  });
  return faults.length === 0 ? rates : { faults };
}

interface TimeOptions {
  readonly crewSize: number;
  /** Chances whose figures are wanted, as 0.5, 0.9. */
  readonly shares: readonly number[];
}

export interface TimeEstimate {
  /** How the figures were made, for the reader. */
  readonly method: string;
  /** Labour hours, the preparation before the outage included. */
  readonly crewHours: Estimate;
  /** The downtime of the belt. */
  readonly outageHours: Estimate;
}

/** Times that a rate enters labour hours and downtime. */
function weights(
  { takes, per }: Operation,
  counts: Counts,
  crewSize: number,
): { readonly crew: number; readonly outage: number } {
  const count = counts[per] ?? 0;
  return {
    crew: takes === 'belt' ? 0 : count,
    outage: takes === 'before' ? 0 : takes === 'belt' ? count : count / crewSize,
  };
}

function checkOptions({ crewSize, shares }: TimeOptions): void {
  if (!(crewSize > 0)) throw new RangeError(`the crew must be at least 1 person; ${crewSize} is given`);
  if (shares.some((share) => !(share > 0 && share < 1)))
    throw new RangeError(`chances lie between 0 and 1; ${shares.join(', ')} are given`);
}

/** Hours by PERT. */
export function pertTime(counts: Counts, rates: readonly Rate[], options: TimeOptions): TimeEstimate {
  checkOptions(options);
  const terms = (part: 'crew' | 'outage'): Term[] =>
    rates.map(({ operation, spread }) => ({ times: weights(operation, counts, options.crewSize)[part], spread }));
  return {
    method: pertMethod,
    crewHours: pertSum(terms('crew'), options.shares),
    outageHours: pertSum(terms('outage'), options.shares),
  };
}

/**
 * What an outage keeps the belt from carrying, in the unit of capacity times hours.
 *
 * Undefined when the capacity is not known. A plant that catches up later loses less: say so with a smaller duty share.
 */
export const lostProduction = (
  outageHours: number,
  capacity: number | undefined,
  dutyShare: number,
): number | undefined => (capacity === undefined ? undefined : outageHours * capacity * dutyShare);
