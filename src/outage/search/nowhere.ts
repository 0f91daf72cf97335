import { counted } from '../../units/phrases.ts';
import { hoursText, momentText } from '../moments.ts';
import { type CrewKind, type Grid, hoursWith, mayUse, places, stepsOf, teams, within, worksIn } from './places.ts';
import type { OutageJob, OutageRequest, OutageWindow, UnplannedJob } from './request.ts';

/** Why a job has no place, even if it were alone. */
export function whyNowhere(
  job: OutageJob,
  request: OutageRequest,
  kinds: readonly CrewKind[],
  grid: Grid,
): Pick<UnplannedJob, 'cause' | 'reason'> {
  const windows = request.windows.filter((window) => mayUse(job, window));
  const lengths = teams(kinds, job.crews, job.area).map((team) => stepsOf(hoursWith(job, team, kinds), grid.step));
  if (lengths.length === 0) {
    const there = request.crews.filter((crew) => worksIn(crew, job.area)).length;
    const where = there === request.crews.length ? '' : ` for the area ${job.area}`;
    return {
      cause: 'crew',
      reason:
        `it needs ${counted(job.crews, 'crew')} at once; ${there === 1 ? '1 is' : `${there} are`} ` +
        `available${where}`,
    };
  }
  if (windows.length === 0) {
    const asked = job.windows === undefined ? '' : ` among its allowed windows (${job.windows.join(', ')})`;
    return { cause: 'window', reason: `there is no window for the area ${job.area}${asked}` };
  }
  const shortest = Math.min(...lengths);
  const room = (window: OutageWindow): number => within(window, grid).end - within(window, grid).start;
  const longest = windows.reduce((best, window) => (room(window) > room(best) ? window : best));
  const takes = hoursText((shortest * grid.step) / 60);
  if (room(longest) < shortest) {
    return {
      cause: 'window',
      reason:
        `no window is long enough: the job takes ${takes}, and the longest window, ${longest.name}, has ` +
        `${hoursText((Math.max(0, room(longest)) * grid.step) / 60)} in whole steps`,
    };
  }
  const withoutDates = places(job, windows, kinds, grid, { crews: true, dates: false });
  if (withoutDates.length === 0)
    return {
      cause: 'crew',
      reason:
        `no window has ${job.crews === 1 ? 'a crew' : `${job.crews} crews`} available for the ${takes} that the job ` +
        `takes at least`,
    };
  const text = (step: number): string => momentText(grid.base + step * grid.step);
  const onTime = places({ ...job, due: Number.POSITIVE_INFINITY }, windows, kinds, grid);
  if (onTime.length === 0)
    return {
      cause: 'due',
      reason:
        `it must not begin before ${momentText(job.earliest ?? grid.base)}, and after that no window has enough ` +
        `time and crews`,
    };
  const first = onTime.reduce((best, one) => (one.end < best.end ? one : best));
  return {
    cause: 'due',
    reason:
      `it is due by ${momentText(job.due ?? grid.base)}; the earliest possible end is ${text(first.end)}, in ` +
      `the window ${first.window.name}`,
  };
}
