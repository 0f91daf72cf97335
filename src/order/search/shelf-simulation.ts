import { Refusal } from '../../formula/define.ts';
import { normalQuantile } from '../../functions/normal-quantile.ts';
import { gamma, waiting } from '../../random/draws.ts';
import { randomNumbers } from '../../random/random-numbers.ts';
import { checkLead, type LeadTime, type Lot } from './lot-demand.ts';

/** An item's shelf, joint by joint and order by order, to show the service that its reorder point really gives. */

export interface ShelfPolicy {
  readonly lots: readonly Lot[];
  readonly lead: LeadTime;
  /** An order is placed when shelf and orders have come down to this. */
  readonly reorderPoint: number;
  readonly orderQuantity: number;
  /** On the shelf at the beginning; reorder point and one order when it is not told. */
  readonly start?: number;
}

interface SimulationTerms {
  readonly years: number;
  readonly seed: number;
  /** Of the interval about the service; 0.99 when it is not told. */
  readonly confidence?: number;
}

export interface SimulatedShelf {
  readonly years: number;
  /** Orders that came. */
  readonly orders: number;
  /** Orders that came before anything was lacking. */
  readonly inTime: number;
  /** The share of orders that came in time; undefined when none came. */
  readonly service?: number;
  /** Where the true service lies, with the confidence. */
  readonly interval?: readonly [number, number];
  readonly joints: number;
  /** Joints that found all they need on the shelf. */
  readonly served: number;
  /** Least and mean on the shelf; below 0 is owed. */
  readonly least: number;
  readonly mean: number;
}

/**
 * The interval of a share after E. B. Wilson, Journal of the American Statistical Association 22, 1927. For tests: held
 * to the published interval.
 */
export function shareInterval(found: number, of: number, confidence: number): readonly [number, number] {
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const share = found / of;
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

/**
 * Years on the shelf with a fixed seed.
 *
 * Joints come at random, each lot at its rate; what is lacking is owed and served from the next order. Several orders
 * may be under way. An order is in time when nothing is owed just before it comes: the service that the reorder point
 * is worked out for. A single year holds few orders, so its service says little: its interval tells how little.
 */
export function simulatedShelf(
  { lots, lead, reorderPoint, orderQuantity, start = reorderPoint + orderQuantity }: ShelfPolicy,
  { years, seed, confidence = 0.99 }: SimulationTerms,
): SimulatedShelf {
  checkLead(lead);
  if (!(orderQuantity > 0)) throw new Refusal('orderQuantity', `must be more than 0; ${orderQuantity} was given`);
  if (!(years > 0)) throw new Refusal('years', `must be more than 0; ${years} was given`);
  const rate = lots.reduce((sum, { perYear }) => sum + perYear, 0);
  if (!(rate > 0)) return { years, orders: 0, inTime: 0, joints: 0, served: 0, least: start, mean: start };
  const random = randomNumbers(seed);
  const taken = (): number => {
    let place = random() * rate;
    for (const { perYear, quantity } of lots) {
      place -= perYear;
      if (place < 0) return quantity;
    }
    return lots.at(-1)?.quantity ?? 0;
  };
  const delay = (): number =>
    lead.deviation === 0
      ? lead.mean
      : (gamma((lead.mean / lead.deviation) ** 2, random) * lead.deviation ** 2) / lead.mean;

  const coming: { at: number; quantity: number }[] = [];
  let [time, shelf, position, orders, inTime, joints, served, least, held] = [0, start, start, 0, 0, 0, 0, start, 0];
  const pass = (to: number): void => {
    held += shelf * (to - time);
    time = to;
  };
  const order = (): void => {
    if (position > reorderPoint) return;
    const quantity = orderQuantity * (1 + Math.floor((reorderPoint - position) / orderQuantity));
    coming.push({ at: time + delay(), quantity });
    coming.sort((one, other) => one.at - other.at);
    position += quantity;
  };
  order();
  for (let next = waiting(random) / rate; ; next = time + waiting(random) / rate) {
    for (let first = coming[0]; first !== undefined && first.at <= Math.min(next, years); first = coming[0]) {
      pass(first.at);
      orders += 1;
      if (shelf >= 0) inTime += 1;
      shelf += first.quantity;
      coming.shift();
    }
    if (next >= years) break;
    pass(next);
    const quantity = taken();
    joints += 1;
    if (shelf >= quantity) served += 1;
    shelf -= quantity;
    position -= quantity;
    least = Math.min(least, shelf);
    order();
  }
  pass(years);
  return {
    years,
    orders,
    inTime,
    joints,
    served,
    least,
    mean: held / years,
    ...(orders === 0 ? {} : { service: inTime / orders, interval: shareInterval(inTime, orders, confidence) }),
  };
}
