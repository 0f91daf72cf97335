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

const number = (value: number): Node => {
  const size: Node = { type: 'number', value: Math.abs(value), text: String(Math.abs(value)) };
  return value < 0 ? { type: 'unary', operator: '-', value: size } : size;
};

/**
 * When a cell holds a number within its bounds. Neither SUM nor MEDIAN of a cell takes a text or a truth for a number,
 * and the middle
 * one of a blank's or a text's two bounds is neither, as long as it is not 0.
 */
function isWithin(cell: Node, { min, above, max }: Pick<Column, 'min' | 'above' | 'max'>): Node {
  if (above === undefined && min !== undefined && max !== undefined && min < max && min !== -max)
    return { type: 'binary', left: call('MEDIAN', number(min), cell, number(max)), operator: '=', right: cell };
  const asked = conditionsOf({
    type: 'guard',
    cells: [{ cell, min, above, max }],
    must: [],
    without: 'error',
    value: cell,
  });
  if (above !== 0 || min !== undefined) return allOf([call('ISNUMBER', cell), ...asked]);
  const isMore: Node = { type: 'binary', left: call('SUM', cell), operator: '>', right: number(0) };
  return allOf([isMore, ...asked.slice(1)]);
}

/**
 * A cell's number where it is one within its bounds, else an error: the cell over what is asked of it, as whoever types
 * it by hand divides by a condition, since 1 stands for true and nothing divides by 0. An IF says the same in eight
 * characters more.
 */
export function checkedFormula(cell: Node, bounds: Pick<Column, 'min' | 'above' | 'max'>): Node {
  const asked = isWithin(cell, bounds);
  const right: Node = asked.type === 'binary' ? { type: 'group', value: asked } : asked;
  return { type: 'binary', operator: '/', left: cell, right };
}

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
