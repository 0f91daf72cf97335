import { degreesText } from '../units/shown-mark.ts';
import type { Verdict } from '../functions/checks.ts';
import { amount, listed } from '../sheet/words.ts';
import { bestBy, type Entry, pulleyPlot, type PulleyPlot, skewAdvice } from './skew-advisor.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { Belt, beltColumn } from '../records/belt.ts';
import { listedPulleys } from '../records/belt-pulleys.ts';
import {
  type AskedCheck,
  askedChecks,
  beltEvaluation,
  type FigureColumn,
  markedOut,
  precision,
  pulleyColumn,
  seriesColumn,
  skewColumn,
  tableSkews,
} from './skew-question.ts';

/** The skew advisor's answer for one belt, series by series, so that a page can take a breath in between. */

type Figures = Readonly<Record<FigureColumn, number | undefined>>;

/** What keeps a joint from passing, and at which skews. */
interface Hindrance {
  readonly check: AskedCheck;
  readonly verdict: Exclude<Verdict, 'fits' | 'tight'>;
  /** "at every skew", "below 31.5°", "above 52°", "at most skews", "at some skews". */
  readonly where: string;
  readonly always: boolean;
}

export interface LeastSkew {
  readonly skew: number;
  /** Checks that pass by less than the margin. */
  readonly tight: readonly AskedCheck[];
  readonly figures: Figures;
  /** Each figure less that of the square joint of the same series. */
  readonly extra: Figures;
}

/** A run of skews, both ends in it. */
export interface SkewRange {
  readonly from: number;
  readonly to: number;
}

export interface SeriesSkews {
  readonly series: string;
  /** Undefined when no skew passes. */
  readonly least?: LeastSkew;
  /** Runs of skews of the table that pass; the first begins at the minimum skew. */
  readonly passes: readonly SkewRange[];
  /** What does not pass at every skew: of the square joint when some skew passes, of all skews when none does. */
  readonly hindrances: readonly Hindrance[];
  /** The joint's minimum pulley over its skew; skews where it is not known are left out. */
  readonly curve: PulleyPlot['curve'];
  readonly pulleys: readonly ReachedPulley[];
}

export interface MarkedPulley {
  readonly name: string;
  /** As large as it counts for the joint. */
  readonly diameter: number;
  readonly measured: number;
}

/** A pulley of the plot, and the minimum skew at which the joint passes it; undefined when none does. */
export interface ReachedPulley extends MarkedPulley {
  readonly from: number | undefined;
}

const columnsOfBelts = [
  ['Smallest', 'Smallest pulley'],
  ['Head', 'Head pulley'],
  ['Tail', 'Tail pulley'],
] as const;

/**
 * A belt's pulleys: those of its own row, and those that the sheet of pulleys lists for it; of one size, one mark.
 *
 * On a reverse bend a joint needs a larger pulley, so a pulley there counts as less than it measures.
 */
export function beltPulleys(book: Workbook, record: number): MarkedPulley[] {
  const belt = new Belt(book, record);
  const own = columnsOfBelts.map(([name, header]) => ({ name, measured: belt.number(header), counts: undefined }));
  const onList = listedPulleys(belt).map((pulley) => ({
    name: pulley.name,
    measured: pulley.number('Diameter'),
    counts: pulley.number('Joint diameter'),
  }));
  const marks = new Map<string, { readonly names: string[]; readonly measured: number; readonly diameter: number }>();
  for (const { name, measured, counts } of [...own, ...onList]) {
    if (measured === undefined) continue;
    const diameter = counts ?? measured;
    const key = `${measured} ${diameter}`;
    const mark = marks.get(key) ?? { names: [], measured, diameter };
    marks.set(key, mark);
    if (!mark.names.some((other) => other.toLowerCase() === name.toLowerCase())) mark.names.push(name);
  }
  return [...marks.values()]
    .map(({ names, ...mark }) => ({ ...mark, name: names.join(', ') }))
    .toSorted((one, other) => one.diameter - other.diameter);
}

/** A pulley in words: its name and diameter, and the diameter that counts on a reverse bend. */
export const pulleyText = ({ name, diameter, measured }: MarkedPulley, size: (diameter: number) => string): string =>
  `${name} ${size(measured)}${measured === diameter ? '' : ` on a reverse bend, counted as ${size(diameter)}`}`;

/** From which skew a joint passes a pulley, in words. */
export const reachedText = (from: number | undefined): string =>
  from === undefined ? 'at no skew' : from === 0 ? 'at any skew' : `from ${degreesText(from)}`;

const isPassing = (verdict: Verdict): verdict is 'fits' | 'tight' => verdict === 'fits' || verdict === 'tight';

type Row = Pick<Entry<AskedCheck, FigureColumn>, 'skew' | 'verdicts' | 'hindered'>;

/** Where a check does not pass, in words. */
function place(check: AskedCheck, table: readonly Row[]): string {
  const hindered = table.map(({ verdicts }) => !isPassing(verdicts[check]));
  const [first, last] = [hindered.indexOf(false), hindered.lastIndexOf(false)];
  if (first < 0) return 'at every skew';
  const degrees = (index: number): string => degreesText(table[index]?.skew ?? 0);
  const middle = hindered.slice(first, last + 1).includes(true);
  if (middle) return hindered.filter(Boolean).length * 2 > hindered.length ? 'at most skews' : 'at some skews';
  if (last === hindered.length - 1) return `below ${degrees(first)}`;
  return first === 0 ? `above ${degrees(last)}` : `below ${degrees(first)} and above ${degrees(last)}`;
}

/** The verdict that a check has most often where it does not pass. */
function usual(check: AskedCheck, table: readonly Row[]): Hindrance['verdict'] {
  const verdicts = table.map((row) => row.verdicts[check]).filter((verdict) => !isPassing(verdict));
  return verdicts.filter((verdict) => verdict === 'fails').length * 2 >= verdicts.length ? 'fails' : 'not known';
}

function hindrances(table: readonly Row[], of: readonly Row[]): Hindrance[] {
  const checks = askedChecks.filter((check) => of.some(({ hindered }) => hindered.includes(check)));
  return checks
    .map((check) => {
      const where = place(check, table);
      return { check, verdict: usual(check, of), where, always: where === 'at every skew' };
    })
    .toSorted((one, other) => Number(other.always) - Number(one.always));
}

function passingRanges(table: readonly Entry<AskedCheck, FigureColumn>[], least: number | undefined): SkewRange[] {
  const ranges: { from: number; to: number }[] = [];
  let open: { from: number; to: number } | undefined;
  for (const { skew, passes } of table) {
    if (!passes) open = undefined;
    else if (open === undefined) ranges.push((open = { from: ranges.length === 0 ? (least ?? skew) : skew, to: skew }));
    else open.to = skew;
  }
  return ranges;
}

/** One plate series for a belt: the minimum skew that passes, its cost, and the plot's line. */
export function seriesSkews(
  book: Workbook,
  record: number,
  series: string,
  pulleys: readonly MarkedPulley[],
): SeriesSkews {
  const question = { series: [series], skews: tableSkews, precision };
  const evaluate = beltEvaluation(book, record);
  const {
    table,
    advice: [advice],
  } = skewAdvice({ ...question, evaluate });
  const [plot] = pulleyPlot(question, (skew, name) => evaluate(skew, name).figures[pulleyColumn], pulleys);
  if (advice === undefined || plot === undefined) throw new Error(`there is no advice for the series ${series}`);
  const { least, extra } = advice;
  const leastSkew = least === undefined ? undefined : markedOut(least.skew);
  const reached = pulleys.map((pulley, index): ReachedPulley => {
    const from = plot.marks[index]?.from;
    return { ...pulley, from: from === undefined ? undefined : markedOut(from) };
  });
  return {
    series,
    passes: passingRanges(table, leastSkew),
    hindrances: hindrances(table, least === undefined ? table : table.slice(0, 1)),
    curve: plot.curve,
    pulleys: reached,
    ...(least === undefined || extra === undefined || leastSkew === undefined
      ? {}
      : {
          least: {
            skew: leastSkew,
            tight: askedChecks.filter((check) => least.verdicts[check] === 'tight'),
            figures: least.figures,
            extra,
          },
        }),
  };
}

/** A belt's own skew and series, as its row has them. */
export function ownJoint(
  book: Workbook,
  record: number,
): { readonly skew: number | undefined; readonly series: string } {
  const belt = new Belt(book, record);
  return { skew: belt.number(skewColumn), series: belt.text(seriesColumn) };
}

/** How the present joint stands and how much belt it takes; undefined without a skew or series. */
export function presentText(book: Workbook, record: number): string | undefined {
  const { skew, series } = ownJoint(book, record);
  if (skew === undefined || series === '') return undefined;
  const { verdicts, figures } = beltEvaluation(book, record)(skew, series);
  const parts = (['fails', 'not known', 'tight'] as const).flatMap((verdict) => {
    const checks = askedChecks.filter((check) => verdicts[check] === verdict);
    return checks.length === 0 ? [] : [`${verdict}: ${listed(checks)}`];
  });
  const taken = figures['Joint takes'];
  return (
    `Now: ${degreesText(skew)}, ${series}; ${parts.length === 0 ? 'fits' : parts.join('; ')}; takes ` +
    `${taken === undefined ? 'an unknown length' : amount(taken, beltColumn('Joint takes'), book.units)} of belt.`
  );
}

/** The series of a list whose joint costs least at its minimum skew; undefined when none passes or no cost is known. */
export const cheapest = (all: readonly SeriesSkews[]): string | undefined => bestBy(all, 'Joint cost')?.series;

const hindranceText = ({ check, verdict, where }: Hindrance): string =>
  `${check} ${verdict === 'fails' ? 'fails' : 'is not known'} ${where}`;

/** Why no skew passes: what fails at all of them, otherwise where each check fails. */
export function whyNone(all: readonly Hindrance[]): string {
  const always = all.filter((one) => one.always);
  if (always.length === 0) return listed(all.map(hindranceText));
  const words = (verdict: Hindrance['verdict'], one: string, several: string): string[] => {
    const names = always.filter((item) => item.verdict === verdict).map(({ check }) => check);
    return names.length === 0 ? [] : [`${listed(names)} ${names.length === 1 ? one : several}`];
  };
  return (
    `${listed([...words('fails', 'fails', 'fail'), ...words('not known', 'is not known', 'are not known')])} at ` +
    `every skew`
  );
}

/** Where a joint passes: "at every skew", "at 9.4° to 15.5° and 19° to 22°", "at no skew". */
export function rangesText(passes: readonly SkewRange[]): string {
  const [first] = passes;
  if (first === undefined) return 'at no skew';
  if (first.from === tableSkews[0] && first.to === tableSkews.at(-1)) return 'at every skew';
  return `at ${listed(
    passes.map(({ from, to }) => (from === to ? degreesText(from) : `${degreesText(from)} to ${degreesText(to)}`)),
    'and',
    12,
  )}`;
}
