import { type Allowed, conditionsOf } from '../../formula/guards.ts';
import type { Node } from '../../formula/syntax.ts';
import type { Column } from '../../sheet/declaration.ts';

/** What stands beside a cell in a file: what of it formulas may use. */

const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });

export const hasBounds = ({ min, above, max }: Column): boolean =>
  min !== undefined || above !== undefined || max !== undefined;

const allOf = (conditions: readonly Node[]): Node => {
  const [first, ...rest] = conditions;
  return first !== undefined && rest.length === 0 ? first : call('AND', ...conditions);
};

/** A cell's number where it is one within its bounds, else an error. */
export const checkedFormula = (cell: Node, { min, above, max }: Pick<Column, 'min' | 'above' | 'max'>): Node => {
  const within = conditionsOf({
    type: 'guard',
    cells: [{ cell, min, above, max }],
    must: [],
    without: 'error',
    value: cell,
  });
  return call('IF', allOf([call('ISNUMBER', cell), ...within]), cell, call('NA'));
};

/** 1 where a word is one of those allowed, else an error. */
export function allowedFormula(cell: Node, { choices = [] }: Allowed): Node {
  const words = choices.map((word): Node => ({
    type: 'binary',
    left: cell,
    operator: '=',
    right: { type: 'text', value: word },
  }));
  const [first, ...rest] = words;
  const fits = first === undefined ? call('ISTEXT', cell) : rest.length === 0 ? first : call('OR', ...words);
  return call('IF', fits, { type: 'number', value: 1, text: '1' }, call('NA'));
}
