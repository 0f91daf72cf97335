import { fixedText } from '../units/shown-mark.ts';
import { rounded } from '../sheet/words.ts';
import { tapeNumber } from '../drawing/tape.ts';
import { tighteningWords } from '../drawing/joint-report.ts';
import { cardSections, checkNotes, headSections } from './card-sections.ts';
import type { JobCard } from './job-card.ts';
import { bold, plain, type Section, spelledSection } from './section.ts';

/**
 * How much of a card is printed: all of it, or one sheet for the pocket, the words on one side and the drawing on the
 * other. The short form takes nothing from the long one's place: it says so, and its code leads to the belt.
 */

export type CardForm = 'long' | 'short';

/** What a caution begins with: the rest stands on the long card. */
const firstSentence = (text: string): string => /^.*?[.:](?=\s|$)/.exec(text)?.[0].replace(/:$/, '.') ?? text;

const replacesNothing =
  'This sheet does not replace the full job card, which has the permit, all cautions and steps, the hole table and ' +
  'the signatures: read it before you start.';

/** As one text, each caution's name in capitals: a table of them would take the side that all has to stand on. */
const shortCautions = ({ cautions }: JobCard): Section => ({
  type: 'note',
  text: cautions
    .map(({ caution, remark }) =>
      [
        `${caution.title.toUpperCase()}: ${firstSentence(caution.text)}`,
        ...(remark === undefined ? [] : [remark]),
      ].join(' '),
    )
    .join(' '),
});

const shortParts = ({ parts }: JobCard): Section => ({
  type: 'table',
  columns: [
    { title: 'Part', width: 32 },
    { title: 'Description', width: 118 },
    { title: 'Quantity', width: 22, align: 'end' },
    { title: 'On site', width: 14 },
  ],
  rows: parts.map(({ item, what, count }) => [bold(item), plain(what), plain(count), { blank: 'tick' }]),
});

/** Where work stops until somebody has signed. */
function holdPoints({ steps }: JobCard): Section[] {
  const held = steps.filter(({ holdPoint }) => holdPoint);
  return held.length === 0
    ? []
    : [
        {
          type: 'note',
          strong: true,
          text: `Hold points: ${held.map(({ number, title }) => `step ${number}, ${title}`).join('; ')}.`,
        },
      ];
}

/** The holes' places along the cut, each once: both belt ends are drilled by them. */
function holeRuns({ holes, unit }: JobCard): Section[] {
  const runs = [...new Set(holes.map(({ run }) => run.tape))].toSorted((one, other) => one - other);
  return runs.length === 0
    ? []
    : [
        {
          type: 'note',
          text:
            `Holes along the cut from the marked corner, both belt ends, ${unit === 'mm' ? 'mm' : 'in'}: ` +
            `${runs.map((run) => tapeNumber(run, unit)).join(', ')}.`,
        },
      ];
}

function shortTime({ times }: JobCard): Section[] {
  if ('missing' in times) return times.missing.map((text): Section => ({ type: 'note', text }));
  const { rows, share, crewSize } = times;
  const hours = rows.map(({ name, mean, planned }) => `${name} ${fixedText(mean, 1)} h, ${fixedText(planned, 1)} h`);
  return [{ type: 'note', text: `Crew of ${crewSize}, mean and P${rounded(share * 100, 1)}: ${hours.join('; ')}.` }];
}

function shortSections(card: JobCard): Section[] {
  const { tightening, joint, unit, belt, series, invented, worst, units } = card;
  const sections: Section[] = [
    ...headSections(card),
    { type: 'note', text: replacesNothing },
    ...checkNotes(card),
    shortCautions(card),
    ...holdPoints(card),
    shortParts(card),
    ...shortTime(card),
    ...holeRuns(card),
    ...(tightening.length === 0
      ? []
      : [{ type: 'note', text: `Tighten in two passes: ${tighteningWords(tightening)}.` } as const]),
    ...(joint === undefined
      ? []
      : [{ type: 'drawing', joint, unit, belt, series, standing: { worst, invented } } as const]),
  ];
  return sections.map((section) => spelledSection(section, units));
}

export const sectionsOf = (card: JobCard, form: CardForm): Section[] =>
  form === 'short' ? shortSections(card) : cardSections(card);
