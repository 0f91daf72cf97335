import type { FaultCode, Matrix, Value } from '../values.ts';

/**
 * A standard spreadsheet function of our own, for those that the engine lacks or computes otherwise than ISO/IEC 29500
 * and other programs do. Pure; `engine-standard.ts` tells the engine.
 */

/** What an argument must be; the engine turns what is given into it, or answers #VALUE!. */
interface Kinds {
  readonly number: number;
  readonly text: string;
  readonly truth: boolean;
  /** Any single value but an error, which goes before. */
  readonly value: Value;
  /** Any single value, errors too. */
  readonly fault: Value;
  /** A range; one value counts as a range of one. Errors in it are among its values. */
  readonly range: Matrix;
  /** A value or a range: what is written out must be a number, what is referred to may be passed over. */
  readonly any: Value | Matrix;
}
export type Kind = keyof Kinds;
/** A kind with "?" may be left out. */
export type Takes = Kind | `${Kind}?`;

type Given<T extends Takes> = T extends Kind
  ? Kinds[T]
  : T extends `${infer K extends Kind}?`
    ? Kinds[K] | undefined
    : never;
type AllGiven<T extends readonly Takes[]> = { readonly [Index in keyof T]: Given<T[Index]> };

type Computed = Value | Matrix;

export interface StandardFunction {
  readonly name: string;
  readonly takes: readonly Takes[];
  /** How many of the last arguments may come again. */
  readonly repeats: number;
  /** Whether the result is a range whose size its arguments decide. */
  readonly spills: boolean;
  readonly compute: (given: readonly unknown[]) => Computed;
}

/** Thrown by a function's arithmetic; becomes the call's error. */
export class NoResult extends Error {
  readonly code: FaultCode;
  constructor(code: FaultCode, message: string) {
    super(message);
    this.name = 'NoResult';
    this.code = code;
  }
}

export const noNumber = (message: string): NoResult => new NoResult('#NUM!', message);
export const noValue = (message: string): NoResult => new NoResult('#VALUE!', message);
export const notFound = (message: string): NoResult => new NoResult('#N/A', message);
export const outside = (message: string): NoResult => new NoResult('#REF!', message);
export const noDivision = (message: string): NoResult => new NoResult('#DIV/0!', message);

interface Options {
  readonly repeats?: number;
  readonly spills?: boolean;
}

/** Declares a function: the types of what `compute` is given follow from `takes`. */
export const standard = <const T extends readonly Takes[]>(
  name: string,
  takes: T,
  compute: (...given: AllGiven<T>) => Computed,
  { repeats = 0, spills = false }: Options = {},
): StandardFunction => ({
  name,
  takes,
  repeats,
  spills,
  compute: (given) => compute(...(given as unknown as AllGiven<T>)),
});

/** Declares a function whose last argument comes again and again. */
export const repeated = <const T extends readonly Takes[], R extends Kind>(
  name: string,
  takes: T,
  again: R,
  compute: (first: AllGiven<T>, rest: readonly Kinds[R][]) => Computed,
  spills = false,
): StandardFunction => ({
  name,
  takes: [...takes, again],
  repeats: 1,
  spills,
  compute: (given) =>
    compute(
      given.slice(0, takes.length) as unknown as AllGiven<T>,
      given.slice(takes.length) as unknown as readonly Kinds[R][],
    ),
});
