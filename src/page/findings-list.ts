import type { Verdict } from '../functions/checks.ts';
import type { Finding } from '../records/finding.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { overviewOf } from './belt-overview.ts';
import type { Desk } from './desk.ts';
import type { ListedFinding, Scope } from './finding-groups.ts';
import { beltsFiltered, shownBelt } from './shown-belt.ts';

/** Which findings are listed. */

/** The belts in question, with how many of them have each verdict. */
interface CountedScope extends Scope {
  readonly counts: Readonly<Record<Verdict, number>>;
}

/**
 * The belts in question; `filtered` are the records that the sheet's filter leaves. For tests: belts are counted.
 */
export function scopeOf(book: Workbook, filtered: readonly number[] | undefined, area: string): CountedScope {
  const overview = overviewOf(book);
  const of = overview.belts;
  if (filtered === undefined && area === '')
    return { records: { has: (record) => overview.isBelt(record), size: of }, of, counts: overview.counts() };
  const left = filtered === undefined ? undefined : new Set(filtered);
  const records = new Set(overview.recordsIn(area).filter((record) => left?.has(record) ?? true));
  return { records, of, counts: overview.counts(records) };
}

/** What the belts in question follow from; drawing the page asks for them at every key. */
interface ScopeNow {
  readonly book: Workbook;
  readonly filtered: readonly number[] | undefined;
  readonly area: string;
  readonly version: number;
  readonly scope: CountedScope;
}
let lastScope: ScopeNow | undefined;

/** The belts in question: of the area chosen, and where the list follows the filter, those that it leaves. */
export function scopeNow(desk: Desk): CountedScope {
  const {
    book,
    findingsChoice: { area, follows },
  } = desk;
  const filtered = beltsFiltered(desk) && follows ? desk.grid?.shownRecords() : undefined;
  const { version } = overviewOf(book);
  const kept = lastScope;
  if (kept?.book === book && kept.filtered === filtered && kept.area === area && kept.version === version)
    return kept.scope;
  const scope = scopeOf(book, filtered, area);
  lastScope = { book, filtered, area, version, scope };
  return scope;
}

/** The findings as they are listed now, all of them. */
export const findingsNow = (desk: Desk): readonly ListedFinding[] =>
  desk.findings.groups.list(desk.findingsChoice, scopeNow(desk), shownBelt(desk)).listed;

/** The names of the belts of one finding, in words. */
export const namesOf = (all: readonly Finding[]): string =>
  all.map(({ name, cell }) => (name === '' ? cell : name)).join(', ');
