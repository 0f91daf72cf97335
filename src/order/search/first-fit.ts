import { costOf, type CutProblem, type CutSolution, isInTime, type Pattern } from './cut-problem.ts';

/** A plan to begin with: the longest piece first, into the first roll that still holds it. */

interface OpenRoll {
  readonly stock: number;
  left: number;
  readonly counts: Map<number, number>;
}

/** First fit, longest first, over rolls opened in the given order of stocks. */
function firstFit(
  { sizes, stocks }: CutProblem,
  demands: readonly number[],
  order: readonly number[],
  available: readonly number[],
): CutSolution {
  const open: OpenRoll[] = [];
  const unopened = [...available];
  const missing = sizes.map(() => 0);
  for (const [size, wanted] of sizes.entries()) {
    const { length } = wanted;
    const fits = (place: number): boolean => {
      const stock = stocks[place];
      return stock !== undefined && stock.length >= length && isInTime(stock, wanted);
    };
    for (let piece = 0; piece < (demands[size] ?? 0); piece += 1) {
      let roll = open.find(({ stock, left }) => left >= length && fits(stock));
      if (roll === undefined) {
        const stock = order.find((place) => (unopened[place] ?? 0) > 0 && fits(place));
        if (stock === undefined) {
          missing[size] = (missing[size] ?? 0) + 1;
          continue;
        }
        unopened[stock] = (unopened[stock] ?? 0) - 1;
        roll = { stock, left: stocks[stock]?.length ?? 0, counts: new Map() };
        open.push(roll);
      }
      roll.left -= length;
      roll.counts.set(size, (roll.counts.get(size) ?? 0) + 1);
    }
  }
  return { uses: open.map(({ stock, counts }) => ({ pattern: { stock, counts: [...counts] }, times: 1 })), missing };
}

/**
 * The cheapest of the first-fit plans: rolls on the shelf first, the shortest first, then one kind of bought roll
 * before the others.
 */
export function firstFitPlan(
  problem: CutProblem,
  demands: readonly number[] = problem.sizes.map(({ demand }) => demand),
  available: readonly number[] = problem.stocks.map((stock) => stock.available),
): CutSolution {
  const places = [...problem.stocks.keys()];
  const stockAt = (place: number): { length: number; cost: number; owned: boolean } =>
    problem.stocks[place] ?? { length: 0, cost: 0, owned: false };
  const owned = places
    .filter((place) => stockAt(place).owned)
    .toSorted((one, other) => stockAt(one).length - stockAt(other).length);
  const bought = places
    .filter((place) => !stockAt(place).owned)
    .toSorted((one, other) => stockAt(one).cost / stockAt(one).length - stockAt(other).cost / stockAt(other).length);
  const orders =
    bought.length === 0
      ? [owned]
      : bought.flatMap((first) => {
          const order = [first, ...bought.filter((place) => place !== first)];
          return owned.length === 0
            ? [order]
            : [
                [...owned, ...order],
                [...owned.toReversed(), ...order],
                [...order, ...owned],
              ];
        });
  const plans = orders.map((order) => firstFit(problem, demands, order, available));
  return plans.reduce((best, plan) => (costOf(problem, plan) < costOf(problem, best) ? plan : best));
}

/** The whole part of a fractional plan, and first fit for the rest. */
export function roundedPlan(problem: CutProblem, patterns: readonly Pattern[], values: readonly number[]): CutSolution {
  const demands = problem.sizes.map(({ demand }) => demand);
  const available = problem.stocks.map((stock) => stock.available);
  const uses = patterns.flatMap((pattern, place) => {
    const fitting = Math.min(
      Math.floor((values[place] ?? 0) + 1e-6),
      available[pattern.stock] ?? 0,
      ...pattern.counts.map(([size, count]) => Math.ceil((demands[size] ?? 0) / count)),
    );
    if (fitting <= 0) return [];
    available[pattern.stock] = (available[pattern.stock] ?? 0) - fitting;
    for (const [size, count] of pattern.counts) demands[size] = Math.max(0, (demands[size] ?? 0) - fitting * count);
    return [{ pattern, times: fitting }];
  });
  const rest = firstFitPlan(problem, demands, available);
  return { uses: [...uses, ...rest.uses], missing: rest.missing };
}
