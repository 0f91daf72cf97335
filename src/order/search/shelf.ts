import { Refusal } from '../../formula/define.ts';
import { settled } from '../../functions/rounding.ts';
import { breakQuantity } from './break-quantity.ts';
import {
  type LeadTime,
  type Lot,
  lumpyReorderPoint,
  meanUndershoot,
  steadyReorderPoint,
  yearlyDemand,
} from './lot-demand.ts';
import type { PriceBreak } from './offers.ts';
import { type Item, itemKey } from './order-list.ts';

/**
 * What to keep on the shelf: expected use, reorder point and order quantity by item, what is short and what is dead.
 */

/** The joints of one belt over the years, with what each takes. */
export interface BeltUse {
  readonly belt: string;
  readonly joints: number;
  readonly hoursPerYear: number;
  /** Running hours that a joint is expected to last. */
  readonly jointLife: number;
  /** Joints that fail before their time, as a share of the planned ones; 0 when it is not given. */
  readonly failureShare?: number;
  /** Failures of one joint in a year, on top of the share; 0 when it is not given. */
  readonly failureRate?: number;
  /**
   * Its planned joints are ordered for by their day: they are no matter of chance, and the shelf keeps nothing for
   * them.
   */
  readonly planned?: boolean;
  /** Of one joint. */
  readonly parts: readonly { readonly item: Item; readonly quantity: number }[];
}

interface JointsPerYear {
  readonly planned: number;
  readonly unplanned: number;
}

/** Joints that a belt is expected to need in a year. */
export function jointsPerYear({
  belt,
  joints,
  hoursPerYear,
  jointLife,
  failureShare = 0,
  failureRate = 0,
}: Omit<BeltUse, 'parts' | 'planned'>): JointsPerYear {
  for (const [name, figure] of Object.entries({ joints, hoursPerYear, failureShare, failureRate })) {
    if (!(Number.isFinite(figure) && figure >= 0))
      throw new Refusal(name, `must be at least 0; belt ${belt} has ${figure}`);
  }
  if (!(jointLife > 0)) throw new Refusal('jointLife', `must be more than 0 hours; belt ${belt} has ${jointLife}`);
  const planned = (joints * hoursPerYear) / jointLife;
  return { planned, unplanned: planned * failureShare + joints * failureRate };
}

/** An item that is kept, or was. */
export interface ShelfItem {
  readonly item: Item;
  /** A word of `services`. */
  readonly criticality: string;
  /** Days from order to shelf, and by how many they spread. */
  readonly leadDays: number;
  readonly leadDeviationDays?: number;
  /** Of placing one order. */
  readonly orderCost: number;
  /** Share of the price that keeping costs in a year. */
  readonly holdingShare: number;
  readonly pack: number;
  /** Of a pack, in the book's money. */
  readonly breaks: readonly PriceBreak[];
  readonly onShelf: number;
  readonly onOrder: number;
  /** Smallest amount that is distinguished: 1 for pieces, more for lengths. 1 when it is not given. */
  readonly step?: number;
  /** Least amount that people count on the shelf: a punch in use counts as one. The step when it is not told. */
  readonly counted?: number;
}

interface ShelfTerms {
  /** Chance of no shortage in one lead time, by criticality. */
  readonly services: Readonly<Record<string, number>>;
  /** Items whose joints in a lead time are fewer than this are counted joint by joint; 9 when it is not given. */
  readonly lumpyBelow?: number;
  readonly daysPerYear?: number;
}

interface UseSource {
  readonly belt: string;
  /** Of the item, a year. */
  readonly planned: number;
  readonly unplanned: number;
}

export interface ShelfLine {
  readonly item: Item;
  readonly service: number;
  /** Of the item, a year, belt by belt. */
  readonly sources: readonly UseSource[];
  readonly planned: number;
  readonly unplanned: number;
  /** What of it is left to chance, a year. */
  readonly chance: number;
  readonly lots: readonly Lot[];
  readonly lead: LeadTime;
  /** lumpy: Poisson, joint by joint. steady: normal. unused: no joint takes it. */
  readonly use: 'lumpy' | 'steady' | 'unused';
  readonly useInLead: number;
  readonly reorderPoint: number;
  /** What the reorder point holds beyond the expected use in the lead time. */
  readonly safety: number;
  readonly orderPacks: number;
  readonly orderQuantity: number;
  /** Goods, orders and holding of the order quantity, a year; the safety stock is not in it. */
  readonly yearlyCost: number;
  readonly onShelf: number;
  readonly onOrder: number;
  /** By how much shelf and orders lie below the reorder point; 0 when there is enough. */
  readonly short: number;
  /** Packs to order today, so that shelf and orders lie above the reorder point again. */
  readonly packsToday: number;
  /** Years that the shelf lasts; infinite for dead stock. */
  readonly cover: number;
  /** On the shelf and used by no joint. */
  readonly dead: boolean;
  /** What the shelf is worth at the price of a single pack. */
  readonly value: number;
}

/** Days that a year is spread over when nothing else is told: the Julian year. */
const julianYear = 365.25;

/** Joints counted one by one below this many in a lead time. Source: ETH Zurich, opess 11.3.3. */
const lumpyLimit = 9;

interface Use {
  readonly sources: UseSource[];
  readonly lots: Lot[];
}

/** Use by item. An item that a belt lists twice takes both quantities in one joint. */
export function useByItem(belts: readonly BeltUse[]): Map<string, Use> {
  const uses = new Map<string, Use>();
  for (const belt of belts) {
    const { planned, unplanned } = jointsPerYear(belt);
    const quantities = new Map<string, number>();
    for (const { item, quantity } of belt.parts) {
      if (!(Number.isFinite(quantity) && quantity >= 0))
        throw new Refusal(
          'parts',
          `must be at least 0; belt ${belt.belt} has ${quantity} of ${item.kind} ${item.name}`,
        );
      quantities.set(itemKey(item), (quantities.get(itemKey(item)) ?? 0) + quantity);
    }
    for (const [key, quantity] of quantities) {
      if (quantity * (planned + unplanned) === 0) continue;
      const use = uses.get(key) ?? { sources: [], lots: [] };
      use.sources.push({ belt: belt.belt, planned: planned * quantity, unplanned: unplanned * quantity });
      const perYear = unplanned + (belt.planned === true ? 0 : planned);
      if (perYear > 0) use.lots.push({ perYear, quantity });
      uses.set(key, use);
    }
  }
  return uses;
}

function serviceOf(
  { item, criticality }: Pick<ShelfItem, 'item' | 'criticality'>,
  services: ShelfTerms['services'],
): number {
  const service = Object.hasOwn(services, criticality) ? services[criticality] : undefined;
  if (service === undefined)
    throw new Refusal(
      'criticality',
      `must be one of ${Object.keys(services).join(', ')}; ${item.kind} ${item.name} has ` +
        `${JSON.stringify(criticality)}`,
    );
  return service;
}

function checkItem(shelved: ShelfItem): void {
  const { item, pack, onShelf, onOrder, leadDays, leadDeviationDays = 0, step = 1, counted = step } = shelved;
  const figures = { pack, onShelf, onOrder, leadDays, leadDeviationDays, step, counted };
  const must = (holds: boolean, argument: keyof typeof figures, what: string): void => {
    if (!holds) throw new Refusal(argument, `must be ${what}; ${item.kind} ${item.name} has ${figures[argument]}`);
  };
  must(pack > 0, 'pack', 'more than 0');
  must(onShelf >= 0, 'onShelf', 'at least 0');
  must(onOrder >= 0, 'onOrder', 'at least 0');
  must(leadDays > 0, 'leadDays', 'more than 0 days');
  must(leadDeviationDays >= 0, 'leadDeviationDays', 'at least 0 days');
  must(step > 0, 'step', 'more than 0');
  must(counted > 0, 'counted', 'more than 0');
}

/** Shelf and orders at which to order, by how the use comes. */
function pointOf(
  lots: readonly Lot[],
  lead: LeadTime,
  service: number,
  step: number,
  lumpyBelow: number,
): Pick<ShelfLine, 'use' | 'reorderPoint'> {
  const { joints, mean, variance } = yearlyDemand(lots);
  if (mean === 0) return { use: 'unused', reorderPoint: 0 };
  if (joints * lead.mean < lumpyBelow)
    return { use: 'lumpy', reorderPoint: lumpyReorderPoint(lots, lead, service, step).reorderPoint };
  const point =
    steadyReorderPoint({ mean, deviation: Math.sqrt(variance) }, lead, service) + meanUndershoot(lots, step);
  return { use: 'steady', reorderPoint: Math.max(0, Math.ceil(point / step) * step) };
}

/** What the level of an item follows from. */
type Levelled = Pick<ShelfItem, 'item' | 'criticality' | 'leadDays' | 'leadDeviationDays' | 'step' | 'counted'>;

/** Shelf and orders at which to order, in amounts that people count. */
export function reorderLevel(
  shelved: Levelled,
  lots: readonly Lot[],
  { services, lumpyBelow = lumpyLimit, daysPerYear = julianYear }: ShelfTerms,
): Pick<ShelfLine, 'use' | 'reorderPoint' | 'lead' | 'service'> {
  const { leadDays, leadDeviationDays = 0, step = 1, counted = step } = shelved;
  const service = serviceOf(shelved, services);
  const lead: LeadTime = { mean: leadDays / daysPerYear, deviation: leadDeviationDays / daysPerYear };
  const { use, reorderPoint: point } = pointOf(lots, lead, service, step, lumpyBelow);
  return { use, lead, service, reorderPoint: counted === step ? point : Math.ceil(settled(point / counted)) * counted };
}

/**
 * The shelf, line by line.
 *
 * Planned and unplanned joints count alike as chance, but for belts whose planned joints are ordered by their day.
 * Service is the chance of no shortage in one lead time. Throws a Refusal that names belt, item and figure.
 */
export function shelfPlan(items: readonly ShelfItem[], belts: readonly BeltUse[], terms: ShelfTerms): ShelfLine[] {
  const uses = useByItem(belts);
  return items.map((shelved): ShelfLine => {
    checkItem(shelved);
    const { item, orderCost, holdingShare, pack, breaks, onShelf, onOrder } = shelved;
    const { sources, lots } = uses.get(itemKey(item)) ?? { sources: [], lots: [] };
    const level = reorderLevel(shelved, lots, terms);
    const { lead, service, reorderPoint } = level;
    const mean = sources.reduce((sum, { planned, unplanned }) => sum + planned + unplanned, 0);
    // Used by planned joints alone: nothing is left to chance.
    const use = mean > 0 && level.use === 'unused' ? 'lumpy' : level.use;
    const chance = yearlyDemand(lots).mean;
    const { quantity, yearlyCost } = breakQuantity({ demand: mean / pack, orderCost, holdingShare, breaks });
    const position = onShelf + onOrder;
    const low = use !== 'unused' && position <= reorderPoint;
    return {
      item,
      service,
      sources,
      lots,
      lead,
      use,
      reorderPoint,
      planned: sources.reduce((sum, source) => sum + source.planned, 0),
      unplanned: sources.reduce((sum, source) => sum + source.unplanned, 0),
      chance,
      useInLead: chance * lead.mean,
      safety: reorderPoint - chance * lead.mean,
      orderPacks: quantity,
      orderQuantity: quantity * pack,
      yearlyCost,
      onShelf,
      onOrder,
      short: use === 'unused' ? 0 : Math.max(0, reorderPoint - position),
      packsToday: low ? Math.max(quantity, Math.floor((reorderPoint - position) / pack) + 1) : 0,
      cover: mean === 0 ? (onShelf > 0 ? Number.POSITIVE_INFINITY : 0) : onShelf / mean,
      dead: mean === 0 && onShelf > 0,
      value: (onShelf / pack) * (breaks[0]?.price ?? 0),
    };
  });
}

/** Items that joints take and the shelf does not list: nobody would order them. */
export function unlisted(items: readonly Pick<ShelfItem, 'item'>[], belts: readonly BeltUse[]): Item[] {
  const listed = new Set(items.map(({ item }) => itemKey(item)));
  const missing = new Map(
    belts.flatMap(({ parts }) =>
      parts.flatMap(({ item, quantity }) =>
        quantity === 0 || listed.has(itemKey(item)) ? [] : [[itemKey(item), item] as const],
      ),
    ),
  );
  return [...missing.values()];
}
