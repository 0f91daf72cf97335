import { checkColumns, type CheckHeader } from '../../sheets/belts/check-columns.ts';
import { type Verdict, verdictOf, worse } from '../functions/checks.ts';
import { isComputed } from '../sheet/declaration.ts';
import { type Belt, beltColumn } from '../records/belt.ts';

/** Verdicts that a user wrote over the sheet's own: nothing that is shown then was compared. */

interface SetVerdict {
  readonly header: CheckHeader | 'Verdict';
  readonly set: Verdict;
  /** What the sheet's own formulas come to. */
  readonly computed: Verdict;
}

/** The verdicts of a belt, as set and as computed. */
export interface Standing {
  /** As the book has it. */
  readonly verdict: Verdict;
  /** By the sheet's own formulas alone, whatever was set by hand. */
  readonly computed: Verdict;
  /** The worse of the two: what work must be guarded by. */
  readonly worst: Verdict;
  /** Those set by hand, checks first. */
  readonly set: readonly SetVerdict[];
}

/** A belt's verdicts, those set by hand beside what the checks themselves say. */
export function standing(belt: Belt): Standing {
  const isSet = (header: CheckHeader | 'Verdict'): boolean => belt.book.overridden(belt.place(header));
  const checks = checkColumns.map(({ header }) => {
    const column = beltColumn(header);
    const set = isSet(header);
    const computed = set && isComputed(column) ? verdictOf(belt.worked(column.formula)) : belt.verdict(header);
    return { header, isSet: set, set: belt.verdict(header), computed };
  });
  const computed = checks.reduce((found, check) => worse(found, check.computed), 'fits' as Verdict);
  const verdict = belt.verdict('Verdict');
  return {
    verdict,
    computed,
    worst: worse(verdict, computed),
    set: [
      ...checks.flatMap((check) =>
        check.isSet ? [{ header: check.header, set: check.set, computed: check.computed }] : [],
      ),
      ...(isSet('Verdict') ? [{ header: 'Verdict', set: verdict, computed } as const] : []),
    ],
  };
}

/** The verdict as it is printed: one that is set by hand, or rests on one, with the computed one beside. */
export const standingText = ({ verdict, computed, set }: Standing): string =>
  set.length === 0 ? verdict : `${verdict}, set by hand; computed: ${computed}`;

/** What was set by hand, a sentence each. */
export const setVerdictTexts = ({ set }: Standing): string[] =>
  set.map(
    ({ header, set: given, computed }) =>
      `${header} was set to "${given}" by hand; the calculation gives "${computed}".`,
  );
