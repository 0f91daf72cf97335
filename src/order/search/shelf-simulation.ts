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
  /** On the shelf at the beginning; reorder point and one order when it is not given. */
  readonly start?: number;
}

interface SimulationTerms {
  readonly years: number;
  readonly seed: number;
  /** Of the interval about the service; 0.99 when it is not given. */
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

/** A shelf while time passes: joints take from it, orders come to it. */
class RunningShelf {
  readonly #policy: ShelfPolicy;
  /** How long an order takes. */
  readonly #delay: () => number;
  readonly #coming: { readonly at: number; readonly quantity: number }[] = [];
  #time = 0;
  #shelf: number;
  /** The shelf and what is ordered. */
  #position: number;
  orders = 0;
  inTime = 0;
  joints = 0;
  served = 0;
  least: number;
  /** Quantity times years on the shelf. */
  #held = 0;

  constructor(policy: ShelfPolicy, start: number, delay: () => number) {
    this.#policy = policy;
    this.#delay = delay;
    this.#shelf = start;
    this.#position = start;
    this.least = start;
  }

  get mean(): number {
    return this.#held / this.#time;
  }

  /** Goes on to a time; what comes before it comes on the way. */
  pass(to: number): void {
    for (let next = this.#coming[0]; next !== undefined && next.at <= to; next = this.#coming[0]) {
      this.#hold(next.at);
      this.orders += 1;
      if (this.#shelf >= 0) this.inTime += 1;
      this.#shelf += next.quantity;
      this.#coming.shift();
    }
    this.#hold(to);
  }

  #hold(to: number): void {
    this.#held += this.#shelf * (to - this.#time);
    this.#time = to;
  }

  /** A joint takes so much. */
  take(quantity: number): void {
    this.joints += 1;
    if (this.#shelf >= quantity) this.served += 1;
    this.#shelf -= quantity;
    this.#position -= quantity;
    this.least = Math.min(this.least, this.#shelf);
    this.order();
  }

  /** Orders when shelf and orders have come down to the reorder point. */
  order(): void {
    const { reorderPoint, orderQuantity } = this.#policy;
    if (this.#position > reorderPoint) return;
    const quantity = orderQuantity * (1 + Math.floor((reorderPoint - this.#position) / orderQuantity));
    this.#coming.push({ at: this.#time + this.#delay(), quantity });
    this.#coming.sort((one, other) => one.at - other.at);
    this.#position += quantity;
  }
}

/**
 * Years on the shelf with a fixed seed.
 *
 * Joints come at random, each lot at its rate; what is lacking is owed and served from the next order. Several orders
 * may be under way. An order is in time when nothing is owed just before it comes: the service that the reorder point
 * is worked out for. A single year holds few orders, so its service says little: its interval tells how little.
 */
export function simulatedShelf(
  policy: ShelfPolicy,
  { years, seed, confidence = 0.99 }: SimulationTerms,
): SimulatedShelf {
  const { lots, lead, reorderPoint, orderQuantity, start = reorderPoint + orderQuantity } = policy;
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
  const shelf = new RunningShelf(policy, start, delay);
  shelf.order();
  for (let time = waiting(random) / rate; time < years; time += waiting(random) / rate) {
    shelf.pass(time);
    shelf.take(taken());
  }
  shelf.pass(years);
  const { orders, inTime, joints, served, least, mean } = shelf;
  return {
    years,
    orders,
    inTime,
    joints,
    served,
    least,
    mean,
    ...(orders === 0 ? {} : { service: inTime / orders, interval: shareInterval(inTime, orders, confidence) }),
  };
}
