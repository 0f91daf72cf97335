import { Refusal } from '../../formula/define.ts';

/** Square against skew joints for a fleet, in cost a year. */

/** A larger pulley that a joint would need, fitted once and paid for over years. */
interface PulleyChange {
  readonly cost: number;
  /** Years that it serves. */
  readonly years: number;
}

/** One way to join a belt. */
export interface JointWay {
  readonly skew: number;
  /** Joints made on the belt in a year, planned and unplanned. */
  readonly jointsPerYear: number;
  /** Plates, bolts, strip and consumables of one joint. */
  readonly parts: number;
  /** Belt that one joint takes, as money. */
  readonly belt: number;
  readonly crewHours: number;
  readonly outageHours: number;
  /** What the joint asks of the pulleys; absent when it passes those that there are. */
  readonly pulleyChange?: PulleyChange;
  /** Why the belt cannot be joined so at all. */
  readonly impossible?: string;
}

export interface ComparedBelt {
  readonly belt: string;
  readonly square: JointWay;
  readonly skew: JointWay;
  /** What an hour of downtime costs in production. */
  readonly lostPerHour: number;
}

interface ComparisonRates {
  /** Of one crew hour. */
  readonly crew: number;
  /** Share a year at which money for pulleys is counted; 0 spreads the cost evenly. */
  readonly interest: number;
}

/** Cost a year, part by part. */
export interface YearlyCost {
  readonly parts: number;
  readonly belt: number;
  readonly hours: number;
  readonly lostProduction: number;
  readonly pulleys: number;
  readonly total: number;
}

interface ComparisonRow {
  readonly belt: string;
  readonly square: YearlyCost;
  readonly skew: YearlyCost;
  /** Square less skew: what the skew saves a year, less than 0 where it costs more. */
  readonly saved: YearlyCost;
}

export interface Comparison {
  readonly rows: readonly ComparisonRow[];
  readonly total: Omit<ComparisonRow, 'belt'>;
  /** Pulley changes that the square joints would need and the skew ones do not. */
  readonly pulleyChangesAvoided: number;
  /** Belts that one of the two ways cannot join: not in the total. */
  readonly apart: readonly {
    readonly belt: string;
    readonly way: 'square' | 'skew' | 'both';
    readonly reason: string;
  }[];
}

export const costParts = [
  'parts',
  'belt',
  'hours',
  'lostProduction',
  'pulleys',
  'total',
] as const satisfies readonly (keyof YearlyCost)[];

/**
 * What a cost that is paid once comes to a year.
 *
 * Equal yearly payments at the interest; without interest the cost over the years.
 * Source: capital recovery factor of engineering economy, from memory.
 *
 * For tests: held to the formula.
 */
export function yearlyPayment({ cost, years }: PulleyChange, interest: number): number {
  if (!(years > 0)) throw new Refusal('pulleyChange', `must last more than 0 years; ${years} was given`);
  return interest === 0 ? cost / years : (cost * interest) / (1 - (1 + interest) ** -years);
}

function yearly(way: JointWay, lostPerHour: number, { crew, interest }: ComparisonRates): YearlyCost {
  const parts = way.jointsPerYear * way.parts;
  const belt = way.jointsPerYear * way.belt;
  const hours = way.jointsPerYear * way.crewHours * crew;
  const lostProduction = way.jointsPerYear * way.outageHours * lostPerHour;
  const pulleys = way.pulleyChange === undefined ? 0 : yearlyPayment(way.pulleyChange, interest);
  return { parts, belt, hours, lostProduction, pulleys, total: parts + belt + hours + lostProduction + pulleys };
}

const combined = (one: YearlyCost, other: YearlyCost, sign: 1 | -1): YearlyCost => ({
  parts: one.parts + sign * other.parts,
  belt: one.belt + sign * other.belt,
  hours: one.hours + sign * other.hours,
  lostProduction: one.lostProduction + sign * other.lostProduction,
  pulleys: one.pulleys + sign * other.pulleys,
  total: one.total + sign * other.total,
});

const nothing: YearlyCost = { parts: 0, belt: 0, hours: 0, lostProduction: 0, pulleys: 0, total: 0 };

function checkWay(belt: string, way: JointWay): void {
  for (const name of ['jointsPerYear', 'parts', 'belt', 'crewHours', 'outageHours'] as const) {
    if (!(way[name] >= 0))
      throw new Refusal(name, `must be at least 0; belt ${belt} has ${way[name]} at ${way.skew} degrees`);
  }
}

/**
 * The fleet's cost a year with square and with skew joints, belt by belt and in total.
 *
 * A way that the belt's pulleys do not allow is not impossible: it is charged the larger pulley. A belt that one way
 * cannot join at all is reported and left out of the total on both sides, so that the total compares like with like.
 */
export function comparison(belts: readonly ComparedBelt[], rates: ComparisonRates): Comparison {
  if (!(rates.interest >= 0))
    throw new Refusal('interest', `must be at least 0, as a share; ${rates.interest} was given`);
  const rows: ComparisonRow[] = [];
  const apart: Comparison['apart'][number][] = [];
  let pulleyChangesAvoided = 0;
  for (const { belt, square, skew, lostPerHour } of belts) {
    if (square.impossible !== undefined || skew.impossible !== undefined) {
      const way = square.impossible === undefined ? 'skew' : skew.impossible === undefined ? 'square' : 'both';
      apart.push({
        belt,
        way,
        reason: [...new Set([square.impossible, skew.impossible])].filter((reason) => reason !== undefined).join('; '),
      });
      continue;
    }
    checkWay(belt, square);
    checkWay(belt, skew);
    const [squareCost, skewCost] = [yearly(square, lostPerHour, rates), yearly(skew, lostPerHour, rates)];
    rows.push({ belt, square: squareCost, skew: skewCost, saved: combined(squareCost, skewCost, -1) });
    if (square.pulleyChange !== undefined && skew.pulleyChange === undefined) pulleyChangesAvoided += 1;
  }
  const sum = (side: 'square' | 'skew' | 'saved'): YearlyCost =>
    rows.reduce((total, row) => combined(total, row[side], 1), nothing);
  return {
    rows,
    total: { square: sum('square'), skew: sum('skew'), saved: sum('saved') },
    pulleyChangesAvoided,
    apart,
  };
}
