/**
 * Random numbers that are the same for the same seed on every machine.
 *
 * The generator is xoshiro128** 1.1 of D. Blackman and S. Vigna (2018, public domain), good for simulation and not for
 * secrets. Its state is filled from the seed by splitmix32: steps of the golden ratio, mixed like the last step of
 * MurmurHash3 (from memory).
 *
 */

/** For tests: streams of their own are drawn. */
export type RandomState = [number, number, number, number];

const rotated = (value: number, by: number): number => (value << by) | (value >>> (32 - by));

/**
 * Whole numbers from 0 to 2^32 - 1, from a state that is not all zeros; the state moves on with every call.
 *
 * For tests: held to its distribution.
 */
export function randomWhole(state: RandomState): number {
  const result = Math.imul(rotated(Math.imul(state[1], 5), 7), 9) >>> 0;
  const shifted = state[1] << 9;
  state[2] ^= state[0];
  state[3] ^= state[1];
  state[1] ^= state[2];
  state[0] ^= state[3];
  state[2] ^= shifted;
  state[3] = rotated(state[3], 11);
  return result;
}

function seeded(seed: number): RandomState {
  let counter = Math.trunc(seed) >>> 0;
  const next = (): number => {
    counter = (counter + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(counter ^ (counter >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return (mixed ^ (mixed >>> 16)) >>> 0;
  };
  return [next(), next(), next(), next()];
}

/**
 * A number above 0 and below 1, in steps of 2^-52: with one bit more, the half that keeps it off 0 would round up to 1.
 * The state moves on by two.
 *
 * For tests: held to its distribution.
 */
export const between0And1 = (state: RandomState): number =>
  ((randomWhole(state) >>> 6) * 2 ** 26 + (randomWhole(state) >>> 6) + 0.5) / 2 ** 52;

/** A source of numbers above 0 and below 1. Seeds are whole numbers; they count modulo 2^32. */
export function randomNumbers(seed: number): () => number {
  const state = seeded(seed);
  return () => between0And1(state);
}
