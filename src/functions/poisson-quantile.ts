/**
 * The least count that a Poisson quantity of this mean does not exceed with at least the given probability.
 *
 * Chances are taken relative to that of the most likely count and divided by their sum, so nothing overflows or
 * vanishes however large the mean. Each tail is added up from its far end, where the terms are small, so that a
 * probability close to 1 is still told apart from 1. The work grows with the root of the mean.
 */
export function poissonQuantile(mean: number, probability: number): number {
  if (mean === 0) return 0;
  const mode = Math.floor(mean);
  const below = chances(mode, (count, chance) => (chance * count) / mean, -1);
  const above = chances(mode + 1, (count, chance) => (chance * mean) / (count + 1), 1, mean / (mode + 1));
  const total = fromTheFarEnd(below) + fromTheFarEnd(above);

  let beyond = 0;
  for (let place = above.length - 1; place >= 0; place -= 1) {
    beyond += above[place] ?? 0;
    if (beyond > (1 - probability) * total) return mode + 1 + place;
  }
  let reached = 0;
  for (let place = below.length - 1; place > 0; place -= 1) {
    reached += below[place] ?? 0;
    if (reached >= probability * total) return mode - place;
  }
  return mode;
}

/** Chances relative to the mode's, from `count` outwards until they no longer matter. */
function chances(count: number, next: (count: number, chance: number) => number, step: 1 | -1, first = 1): number[] {
  const found: number[] = [];
  for (let chance = first; chance > 1e-300; chance = next(count, chance), count += step) found.push(chance);
  return found;
}

const fromTheFarEnd = (list: readonly number[]): number => list.reduceRight((sum, chance) => sum + chance, 0);
