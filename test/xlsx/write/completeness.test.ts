import { describe, expect, test } from 'vitest';
import { neededInputs } from '../../../sheets/belts/completeness.ts';
import { beltInputs } from '../../../sheets/belts/inputs.ts';
import { routeInputs } from '../../../sheets/belts/tension-methods.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { bookOf, type Cells, loopOf, soundBelt } from '../../workbook/books.ts';

/** What a file says of a belt's inputs: which are needed, told by what the book makes of a belt without them. */

const verdictWithout = (header: string, listed: boolean): string => {
  const belt: Cells = { ...soundBelt, [header]: null };
  const pulleys = listed ? { pulleys: loopOf(String(soundBelt['Belt'])) } : {};
  return String(new Workbook(bookOf({ belts: [belt], ...pulleys })).read('Belts', 0, 'Findings'));
};

describe('an input that is needed', () => {
  test.each(neededInputs)('leaves a check not known when it is empty: %s', (header) => {
    expect(verdictWithout(header, true)).toContain('not known');
  });

  test('is none of which a belt with a list of pulleys can do without', () => {
    const others = beltInputs.filter(({ header }) => header !== 'Belt' && !neededInputs.includes(header));
    const missed = others.filter(({ header }) => verdictWithout(header, true).includes('not known'));
    // A life in passes does as well; what is told of it is asked for by itself.
    expect(missed.map(({ header }) => header)).toEqual(['Joint life']);
  });
});

test('no other input has the heading of an input of the tension within its own, by which it is found', () => {
  for (const header of routeInputs)
    expect(beltInputs.filter((other) => other.header !== header && other.header.includes(header))).toEqual([]);
});
