import { belts } from '../../sheets/belts/index.ts';
import { type Verdict, verdictOf } from '../functions/checks.ts';
import type { Finding } from '../records/finding.ts';
import { isEmptyRecord } from '../records/input-issues.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Desk, FindingsChoice } from './desk.ts';
import { shownBelt } from './shown-belt.ts';
import { verdictOrder } from './verdict-look.ts';

/** Which findings are listed, and in what order. */

/** A finding, with the belts of which the same is to be said. */
export interface ListedFinding {
  /** The first of them, in whose words it is told. */
  readonly finding: Finding;
  readonly all: readonly Finding[];
}

/** The belts of which findings are told: those that a filter leaves, of an area. */
export interface Scope {
  readonly records: ReadonlySet<number>;
  /** Belts in the book. */
  readonly of: number;
}

/** The worst first; what no verdict counts comes last. */
const severity = ({ verdict }: Finding): number =>
  verdict === 'compare' ? verdictOrder.length : verdictOrder.indexOf(verdict);

const areaOf = (book: Workbook, record: number): string => String(book.read(belts.name, record, 'Area') ?? '');

const isBelt = (book: Workbook, record: number): boolean =>
  !isEmptyRecord(book.sheet(belts.name).rows[record]?.cells ?? []);

/** The areas that belts stand in, in the order in which they are first named. */
export const areasOf = (book: Workbook): string[] =>
  [...new Set(book.sheet(belts.name).rows.map((_, record) => areaOf(book, record)))].filter((area) => area !== '');

/**
 * The belts in question; `filtered` are the records that the sheet's filter leaves. For tests: belts are counted.
 */
export function scopeOf(book: Workbook, filtered: readonly number[] | undefined, area: string): Scope {
  const all = [...book.sheet(belts.name).rows.keys()].filter((record) => isBelt(book, record));
  const left = filtered === undefined ? undefined : new Set(filtered);
  const records = all.filter((record) => (left?.has(record) ?? true) && (area === '' || areaOf(book, record) === area));
  return { records: new Set(records), of: all.length };
}

/** How many of the belts in question have each verdict. */
export function countsIn(book: Workbook, { records }: Scope): Readonly<Record<Verdict, number>> {
  const counts: Record<Verdict, number> = { fits: 0, tight: 0, fails: 0, 'not known': 0 };
  for (const record of records) counts[verdictOf(book.read(belts.name, record, 'Verdict'))] += 1;
  return counts;
}

/** A text without the rows of the cells that it names, by which the same finding of two belts is known. */
const rowless = (text: string): string => text.replaceAll(/\b([A-Z]{1,3})\d+\b/g, '$1');

const sameness = ({ verdict, sheet, check, column, message, cures }: Finding): string =>
  JSON.stringify([verdict, sheet, check, column, rowless(message), ...cures.map(rowless)]);

/**
 * Findings in question, the selected belt's first, then the worst; what is the same of several belts is told once.
 *
 * While only some of the belts are in question, findings of other sheets are not. For tests: lists are compared.
 */
export function listedFindings(
  findings: readonly Finding[],
  { verdict, check }: Pick<FindingsChoice, 'verdict' | 'check'>,
  { records, of }: Scope,
  selected: number | undefined,
): ListedFinding[] {
  const inQuestion = findings.filter(
    (finding) =>
      (verdict === undefined || finding.verdict === verdict) &&
      (check === '' || finding.check === check) &&
      (finding.sheet === belts.name ? records.has(finding.record) : records.size === of),
  );
  const isOwn = ({ sheet, record }: Finding): boolean => sheet === belts.name && record === selected;
  const groups = new Map<string, Finding[]>();
  for (const finding of inQuestion) {
    const key = sameness(finding);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else if (isOwn(finding)) group.unshift(finding);
    else group.push(finding);
  }
  return [...groups.values()]
    .flatMap((all) => (all[0] === undefined ? [] : [{ finding: all[0], all }]))
    .toSorted(
      (one, other) =>
        Number(isOwn(other.finding)) - Number(isOwn(one.finding)) || severity(one.finding) - severity(other.finding),
    );
}

/** Whether the sheet Belts is on show with a filter. */
export const beltsFiltered = ({ grid }: Desk): boolean =>
  grid?.sheet === belts.name && (grid.rowView?.filters() ?? []).length > 0;

/** The belts in question: of the area chosen, and where the list follows the filter, those that it leaves. */
export const scopeNow = (desk: Desk): Scope =>
  scopeOf(
    desk.book,
    beltsFiltered(desk) && desk.findingsChoice.follows ? desk.grid?.shownRecords() : undefined,
    desk.findingsChoice.area,
  );

/** The findings as they are listed now. */
export const findingsNow = (desk: Desk): ListedFinding[] =>
  listedFindings(desk.findings.list, desk.findingsChoice, scopeNow(desk), shownBelt(desk));

/** The names of the belts of one finding, in words. */
export const namesOf = (all: readonly Finding[]): string =>
  all.map(({ name, cell }) => (name === '' ? cell : name)).join(', ');
