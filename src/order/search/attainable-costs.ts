/** Costs that whole numbers of rolls can come to: between two of them no plan lies. */
export interface AttainableCosts {
  /** The least that is not below. */
  readonly from: (cost: number) => number;
  /** The greatest that is less. */
  readonly below: (cost: number) => number;
}

/** Every whole number: what is known of sums that are not looked into. */
const everyWhole: AttainableCosts = { from: (cost) => cost, below: (cost) => cost - 1 };

/** Costs above which they are not listed; so large a sum of rolls has few gaps left. */
const mostListed = 2e6;

/** Sums of the given whole costs, each any number of times, up to `most`. */
export function attainableCosts(costs: readonly number[], most: number): AttainableCosts {
  const coins = [...new Set(costs.filter((cost) => cost > 0))];
  if (coins.length === 0 || most > mostListed) return everyWhole;
  const reached = new Uint8Array(most + 1);
  reached[0] = 1;
  for (const coin of coins) {
    for (let sum = coin; sum <= most; sum += 1) {
      if (reached[sum - coin] === 1) reached[sum] = 1;
    }
  }
  return {
    from: (cost) => {
      const place = cost > most ? -1 : reached.indexOf(1, Math.max(0, cost));
      return place < 0 ? cost : place;
    },
    below: (cost) => (cost <= 0 ? cost - 1 : reached.lastIndexOf(1, Math.min(cost - 1, most))),
  };
}
