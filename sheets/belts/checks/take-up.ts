import type { CheckedBelt } from '../check-declaration.ts';
import { declareChecks } from '../check-declaration.ts';
import { atSkew, ofBelt } from './compared.ts';

/** Belt that the loop can spare. */

const replaced = (belt: CheckedBelt): string => {
  const word = belt.text('Replaced joint');
  return word === 'new belt'
    ? 'a new belt'
    : `a joint ${atSkew(belt)} after ${
        word === 'square joint' ? 'a square one' : `one of ${word === 'same skew' ? 'the same' : 'another'} skew`
      }`;
};

export const takeUpChecks = declareChecks([
  {
    word: 'take-up',
    doc: 'travel for what the joint takes and for the stretch of the belt against the travel that there is',
    source: 'geometry of the cuts and of the take-up; TrimPerEnd and StretchLeft: common practice, no source',
    look: 'Take-up travel',
    value: ofBelt('Travel needed', (belt) => `the take-up travel needed for ${replaced(belt)}`),
    maximum: ofBelt('Take-up travel', 'the travel available'),
    remark: (belt) =>
      `The joint takes ${belt.shown('Joint takes')} of belt, and ${belt.shown('Stretch reserve')} of travel must ` +
      `be left for stretch.` +
      `${belt.text('Replaces') === '' ? ' Replaces is not given: a square joint is assumed.' : ''}`,
    cures: ['maximum skew', 'more take-up travel', 'insert'],
  },
]);
