import { asNumber } from '../standard.ts';
import { isFault, type Fault, type Matrix, type Value } from '../values.ts';
import { NoResult, noValue, notFound } from './standard-function.ts';

/** What functions take from ranges. */

const passedOn = (fault: Fault): NoResult => new NoResult(fault.code, fault.message);

/** All values of ranges in a row, row by row; an error among them is the call's. */
export function valuesIn(...ranges: readonly Matrix[]): Value[] {
  const values = ranges.flatMap((range) => range.flat());
  const fault = values.find(isFault);
  if (fault !== undefined) throw passedOn(fault);
  return values;
}

/** The numbers of ranges; texts, truths and empty cells are passed over, as ISO/IEC 29500 has it for references. */
export const numbersIn = (...ranges: readonly Matrix[]): number[] =>
  valuesIn(...ranges).filter((value) => typeof value === 'number');

/** The numbers of values and ranges: what is written out must be one, or read as one. */
export const givenNumbers = (given: readonly (Value | Matrix)[]): number[] =>
  given.flatMap((item) => {
    if (Array.isArray(item)) return numbersIn(item as Matrix);
    const number = asNumber(item as Value);
    if (isFault(number)) throw passedOn(number);
    return [number];
  });

/** Numbers that stand beside each other in two ranges of one size; a pair without two numbers is passed over. */
export function pairsIn(one: Matrix, other: Matrix): { readonly first: number[]; readonly second: number[] } {
  const [left, right] = [valuesIn(one), valuesIn(other)];
  if (left.length !== right.length)
    throw notFound(`the ranges must have as many cells as each other; they have ${left.length} and ${right.length}`);
  const first: number[] = [];
  const second: number[] = [];
  left.forEach((value, index) => {
    const beside = right[index];
    if (typeof value !== 'number' || typeof beside !== 'number') return;
    first.push(value);
    second.push(beside);
  });
  return { first, second };
}

/** A range of numbers only. */
export function numericMatrix(range: Matrix): number[][] {
  valuesIn(range);
  return range.map((row) =>
    row.map((value) => {
      if (typeof value !== 'number') throw noValue('every cell of the range must hold a number');
      return value;
    }),
  );
}

export const widthOf = (range: Matrix): number => range[0]?.length ?? 0;

export const transposed = (range: Matrix): Matrix =>
  Array.from({ length: widthOf(range) }, (_, column) => range.map((row) => row[column] ?? null));

export const columnOf = (values: readonly Value[]): Matrix => values.map((value) => [value]);
