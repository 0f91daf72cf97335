import { type Counted, type Operation, operations, type RateName, rateNames } from '../../sheets/values/job-rates.ts';
import { converted, type UnitSystem } from '../units/quantities.ts';
import { randomNumbers } from '../random/random-numbers.ts';
import {
  drawn,
  type Estimate,
  methods,
  pertMean,
  pertSum,
  sampleEstimate,
  type Shape,
  type Spread,
  spreadFault,
  type Term,
} from './spread.ts';

/**
 * Crew hours and outage hours of a job from what one plate, bolt, hole or metre takes.
 *
 * The critical path of a joint is plain: run empty and isolate, the crew's work one piece after another, guards back
 * and test run. So the outage is the belt's own hours plus the crew's hours in the outage over the size of the crew.
 * That the work shares evenly among the crew is an assumption: at a narrow belt a third person does not save a third.
 * The spread of a rate holds for all pieces of a job: a crew that is slow at one bolt is slow at all. Rates are taken
 * as independent of each other, which makes the sum's spread narrower than if a slow crew were slow at everything.
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
export const workHeaders = ['Cut length', 'Plates', 'Bolts', 'Holes', 'Skive'] as const;

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

export interface NewBelt {
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

export interface RateFault {
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

export interface TimeOptions {
  readonly crewSize: number;
  /** Chances whose figures are wanted, as 0.5, 0.9. */
  readonly shares: readonly number[];
}

export interface Simulation {
  readonly shape: Shape;
  readonly seed: number;
  readonly runs: number;
}

export interface TimeEstimate {
  /** How the figures were made, for the reader. */
  readonly method: string;
  /** People times hours, the preparation before the outage included. */
  readonly crewHours: Estimate;
  /** The belt at a stand. */
  readonly outageHours: Estimate;
}

/** One line of the sum. */
export interface TimeLine {
  readonly operation: Operation;
  readonly count: number;
  /** Of all its pieces, hours. */
  readonly spread: Spread;
  readonly mean: number;
}

/** Operations of a job with their hours; those that it does not have are left out. */
export function timeLines(counts: Counts, rates: readonly Rate[]): TimeLine[] {
  return rates.flatMap(({ operation, spread }) => {
    const count = counts[operation.per] ?? 0;
    if (count === 0) return [];
    const whole = { low: count * spread.low, likely: count * spread.likely, high: count * spread.high };
    return [{ operation, count, spread: whole, mean: pertMean(whole) }];
  });
}

/** Times that a rate enters crew hours and outage hours. */
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
  if (!(crewSize > 0)) throw new RangeError(`the crew must be at least one; ${crewSize} is given`);
  if (shares.some((share) => !(share > 0 && share < 1)))
    throw new RangeError(`chances lie between 0 and 1; ${shares.join(', ')} are given`);
}

/** Hours by PERT. */
export function pertTime(counts: Counts, rates: readonly Rate[], options: TimeOptions): TimeEstimate {
  checkOptions(options);
  const terms = (part: 'crew' | 'outage'): Term[] =>
    rates.map(({ operation, spread }) => ({ times: weights(operation, counts, options.crewSize)[part], spread }));
  return {
    method: methods.PERT,
    crewHours: pertSum(terms('crew'), options.shares),
    outageHours: pertSum(terms('outage'), options.shares),
  };
}

/** A job among others that do the same for the belt. */
export interface Alternative {
  readonly name: string;
  readonly counts: Counts;
}

export interface Compared {
  readonly name: string;
  readonly time: TimeEstimate;
  /** Mean hours more than the first alternative; negative for less. */
  readonly moreCrewHours: number;
  readonly moreOutageHours: number;
  /** Share of the runs in which its outage was longer than the first one's; only simulation knows it. */
  readonly longerShare?: number;
}

/**
 * Alternatives side by side, against the first: a square joint, a skew one, a new belt.
 *
 * A simulation draws each run's rates once and uses them for all alternatives, as the same crew would.
 */
export function comparedTimes(
  alternatives: readonly Alternative[],
  rates: readonly Rate[],
  options: TimeOptions,
  simulation?: Simulation,
): Compared[] {
  checkOptions(options);
  const times =
    simulation === undefined
      ? alternatives.map(({ counts }) => ({ time: pertTime(counts, rates, options) }))
      : simulated(alternatives, rates, options, simulation);
  const first = times[0]?.time;
  return alternatives.flatMap(({ name }, index) => {
    const one = times[index];
    if (one === undefined || first === undefined) return [];
    return [
      {
        name,
        ...one,
        moreCrewHours: one.time.crewHours.mean - first.crewHours.mean,
        moreOutageHours: one.time.outageHours.mean - first.outageHours.mean,
      },
    ];
  });
}

/** Hours by simulation with a fixed seed. */
export function simulatedTime(
  counts: Counts,
  rates: readonly Rate[],
  options: TimeOptions,
  simulation: Simulation,
): TimeEstimate {
  checkOptions(options);
  const [only] = simulated([{ name: '', counts }], rates, options, simulation);
  if (only === undefined) throw new Error('a simulation of one job answers one time');
  return only.time;
}

function simulated(
  alternatives: readonly Alternative[],
  rates: readonly Rate[],
  { crewSize, shares }: TimeOptions,
  { shape, seed, runs }: Simulation,
): { readonly time: TimeEstimate; readonly longerShare: number }[] {
  if (!(Number.isInteger(runs) && runs >= 1))
    throw new RangeError(`a simulation takes a whole number of runs of at least 1; ${runs} is given`);
  const random = randomNumbers(seed);
  const all = alternatives.map(({ counts }) => ({
    weights: rates.map(({ operation }) => weights(operation, counts, crewSize)),
    crew: new Float64Array(runs),
    outage: new Float64Array(runs),
  }));
  for (let run = 0; run < runs; run += 1) {
    const hours = rates.map(({ spread }) => drawn(spread, shape, random));
    for (const one of all) {
      one.crew[run] = hours.reduce((sum, each, index) => sum + each * (one.weights[index]?.crew ?? 0), 0);
      one.outage[run] = hours.reduce((sum, each, index) => sum + each * (one.weights[index]?.outage ?? 0), 0);
    }
  }
  const method = `${methods[shape]}; ${runs} runs, seed ${seed}, xoshiro128**`;
  const first = all[0]?.outage ?? new Float64Array(0);
  return all.map(({ crew, outage }) => ({
    time: { method, crewHours: sampleEstimate(crew, shares), outageHours: sampleEstimate(outage, shares) },
    longerShare: outage.reduce((count, hours, run) => count + (hours > (first[run] ?? 0) ? 1 : 0), 0) / runs,
  }));
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
