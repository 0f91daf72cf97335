import { shortText } from '../units/shown-mark.ts';
import { recordFindings } from '../checks/findings.ts';
import { type Standing, setVerdictTexts, standing, standingText } from '../checks/set-verdicts.ts';
import type { Verdict } from '../functions/checks.ts';
import { Belt } from '../records/belt.ts';
import type { Finding } from '../records/finding.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { type BeltJoint, beltJoint } from '../drawing/belt-joint.ts';
import type { JointGeometry } from '../drawing/joint.ts';
import { type HoleRow, holeTable } from '../drawing/hole-table.ts';
import { type Dimension, jointReport } from '../drawing/joint-report.ts';
import { type LengthUnit, tapeText } from '../drawing/tape.ts';
import { type CautionNote, cautionsFor, permitLines } from '../job/cautions.ts';
import { type FilledStep, filledSteps } from '../job/filled-steps.ts';
import { readSteps, stepFaultText, variantOf } from '../job/job-steps.ts';
import { presentStep, standardInstead } from '../job/present-steps.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import type { StepRow } from '../../sheets/work/standard-steps.ts';
import { listed } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Part, cardParts } from './card-parts.ts';
import { type CardTimes, cardTimes } from './card-times.ts';
import { lengthUnit, stepRows, stepValues, tapeValue } from './card-values.ts';
import { beltCode } from './qr.ts';

/** All that a crew takes to a belt, as data; how it is laid out is the renderers' matter. */
export interface JobCard {
  /** '' for a belt without a name. */
  readonly belt: string;
  readonly book: string;
  /** The suppliers' figures are those of the demo. */
  readonly invented: boolean;
  readonly units: UnitSystem;
  readonly unit: LengthUnit;
  readonly heading: readonly { readonly name: string; readonly value: string }[];
  readonly code: readonly (readonly boolean[])[] | undefined;
  /** As it is printed: one set by hand says so, with the computed one beside. */
  readonly verdict: string;
  /** The worse of the verdict set by hand and the computed one: what the crew is warned by. */
  readonly worst: Verdict;
  /** What the checks say of the belt, the worst first. */
  readonly findings: readonly Finding[];
  readonly permit: readonly string[];
  readonly cautions: readonly CautionNote[];
  /** Absent when not even the cut can be drawn. */
  readonly joint: JointGeometry | undefined;
  readonly series: string;
  /** What can't be drawn, what was set by hand, which steps are faulty: in sentences. */
  readonly remarks: readonly string[];
  readonly dimensions: readonly Dimension[];
  readonly holes: readonly HoleRow[];
  readonly parts: readonly Part[];
  /** Of all steps, each once. */
  readonly tools: readonly string[];
  readonly steps: readonly FilledStep[];
  /** Plate numbers in the order of TIGHTENTURN; both passes take it. */
  readonly tightening: readonly number[];
  readonly times: CardTimes | { readonly missing: readonly string[] };
}

const jointWords = ({
  number,
  hand,
}: {
  readonly number: number | undefined;
  readonly hand: 'left' | 'right';
}): string =>
  number === undefined
    ? 'skew not known'
    : number === 0
      ? `square, measured from the ${hand} edge`
      : `skew ${shortText(number, 2)}°, ${hand}-hand`;

/** Columns that the drawing works out too: where a user's own entry differs, the card must say so. */
function setByHand(book: Workbook, record: number, joint: JointGeometry, unit: LengthUnit): string[] {
  const plated = joint.plates.length > 0;
  const drawn: readonly (readonly [BeltHeader, number | undefined])[] = [
    ['Cut length', joint.cutLength],
    ['Edge offset', joint.offset],
    ['Plates', plated ? joint.plates.length : undefined],
    ['Edge clearance', plated ? joint.edgeLeft : undefined],
    ['Holes', plated ? joint.holes.length : undefined],
    ['Strip length each', joint.strips[0]?.length],
  ];
  return drawn.flatMap(([header, value]) => {
    const cell = book.read(belts.name, record, header);
    if (
      value === undefined ||
      typeof cell !== 'number' ||
      Math.abs(cell - value) <= 1e-9 * Math.max(1, Math.abs(value))
    )
      return [];
    const text = (size: number): string =>
      header === 'Plates' || header === 'Holes' ? String(size) : tapeText(size, unit);
    return [
      `${header} was set to ${text(cell)} by hand in the sheet ${belts.name}; the drawing, the dimensions and the ` +
        `holes use ${text(value)}.`,
    ];
  });
}

/** The plate series that has a fault in the pattern must not be drilled by. */
const patternWarning = (joint: JointGeometry | undefined): string[] =>
  joint === undefined || joint.patternFaults.length === 0
    ? []
    : [`Do not punch or drill by this card: ${joint.patternFaults.join(' ')}`];

/**
 * The tools of all steps, each once: case does not tell two apart, and one that another names more exactly ("straight
 * edge", "straight edge longer than the cut") is left to that one. For tests: lists of one's own are tried.
 */
export function toolList(named: readonly string[]): string[] {
  const tools = new Map(
    named.filter((tool) => tool !== 'this card').map((tool) => [tool.toLowerCase(), tool] as const),
  );
  const more = /^ (?:with|longer|or|as|where) /;
  return [...tools].flatMap(([key, tool]) =>
    [...tools.keys()].some((other) => other.startsWith(key) && more.test(other.slice(key.length))) ? [] : [tool],
  );
}

const worstFirst: readonly string[] = ['fails', 'not known', 'tight', 'compare'];

/** What belt and what joint it is, at the head of the card. */
function headingOf(
  belt: Belt,
  { series, geometry }: BeltJoint,
  unit: LengthUnit,
  stands: Standing,
): JobCard['heading'] {
  const given = (header: BeltHeader): JobCard['heading'] => {
    const value = belt.text(header);
    return value === '' ? [] : [{ name: header, value }];
  };
  const width = belt.number('Width');
  const supplier = belt.ofSeries('Supplier');
  const joint = jointWords({ number: belt.number('Skew'), hand: geometry?.hand ?? 'right' });
  return [
    ...given('Area'),
    ...given('Material'),
    {
      name: plateSeries.name,
      value: series === '' ? 'not known' : `${series}${typeof supplier === 'string' ? `, ${supplier}` : ''}`,
    },
    { name: 'Joint', value: joint },
    { name: 'Width', value: width === undefined ? 'not known' : tapeText(width, unit) },
    ...given('Construction'),
    { name: 'Service', value: belt.text('Service') || 'not known' },
    { name: 'Checks', value: standingText(stands) },
  ];
}

/** Which steps of the book are those of an earlier version, in whose place the card prints the present ones. */
function earlierSteps(rows: readonly StepRow[]): string[] {
  const titles = rows.filter((row) => standardInstead(row) !== undefined).map(({ Step: title }) => String(title));
  return titles.length === 0
    ? []
    : [
        `The sheet ${stepsSheet.name} holds an earlier version's text in ${counted(titles.length, 'step')}: ` +
          `${listed(titles, 'and', 4)}. This card prints the present text. Edit a step to print your own.`,
      ];
}

/** The card of one belt; of a joint that can't be drawn it says so and leaves the drawing out. */
export function jobCard(book: Workbook, record: number): JobCard {
  const belt = new Belt(book, record);
  const unit = lengthUnit(book.units);
  const drawn: BeltJoint = beltJoint(book, record);
  const joint = drawn.geometry;
  const report = joint === undefined ? undefined : jointReport(joint, unit);
  const rows = stepRows(book);
  const { steps, faults } = readSteps(rows.map(presentStep));
  const service = belt.text('Service');
  const filled = filledSteps(steps, {
    variant: variantOf(belt.number('Skew')) ?? 'skew',
    units: book.units,
    values: stepValues(belt),
    service: service === '' ? undefined : service,
    show: tapeValue,
  });
  const notes = cautionsFor(service === '' ? undefined : service, new Set(filled.flatMap(({ cautions }) => cautions)));
  const stands = standing(belt);
  const sound = joint !== undefined && joint.patternFaults.length === 0;
  return {
    belt: belt.name,
    book: book.state.title,
    invented: book.state.invented,
    units: book.units,
    unit,
    heading: headingOf(belt, drawn, unit, stands),
    code: beltCode(belt.name),
    verdict: standingText(stands),
    worst: stands.worst,
    findings: recordFindings(book, record).toSorted(
      (one, other) => worstFirst.indexOf(one.verdict) - worstFirst.indexOf(other.verdict),
    ),
    permit: permitLines(notes),
    cautions: notes,
    joint,
    series: drawn.series,
    remarks: [
      ...patternWarning(joint),
      ...setVerdictTexts(stands),
      ...drawn.remarks.filter((remark) => joint === undefined || !joint.patternFaults.includes(remark)),
      ...(joint === undefined ? [] : setByHand(book, record, joint, unit)),
      ...earlierSteps(rows),
      ...faults.map(stepFaultText),
    ],
    dimensions: report?.dimensions ?? [],
    holes: joint !== undefined && sound ? holeTable(joint, unit) : [],
    parts: cardParts(belt, unit),
    tools: toolList(filled.flatMap(({ tools }) => tools)),
    steps: filled,
    tightening: report?.tightening ?? [],
    times: cardTimes(belt),
  };
}

/** Why there can be no drawing of the card's joint, or no pattern to drill by; undefined when there can. */
export function noDrawing({ joint, remarks }: JobCard, wanted: 'drawing' | 'pattern'): string | undefined {
  if (joint === undefined) return remarks.join(' ');
  return wanted === 'pattern' && joint.series === undefined
    ? `${remarks.join(' ')} Without plates there is no hole pattern.`
    : undefined;
}
