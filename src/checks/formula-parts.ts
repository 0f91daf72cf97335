import { outOfBounds, type Parameter } from '../formula/parameter.ts';
import { children, type Node } from '../formula/syntax.ts';
import { isFault, type Value } from '../formula/values.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { isConditional } from '../workbook/conditional-records.ts';

/** What the parts of a sheet's formula are, for finding out why it has no value. */

/** A branch that only says that a condition was not met: #N/A, a word. */
export const isFallback = (branch: Node): boolean =>
  branch.type === 'text' || (branch.type === 'call' && branch.name === 'NA');

/** The cells of the record, names and look-ups that an expression computes with. */
export function leavesOf(expression: Node): readonly Node[] {
  if (expression.type === 'placeholder') return slotParts(expression.name).sheet === undefined ? [expression] : [];
  if (
    expression.type === 'name' ||
    (expression.type === 'call' && (expression.name === 'INDEX' || isConditional(expression.name)))
  )
    return [expression];
  return children(expression).flatMap(leavesOf);
}

/**
 * Whether a value can't stand for a parameter: an error, missing, of the wrong type or out of its bounds. A word for a
 * verdict may be any.
 */
export function isWrong(value: Value, parameter: Parameter): boolean {
  if (isFault(value)) return true;
  if (parameter.kind === 'verdict') return false;
  if (value === null) return parameter.optional !== true && parameter.default === undefined;
  switch (parameter.kind) {
    case 'text':
      return (
        typeof value !== 'string' ||
        value === '' ||
        (parameter.choices !== undefined &&
          !parameter.choices.some((choice) => choice.toLowerCase() === value.trim().toLowerCase()))
      );
    default:
      return typeof value !== 'number' || outOfBounds(value, parameter);
  }
}
