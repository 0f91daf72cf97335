import { itemKinds } from '../../../sheets/buying/offers.ts';
import { Refusal } from '../../formula/define.ts';

/** What has to be ordered for chosen joints, and which belts it is for. */

export type ItemKind = (typeof itemKinds)[number];

/**
 * Something that is bought. Plates go by their series, bolts by series and length, punches by diameter, belt by
 * construction and width, the rest by name.
 */
export interface Item {
  readonly kind: ItemKind;
  readonly name: string;
  /** Of bolts; the diameter of a punch, the width of a belt. */
  readonly length?: number;
}

export const itemKey = ({ kind, name, length }: Item): string =>
  JSON.stringify(length === undefined ? [kind, name] : [kind, name, length]);

/** Joints of one belt that are to be made, with what each takes. */
export interface ChosenJoints {
  readonly belt: string;
  readonly area: string;
  /** When they are made, as year-month. */
  readonly month: string;
  /** Day on which they are made, as a serial number; undefined when it is not known. */
  readonly due?: number | undefined;
  readonly joints: number;
  readonly series: string;
  readonly plates: number;
  readonly bolts: number;
  readonly boltLength: number;
  /** All strips of one joint. */
  readonly strip?: { readonly name: string; readonly length: number };
  /** Holes of one joint, and how many a punch makes before it is blunt. */
  readonly punch?: { readonly name: string; readonly holes: number; readonly life: number };
  /** Wire brushes, blades, chalk: how many one joint takes. */
  readonly consumables?: readonly { readonly name: string; readonly quantity: number }[];
  /** Belt that one joint takes, when it comes from a roll. */
  readonly beltPiece?: { readonly name: string; readonly length: number };
}

/** How much of an item one belt takes. */
export interface Need {
  readonly item: Item;
  readonly belt: string;
  readonly area: string;
  readonly month: string;
  /** Day on which it must be there, as a serial number; undefined when it is not known. */
  readonly due?: number | undefined;
  readonly quantity: number;
}

function checkJoints({
  belt,
  joints,
  month,
  plates,
  bolts,
  strip,
  punch,
  consumables = [],
  beltPiece,
}: ChosenJoints): void {
  const figures = {
    joints,
    plates,
    bolts,
    strip: strip?.length ?? 0,
    holes: punch?.holes ?? 0,
    'belt piece': beltPiece?.length ?? 0,
  };
  for (const [name, figure] of [
    ...Object.entries(figures),
    ...consumables.map(({ name: of, quantity }) => [of, quantity] as const),
  ]) {
    if (!(Number.isFinite(figure) && figure >= 0))
      throw new Refusal(name, `must be a number of at least 0; belt ${belt} has ${figure}`);
  }
  if (punch !== undefined && !(punch.life > 0))
    throw new Refusal('life', `must be more than 0 holes; the punch ${punch.name} of belt ${belt} has ${punch.life}`);
  if (!/^\d{4}-(0[1-9]|1[0-2])$/.test(month))
    throw new Refusal('month', `must be a year and a month, as 2026-11; belt ${belt} has ${JSON.stringify(month)}`);
}

/**
 * What the chosen joints of a belt take, item by item. A punch counts by the share of its life that the holes use up.
 */
export function beltNeeds(chosen: ChosenJoints): Need[] {
  checkJoints(chosen);
  const {
    belt,
    area,
    month,
    due,
    joints,
    series,
    plates,
    bolts,
    boltLength,
    strip,
    punch,
    consumables = [],
    beltPiece,
  } = chosen;
  const perJoint: readonly (readonly [Item, number])[] = [
    [{ kind: 'plates', name: series }, plates],
    [{ kind: 'bolts', name: series, length: boltLength }, bolts],
    ...(strip === undefined ? [] : [[{ kind: 'strip', name: strip.name }, strip.length] as const]),
    ...(punch === undefined ? [] : [[{ kind: 'punch', name: punch.name }, punch.holes / punch.life] as const]),
    ...consumables.map(({ name, quantity }) => [{ kind: 'consumable', name }, quantity] as const),
    ...(beltPiece === undefined ? [] : [[{ kind: 'belt', name: beltPiece.name }, beltPiece.length] as const]),
  ];
  return perJoint.flatMap(([item, quantity]) =>
    quantity * joints === 0
      ? []
      : [{ item, belt, area, month, ...(due === undefined ? {} : { due }), quantity: quantity * joints }],
  );
}

/** What is due before a day, all that came earlier included. */
interface DueBefore {
  readonly day: number;
  readonly quantity: number;
}

/**
 * What must be bought of an item: planned joints with what is spoilt, and what brings the shelf to its level, less what
 * is there and what comes.
 */
export interface OrderLine {
  readonly item: Item;
  /** Belt by belt, in the order in which the belts came; `need` is their sum, added up in this order. */
  readonly sources: readonly Omit<Need, 'item'>[];
  readonly need: number;
  /** On top, for what is spoilt. */
  readonly allowance: number;
  /** What the shelf is to hold beside it. */
  readonly shelfLevel: number;
  readonly shelf: number;
  readonly onOrder: number;
  /** Of what is on order, what joints cannot wait for. */
  readonly late: number;
  /** Need and allowance less shelf and on order, not below 0. */
  readonly forJoints: number;
  /** What the shelf's level asks for beyond that. */
  readonly forShelf: number;
  /** More of strip and belt, so that the pieces can be cut from whole rolls. */
  readonly forCutting: number;
  /** What is to be bought: the sum of the three. */
  readonly toOrder: number;
  /** Of what is bought for joints, by when it must be there; ascending. */
  readonly before: readonly DueBefore[];
  /** Sites that it is delivered to, each apart; one delivery of all that a supplier sells when it is not given. */
  readonly sites?: readonly string[];
}

interface OrderTerms {
  /** Share on top by kind of item, for what is spoilt; 0 where it is not given. */
  readonly waste?: Partial<Readonly<Record<ItemKind, number>>>;
  /** By item: counts of the shelf, and of orders not yet come. Several entries of one item add up. */
  readonly shelf?: readonly Stocked[];
  readonly onOrder?: readonly Stocked[];
  /** What the shelf is to hold, by item. */
  readonly levels?: readonly Stocked[];
}

export interface Stocked {
  readonly item: Item;
  readonly quantity: number;
  /** Day on which it comes, of what is on order; in time for every joint when it is not given. */
  readonly day?: number;
  /** Where it is or goes to, of several sites. */
  readonly site?: string | undefined;
}

function stockByItem(stock: readonly Stocked[], argument: string): Map<string, Stocked[]> {
  const entries = new Map<string, Stocked[]>();
  for (const one of stock) {
    const { item, quantity } = one;
    if (!(Number.isFinite(quantity) && quantity >= 0))
      throw new Refusal(argument, `must be at least 0; ${item.kind} ${item.name} has ${quantity}`);
    entries.set(itemKey(item), [...(entries.get(itemKey(item)) ?? []), one]);
  }
  return entries;
}

const total = (stock: readonly Stocked[] = []): number => stock.reduce((sum, { quantity }) => sum + quantity, 0);

/** Smaller parts of a need are none: units that were converted leave such crumbs. */
const crumb = 1e-9;

/** What is lacking for the joints due up to each of their days, with what is there and has come by then. */
function dueBefore(
  sources: OrderLine['sources'],
  share: number,
  onShelf: number,
  onOrder: readonly Stocked[],
): DueBefore[] {
  const days = [...new Set(sources.flatMap(({ due }) => (due === undefined ? [] : [due])))].toSorted(
    (one, other) => one - other,
  );
  let most = 0;
  return days.flatMap((day): DueBefore[] => {
    const need = sources.reduce(
      (sum, { due, quantity }) => (due !== undefined && due <= day ? sum + quantity : sum),
      0,
    );
    const there = onShelf + total(onOrder.filter((one) => (one.day ?? Number.NEGATIVE_INFINITY) <= day));
    const lack = need * (1 + share) - there;
    if (lack <= Math.max(most, crumb * need)) return [];
    most = lack;
    return [{ day: Math.floor(day) + 1, quantity: lack }];
  });
}

/** Needs by item, in the order in which the items came. */
function byItem(needs: readonly Need[]): Map<string, { readonly item: Item; readonly needs: Need[] }> {
  const groups = new Map<string, { readonly item: Item; readonly needs: Need[] }>();
  for (const need of needs) {
    if (!(Number.isFinite(need.quantity) && need.quantity >= 0))
      throw new Refusal(
        'quantity',
        `must be at least 0; belt ${need.belt} has ${need.quantity} of ${need.item.kind} ${need.item.name}`,
      );
    const key = itemKey(need.item);
    const group = groups.get(key) ?? { item: need.item, needs: [] };
    group.needs.push(need);
    groups.set(key, group);
  }
  return groups;
}

/**
 * The order list: one line an item, by kind and then in the order of the belts; items that only the shelf lacks after
 * those of joints.
 */
export function orderList(
  needs: readonly Need[],
  { waste = {}, shelf = [], onOrder = [], levels = [] }: OrderTerms = {},
): OrderLine[] {
  for (const [kind, share] of Object.entries(waste)) {
    if (!(share >= 0 && share <= 1))
      throw new Refusal('waste', `must be a share from 0 to 1; ${kind} has ${share}. Five per cent is 0.05`);
  }
  const groups = byItem(needs);
  const [shelved, ordered, kept] = [
    stockByItem(shelf, 'shelf'),
    stockByItem(onOrder, 'onOrder'),
    stockByItem(levels, 'levels'),
  ];
  const line = (item: Item, own: readonly Need[]): OrderLine => {
    const key = itemKey(item);
    const sources = own.map(({ belt, area, month, due, quantity }) => ({
      belt,
      area,
      month,
      ...(due === undefined ? {} : { due }),
      quantity,
    }));
    const need = sources.reduce((sum, { quantity }) => sum + quantity, 0);
    const share = waste[item.kind] ?? 0;
    const [onShelf, coming, shelfLevel] = [total(shelved.get(key)), total(ordered.get(key)), total(kept.get(key))];
    const before = dueBefore(sources, share, onShelf, ordered.get(key) ?? []);
    const short = need * (1 + share) - onShelf - coming;
    const inTime = Math.max(short, before.at(-1)?.quantity ?? 0);
    const forJoints = inTime > crumb * need ? inTime : 0;
    const beyond = need * (1 + share) + shelfLevel - onShelf - coming - forJoints;
    const forShelf = beyond > crumb * (need + shelfLevel) ? beyond : 0;
    return {
      item,
      sources,
      need,
      allowance: need * share,
      shelfLevel,
      shelf: onShelf,
      onOrder: coming,
      late: forJoints > 0 ? inTime - short : 0,
      forJoints,
      forShelf,
      forCutting: 0,
      toOrder: forJoints + forShelf,
      before,
    };
  };
  const lines = [...groups.values()].map((group) => line(group.item, group.needs));
  const lacking = levels
    .filter(({ item }, place) => levels.findIndex((one) => itemKey(one.item) === itemKey(item)) === place)
    .filter(({ item }) => !groups.has(itemKey(item)))
    .map(({ item }) => line(item, []))
    .filter(({ toOrder }) => toOrder > 0);
  return [...lines, ...lacking].toSorted(
    (one, other) => itemKinds.indexOf(one.item.kind) - itemKinds.indexOf(other.item.kind),
  );
}
