import { Refusal } from '../../formula/define.ts';
import { normalQuantile } from '../../functions/normal-quantile.ts';
import { settled } from '../../functions/rounding.ts';
import { commonStep } from './common-step.ts';

/**
 * Use in whole joints: how many of them come in a lead time is chance, how much each takes is not.
 *
 * Joints fail one by one and independently, so their number in a lead time is Poisson; when the lead time itself
 * spreads, taken as a gamma distribution, it is negative binomial. The amounts add up lot by lot.
 */

/** Joints that take the same amount each. */
export interface Lot {
  /** How many of them a year. */
  readonly perYear: number;
  /** How much of the item one takes. */
  readonly quantity: number;
}

/** From order to shelf, in years. */
export interface LeadTime {
  readonly mean: number;
  readonly deviation: number;
}

/** Demand a year: how many joints, what they take, and by how much that spreads. */
interface YearlyDemand {
  readonly joints: number;
  readonly mean: number;
  readonly variance: number;
}

export function yearlyDemand(lots: readonly Lot[]): YearlyDemand {
  return lots.reduce(
    ({ joints, mean, variance }, { perYear, quantity }) => ({
      joints: joints + perYear,
      mean: mean + perYear * quantity,
      variance: variance + perYear * quantity ** 2,
    }),
    { joints: 0, mean: 0, variance: 0 },
  );
}

/** Chances of the amounts one joint takes, in whole units that all amounts are multiples of. */
interface LotChances {
  readonly unit: number;
  /** By amount in units; that of 0 is 0. */
  readonly chances: readonly number[];
  readonly mean: number;
}

function lotChances(lots: readonly Lot[], step: number): LotChances {
  const amounts = lots
    .filter(({ perYear, quantity }) => perYear > 0 && quantity > 0)
    .map(({ perYear, quantity }) => ({ perYear, steps: Math.ceil(settled(quantity / step)) }));
  const total = amounts.reduce((sum, { perYear }) => sum + perYear, 0);
  const common = commonStep(amounts.map(({ steps }) => steps));
  const chances = new Array<number>(Math.max(0, ...amounts.map(({ steps }) => steps / common)) + 1).fill(0);
  for (const { perYear, steps } of amounts) chances[steps / common] = (chances[steps / common] ?? 0) + perYear / total;
  return { unit: common * step, chances, mean: chances.reduce((sum, chance, amount) => sum + amount * chance, 0) };
}

/**
 * How far the joint that brings the stock to its reorder point takes it below, chance by chance.
 *
 * In the long run the chance of u is that of a lot larger than u, over the mean lot; lots of one size end on the point.
 * Source: renewal theory, from memory.
 */
const undershoot = ({ chances, mean }: LotChances): number[] => {
  let beyond = 1;
  return chances.slice(0, -1).map((chance) => {
    beyond -= chance;
    return Math.max(0, beyond) / mean;
  });
};

/** Beyond it the chance of no use at all is too small for the recursion to begin with. */
const mostJoints = 500;

/** More amounts than any shelf is asked for: the chance left is nothing by then. */
const mostAmounts = 100_000;

/**
 * Chances of the use in a lead time, amount by amount, until all but a part in 10^13 is told.
 *
 * Source: H. H. Panjer, ASTIN Bulletin 12, 1981 (recursion for sums of a random number of lots).
 */
function useInLead({ chances }: LotChances, joints: number, lead: LeadTime): number[] {
  const mean = joints * lead.mean;
  const scale = lead.deviation === 0 ? 0 : (joints * lead.deviation ** 2) / lead.mean;
  const shape = lead.deviation === 0 ? Number.POSITIVE_INFINITY : (lead.mean / lead.deviation) ** 2;
  const a = scale / (1 + scale);
  const b = scale === 0 ? mean : (shape - 1) * a;
  const use = [scale === 0 ? Math.exp(-mean) : (1 + scale) ** -shape];
  let told = use[0] ?? 0;
  for (let amount = 1; told < 1 - 1e-13 && amount < mostAmounts; amount += 1) {
    let chance = 0;
    for (let lot = 1; lot <= Math.min(amount, chances.length - 1); lot += 1) {
      chance += (a + (b * lot) / amount) * (chances[lot] ?? 0) * (use[amount - lot] ?? 0);
    }
    use.push(chance);
    told += chance;
  }
  return use;
}

function sumOf(one: readonly number[], other: readonly number[]): number[] {
  const sum = new Array<number>(one.length + other.length - 1).fill(0);
  for (const [place, chance] of one.entries()) {
    for (const [next, and] of other.entries()) sum[place + next] = (sum[place + next] ?? 0) + chance * and;
  }
  return sum;
}

interface LumpyPoint {
  /** Order when what is on the shelf and on order has come down to this. */
  readonly reorderPoint: number;
  /** Chance of no shortage before the order comes: at least the one asked for. */
  readonly service: number;
}

function checkService(service: number): void {
  if (!(service > 0 && service < 1))
    throw new Refusal(
      'service',
      `must be more than 0 and less than 1, as a share; ${service} was given. 95 per cent is 0.95`,
    );
}

export function checkLead({ mean, deviation }: LeadTime): void {
  if (!(Number.isFinite(mean) && mean > 0)) throw new Refusal('lead', `must be more than 0; ${mean} was given`);
  if (!(Number.isFinite(deviation) && deviation >= 0))
    throw new Refusal('leadDeviation', `must be at least 0; ${deviation} was given`);
}

/**
 * The minimum reorder point whose stock covers the use in the lead time with the service, for lumpy use.
 *
 * For single pieces and a lead time that does not spread it is the Poisson quantile, POISSONSTOCK. Lots of one size are
 * counted in lots; a count that is not a multiple of them serves no more of them, so the point is just short of one lot
 * more. `step` is the smallest amount that is distinguished: 1 for pieces.
 */
export function lumpyReorderPoint(lots: readonly Lot[], lead: LeadTime, service: number, step = 1): LumpyPoint {
  checkService(service);
  checkLead(lead);
  const { joints } = yearlyDemand(lots.filter(({ quantity }) => quantity > 0));
  if (joints === 0) return { reorderPoint: 0, service: 1 };
  if (joints * lead.mean > mostJoints)
    throw new Refusal(
      'lots',
      `must come at most ${mostJoints} times in a lead time to be counted one by one; ${joints * lead.mean} was ` +
        `given. Treat them as steady`,
    );
  const lot = lotChances(lots, step);
  const use = sumOf(useInLead(lot, joints, lead), undershoot(lot));
  let reached = 0;
  for (const [amount, chance] of use.entries()) {
    reached += chance;
    if (reached >= service) return { reorderPoint: amount * lot.unit + (lot.unit - step), service: reached };
  }
  return { reorderPoint: use.length * lot.unit - step, service: reached };
}

interface SteadyDemand {
  /** Per period. */
  readonly mean: number;
  readonly deviation: number;
}

/**
 * Reorder point for steady use and a lead time that spreads.
 *
 * Mean and variance of the use in the lead time: lead · deviation² + mean² · lead's deviation², taken as normal.
 * Without a spread of the lead time it is REORDERPOINT.
 * Source: variance of a sum of a random number of terms; limits after ETH Zurich, opess 11.3.3.
 */
export function steadyReorderPoint({ mean, deviation }: SteadyDemand, lead: LeadTime, service: number): number {
  checkService(service);
  checkLead(lead);
  return (
    mean * lead.mean + normalQuantile(service) * Math.sqrt(lead.mean * deviation ** 2 + mean ** 2 * lead.deviation ** 2)
  );
}

/** What the triggering joint takes below the point, on average: added to the point of steady use in lots. */
export function meanUndershoot(lots: readonly Lot[], step = 1): number {
  const lot = lotChances(lots, step);
  return lot.chances.length < 2
    ? 0
    : undershoot(lot).reduce((sum, chance, amount) => sum + chance * amount, 0) * lot.unit;
}
