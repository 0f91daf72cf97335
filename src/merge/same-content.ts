import { type Content, isFormula } from '../formula/values.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { parsed, printed } from '../formula/syntax.ts';

/** Turning a number into the other units and back moves its last digits by less than this share. */
const unitNoise = 1e-12;

/**
 * Whether two numbers agree in the digits that other spreadsheet programs keep: what comes back from one is no change.
 * Source: Microsoft, "Excel specifications and limits": number precision of 15 digits.
 */
export const sameDigits = (one: Content, other: Content): boolean =>
  typeof one === 'number' && typeof other === 'number' && one.toPrecision(15) === other.toPrecision(15);

/** A formula as this program prints it, however it is spaced. */
function plainFormula(formula: string): string {
  try {
    return printed(parsed(formula));
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** Whether a cell says nothing: an empty text is what some programs leave of it. */
export const isBlank = (content: Content): boolean => content === null || content === '';

/**
 * Whether two contents say the same. Formulas do when only blanks and the case of functions differ, numbers when 15
 * digits agree; with `converted`, numbers do that differ by what a change of units leaves.
 */
export function sameContent(one: Content, other: Content, converted: boolean): boolean {
  if (one === other || (isBlank(one) && isBlank(other))) return true;
  if (typeof one === 'number' && typeof other === 'number')
    return (
      sameDigits(one, other) ||
      (converted && Math.abs(one - other) <= unitNoise * Math.max(Math.abs(one), Math.abs(other)))
    );
  return isFormula(one) && isFormula(other) && plainFormula(one) === plainFormula(other);
}
