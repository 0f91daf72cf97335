import { newJointChecks } from '../../sheets/belts/check-columns.ts';
import { belts } from '../../sheets/belts/index.ts';

import type { Workbook } from '../workbook/workbook.ts';
import { Belt, type Missing } from './belt.ts';
import { isEmptyRecord, recordName } from './input-issues.ts';
import { listed } from '../sheet/words.ts';

/** The belts of a book whose joints are to be made: for an order, for an outage. */

/**
 * Which joints: of all belts, of belts by record, or those that are due up to a day (a serial number), overdue ones
 * included.
 */
export type Scope =
  | { readonly which: 'all' }
  | { readonly which: 'belts'; readonly records: readonly number[] }
  | { readonly which: 'due'; readonly until: number };

export interface ChoiceTerms {
  /** Takes belts too whose joint fails a check; otherwise they are listed and left out. */
  readonly failing?: boolean;
}

export interface ChosenBelt {
  readonly record: number;
  readonly name: string;
  readonly belt: Belt;
  /** The day that its joint is due, where it is known. */
  readonly due: number | undefined;
  /** Checks that could not be made: it is taken all the same. */
  readonly unknown: readonly string[];
  /** Its joint fails a check. */
  readonly failing: boolean;
}

/** A belt that is not taken, and why. */
export interface LeftOut extends Missing {
  readonly record: number;
  readonly belt: string;
  readonly cell: string;
}

const within = (scope: Scope, record: number, due: number | undefined): boolean =>
  scope.which === 'all' ||
  (scope.which === 'belts' ? scope.records.includes(record) : due !== undefined && due <= scope.until);

/** The records of Belts that a scope takes in, whatever their checks say. */
export const recordsWithin = (book: Workbook, scope: Scope): number[] =>
  book
    .sheet(belts.name)
    .rows.flatMap(({ cells }, record) =>
      !isEmptyRecord(cells) && within(scope, record, new Belt(book, record).number('Due')) ? [record] : [],
    );

/**
 * What is made of each belt of a scope, in the order of the book, and the belts that nothing is made of.
 *
 * A belt that fails a check of its new joint is listed and left out, unless asked for: its joint must be
 * changed first. So is one of which nothing can be made, and, for a period, one that has no day when it is due.
 */
export function ofChosenBelts<T extends object>(
  book: Workbook,
  scope: Scope,
  { failing = false }: ChoiceTerms,
  make: (chosen: ChosenBelt) => T | Missing,
): { readonly made: T[]; readonly leftOut: LeftOut[] } {
  const made: T[] = [];
  const leftOut: LeftOut[] = [];
  for (const [record, { cells }] of book.sheet(belts.name).rows.entries()) {
    if (isEmptyRecord(cells)) continue;
    const name = recordName(book, belts.name, record);
    const belt = new Belt(book, record);
    const out = ({ column, reason }: Missing): void =>
      void leftOut.push({ record, belt: name, reason, column, cell: belt.cell(column) });
    const due = belt.number('Due');
    if (scope.which === 'due' && due === undefined) {
      out({ column: 'Due', reason: 'the date when its joint is due is not known' });
      continue;
    }
    if (!within(scope, record, due)) continue;
    const verdicts = newJointChecks.map(({ header, word }) => ({ word, header, verdict: belt.verdict(header) }));
    const wrong = verdicts.filter(({ verdict }) => verdict === 'fails');
    const [first] = wrong;
    if (first !== undefined && !failing) {
      out({ column: first.header, reason: `its joint fails: ${listed(wrong.map(({ word }) => word))}` });
      continue;
    }
    const one = make({
      record,
      name,
      belt,
      due,
      unknown: verdicts.filter(({ verdict }) => verdict === 'not known').map(({ word }) => word),
      failing: first !== undefined,
    });
    if ('reason' in one) out(one);
    else made.push(one);
  }
  return { made, leftOut };
}
