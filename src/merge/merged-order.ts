import type { Side, Three } from './merge-item.ts';

/** An order of things in three books, each thing by a number of its own. */
export type Orders = Three<readonly number[]>;

interface OrderChange {
  readonly here: boolean;
  readonly there: boolean;
  /** Both put what they share in other orders. */
  readonly conflict: boolean;
}

function sameOrder(one: readonly number[], other: readonly number[]): boolean {
  const [inOne, inOther] = [new Set(one), new Set(other)];
  const shared = one.filter((item) => inOther.has(item));
  const others = other.filter((item) => inOne.has(item));
  return shared.every((item, place) => item === others[place]);
}

/** Who put in another order what was there before. */
export function orderChange({ base, mine, theirs }: Orders): OrderChange {
  const [here, there] = [!sameOrder(base, mine), !sameOrder(base, theirs)];
  return { here, there, conflict: here && there && !sameOrder(mine, theirs) };
}

/**
 * All things of both books in one order: that of the book that changed it, or the one chosen, with what only the other
 * has put behind what stands before it there.
 */
export function mergedOrder(orders: Orders, chosen: Side | undefined): readonly number[] {
  const { here, there } = orderChange(orders);
  const side = chosen ?? (there && !here ? 'theirs' : 'mine');
  const [leading, other] = side === 'mine' ? [orders.mine, orders.theirs] : [orders.theirs, orders.mine];
  const [led, held] = [new Set(leading), new Set(other)];
  /** What only the other book has, by what stands before it there; the first ones under undefined. */
  const behind = new Map<number | undefined, number[]>();
  let before: number | undefined;
  for (const item of other) {
    if (led.has(item)) {
      before = item;
      continue;
    }
    const group = behind.get(before);
    if (group === undefined) behind.set(before, [item]);
    else group.push(item);
  }
  const order: number[] = [];
  let waiting = behind.get(undefined) ?? [];
  for (const item of leading) {
    if (held.has(item)) {
      order.push(...waiting);
      waiting = behind.get(item) ?? [];
    }
    order.push(item);
  }
  return [...order, ...waiting];
}
