import { capital } from '../units/phrases.ts';
import { numberIn } from '../formula/values.ts';
import { unitOf } from '../units/quantities.ts';
import { type Belt, beltColumn, seriesColumn } from '../records/belt.ts';
import type { Sought } from './cures.ts';
import type { Verdict } from '../functions/checks.ts';
import type { Figure } from '../records/finding.ts';
import { amount, amounts, type Measure, share } from '../sheet/words.ts';

/** A number of a check: which, what it measures, how much. */
export interface Side {
  readonly label: string;
  readonly measure: Measure;
  readonly value: number | undefined;
}

/** Which way a number is wrong when it passes its limit. */
export type Direction = 'least' | 'most';

export interface Limit extends Side {
  readonly direction: Direction;
}

/**
 * One of the eight checks: what it compares, how it says so, and what would cure it.
 *
 * The verdict itself is the sheet's own formula in `column`; a check explains it.
 */
export interface Check {
  /** As the sheet's Findings column names it. */
  readonly name: string;
  readonly column: string;
  /** The column to look at first when the check does not fit. */
  readonly look: string;
  readonly given: (belt: Belt) => Figure;
  readonly limit: (belt: Belt) => Figure;
  /** One sentence of what was compared, with both numbers. Only for a check that fails or is tight. */
  readonly message: (belt: Belt, verdict: Verdict) => string;
  /** What would cure it, one sentence each, the easiest first. */
  readonly cures: (sought: Sought) => readonly string[];
}

export const ofBelt =
  (header: string, label: string) =>
  (belt: Belt): Side => ({ label, measure: beltColumn(header), value: belt.number(header) });

export const ofSeries =
  (header: string, label: string) =>
  (belt: Belt): Side => {
    const value = belt.ofSeries(header);
    return { label, measure: seriesColumn(header), value: numberIn(value) };
  };

export const figure = ({ label, measure, value }: Side, belt: Belt): Figure => ({
  label,
  value: value ?? null,
  kind: measure.kind,
  unit: unitOf(measure.kind, belt.units),
});

/** How far a number stands within its limit, as a share of it; negative beyond. */
const room = (given: number, { direction }: Limit, limit: number): number =>
  limit === 0 ? 0 : (direction === 'least' ? given - limit : limit - given) / Math.abs(limit);

const beyond: Readonly<Record<Direction, string>> = { least: 'is below', most: 'is above' };
const within: Readonly<Record<Direction, string>> = { least: 'above', most: 'below' };

/** A number against its limit, in one sentence. */
export function compared(given: Side, limit: Limit, verdict: Verdict, belt: Belt): string {
  if (given.value === undefined || limit.value === undefined)
    return `${capital(given.label)} can't be compared with ${limit.label}.`;
  const [one, other] = amounts(given.value, limit.value, given.measure, belt.units);
  const subject = `${capital(given.label)}, ${one},`;
  if (verdict === 'fails') return `${subject} ${beyond[limit.direction]} ${limit.label}, ${other}.`;
  const margin = belt.named('TightMargin');
  const far = room(given.value, limit, limit.value);
  const than = margin === undefined ? '' : `, less than the margin of ${share(margin)}`;
  return far === 0
    ? `${subject} is just ${limit.label}, ${other}, with no margin.`
    : `${subject} is only ${share(far)} ${within[limit.direction]} ${limit.label}, ${other}${than}.`;
}

/** Of several limits the one that a number passes by most, or is nearest to. */
export function nearestLimit(given: Side, limits: readonly Limit[]): Limit | undefined {
  const left = (limit: Limit): number =>
    given.value === undefined || limit.value === undefined ? Infinity : room(given.value, limit, limit.value);
  return limits.toSorted((one, other) => left(one) - left(other))[0];
}

/** A check of one number against limits, one of which may not be passed. */
export function numberCheck(check: {
  readonly name: string;
  readonly column: string;
  readonly look: string;
  readonly given: (belt: Belt) => Side;
  readonly limits: readonly ((belt: Belt) => Limit)[];
  /** What else is to be said of it. */
  readonly remark?: (belt: Belt) => string;
  readonly cures: (sought: Sought) => readonly string[];
}): Check {
  const limitOf = (belt: Belt): Limit => {
    const limits = check.limits.map((limit) => limit(belt));
    const nearest = nearestLimit(check.given(belt), limits);
    if (nearest === undefined) throw new Error(`the check ${check.name} has no limit`);
    return nearest;
  };
  return {
    name: check.name,
    column: check.column,
    look: check.look,
    given: (belt) => figure(check.given(belt), belt),
    limit: (belt) => figure(limitOf(belt), belt),
    message: (belt, verdict) =>
      [
        compared(check.given(belt), limitOf(belt), verdict, belt),
        ...(check.remark === undefined ? [] : [check.remark(belt)]),
      ]
        .filter((text) => text !== '')
        .join(' '),
    cures: check.cures,
  };
}

export const least =
  (side: (belt: Belt) => Side) =>
  (belt: Belt): Limit => ({ ...side(belt), direction: 'least' });
export const most =
  (side: (belt: Belt) => Side) =>
  (belt: Belt): Limit => ({ ...side(belt), direction: 'most' });

/** A belt's figure as its column shows it, with its unit. */
export const shown = (belt: Belt, header: string): string => {
  const value = belt.number(header);
  return value === undefined ? 'not known' : amount(value, beltColumn(header), belt.units);
};
