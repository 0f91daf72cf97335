import { shortText } from '../units/shown-mark.ts';
import { isoMoment } from '../units/dates.ts';

/**
 * Moments as whole minutes since the day zero of cells, 30 December 1899, on the plant's own clock.
 *
 * There are no time zones in them: a plan over the night in which clocks change is an hour out on one side of it.
 */
export type Moment = number;

export interface Interval {
  readonly start: Moment;
  readonly end: Moment;
}

const minutesPerDay = 1440;

/** The moment of a cell's date, with the time of day as its fraction; to the nearest minute. */
export const momentOf = (serial: number): Moment => Math.round(serial * minutesPerDay);

/** The cell's date of a moment. */
export const serialOfMoment = (moment: Moment): number => moment / minutesPerDay;

/** As "2026-11-07 06:30". */
export const momentText = (moment: Moment): string => isoMoment(serialOfMoment(moment));

/** Hours with at most two digits after the point, as "7.5 h". */
export const hoursText = (hours: number): string => `${shortText(hours, 2)} h`;

/** Intervals in order, those that touch or overlap put together. */
export function joined(intervals: readonly Interval[]): Interval[] {
  const whole: Interval[] = [];
  for (const next of intervals.toSorted((a, b) => a.start - b.start || a.end - b.end)) {
    const last = whole.at(-1);
    if (last !== undefined && next.start <= last.end)
      whole[whole.length - 1] = { start: last.start, end: Math.max(last.end, next.end) };
    else whole.push(next);
  }
  return whole;
}
