import { type CutProblem, fillOf, isInTime, keptOf, type Pattern, type Stock, usefulSpent } from './cut-problem.ts';

/**
 * Patterns worth cutting at given prices of the pieces.
 *
 * A knapsack of whole steps by dynamic programming, each size at most as often as it is wanted.
 * Source: P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961 and 11, 1963.
 */

/** Prices that a linear program puts on its rows. */
export interface Prices {
  /** Of one more piece of each size. */
  readonly pieces: readonly number[];
  /** Of one more roll of each stock, 0 or less. */
  readonly rolls: readonly number[];
  /** Of one step of money more to spend, 0 or less: in the search for useful offcuts, where the cost is fixed. */
  readonly money: number;
}

/** What the search minimises: the rolls' cost, or the useful length that is spent. */
export type Aim = 'cost' | 'useful';

/** What a pattern counts in the aim, beside what its pieces are worth. */
export function aimOf(problem: CutProblem, aim: Aim, pattern: Pattern): number {
  const stock = problem.stocks[pattern.stock];
  if (stock === undefined) return 0;
  return aim === 'cost' ? stock.cost : usefulSpent(problem, stock, fillOf(problem, pattern));
}

interface Priced {
  readonly pattern: Pattern;
  /** What one such roll adds to the aim at these prices; below 0 it is worth cutting. */
  readonly reduced: number;
}

/** A size taken 1, 2, 4, … times and the rest: any count up to the demand is a sum of these. */
function multiples(most: number): number[] {
  const parts: number[] = [];
  for (let part = 1, left = most; left > 0; part *= 2) {
    parts.push(Math.min(part, left));
    left -= part;
  }
  return parts;
}

interface Bundle {
  readonly size: number;
  readonly count: number;
  readonly length: number;
  readonly worth: number;
}

function bundlesOf({ sizes }: CutProblem, { pieces }: Prices, longest: number, arrives: number): Bundle[] {
  return sizes.flatMap((wanted, size) => {
    const { length, demand } = wanted;
    const price = pieces[size] ?? 0;
    if (price <= 1e-12 || length > longest || !isInTime({ arrives }, wanted)) return [];
    return multiples(Math.min(demand, Math.floor(longest / length))).map((count) => ({
      size,
      count,
      length: count * length,
      worth: count * price,
    }));
  });
}

/**
 * The best pattern of every stock at these prices; one that none fits into has an infinite reduced price.
 *
 * A roll that nothing is cut from is no pattern, though it would leave most. Where no piece is worth anything, the
 * shortest one alone leaves most.
 */
export function bestPatterns(problem: CutProblem, aim: Aim, prices: Prices): Priced[] {
  const best = new Map(
    [...new Set(problem.stocks.map(({ arrives }) => arrives))].map((arrives) => [
      arrives,
      bestOfArrival(problem, aim, prices, arrives),
    ]),
  );
  return problem.stocks.map(
    (stock, place) =>
      best.get(stock.arrives)?.(stock, place) ?? {
        pattern: { stock: place, counts: [] },
        reduced: Number.POSITIVE_INFINITY,
      },
  );
}

/** The best pattern of each stock that comes on one day: its pieces are those that can wait so long. */
function bestOfArrival(
  problem: CutProblem,
  aim: Aim,
  prices: Prices,
  arrives: number,
): (stock: Stock, place: number) => Priced {
  const longest = Math.max(
    0,
    ...problem.stocks.filter((stock) => stock.arrives === arrives).map(({ length }) => length),
  );
  const bundles = bundlesOf(problem, prices, longest, arrives);
  const shortest = problem.sizes.findLastIndex((wanted) => isInTime({ arrives }, wanted));
  const best = new Float64Array(longest + 1).fill(Number.NEGATIVE_INFINITY);
  best[0] = 0;
  const taken = bundles.map(({ length, worth }) => {
    const marks = new Uint8Array(longest + 1);
    for (let fill = longest; fill >= length; fill -= 1) {
      const worthwhile = (best[fill - length] ?? 0) + worth;
      if (worthwhile > (best[fill] ?? 0)) {
        best[fill] = worthwhile;
        marks[fill] = 1;
      }
    }
    return marks;
  });
  const patternAt = (stock: number, filled: number): Pattern => {
    const counts = new Map<number, number>();
    let fill = filled;
    for (let place = bundles.length - 1; place >= 0; place -= 1) {
      const bundle = bundles[place];
      if (bundle === undefined || taken[place]?.[fill] !== 1) continue;
      counts.set(bundle.size, (counts.get(bundle.size) ?? 0) + bundle.count);
      fill -= bundle.length;
    }
    return { stock, counts: [...counts].toSorted(([one], [other]) => one - other) };
  };
  return (stock, place) => {
    const fixed = -(prices.rolls[place] ?? 0) - prices.money * stock.cost;
    const counted = (fill: number): number => (aim === 'cost' ? stock.cost : usefulSpent(problem, stock, fill));
    let [least, at] = [Number.POSITIVE_INFINITY, 0];
    for (let fill = 1; fill <= stock.length; fill += 1) {
      const reduced = counted(fill) - (best[fill] ?? 0);
      if (reduced < least) [least, at] = [reduced, fill];
    }
    const alone = problem.sizes[shortest];
    if (
      alone !== undefined &&
      alone.length <= stock.length &&
      counted(alone.length) - (prices.pieces[shortest] ?? 0) < least
    ) {
      return {
        pattern: { stock: place, counts: [[shortest, 1]] },
        reduced: counted(alone.length) - (prices.pieces[shortest] ?? 0) + fixed,
      };
    }
    return { pattern: patternAt(place, at), reduced: least + fixed };
  };
}

/** Most numbers that the tables of an enumeration may hold. */
const largestTable = 6e6;

/**
 * For every size: the most that it and the shorter sizes are worth in a rest of each length of a roll that comes so.
 */
function worthOfRest(problem: CutProblem, { pieces }: Prices, longest: number, arrives: number): Float64Array[] {
  const tables = [new Float64Array(longest + 1)];
  for (let size = problem.sizes.length - 1; size >= 0; size -= 1) {
    const table = Float64Array.from(tables[0] ?? []);
    const wanted = problem.sizes[size] ?? { length: 1, demand: 0, due: 0 };
    const { length, demand } = wanted;
    const price = Math.max(0, pieces[size] ?? 0);
    if (price > 0 && length <= longest && isInTime({ arrives }, wanted)) {
      for (const count of multiples(Math.min(demand, Math.floor(longest / length)))) {
        for (let fill = longest; fill >= count * length; fill -= 1) {
          table[fill] = Math.max(table[fill] ?? 0, (table[fill - count * length] ?? 0) + count * price);
        }
      }
    }
    tables.unshift(table);
  }
  return tables;
}

/** Whether no piece more fits into what is left of a roll. */
const isFull = (sizes: CutProblem['sizes'], stock: Stock, counts: Pattern['counts'], left: number): boolean =>
  sizes.every(
    (wanted, size) =>
      wanted.length > left ||
      !isInTime(stock, wanted) ||
      (counts.find(([of]) => of === size)?.[1] ?? 0) >= wanted.demand,
  );

/**
 * Every pattern that adds at most `gap` to the aim at these prices; undefined when there are more than `most`.
 *
 * A plan that is better than the best known by more than its distance from the bound can only hold such patterns, so an
 * integer program over them alone is exact. For the cost only full patterns count: a piece more does no harm there.
 */
export function patternsWithin(
  problem: CutProblem,
  aim: Aim,
  prices: Prices,
  gap: number,
  most: number,
): Pattern[] | undefined {
  const longest = Math.max(0, ...problem.stocks.map(({ length }) => length));
  const { sizes, stocks } = problem;
  const days = [...new Set(stocks.map(({ arrives }) => arrives))];
  if (days.length * (sizes.length + 1) * (longest + 1) > largestTable) return undefined;
  const rests = new Map(days.map((arrives) => [arrives, worthOfRest(problem, prices, longest, arrives)]));
  const found: Pattern[] = [];
  let steps = 0;

  /** False when there are too many. */
  const descend = (
    place: number,
    size: number,
    left: number,
    worth: number,
    counts: readonly (readonly [number, number])[],
  ): boolean => {
    const stock = stocks[place];
    steps += 1;
    if (stock === undefined || steps > 40 * most) return false;
    const fill = stock.length - left;
    const fixed = -(prices.rolls[place] ?? 0) - prices.money * stock.cost;
    const counted =
      aim === 'cost' ? stock.cost : (stock.owned ? stock.length - problem.sawLoss : 0) - keptOf(problem, stock, fill);
    if (counted + fixed - worth - (rests.get(stock.arrives)?.[size]?.[left] ?? 0) > gap) return true;
    const next = sizes[size];
    if (next === undefined) {
      if (counts.length > 0 && (aim === 'useful' || isFull(sizes, stock, counts, left)))
        found.push({ stock: place, counts });
      return found.length <= most;
    }
    const largest = isInTime(stock, next) ? Math.min(next.demand, Math.floor(left / next.length)) : 0;
    for (let count = largest; count >= 0; count -= 1) {
      const more = count === 0 ? counts : [...counts, [size, count] as const];
      if (
        !descend(
          place,
          size + 1,
          left - count * next.length,
          worth + count * Math.max(0, prices.pieces[size] ?? 0),
          more,
        )
      )
        return false;
    }
    return true;
  };
  return stocks.every((stock, place) => descend(place, 0, stock.length, 0, [])) ? found : undefined;
}
