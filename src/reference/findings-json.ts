import type { Verdict } from '../functions/checks.ts';
import { type Figure, type Finding, verdictMeanings } from '../records/finding.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { NotUnderstood } from '../xlsx/import/import-model.ts';
import type { Entry, Section } from './entry.ts';

/** What `check --json` prints: its shape, and each of its fields in words. A field more here is one more there. */

type PlacedFinding = Finding & { readonly place: string };

/** Belts, and of these how many have each verdict. */
export type VerdictCounts = Readonly<Record<'belts' | Verdict, number>>;

export interface FindingsJson {
  readonly file: string;
  readonly units: UnitSystem;
  readonly reviewDate: string | null;
  readonly supposed: readonly string[];
  readonly counts: VerdictCounts;
  readonly findings: readonly PlacedFinding[];
  readonly notUnderstood: readonly NotUnderstood[];
}

/** What a field holds, and what it means. */
type Field = readonly [holds: string, says: string];
type FieldsOf<Shape> = Readonly<Record<keyof Shape, Field>>;

const whole: FieldsOf<FindingsJson> = {
  file: ['text', 'the list, as it was given'],
  units: ['"metric" or "us"', 'the unit system of every figure below'],
  reviewDate: ['text or null', 'the day that joint ages are counted to, as year-month-day'],
  supposed: ['list of texts', 'what --set changed in the book that was read, one sentence each'],
  counts: ['object', 'how many belts there are, and how many have each verdict'],
  findings: ['list', 'what does not simply fit, and cells of the book that hold what they should not'],
  notUnderstood: ['list', 'cells of the list whose text could not be read as what their column holds'],
};

const counts: FieldsOf<VerdictCounts> = {
  belts: ['number', 'belts in the list'],
  fits: ['number', 'belts whose joint passes every check'],
  tight: ['number', `belts of which ${verdictMeanings.tight}`],
  fails: ['number', 'belts whose joint fails a check'],
  'not known': ['number', 'belts with a check whose inputs are missing or wrong'],
};

const finding: FieldsOf<PlacedFinding> = {
  sheet: ['text', 'the sheet of the book that holds the record'],
  record: ['number', 'the record, counted from 0; its row in the book is two more'],
  name: ['text', "the record's name: the belt"],
  check: ['text', 'the check, or "input" for a cell that holds what it should not'],
  verdict: ['text', '"fails", "tight", "not known", or "compare" where two methods disagree'],
  column: ['text', 'the column to look at first'],
  cell: ['text', 'that cell in the book, as "Belts!J24"'],
  place: ['text', 'that cell in the list, with file and sheet'],
  message: ['text', 'one sentence with both numbers, or with what is missing'],
  given: ['object or null', 'what the record says'],
  limit: ['object or null', 'what it was held against'],
  cures: ['list of texts', 'what would cure it, the easiest first'],
};

const figure: FieldsOf<Figure> = {
  label: ['text', 'what the figure is'],
  value: ['number, text or null', 'null where it is not known'],
  kind: ['text', 'the kind of quantity'],
  unit: ['text', "its unit, '' where there is none"],
};

const notUnderstood: FieldsOf<NotUnderstood> = {
  sheet: ['text', 'the sheet of the list'],
  cell: ['text', 'the cell'],
  column: ['text', 'the column of the book that it was read for'],
  given: ['text', 'what it holds'],
  why: ['text', 'why that cannot be used'],
  allowed: ['text', "what is allowed, '' where nothing more can be said"],
};

const parts: readonly (readonly [before: string, fields: Readonly<Record<string, Field>>])[] = [
  ['', whole],
  ['counts.', counts],
  ['findings[].', finding],
  ['findings[].given.', figure],
  ['findings[].limit.', figure],
  ['notUnderstood[].', notUnderstood],
];

const entries: readonly Entry[] = parts.flatMap(([before, fields]) =>
  Object.entries(fields).map(([name, [holds, says]]) => ({
    name: `\`${before}${name}\``,
    says,
    facts: [{ label: 'holds', text: holds }],
  })),
);

/** What `check --json` prints, field by field. */
export const findingsJsonSection = (): Section => ({
  about: [
    '`check --json` prints one object. Its shape is kept: fields may be added, and those here keep their meaning. ' +
      'Exit codes are those of `check`.',
  ],
  entry: 'field',
  layout: 'table',
  first: 'holds',
  groups: [{ title: '', entries }],
});
