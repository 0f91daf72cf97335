import { fixedText } from '../units/shown-mark.ts';
import { beltTitle } from '../records/belt.ts';
import { rounded } from '../sheet/words.ts';
import { tighteningWords } from '../drawing/joint-report.ts';
import { safetyPurpose } from '../workbook/safety.ts';
import { holeSections } from './hole-sections.ts';
import type { JobCard } from './job-card.ts';
import { bold, type Cell, plain, type Section, spelledSection, type TableColumn } from './section.ts';

/**
 * A card as a row of sections: their content is decided here, their looks in the page, the PDF and the file are not.
 */

const value: Cell = { blank: 'value' };
const sign: Cell = { blank: 'sign' };
const hours = (amount: number): string => `${fixedText(amount, 1)} h`;

const cardTitle = 'Job card: bolted joint (splice)';

/** What the checks and the planner's own hand say against the joint. */
export function checkNotes({ worst, findings, remarks, steps }: JobCard): Section[] {
  const serious = findings.filter(({ verdict }) => verdict === 'fails' || verdict === 'not known');
  const stops = worst === 'fails' || worst === 'not known';
  const messages = serious.map(({ message }) => message).join(' ');
  const missing = new Map<string, number[]>();
  for (const { number, missing: names } of steps)
    for (const name of names) missing.set(name, [...(missing.get(name) ?? []), number]);
  return [
    ...(serious.length === 0 && !stops
      ? []
      : [
          {
            type: 'note',
            strong: true,
            text: `${
              worst === 'fails'
                ? 'This joint FAILS its checks. Do not start until the planner has released it'
                : 'Some checks of this joint could not be made. Do not start until the planner has released it'
            }: ${serious.length === 0 ? 'a verdict was set by hand; see below.' : messages}`,
          } as const,
        ]),
    ...findings
      .filter(({ verdict }) => verdict === 'tight' || verdict === 'compare')
      .map(({ message }): Section => ({ type: 'note', text: `Note: ${message}` })),
    ...remarks.map((text): Section => ({ type: 'note', text, strong: true })),
    ...(missing.size === 0
      ? []
      : [
          {
            type: 'note',
            strong: true,
            text:
              `Not known: ` +
              `${[...missing].map(([name, numbers]) => `${name} (step ${numbers.join(', ')})`).join('; ')}. Find ` +
              `this out before that step.`,
          } as const,
        ]),
  ];
}

const cautionTable = ({ cautions }: JobCard): Section => ({
  type: 'table',
  columns: [
    { title: 'Caution', width: 30 },
    { title: 'Action', width: 108 },
    { title: 'Rules', width: 48 },
  ],
  rows: cautions.map(({ caution, remark }) => [
    bold(caution.title),
    [{ text: caution.text }, ...(remark === undefined ? [] : [{ text: remark, bold: true } as const])],
    plain(caution.rules),
  ]),
});

function timeSections({ times }: JobCard): Section[] {
  if ('missing' in times) return times.missing.map((text): Section => ({ type: 'note', text }));
  const { rows, share, method, crewSize, lost, ways } = times;
  return [
    {
      type: 'table',
      columns: [
        { title: '', width: 62 },
        ...['Low', 'Likely', 'High', 'Mean', `P${rounded(share * 100, 1)}`].map((title) => ({
          title,
          width: 25,
          align: 'end' as const,
        })),
      ],
      rows: rows.map(({ name, low, likely, high, mean, planned }) => [
        bold(name === 'Labour hours' ? `Labour hours, crew of ${crewSize}` : name),
        ...[low, likely, high, mean, planned].map((value) => plain(hours(value))),
      ]),
    },
    ...(ways.length < 2
      ? []
      : [
          {
            type: 'table',
            columns: [
              { title: 'Comparison (mean)', width: 62 },
              { title: 'Labour hours', width: 25, align: 'end' },
              { title: 'Downtime', width: 25, align: 'end' },
            ],
            rows: ways.map(({ name, crewHours, outageHours }) => [
              plain(name),
              plain(hours(crewHours)),
              plain(hours(outageHours)),
            ]),
          } as const,
        ]),
    {
      type: 'note',
      text:
        `${
          lost === undefined
            ? 'Lost production is not known: enter the Capacity of the belt.'
            : `Lost production in the mean downtime: ${rounded(lost.amount, 0)} ${lost.unit}, at ` +
              `${rounded(lost.dutyShare * 100, 1)} % of the capacity.`
        } P${rounded(share * 100, 1)}: the work is done within ` +
        `these hours in ${rounded(share * 100, 1)} of 100 cases (PlanningShare). ${method}. The rates are in ` +
        `Assumptions.`,
    },
  ];
}

function stepTable({ steps }: JobCard): Section {
  return {
    type: 'table',
    columns: [
      { title: 'Step', width: 10, align: 'end' },
      { title: 'Work', width: 106 },
      { title: 'Tools', width: 38 },
      { title: 'Done by, time', width: 32 },
    ],
    rows: steps.map(({ number, title, filled, tools, holdPoint, signOff, notes }) => [
      bold(String(number)),
      [
        { text: title, bold: true },
        ...(holdPoint ? [{ text: 'HOLD POINT: stop until this step is signed.', bold: true } as const] : []),
        { text: filled },
        ...(notes.length === 0 ? [] : [{ text: `Cautions: ${notes.map((note) => note.title).join('; ')}.` }]),
      ],
      plain(tools.join('; ')),
      { blank: signOff || holdPoint ? 'sign' : 'tick' },
    ]),
  };
}

const partTable = ({ parts }: JobCard): Section => ({
  type: 'table',
  columns: [
    { title: 'Part', width: 32 },
    { title: 'Description', width: 82 },
    { title: 'Quantity', width: 22, align: 'end' },
    { title: 'Packs, length', width: 36 },
    { title: 'On site', width: 14 },
  ],
  rows: parts.map(({ item, what, count, remark }) => [
    bold(item),
    plain(what),
    plain(count),
    plain(remark),
    { blank: 'tick' },
  ]),
});

const dimensionColumns: readonly TableColumn[] = [
  { title: 'Dimension', width: 45 },
  { title: 'This card', width: 24, align: 'end' },
  { title: 'Measured', width: 24 },
];

/** In two halves, side by side. */
function dimensionSections({ dimensions }: JobCard): Section[] {
  if (dimensions.length === 0) return [];
  const half = Math.ceil(dimensions.length / 2);
  return [
    { type: 'title', text: 'Dimensions' },
    {
      type: 'table',
      columns: [...dimensionColumns, ...dimensionColumns],
      rows: Array.from({ length: half }, (_, at) =>
        [dimensions[at], dimensions[at + half]].flatMap((one): Cell[] =>
          one === undefined ? [plain(''), plain(''), plain('')] : [plain(one.name), plain(one.text), value],
        ),
      ),
    },
  ];
}

const passes = ['First pass, snug: tick each plate once', 'Second pass, clamp: tick each plate once'] as const;

const tighteningSections = ({ tightening, joint }: JobCard): Section[] =>
  tightening.length === 0
    ? []
    : [
        { type: 'title', text: 'Tightening in two passes' },
        {
          type: 'note',
          text:
            `Plates are counted from the marked corner, on the ${joint?.hand ?? 'right'} edge. Work ` +
            `${tighteningWords(tightening)}. Finish all nuts of a plate before the next plate.`,
        },
        ...passes.flatMap((text): Section[] => [
          { type: 'note', text },
          { type: 'ticks', labels: tightening.map(String) },
        ]),
      ];

const signatures = [
  'Crew lead: joint made and checked',
  'Isolation removed by',
  'Accepted by operations',
  'Tightened again after the first hours by',
] as const;

const signatureTable: Section = {
  type: 'table',
  columns: [
    { title: '', width: 62 },
    { title: 'Name', width: 46 },
    { title: 'Signature', width: 46 },
    { title: 'Date, time', width: 32 },
  ],
  rows: signatures.map((text) => [bold(text), sign, sign, sign]),
};

const supplierNote = ({ invented }: JobCard): Section => ({
  type: 'note',
  strong: true,
  text:
    `The plate supplier's instructions take precedence: where they differ from this card, follow them. ` +
    `${safetyPurpose}` +
    `${invented ? ' The plate series, strips and rates in this book are invented.' : ''}`,
});

/** The belt, its joint, and whose word counts. */
export const headSections = (card: JobCard): Section[] => [
  { type: 'head', title: cardTitle, belt: beltTitle(card.belt), code: card.code },
  { type: 'pairs', pairs: card.heading },
  supplierNote(card),
];

/** The card in its order: what comes before the work, the drawing, the work, the signatures. */
export function cardSections(card: JobCard): Section[] {
  const { belt, tools, joint, unit, series, permit, invented, worst, units } = card;
  const sections: Section[] = [
    ...headSections(card),
    ...checkNotes(card),
    { type: 'blanks', names: permit },
    { type: 'title', text: 'Cautions, before step 1' },
    cautionTable(card),
    { type: 'title', text: 'Parts and tools' },
    partTable(card),
    { type: 'note', text: `Tools to bring: ${tools.join('; ')}.` },
    { type: 'title', text: 'Time' },
    ...timeSections(card),
    ...dimensionSections(card),
    ...(joint === undefined
      ? []
      : [{ type: 'drawing', joint, unit, belt, series, standing: { worst, invented } } as const]),
    ...holeSections(card),
    { type: 'title', text: 'Steps' },
    stepTable(card),
    ...tighteningSections(card),
    { type: 'title', text: 'Signed' },
    signatureTable,
  ];
  return sections.map((section) => spelledSection(section, units));
}

/** The foot of every page. */
export const footText = ({ belt, book, invented }: Pick<JobCard, 'belt' | 'book' | 'invented'>): string =>
  `${beltTitle(belt)}${book === '' ? '' : `, ${book}`}${invented ? ', invented figures' : ''}`;
