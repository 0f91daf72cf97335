import { belts } from '../../sheets/belts/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { cellInSheet } from '../workbook/state.ts';
import { Belt } from '../records/belt.ts';
import { type Asking, searched } from '../records/belt-trials.ts';
import type { Check } from './check.ts';
import { checks } from './checks.ts';
import type { Cure } from './cures/sought.ts';
import { type Verdict, verdictOf } from '../functions/checks.ts';
import type { Finding } from '../records/finding.ts';
import { unusualFindings } from '../records/unusual-inputs.ts';
import { isEmptyRecord, recordInputIssues, recordName, sheetInputIssues } from '../records/input-issues.ts';
import { beltNotes } from './notes.ts';
import { spelt } from '../units/spelling.ts';
import { type Cause, RootCauses } from './root-cause.ts';

/**
 * What the checks find in a book: for each belt the checks that do not simply fit, and cells that hold what they should
 * not.
 */

function* comparison(check: Check, belt: Belt, verdict: 'fails' | 'tight'): Asking<Finding> {
  const cures = yield* check.cures(belt, verdict);
  return {
    sheet: belts.name,
    record: belt.record,
    name: recordName(belt.book, belts.name, belt.record),
    check: check.word,
    verdict,
    column: check.look,
    cell: belt.cell(check.look),
    message: check.message(belt, verdict),
    given: check.given(belt),
    limit: check.limit(belt),
    cures: cures.map(({ text }) => text),
  };
}

/** A check whose cell holds the user's own verdict: nothing was compared. */
function byHand(check: Check, belt: Belt, verdict: 'fails' | 'tight'): Finding {
  const cell = belt.cell(check.column);
  return {
    sheet: belts.name,
    record: belt.record,
    name: recordName(belt.book, belts.name, belt.record),
    check: check.word,
    verdict,
    column: check.column,
    cell,
    message: `The ${check.word} check was set to "${verdict}" by hand: nothing was compared.`,
    given: check.given(belt),
    limit: check.limit(belt),
    cures: [`Delete the entry in ${cell} to run the check again.`],
  };
}

/** More causes than anyone reads at once are counted. */
const mostCauses = 4;

/** An input by its column, and by its row where that is another one: a list that was read has cells of its own. */
function lookAt({ book, record }: Belt, cause: Cause): string {
  if (cause.sheet === belts.name && cause.record === record) return cause.header;
  const name = recordName(book, cause.sheet, cause.record);
  return name === cause.header ? name : `${cause.header} of ${name}`;
}

function unknown(check: Check, belt: Belt, roots: RootCauses): Finding {
  const causes = roots.of(belts.name, belt.record, check.column);
  const [first] = causes;
  const wrong = causes.slice(0, mostCauses).map((cause) => cause.wrong);
  const more = causes.length > mostCauses ? [`${causes.length - mostCauses} more inputs are missing or wrong`] : [];
  return {
    sheet: belts.name,
    record: belt.record,
    name: recordName(belt.book, belts.name, belt.record),
    check: check.word,
    verdict: 'not known',
    column: first?.header ?? check.look,
    cell:
      first === undefined
        ? belt.cell(check.look)
        : cellInSheet(belt.book.sheet(first.sheet), first.record, first.column),
    message: `The ${check.word} check cannot be made: ${[...wrong, ...more].join('; ')}.`,
    given: check.given(belt),
    limit: check.limit(belt),
    cures: causes.map((cause) => `${lookAt(belt, cause)}: ${cause.remedy}.`),
  };
}

/** What a check that does not simply fit finds in a belt. */
function* checked(check: Check, belt: Belt, verdict: Exclude<Verdict, 'fits'>, roots: RootCauses): Asking<Finding> {
  if (verdict === 'not known') return unknown(check, belt, roots);
  return belt.book.overridden(belt.place(check.column))
    ? byHand(check, belt, verdict)
    : yield* comparison(check, belt, verdict);
}

/** What the checks find in some belts, by record; all cures are sought together. */
function checkFindings(book: Workbook, records: readonly number[]): ReadonlyMap<number, readonly Finding[]> {
  const roots = new RootCauses(book);
  const searches = records.flatMap((record) => {
    const belt = new Belt(book, record);
    return checks.flatMap((check) => {
      const verdict = belt.verdict(check.column);
      return verdict === 'fits' ? [] : [checked(check, belt, verdict, roots)];
    });
  });
  const found = new Map<number, Finding[]>();
  for (const finding of searched(searches)) {
    const ofBelt = found.get(finding.record);
    if (ofBelt === undefined) found.set(finding.record, [finding]);
    else ofBelt.push(finding);
  }
  return found;
}

/** The cures of one of a belt's checks, with the inputs that were tried; none where it fits, or is not known. */
export function curesOf(book: Workbook, record: number, word: string): readonly Cure[] {
  const check = checks.find((one) => one.word === word);
  const belt = new Belt(book, record);
  const verdict = check === undefined ? 'fits' : belt.verdict(check.column);
  return check !== undefined && (verdict === 'fails' || verdict === 'tight')
    ? (searched([check.cures(belt, verdict)])[0] ?? [])
    : [];
}

const isBelt = (book: Workbook, record: number): boolean => {
  const row = book.sheet(belts.name).rows[record];
  return row !== undefined && !isEmptyRecord(row.cells);
};

/** A finding as the book's users spell. */
function spelled(found: readonly Finding[], { units }: Workbook): Finding[] {
  if (units === 'metric') return [...found];
  return found.map((finding) => ({
    ...finding,
    message: spelt(finding.message, units),
    cures: finding.cures.map((cure) => spelt(cure, units)),
  }));
}

/**
 * All of some belts, by record: a belt's checks in the order of the verdict, then its cells. An empty line has none.
 * Cures are sought for all of them together, which takes a fraction of asking belt by belt.
 */
export function recordsFindings(book: Workbook, records: readonly number[]): ReadonlyMap<number, Finding[]> {
  const ofBelts = records.filter((record) => isBelt(book, record));
  const checks = checkFindings(book, ofBelts);
  return new Map(
    ofBelts.map((record) => {
      const found = [
        ...(checks.get(record) ?? []),
        ...beltNotes(book, record),
        ...recordInputIssues(book, belts.name, record),
        ...unusualFindings(book, record),
      ];
      return [record, spelled(found, book)];
    }),
  );
}

export const recordFindings = (book: Workbook, record: number): Finding[] =>
  recordsFindings(book, [record]).get(record) ?? [];

/** Belts whose findings are sought together: enough to fill blocks, few enough for memory not to grow with the list. */
const beltsAtOnce = 128;

/**
 * All belts' checks, some belts at a time, then all cells of the book that hold what they should not, sheet by sheet:
 * what is found can be told while the rest is sought. Right until the book changes.
 */
export function* findingsInTurn(book: Workbook): Generator<Finding[], void> {
  const records = [...book.sheet(belts.name).rows.keys()].filter((record) => isBelt(book, record));
  for (let first = 0; first < records.length; first += beltsAtOnce) {
    const some = records.slice(first, first + beltsAtOnce);
    const found = checkFindings(book, some);
    yield spelled(
      some.flatMap((record) => [
        ...(found.get(record) ?? []),
        ...beltNotes(book, record),
        ...unusualFindings(book, record),
      ]),
      book,
    );
  }
  for (const { name } of book.state.sheets) yield spelled(sheetInputIssues(book, name), book);
}

/** All of it at once. */
export const findings = (book: Workbook): Finding[] => [...findingsInTurn(book)].flat();

/** How many belts have each verdict; empty lines are no belts. */
export function verdictCounts(book: Workbook): Readonly<Record<Verdict, number>> {
  const counts: Record<Verdict, number> = { fits: 0, tight: 0, fails: 0, 'not known': 0 };
  const column = book.column(belts.name, 'Verdict');
  book.sheet(belts.name).rows.forEach((_, record) => {
    if (isBelt(book, record)) counts[verdictOf(book.value({ sheet: belts.name, record, column }))] += 1;
  });
  return counts;
}
