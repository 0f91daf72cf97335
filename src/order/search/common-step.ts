function commonDivisor(numbers: readonly number[]): number {
  return numbers.reduce((one, other) => {
    let [large, small] = [one, other];
    while (small > 0) [large, small] = [small, large % small];
    return large;
  }, 0);
}

/**
 * The greatest step that all the whole numbers are multiples of, at least 1; zeros and what is not finite do not count.
 */
export const commonStep = (numbers: readonly number[]): number =>
  Math.max(1, commonDivisor(numbers.filter((number) => Number.isFinite(number) && number > 0)));
