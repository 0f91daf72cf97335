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
    quantity * joints === 0 ? [] : [{ item, belt, area, month, quantity: quantity * joints }],
  );
}

export interface OrderLine {
  readonly item: Item;
  /** Belt by belt, in the order in which the belts came; `need` is their sum, added up in this order. */
  readonly sources: readonly Omit<Need, 'item'>[];
  readonly need: number;
  /** On top, for what is spoilt. */
  readonly allowance: number;
  readonly shelf: number;
  readonly onOrder: number;
  /** What is still to be bought: need and allowance less shelf and on order, not below 0. */
  readonly toOrder: number;
}

interface OrderTerms {
  /** Share on top by kind of item, for what is spoilt; 0 where it is not given. */
  readonly waste?: Partial<Readonly<Record<ItemKind, number>>>;
  /** By item: counts of the shelf, and of orders not yet come. Several entries of one item add up. */
  readonly shelf?: readonly Stocked[];
  readonly onOrder?: readonly Stocked[];
}

export interface Stocked {
  readonly item: Item;
  readonly quantity: number;
}

function stockByItem(stock: readonly Stocked[], argument: string): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { item, quantity } of stock) {
    if (!(Number.isFinite(quantity) && quantity >= 0))
      throw new Refusal(argument, `must be at least 0; ${item.kind} ${item.name} has ${quantity}`);
    sums.set(itemKey(item), (sums.get(itemKey(item)) ?? 0) + quantity);
  }
  return sums;
}

/**
 * The order list: one line an item, by kind and then in the order of the belts.
 *
 * Differences smaller than a part in 10^9 of the need are no need: units that were converted leave such crumbs.
 */
export function orderList(
  needs: readonly Need[],
  { waste = {}, shelf = [], onOrder = [] }: OrderTerms = {},
): OrderLine[] {
  const groups = new Map<string, Need[]>();
  for (const need of needs) {
    if (!(Number.isFinite(need.quantity) && need.quantity >= 0))
      throw new Refusal(
        'quantity',
        `must be at least 0; belt ${need.belt} has ${need.quantity} of ${need.item.kind} ${need.item.name}`,
      );
    const group = groups.get(itemKey(need.item));
    if (group === undefined) groups.set(itemKey(need.item), [need]);
    else group.push(need);
  }
  for (const [kind, share] of Object.entries(waste)) {
    if (!(share >= 0 && share <= 1))
      throw new Refusal('waste', `must be a share from 0 to 1; ${kind} has ${share}. Five per cent is 0.05`);
  }
  const [shelved, ordered] = [stockByItem(shelf, 'shelf'), stockByItem(onOrder, 'onOrder')];
  return [...groups]
    .flatMap(([key, group]): OrderLine[] => {
      const item = group[0]?.item;
      if (item === undefined) return [];
      const sources = group.map(({ belt, area, month, quantity }) => ({ belt, area, month, quantity }));
      const need = sources.reduce((sum, { quantity }) => sum + quantity, 0);
      const allowance = need * (waste[item.kind] ?? 0);
      const [onShelf, coming] = [shelved.get(key) ?? 0, ordered.get(key) ?? 0];
      const short = need + allowance - onShelf - coming;
      return [
        { item, sources, need, allowance, shelf: onShelf, onOrder: coming, toOrder: short > 1e-9 * need ? short : 0 },
      ];
    })
    .toSorted((one, other) => itemKinds.indexOf(one.item.kind) - itemKinds.indexOf(other.item.kind));
}
