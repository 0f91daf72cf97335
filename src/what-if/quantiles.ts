/** Quantiles of what was drawn, ascending, and how sure they are. */

/**
 * A quantile between two draws, evenly (Hyndman and Fan's seventh, The American Statistician 50, 1996, from memory).
 */
export function quantile(ascending: Float64Array, share: number): number {
  const place = share * (ascending.length - 1);
  const below = Math.floor(place);
  const [low = NaN, high = low] = [ascending[below], ascending[Math.min(below + 1, ascending.length - 1)]];
  return low + (place - below) * (high - low);
}

/** A half-width of two in a hundred: the normal deviate within whose distance 99 of 100 lie. */
const ninetyNine = 2.5758293035489;

/**
 * Between which draws the true quantile lies in 99 of 100 simulations: the number of draws below it is binomial, taken
 * for normal. For more than some hundred draws.
 *
 * For tests: quantiles are held to it.
 */
export function quantileInterval(ascending: Float64Array, share: number): readonly [number, number] {
  const count = ascending.length;
  const half = ninetyNine * Math.sqrt(count * share * (1 - share));
  const at = (place: number): number => ascending[Math.min(count - 1, Math.max(0, place))] ?? NaN;
  return [at(Math.floor(count * share - half) - 1), at(Math.ceil(count * share + half))];
}

/** Half of the width within which a share that was counted is right in 99 of 100 simulations (Agresti and Coull). */
export function shareMargin(share: number, count: number): number {
  const more = count + ninetyNine ** 2;
  const middle = (share * count + ninetyNine ** 2 / 2) / more;
  return ninetyNine * Math.sqrt((middle * (1 - middle)) / more);
}
