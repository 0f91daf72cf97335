import type { Verdict } from '../functions/checks.ts';
import type { QuantityKind } from '../units/quantities.ts';

/** What a check, or a look at the inputs, says of one record. */

/** A number of a finding with what it is; null where it is not known. */
export interface Figure {
  readonly label: string;
  readonly value: number | string | null;
  readonly kind: QuantityKind;
  /** '' for a figure without one. */
  readonly unit: string;
}

export interface Finding {
  readonly sheet: string;
  /** Counted from 0; the sheet row is two more. */
  readonly record: number;
  /** The record's own name, as the belt's. */
  readonly name: string;
  /** The check's name, or 'input' for a cell that holds what it should not. */
  readonly check: string;
  /** The check's; 'compare' for what no check is about: two methods that disagree. */
  readonly verdict: Exclude<Verdict, 'fits'> | 'compare';
  /** The header of the cell to go to: the input to look at first. */
  readonly column: string;
  /** That cell as people name it, "Belts!J7". */
  readonly cell: string;
  /** One sentence with both numbers and their units, or what is missing. */
  readonly message: string;
  readonly given: Figure | null;
  readonly limit: Figure | null;
  /** What would cure it, one sentence each, the easiest first. */
  readonly cures: readonly string[];
}

/** What each word of a verdict or finding means, as help and the reference say it. */
export const verdictMeanings: Readonly<Record<Verdict | 'compare', string>> = {
  fits: 'every check passes',
  tight: 'a check passes narrowly, by less than TightMargin of its limit, or a check that only warns is missed',
  fails: 'a check is not passed',
  'not known': 'an input is missing or wrong: never taken for a pass',
  compare: 'two methods for the working tension disagree by more than MethodMargin; no verdict counts it',
};
