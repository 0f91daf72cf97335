import { isFault, type Fault, type Matrix, type Value } from '../values.ts';
import { notFound, standard, type StandardFunction } from './standard-function.ts';

/** What kind a value is. Source: ECMA-376 Part 1, 18.17.7.106 (ERROR.TYPE) and 18.17.7.327 (TYPE). */

const numbersOfErrors: Readonly<Partial<Record<Fault['code'], number>>> = {
  '#DIV/0!': 2,
  '#VALUE!': 3,
  '#REF!': 4,
  '#NAME?': 5,
  '#NUM!': 6,
  '#N/A': 7,
};

function typeOf(value: Value | Matrix): number {
  if (Array.isArray(value)) return 64;
  if (isFault(value)) return 16;
  return typeof value === 'string' ? 2 : typeof value === 'boolean' ? 4 : 1;
}

export const informationFunctions: readonly StandardFunction[] = [
  standard('ERROR.TYPE', ['fault'], (value) => {
    const number = isFault(value) ? numbersOfErrors[value.code] : undefined;
    if (number === undefined) throw notFound('ERROR.TYPE: the value is no error that has a number');
    return number;
  }),
  standard('TYPE', ['fault'], typeOf),
];
