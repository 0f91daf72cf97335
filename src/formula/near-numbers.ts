/**
 * Numbers that differ by no more than what computing with them has rounded off.
 *
 * Decimal fractions have no exact binary form, so 0.1+0.2-0.3 leaves 5.6E-17. Spreadsheet programs take a difference
 * of so small a share for none, in comparisons and where a sum or difference comes out near zero: rows, users' formulas
 * and exported books then agree. Whole numbers are exact and never taken for their neighbours.
 *
 * Source: the share is LibreOffice's (rtl::math::approxEqual, include/rtl/math.hxx), 2^-48; ISO/IEC 29500 asks for 15
 * significant digits.
 */

const share = 2 ** -48;

/** Whether two numbers are the same but for rounding. */
export function isNear(one: number, other: number): boolean {
  if (one === other) return true;
  const difference = Math.abs(one - other);
  const smaller = Math.min(Math.abs(one), Math.abs(other));
  if (!(difference < smaller * share)) return false;
  return !(Number.isSafeInteger(one) && Number.isSafeInteger(other));
}

/** Order of two numbers: 0 when they are the same but for rounding. */
export const nearOrder = (one: number, other: number): number => (isNear(one, other) ? 0 : one - other);

/** A sum that is 0 where its parts cancel but for rounding. */
export const nearSum = (one: number, other: number): number => (isNear(one, -other) ? 0 : one + other);

export const nearDifference = (one: number, other: number): number => (isNear(one, other) ? 0 : one - other);
