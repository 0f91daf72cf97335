import { normalShare } from '../formula/spreadsheet/normal-distribution.ts';
import { normalQuantile } from '../functions/normal-quantile.ts';
import { randomNumbers } from '../random/random-numbers.ts';
import type { Belt } from '../records/belt.ts';
import { type Correlation, correlationMatrix, lowerTriangle } from './correlations.ts';
import type { Tolerances } from './effects.ts';
import { type Factor, factorInput, factorValue } from './factor.ts';
import type { Tolerance } from './tolerance.ts';

/** True values of uncertain factors, drawn by chance, a block of draws at a time. */

/** 19 of 20 lie within so many standard deviations. */
const deviations = normalQuantile(0.975);

/**
 * What names a stream. Low, likely and high figures of one rate are wrong together: they draw the same numbers.
 */
export const streamName = (name: string): string => name.replace(/(?:Low|Likely|High)$/, '');

/** A seed and a name as one seed (FNV-1a, 32 bits). */
function seedOf(seed: number, name: string): number {
  let mixed = 0x811c9dc5 ^ (Math.trunc(seed) >>> 0);
  for (const letter of name) mixed = Math.imul(mixed ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  return mixed;
}

/** One factor with the values that were drawn. */
export interface Drawn {
  readonly factor: Factor;
  readonly values: Float64Array;
}

/** One source of numbers, and the factors that follow it: the same for a seed, whatever else is drawn. */
interface Stream {
  readonly name: string;
  readonly random: () => number;
  /** Numbers evenly between 0 and 1, and their normal scores where a shape or a correlation needs them. */
  readonly chances: Float64Array;
  readonly scores: Float64Array;
  readonly drawn: (Drawn & { readonly value: number; readonly tolerance: Tolerance; readonly limit: Limit })[];
}

type Limit = (drawn: number) => number;

/** What a factor's cell may hold: the nearest to what was drawn, and of an open bound the value itself. */
function limits(factor: Factor, belt: Belt, value: number): Limit {
  const { min = -Infinity, max = Infinity, above } = factorInput(factor, belt) ?? {};
  return (number) => {
    const drawn = Math.min(max, Math.max(min, number));
    return above !== undefined && drawn <= above ? value : drawn;
  };
}

interface DrawnAsked {
  readonly seed: number;
  readonly tolerances: Tolerances;
  readonly correlations: readonly Correlation[];
  /** Draws in a block. */
  readonly size: number;
}

/** How the scores of a stream follow from those of the streams that it is correlated with, its own among them. */
interface Mixture {
  readonly stream: Stream;
  readonly of: readonly { readonly independent: Float64Array; readonly weight: number }[];
}

/** The uncertain ones of some factors. What a belt's own are correlated with may be `shared` by all belts. */
export class DrawnFactors {
  readonly all: readonly Drawn[];
  readonly #streams: readonly Stream[];
  readonly #mixtures: readonly Mixture[];
  /** Independent scores of correlated streams, by name, in the order of their matrix. */
  readonly #independent = new Map<string, Float64Array>();

  constructor(belt: Belt, factors: readonly Factor[], asked: DrawnAsked, shared?: DrawnFactors) {
    const { seed, tolerances, size } = asked;
    const streams = new Map<string, Stream>();
    this.all = factors.flatMap((factor): Drawn[] => {
      const value = factorValue(factor, belt);
      const tolerance = tolerances(factor, belt);
      if (typeof value !== 'number' || tolerance === undefined) return [];
      const name = streamName(factor.name);
      const whose = factor.of === 'belt' ? `${belt.name.toLowerCase()}!` : '';
      const stream = streams.get(name) ?? {
        name,
        random: randomNumbers(seedOf(seed, `${whose}${name}`)),
        chances: new Float64Array(size),
        scores: new Float64Array(size),
        drawn: [],
      };
      streams.set(name, stream);
      const one = { factor, values: new Float64Array(size), value, tolerance, limit: limits(factor, belt, value) };
      stream.drawn.push(one);
      return [one];
    });
    this.#streams = [...streams.values()];
    this.#mixtures = this.#mixed(asked, shared);
  }

  #mixed({ correlations, size }: DrawnAsked, shared: DrawnFactors | undefined): Mixture[] {
    const isCorrelated = (name: string): boolean =>
      correlations.some(({ one, other }) => one === name || other === name);
    const own = this.#streams.filter(({ name }) => isCorrelated(name));
    if (own.length === 0) return [];
    if (shared !== undefined) for (const [name, scores] of shared.#independent) this.#independent.set(name, scores);
    for (const { name } of own) this.#independent.set(name, new Float64Array(size));
    const names = [...this.#independent.keys()];
    const lower = lowerTriangle(correlationMatrix(names, correlations));
    if (lower === undefined) throw new Error('the correlations were not checked before they were drawn');
    return own.map((stream) => {
      const line = lower[names.indexOf(stream.name)] ?? [];
      return {
        stream,
        of: line.map((weight, place) => ({
          independent: this.#independent.get(names[place] ?? '') ?? new Float64Array(size),
          weight,
        })),
      };
    });
  }

  /** Draws the next so many values of every factor. */
  draw(count: number): void {
    for (const { chances, random } of this.#streams)
      for (let index = 0; index < count; index += 1) chances[index] = random();
    const correlated = new Set(this.#mixtures.map(({ stream }) => stream));
    for (const stream of this.#streams) {
      if (correlated.has(stream) || stream.drawn.every(({ tolerance }) => tolerance.shape === 'even')) continue;
      for (let index = 0; index < count; index += 1)
        stream.scores[index] = normalQuantile(stream.chances[index] ?? 0.5);
    }
    for (const { stream } of this.#mixtures) {
      const independent = this.#independent.get(stream.name) ?? stream.scores;
      for (let index = 0; index < count; index += 1) independent[index] = normalQuantile(stream.chances[index] ?? 0.5);
    }
    for (const { stream, of } of this.#mixtures) mix(stream, of, count);
    for (const stream of this.#streams) for (const one of stream.drawn) shape(stream, one, count);
  }
}

function mix({ chances, scores, drawn }: Stream, of: Mixture['of'], count: number): void {
  const even = drawn.some(({ tolerance }) => tolerance.shape === 'even');
  for (let index = 0; index < count; index += 1) {
    let score = 0;
    for (const { independent, weight } of of) score += weight * (independent[index] ?? 0);
    scores[index] = score;
    if (even) chances[index] = normalShare(score);
  }
}

function shape(
  { chances, scores }: Stream,
  { values, value, tolerance: { half, shape: kind }, limit }: Stream['drawn'][number],
  count: number,
): void {
  switch (kind) {
    case 'even':
      for (let index = 0; index < count; index += 1)
        values[index] = limit(value + (2 * (chances[index] ?? 0.5) - 1) * half);
      break;
    case 'normal':
      for (let index = 0; index < count; index += 1)
        values[index] = limit(value + ((scores[index] ?? 0) * half) / deviations);
      break;
    case 'lognormal': {
      // So much more at one end is as much less, by its factor, at the other.
      const width = Math.log1p(half / Math.abs(value));
      for (let index = 0; index < count; index += 1)
        values[index] = limit(value * Math.exp(((scores[index] ?? 0) * width) / deviations));
      break;
    }
  }
}
