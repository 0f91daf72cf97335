import fc from 'fast-check';
import { type RandomState, randomWhole } from '../../src/random/random-numbers.ts';

/**
 * Records whose fields draw independently of each other: what a field gets depends on the record's seed and on the
 * field's own name, not on which other fields there are. A new column thus changes no other column of a random book,
 * and a test that holds for its seeds goes on holding for them.
 */

type Fields<T> = { readonly [K in keyof T]: fc.Arbitrary<T[K]> };

type Contexts<T> = { readonly [K in keyof T]?: unknown };

/** Hash of a text in 32 bits. Source: FNV-1a, G. Fowler, L. C. Noll and K.-P. Vo, from memory. */
const hash = (text: string): number =>
  [...text].reduce((sum, letter) => Math.imul(sum ^ (letter.codePointAt(0) ?? 0), 0x01000193), 0x811c9dc5) >>> 0;

interface Generator {
  readonly clone: () => Generator;
  readonly next: () => number;
  readonly jump: () => void;
  readonly getState: () => readonly number[];
}

/** The program's own random numbers as fast-check takes them: whole ones of 32 bits with a sign. */
function generatorOf(state: RandomState): Generator {
  const ahead = (steps: number): void => {
    for (let step = 0; step < steps; step += 1) randomWhole(state);
  };
  return {
    clone: () => generatorOf([...state]),
    next: () => randomWhole(state) | 0,
    jump: () => ahead(64),
    getState: () => [...state],
  };
}

function streamOf(seed: number, name: string): fc.Random {
  const word = (place: number): number => hash(`${place} ${seed} ${name}`);
  // One odd word keeps the state off all zeros, from which the generator would not move.
  const random = new fc.Random(generatorOf([word(0), word(1), word(2), word(3) | 1]));
  for (let step = 0; step < 8; step += 1) random.nextInt();
  return random;
}

class OwnStreams<T extends object> extends fc.Arbitrary<T> {
  readonly #owner: string;
  readonly #fields: Fields<T>;
  readonly #names: readonly (keyof T & string)[];

  constructor(owner: string, fields: Fields<T>) {
    super();
    this.#owner = owner;
    this.#fields = fields;
    this.#names = Object.keys(fields) as (keyof T & string)[];
  }

  override generate(random: fc.Random, bias: number | undefined): fc.Value<T> {
    const seed = random.nextInt();
    const drawn = this.#names.map(
      (name) => [name, this.#fields[name].generate(streamOf(seed, `${this.#owner}!${name}`), bias)] as const,
    );
    return new fc.Value(
      Object.fromEntries(drawn.map(([name, { value }]) => [name, value])) as T,
      Object.fromEntries(drawn.map(([name, { context }]) => [name, context])),
    );
  }

  override canShrinkWithoutContext(_: unknown): _ is T {
    return false;
  }

  /** One field made simpler, the others kept. */
  override shrink(value: T, context: unknown): fc.Stream<fc.Value<T>> {
    const contexts = (context ?? {}) as Contexts<T>;
    return fc.Stream.nil<fc.Value<T>>().join(
      ...this.#names.map((name) =>
        this.#fields[name]
          .shrink(value[name], contexts[name])
          .map(
            (simpler) => new fc.Value({ ...value, [name]: simpler.value }, { ...contexts, [name]: simpler.context }),
          ),
      ),
    );
  }
}

/** A record of fields, each drawn from a stream that its owner's and its own name seed. */
export const ownStreams = <T extends object>(owner: string, fields: Fields<T>): fc.Arbitrary<T> =>
  new OwnStreams(owner, fields);
