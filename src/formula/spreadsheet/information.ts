import { type Fault, isFault } from '../values.ts';
import { notFound, standard, type StandardFunction } from './standard-function.ts';

/** What kind an error is. Source: ECMA-376 Part 1, 18.17.7 (ERROR.TYPE). */

const numbersOfErrors: Readonly<Partial<Record<Fault['code'], number>>> = {
  '#DIV/0!': 2,
  '#VALUE!': 3,
  '#REF!': 4,
  '#NAME?': 5,
  '#NUM!': 6,
  '#N/A': 7,
};

export const informationFunctions: readonly StandardFunction[] = [
  standard('ERROR.TYPE', ['fault'], (value) => {
    const number = isFault(value) ? numbersOfErrors[value.code] : undefined;
    if (number === undefined) throw notFound('ERROR.TYPE: the value is no error that has a number');
    return number;
  }),
];
