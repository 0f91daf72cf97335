import { namedValues } from '../../src/sheet/declaration.ts';

/** How the people of a book write numbers and dates. */

const habit = 'our choice, no effect on safety: the page asks when it matters';

export const typingValues = namedValues([
  {
    name: 'DecimalMark',
    kind: 'text',
    value: 'ask',
    choices: ['ask', 'point', 'comma'],
    doc: 'how typed numbers are written: whether 1,250 is a thousand and more, or one and a quarter',
    source: habit,
  },
  {
    name: 'DateOrder',
    kind: 'text',
    value: 'ask',
    choices: ['ask', 'day first', 'month first'],
    doc: 'how typed dates are written: whether 3/4/2026 is in April or in March',
    source: habit,
  },
]);
