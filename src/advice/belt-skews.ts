import type { Verdict } from '../checks/finding.ts';
import { listed } from '../checks/words.ts';
import { type Entry, pulleyPlot, type PulleyPlot, skewAdvice } from '../plan/skew-advisor.ts';
import { plans } from '../workbook/layout.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { belts } from '../../sheets/belts.ts';
import { type AskedCheck, askedChecks, beltEvaluation, type FigureColumn, markedOut, precision, pulleyColumn, seriesColumn, skewColumn, tableSkews } from './skew-question.ts';

/** The skew advisor's answer for one belt, series by series, so that a page can take a breath in between. */

export type Figures = Readonly<Record<FigureColumn, number | undefined>>;

/** What keeps a joint from passing, and at which skews. */
export interface Hindrance {
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
  /** Runs of skews of the table that pass; the first begins at the least skew. */
  readonly passes: readonly SkewRange[];
  /** What does not pass at every skew: of the square joint when some skew passes, of all skews when none does. */
  readonly hindrances: readonly Hindrance[];
  readonly plot: PulleyPlot;
}

export interface MarkedPulley {
  readonly name: string;
  readonly diameter: number;
}

/** A number in the named column of a sheet's record, where the sheet has that column. */
function numberAt(book: Workbook, sheet: string, record: number, header: string): number | undefined {
  const value = book.column(sheet, header) < 0 ? null : book.read(sheet, record, header);
  return typeof value === 'number' ? value : undefined;
}

const columnsOfBelts = [['Smallest', 'Smallest pulley'], ['Head', 'Head pulley'], ['Tail', 'Tail pulley']] as const;

/** The sheet of pulleys, one a row: its columns by their headers. */
const pulleySheet = { name: 'Pulleys', belt: 'Belt', pulley: 'Pulley', diameter: 'Diameter' } as const;

/** A belt's pulleys: those of its own row, and those that a sheet of pulleys has for it; of one size, one mark. */
export function beltPulleys(book: Workbook, record: number): MarkedPulley[] {
  const own = columnsOfBelts.map(([name, header]) => ({ name, diameter: numberAt(book, belts.name, record, header) }));
  const belt = String(book.read(belts.name, record, belts.key) ?? '').toLowerCase();
  const rows = plans.has(pulleySheet.name) && belt !== '' ? book.sheet(pulleySheet.name).rows : [];
  const listed = rows.flatMap((_, row) => {
    if (String(book.read(pulleySheet.name, row, pulleySheet.belt) ?? '').toLowerCase() !== belt) return [];
    const name = book.read(pulleySheet.name, row, pulleySheet.pulley);
    return [{ name: typeof name === 'string' && name !== '' ? name : `pulley in row ${row + 2}`, diameter: numberAt(book, pulleySheet.name, row, pulleySheet.diameter) }];
  });
  const bySize = new Map<number, string[]>();
  for (const { name, diameter } of [...own, ...listed]) {
    if (diameter === undefined) continue;
    const names = bySize.get(diameter) ?? [];
    if (!names.some((other) => other.toLowerCase() === name.toLowerCase())) bySize.set(diameter, [...names, name]);
  }
  return [...bySize].map(([diameter, names]) => ({ name: names.join(', '), diameter })).toSorted((one, other) => one.diameter - other.diameter);
}

const isPassing = (verdict: Verdict): verdict is 'fits' | 'tight' => verdict === 'fits' || verdict === 'tight';

type Row = Pick<Entry<AskedCheck, FigureColumn>, 'skew' | 'verdicts' | 'hindered'>;

/** Where a check does not pass, in words. */
function place(check: AskedCheck, table: readonly Row[]): string {
  const hindered = table.map(({ verdicts }) => !isPassing(verdicts[check]));
  const [first, last] = [hindered.indexOf(false), hindered.lastIndexOf(false)];
  if (first < 0) return 'at every skew';
  const degrees = (index: number): string => `${table[index]?.skew ?? 0}°`;
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

/** What one plate series comes to for a belt: the least skew that passes, what it costs, and the plot's line. */
export function seriesSkews(book: Workbook, record: number, series: string, pulleys: readonly MarkedPulley[]): SeriesSkews {
  const question = { series: [series], skews: tableSkews, precision };
  const evaluate = beltEvaluation(book, record);
  const { table, advice: [advice] } = skewAdvice({ ...question, evaluate });
  const [plot] = pulleyPlot(question, (skew, name) => evaluate(skew, name).figures[pulleyColumn], pulleys);
  if (advice === undefined || plot === undefined) throw new Error(`the advisor says nothing of ${series}`);
  const { least, extra } = advice;
  const leastSkew = least === undefined ? undefined : markedOut(least.skew);
  const marks = plot.marks.map(({ from, ...mark }) => (from === undefined ? mark : { ...mark, from: markedOut(from) }));
  return {
    series,
    passes: passingRanges(table, leastSkew),
    hindrances: hindrances(table, least === undefined ? table : table.slice(0, 1)),
    plot: { ...plot, marks },
    ...(least === undefined || extra === undefined || leastSkew === undefined
      ? {}
      : { least: { skew: leastSkew, tight: askedChecks.filter((check) => least.verdicts[check] === 'tight'), figures: least.figures, extra } }),
  };
}

/** A belt's own skew and series, as its row has them. */
export function ownJoint(book: Workbook, record: number): { readonly skew: number | undefined; readonly series: string } {
  const series = book.read(belts.name, record, seriesColumn);
  return { skew: numberAt(book, belts.name, record, skewColumn), series: typeof series === 'string' ? series : '' };
}

/** The series of a list whose joint costs least at its least skew; undefined when none passes or no cost is known. */
export function cheapest(all: readonly SeriesSkews[]): string | undefined {
  const known = all.flatMap(({ series, least }) => (least?.figures['Joint cost'] === undefined ? [] : [{ series, skew: least.skew, cost: least.figures['Joint cost'] }]));
  return known.toSorted((one, other) => one.cost - other.cost || one.skew - other.skew)[0]?.series;
}

const hindranceText = ({ check, verdict, where }: Hindrance): string => `${check} ${verdict === 'fails' ? 'fails' : 'is not known'} ${where}`;

/** Why no skew passes: what fails at all of them, else where each check fails. */
export function whyNone(all: readonly Hindrance[]): string {
  const always = all.filter((one) => one.always);
  if (always.length === 0) return listed(all.map(hindranceText));
  const words = (verdict: Hindrance['verdict'], one: string, several: string): string[] => {
    const names = always.filter((item) => item.verdict === verdict).map(({ check }) => check);
    return names.length === 0 ? [] : [`${listed(names)} ${names.length === 1 ? one : several}`];
  };
  return `${listed([...words('fails', 'fails', 'fail'), ...words('not known', 'is not known', 'are not known')])} at every skew`;
}

/** Where a joint passes: "at every skew", "at 9.4° to 15.5° and 19° to 22°", "at no skew". */
export function rangesText(passes: readonly SkewRange[]): string {
  const [first] = passes;
  if (first === undefined) return 'at no skew';
  if (first.from === tableSkews[0] && first.to === tableSkews.at(-1)) return 'at every skew';
  return `at ${listed(passes.map(({ from, to }) => (from === to ? `${from}°` : `${from}° to ${to}°`)), 'and', 12)}`;
}
