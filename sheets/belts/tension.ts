import { type Column, columns } from '../../src/sheet/declaration.ts';
import {
  cases,
  type CaseWord,
  headOverTakeUp,
  maximumInCase,
  neededAtTakeUp,
  returnOverTakeUp,
  steadyCases,
  tailOverTakeUp,
} from './load-cases.ts';
import { resisting } from './resistances.ts';

/**
 * Tension around the loop in the usual load cases.
 *
 * From the head the belt gains tension along the return run to the tail and along the carrying run back to the head;
 * drives take it away. That fixes it but for one number, the tension at the take-up, which is set once for all cases by
 * the one that needs most: grip on each drive, or little sag between idlers at both ends of either run. A weight that
 * hangs there may give more; less than what is needed does not lower what the joint is held to.
 */

const sag = (spacing: string, load: string): string =>
  `SAGTENSION(${spacing},{Belt mass used},${load},SagRatio,Gravity)`;

const force = { kind: 'force', digits: 0, background: true } as const;

const caseColumn = <Header extends string>(header: Header, doc: string, formula: string): Column<Header> => ({
  header,
  ...force,
  doc,
  formula,
  emptyWithout: resisting,
  source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
});

const maxOf = (items: readonly string[]): string => `MAX(${items.join(',')})`;

export const tensionColumns = columns([
  {
    header: 'Sag tension loaded',
    formerly: 'Sag full',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the loaded carrying run against sag',
    formula: sag('CarryIdlerSpacing', '{Load mass}'),
    emptyWithout: ['{Load mass}', '{Belt mass used}'],
  },
  {
    header: 'Sag tension empty',
    formerly: 'Sag empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the empty carrying run against sag',
    formula: sag('CarryIdlerSpacing', '0'),
    emptyWithout: ['{Belt mass used}'],
  },
  {
    header: 'Sag tension return',
    formerly: 'Sag return',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the return run against sag',
    formula: sag('ReturnIdlerSpacing', '0'),
    emptyWithout: ['{Belt mass used}'],
  },
  ...cases.map((loadCase) =>
    caseColumn<`Slack-side tension ${CaseWord}`>(
      `Slack-side tension ${loadCase.word}`,
      `tension that the case "${loadCase.word}" needs at the take-up: grip on the drives, or sag`,
      neededAtTakeUp(loadCase),
    ),
  ),
  {
    header: 'Slack-side tension needed',
    ...force,
    doc: 'tension needed at the take-up, set by the worst load case: grip on the drives, or sag',
    formula: maxOf(cases.map(({ word }) => `{Slack-side tension ${word}}`)),
    emptyWithout: resisting,
  },
  {
    header: 'Slack-side tension',
    formerly: 'Slack tension',
    ...force,
    doc: 'at the take-up: what is needed there, or what Take-up weight gives if that is more',
    formula: 'MAX({Slack-side tension needed},IF(ISBLANK({Take-up weight}),0,{Take-up tension by weight}))',
    emptyWithout: resisting,
    source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
  },
  {
    header: 'Take-up weight needed',
    kind: 'mass',
    digits: 0,
    doc: 'minimum weight of an automatic take-up for grip and sag, with its rope falls; empty for a screw take-up',
    formula: 'IF({Take-up used}="automatic",{Slack-side tension needed}*2/Gravity/{Take-up rope falls},"")',
    optional: { 'Take-up rope falls': 1 },
    emptyWithout: resisting,
    source: 'equilibrium of the take-up pulley',
  },
  ...cases.map((loadCase) =>
    caseColumn<`Maximum tension ${CaseWord}`>(
      `Maximum tension ${loadCase.word}`,
      `maximum anywhere on the loop in the case "${loadCase.word}"`,
      maximumInCase(loadCase),
    ),
  ),
  {
    header: 'Tail tension',
    ...force,
    doc: 'maximum behind the tail in any load case',
    formula: `{Slack-side tension}+${maxOf(cases.map(tailOverTakeUp))}`,
    emptyWithout: resisting,
  },
  {
    header: 'Steady tail tension',
    ...force,
    doc: 'maximum behind the tail in any case of load but starting and braking',
    formula: `{Slack-side tension}+${maxOf(steadyCases.map(tailOverTakeUp))}`,
    emptyWithout: resisting,
  },
  {
    header: 'Steady head tension',
    ...force,
    doc: 'maximum before the head in any case of load but starting and braking',
    formula: `{Slack-side tension}+${maxOf(steadyCases.map(headOverTakeUp))}`,
    emptyWithout: resisting,
  },
  {
    header: 'Steady return tension',
    ...force,
    doc: 'maximum at either end of the return run in any case of load but starting and braking',
    formula: `{Slack-side tension}+${maxOf(steadyCases.flatMap(returnOverTakeUp))}`,
    emptyWithout: resisting,
  },
  {
    header: 'Steady maximum tension',
    ...force,
    doc: 'anywhere on the loop in any case of load but starting and braking',
    formula: maxOf(steadyCases.map(({ word }) => `{Maximum tension ${word}}`)),
    emptyWithout: resisting,
  },
  {
    header: 'Maximum tension',
    formerly: 'Greatest tension',
    ...force,
    doc: 'maximum anywhere on the loop in any load case',
    formula: maxOf(cases.map(({ word }) => `{Maximum tension ${word}}`)),
    emptyWithout: resisting,
  },
]);
