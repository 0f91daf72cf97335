/**
 * A small random generator with a fixed sequence for each seed: the same on every machine.
 *
 * x becomes 48271 x mod 2^31 - 1. Good enough for chances that are read to two digits; not for secrets.
 * Source: S. K. Park and K. W. Miller, Communications of the ACM 31, 1988, with the multiplier of 1993; minstd_rand of
 * ISO C++ [rand.predef], whose 10000th number from seed 1 is 399268537.
 */
const modulus = 2_147_483_647;
const multiplier = 48_271;

/** Whole numbers from 1 to 2^31 - 2. */
export function minimalStandard(seed: number): () => number {
  if (!Number.isInteger(seed) || seed < 1 || seed >= modulus) throw new RangeError(`a seed is a whole number from 1 to ${modulus - 1}; ${seed} was given`);
  let state = seed;
  return () => {
    state = (state * multiplier) % modulus;
    return state;
  };
}

export interface Chance {
  /** Evenly between 0 and 1, neither of them. */
  readonly even: () => number;
  /** Waiting time for what comes once in a unit of time on average. */
  readonly waiting: () => number;
  readonly normal: () => number;
  /** A gamma quantity of the given shape and scale 1. */
  readonly gamma: (shape: number) => number;
}

/** Sources: Box and Muller 1958 (normal); G. Marsaglia and W. W. Tsang, ACM TOMS 26, 2000 (gamma). */
export function chance(seed: number): Chance {
  const next = minimalStandard(seed);
  // The first numbers from a small seed are small themselves.
  for (let number = 0; number < 4; number += 1) next();
  const even = (): number => next() / modulus;
  const normal = (): number => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even());
  const gamma = (shape: number): number => {
    if (shape < 1) return gamma(shape + 1) * even() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(even()) < x ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  return { even, waiting: () => -Math.log(even()), normal, gamma };
}
