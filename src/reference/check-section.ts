import { checkDoc, checkHeader } from '../../sheets/belts/check-columns.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { notAsked } from '../functions/checks.ts';
import type { Section } from './entry.ts';

const declared: readonly CheckDeclaration[] = beltChecks;

/** What each belt is checked for, in the order of its verdict. */
export const checkSection = (): Section => ({
  about: [
    'A verdict is **fits**, **tight** (it passes narrowly, by less than `TightMargin` of its limit, or misses a ' +
      'check that only warns), **fails**, or **not ' +
      "known** (an input is missing or wrong: never taken for a pass). A belt's verdict is the worst of its checks.",
    '**Compare** is a mark of a finding and no verdict: two methods for the working tension disagree by more than ' +
      '`MethodMargin`. It does not count in the verdict; find out which method is right.',
    ...(declared.some(({ silentWithout }) => silentWithout !== undefined)
      ? [`A check that is **${notAsked}** counts as one that fits, and is no finding.`]
      : []),
  ],
  entry: 'check',
  layout: 'table',
  groups: [
    {
      title: '',
      entries: declared.map((check) => ({
        name: check.word,
        says: checkDoc(check),
        facts: [
          { label: 'column of its verdict', text: checkHeader(check.word) },
          { label: 'input to look at first', text: check.look },
          { label: 'source', text: check.source },
        ],
      })),
    },
  ],
});
