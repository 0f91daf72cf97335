import { checkDoc, checkHeader } from '../../sheets/belts/check-columns.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { notAsked, verdicts } from '../functions/checks.ts';
import { verdictMeanings } from '../records/finding.ts';
import type { Section } from './entry.ts';

const declared: readonly CheckDeclaration[] = beltChecks;

/** What each belt is checked for, in the order of its verdict. */
export const checkSection = (): Section => ({
  about: [
    `${verdicts.map((word) => `**${word}**: ${verdictMeanings[word]}`).join('. ')}. A belt's verdict is the worst of ` +
      'its checks.',
    `A finding marked **compare** is no verdict: ${verdictMeanings.compare}. Find out which method is right.`,
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
