import { beltTitle } from '../records/belt.ts';
import { rounded } from '../sheet/words.ts';
import type { JointGeometry } from '../drawing/joint.ts';
import type { DrawnStanding } from '../drawing/drawing-warnings.ts';
import type { HoleRow } from '../drawing/hole-table.ts';
import { fineText, type LengthUnit, tapeNumber } from '../drawing/tape.ts';
import { safetyPurpose } from '../workbook/safety.ts';
import type { JobCard } from './job-card.ts';

/**
 * A card as a row of sections: what stands in them is decided here, how each looks in the page, the PDF and the file is
 * not.
 */

export interface Line {
  readonly text: string;
  readonly bold?: true;
}

/** Lines of text, or room to write: a box to tick, or one to sign. */
export type Cell = readonly Line[] | { readonly blank: 'tick' | 'sign' | 'value' };

export interface TableColumn {
  readonly title: string;
  /** Of the table's breadth, in any unit. */
  readonly width: number;
  readonly align?: 'end';
}

export type Section =
  | { readonly type: 'head'; readonly title: string; readonly belt: string; readonly code: JobCard['code'] }
  | { readonly type: 'title'; readonly text: string }
  /** `strong` stands in a frame. */
  | { readonly type: 'note'; readonly text: string; readonly strong?: true }
  | { readonly type: 'pairs'; readonly pairs: readonly { readonly name: string; readonly value: string }[] }
  | { readonly type: 'blanks'; readonly names: readonly string[] }
  | { readonly type: 'table'; readonly columns: readonly TableColumn[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly type: 'ticks'; readonly labels: readonly string[] }
  | {
      readonly type: 'drawing';
      readonly joint: JointGeometry;
      readonly unit: LengthUnit;
      readonly belt: string;
      readonly series: string;
      readonly standing: DrawnStanding;
    };

const plain = (...texts: readonly string[]): Cell => texts.map((text) => ({ text }));
const bold = (text: string): Cell => [{ text, bold: true }];
const value: Cell = { blank: 'value' };
const sign: Cell = { blank: 'sign' };
const hours = (amount: number): string => `${amount.toFixed(1)} h`;

const cardTitle = 'Job card: bolted joint';

function checkNotes({ worst, findings, remarks, steps }: JobCard): Section[] {
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
                ? 'This joint fails its checks. Do not start before the planner has cleared this'
                : 'Not all checks of this joint could be made. Ask the planner before you start'
            }: ${serious.length === 0 ? 'a verdict was set by hand, see below.' : messages}`,
          } as const,
        ]),
    ...findings
      .filter(({ verdict }) => verdict === 'tight' || verdict === 'compare')
      .map(({ message }): Section => ({ type: 'note', text: `To note: ${message}` })),
    ...remarks.map((text): Section => ({ type: 'note', text, strong: true })),
    ...(missing.size === 0
      ? []
      : [
          {
            type: 'note',
            strong: true,
            text:
              `Not known: ` +
              `${[...missing].map(([name, numbers]) => `${name} (step ${numbers.join(', ')})`).join('; ')}. Find it ` +
              `out before that step.`,
          } as const,
        ]),
  ];
}

const cautionTable = ({ cautions }: JobCard): Section => ({
  type: 'table',
  columns: [
    { title: 'Caution', width: 30 },
    { title: 'What to do', width: 108 },
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
        ...['Low', 'Likely', 'High', 'Mean', `Enough in ${rounded(share * 100, 1)} of 100`].map((title) => ({
          title,
          width: 25,
          align: 'end' as const,
        })),
      ],
      rows: rows.map(({ name, low, likely, high, mean, planned }) => [
        bold(name === 'Crew hours' ? `Crew hours, crew of ${crewSize}` : 'Belt at a stand'),
        ...[low, likely, high, mean, planned].map((value) => plain(hours(value))),
      ]),
    },
    ...(ways.length < 2
      ? []
      : [
          {
            type: 'table',
            columns: [
              { title: 'Means compared', width: 62 },
              { title: 'Crew hours', width: 25, align: 'end' },
              { title: 'Belt at a stand', width: 25, align: 'end' },
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
      text: `${
        lost === undefined
          ? 'Lost production is not known: the belt has no capacity.'
          : `Lost production at ` +
            `the mean: ${rounded(lost.amount, 0)} ${lost.unit}, at ${rounded(lost.dutyShare * 100, 1)} % of the ` +
            `capacity.`
      } ${method}. The rates are those of the Assumptions.`,
    },
  ];
}

/**
 * Holes in pairs: a plate's holes in the two belt ends lie the same way along the cut.
 *
 * Where a row's two do not, each has a row of its own.
 */
export function holePairs(
  holes: readonly HoleRow[],
): { readonly plate: number; readonly trailing?: HoleRow; readonly leading?: HoleRow }[] {
  const plates = [...new Set(holes.map(({ plate }) => plate))];
  return plates.flatMap((plate) => {
    const of = (end: HoleRow['end']): HoleRow[] =>
      holes
        .filter((hole) => hole.plate === plate && hole.end === end)
        .toSorted((one, other) => one.run.exact - other.run.exact);
    const [trailing, leading] = [of('trailing'), of('leading')];
    const alike =
      trailing.length === leading.length &&
      trailing.every(({ run, step }, at) => run.tape === leading[at]?.run.tape && step === leading[at]?.step);
    if (!alike)
      return [
        ...trailing.map((hole) => ({ plate, trailing: hole })),
        ...leading.map((hole) => ({ plate, leading: hole })),
      ];
    return trailing.map((hole, at) => ({
      plate,
      trailing: hole,
      ...(leading[at] === undefined ? {} : { leading: leading[at] }),
    }));
  });
}

/** How far holes lie from the cut: one distance for all of them, unless a drawing came about otherwise. */
const distances = (holes: readonly HoleRow[], unit: LengthUnit): string =>
  [...new Set(holes.map(({ back }) => fineText(back.exact, unit)))].join(' or ');

function holeSections({ holes, unit }: JobCard): Section[] {
  if (holes.length === 0) return [];
  const number = (value: number | undefined): Cell => plain(value === undefined ? '' : tapeNumber(value, unit));
  const end = (title: string): TableColumn => ({ title, width: 20, align: 'end' });
  return [
    { type: 'title', text: `Holes, in ${unit === 'mm' ? 'millimetres' : 'inches'} on the tape` },
    {
      type: 'note',
      text:
        `Run: along the cut from the marked corner. Step: from the hole before, on the tape. Every hole lies ` +
        `${distances(holes, unit)} from the cut, square to it, in its own belt end. Along and across: from the ` +
        `marked corner, along the edge the way the belt travels (minus: against it) and square to the edge. Runs are ` +
        `each rounded from the exact distance, so that no hole is off by more than half a mark: ` +
        `${unit === 'mm' ? '0.5 mm' : '1/32 in'}.`,
    },
    {
      type: 'table',
      columns: [
        { title: 'Plate', width: 12, align: 'end' },
        end('Run'),
        end('Step'),
        { title: 'Trailing end: hole', width: 22, align: 'end' },
        end('along'),
        end('across'),
        { title: 'Leading end: hole', width: 22, align: 'end' },
        end('along'),
        end('across'),
      ],
      rows: holePairs(holes).map(({ plate, trailing, leading }) => {
        const one = trailing ?? leading;
        return [
          bold(String(plate)),
          number(one?.run.tape),
          number(one?.step),
          plain(trailing === undefined ? '' : String(trailing.number)),
          number(trailing?.along.tape),
          number(trailing?.across.tape),
          plain(leading === undefined ? '' : String(leading.number)),
          number(leading?.along.tape),
          number(leading?.across.tape),
        ];
      }),
    },
  ];
}

function stepTable({ steps }: JobCard): Section {
  return {
    type: 'table',
    columns: [
      { title: 'Step', width: 10, align: 'end' },
      { title: 'What to do', width: 106 },
      { title: 'Tools', width: 38 },
      { title: 'Done, by, at', width: 32 },
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

const dimensionColumns: readonly TableColumn[] = [
  { title: 'Dimension', width: 45 },
  { title: 'By this card', width: 24, align: 'end' },
  { title: 'Measured', width: 24 },
];

const passes = ['First pass, snug: tick each plate once', 'Second pass, clamp: tick each plate once'] as const;

const tighteningSections = ({ tightening, joint }: JobCard): Section[] =>
  tightening.length === 0
    ? []
    : [
        { type: 'title', text: 'Tightening in two passes' },
        {
          type: 'note',
          text:
            `Plates are counted from the marked corner, on the ${joint?.hand ?? 'right'} edge; the order goes ` +
            `from either end inward. All nuts of a plate before the next plate.`,
        },
        ...passes.flatMap((text): Section[] => [
          { type: 'note', text },
          { type: 'ticks', labels: tightening.map(String) },
        ]),
      ];

const signatures = [
  'Crew lead: joint made and checked',
  'Isolation taken off by',
  'Taken back by operations',
  'Tightened again after the first hours by',
] as const;

/** The card in its order: what comes before the work, the drawing, the work, the signatures. */
export function cardSections(card: JobCard): Section[] {
  const { belt, code, heading, parts, tools, dimensions, joint, unit, series, permit, invented, worst } = card;
  return [
    { type: 'head', title: cardTitle, belt: beltTitle(belt), code },
    { type: 'pairs', pairs: heading },
    {
      type: 'note',
      strong: true,
      text:
        `The plate supplier's instructions come first: where they differ from this card, follow them. ` +
        `${safetyPurpose}` +
        `${
          invented
            ? ' The figures of ' + 'plate series, ' + 'strips and rates in ' + 'this book are ' + 'invented.'
            : ''
        }`,
    },
    ...checkNotes(card),
    { type: 'blanks', names: permit },
    { type: 'title', text: 'Cautions, before step 1' },
    cautionTable(card),
    { type: 'title', text: 'Parts and tools' },
    {
      type: 'table',
      columns: [
        { title: 'Part', width: 32 },
        { title: 'Which', width: 82 },
        { title: 'How many', width: 22, align: 'end' },
        { title: 'Packs, length', width: 36 },
        { title: 'Here', width: 14 },
      ],
      rows: parts.map(({ item, what, count, remark }) => [
        bold(item),
        plain(what),
        plain(count),
        plain(remark),
        { blank: 'tick' },
      ]),
    },
    { type: 'note', text: `Tools to bring: ${tools.join('; ')}.` },
    { type: 'title', text: 'Time' },
    ...timeSections(card),
    ...(dimensions.length === 0
      ? []
      : [
          { type: 'title', text: 'Dimensions' } as const,
          {
            type: 'table',
            columns: [...dimensionColumns, ...dimensionColumns],
            rows: Array.from({ length: Math.ceil(dimensions.length / 2) }, (_, at) =>
              [dimensions[at], dimensions[at + Math.ceil(dimensions.length / 2)]].flatMap((one): Cell[] =>
                one === undefined ? [plain(''), plain(''), plain('')] : [plain(one.name), plain(one.text), value],
              ),
            ),
          } as const,
        ]),
    ...(joint === undefined
      ? []
      : [{ type: 'drawing', joint, unit, belt, series, standing: { worst, invented } } as const]),
    ...holeSections(card),
    { type: 'title', text: 'Steps' },
    stepTable(card),
    ...tighteningSections(card),
    { type: 'title', text: 'Signed' },
    {
      type: 'table',
      columns: [
        { title: '', width: 62 },
        { title: 'Name', width: 46 },
        { title: 'Signature', width: 46 },
        { title: 'Date, time', width: 32 },
      ],
      rows: signatures.map((text) => [bold(text), sign, sign, sign]),
    },
  ];
}

/** What stands at the foot of every page. */
export const footText = ({ belt, book, invented }: Pick<JobCard, 'belt' | 'book' | 'invented'>): string =>
  `${beltTitle(belt)}${book === '' ? '' : `, ${book}`}${invented ? ', invented figures' : ''}`;
