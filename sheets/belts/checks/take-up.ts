import { declareChecks } from '../check-declaration.ts';
import { atSkew, ofBelt, worked } from './compared.ts';

/** Belt that the loop can spare. */
export const takeUpChecks = declareChecks([
  {
    word: 'take-up',
    doc: 'belt lost to skew against the belt that the take-up gives',
    source: 'geometry of the cut and of the take-up',
    look: 'Take-up travel',
    value: ofBelt('Belt lost to skew', (belt) => `the belt lost to skew ${atSkew(belt)}`),
    // The travel, times what one unit of it gives.
    maximum: worked('{Take-up travel}*TakeUpShare', 'Take-up travel', 'the belt that the take-up gives'),
    cures: ['greatest skew', 'more take-up travel'],
  },
]);
