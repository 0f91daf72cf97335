import { escaped } from '../sheet/words.ts';
import type { Axis } from './gantt-axis.ts';
import { at, head, label, laneHeight, letter, shortened } from './gantt-marks.ts';
import { hoursText, type Interval, joined, type Moment, momentText } from './moments.ts';
import type { OutagePlan, OutageRequest, PlannedJob } from './search/request.ts';

/** The lines of a plan's picture, one for a crew or for a job at a time in an area, and the jobs on them. */

interface Bar {
  readonly job: PlannedJob;
  readonly number: number;
  readonly lane: number;
}

interface Lane {
  readonly label: string;
  /** Times at which nothing can be done in it. */
  readonly closed: readonly Interval[];
}

export function crewLanes(
  { crews }: OutageRequest,
  { planned }: OutagePlan,
): { readonly lanes: readonly Lane[]; readonly bars: readonly Bar[] } {
  const lanes = crews.map(({ name, available }) => ({
    label: name,
    closed: available === undefined ? [] : gaps(joined(available)),
  }));
  const bars = planned.flatMap((job, index) =>
    job.crews.map((name) => ({ job, number: index + 1, lane: crews.findIndex((crew) => crew.name === name) })),
  );
  return { lanes, bars };
}

/** What intervals leave open, before, between and after them. */
const gaps = (intervals: readonly Interval[]): Interval[] =>
  [Number.NEGATIVE_INFINITY, ...intervals.map(({ end }) => end)].map((start, index) => ({
    start,
    end: intervals[index]?.start ?? Number.POSITIVE_INFINITY,
  }));

/** A line for each job that goes on at the same time in an area. */
export function areaLanes(
  { jobs }: OutageRequest,
  { planned }: OutagePlan,
): { readonly lanes: readonly Lane[]; readonly bars: readonly Bar[] } {
  const lanes: Lane[] = [];
  const bars: Bar[] = [];
  for (const area of new Set(jobs.map((job) => job.area))) {
    const base = lanes.length;
    const ends: Moment[] = [];
    for (const [index, job] of planned.entries()) {
      if (job.area !== area) continue;
      const free = ends.findIndex((end) => end <= job.start);
      const row = free < 0 ? ends.length : free;
      ends[row] = job.end;
      bars.push({ job, number: index + 1, lane: base + row });
    }
    for (let row = 0; row < Math.max(1, ends.length); row += 1)
      lanes.push({ label: row === 0 ? area : '', closed: [] });
  }
  return { lanes, bars };
}

export function laneLines({ label: text, closed }: Lane, index: number, axis: Axis, id: string): string[] {
  const top = head + index * laneHeight;
  const shut = axis.parts.flatMap((part) =>
    closed.flatMap(({ start, end }) => {
      const [from, to] = [Math.max(start, part.start), Math.min(end, part.end)];
      if (from >= to) return [];
      const x = part.x + ((from - part.start) / (part.end - part.start)) * part.width;
      return [
        `<rect x="${at(x)}" y="${at(top)}" width="${at(((to - from) / (part.end - part.start)) * part.width)}" ` +
          `height="${laneHeight}" fill="url(#${escaped(id)}-closed)" stroke="none"/>`,
      ];
    }),
  );
  return [
    ...shut,
    `<path d="M12 ${at(top + laneHeight)}H${at(axis.right)}" stroke-width="0.5"/>`,
    ...(text === '' ? [] : [label(12, top + laneHeight / 2 + 4, shortened(text, 22))]),
  ];
}

export function barLines({ job, number, lane }: Bar, axis: Axis, areas: readonly string[], id: string): string[] {
  const top = head + lane * laneHeight + 5;
  const part = axis.parts.find(({ start, end }) => start <= job.start && job.end <= end);
  if (part === undefined) return [];
  const scale = part.width / (part.end - part.start);
  const [x, width] = [part.x + (job.start - part.start) * scale, (job.end - job.start) * scale];
  const strip = Math.min(12, width / 3);
  const letters = Math.floor((width - strip - 6) / letter);
  const text =
    job.belt.length <= letters
      ? job.belt
      : letters >= 5
        ? shortened(job.belt, letters)
        : `#${number}`.length <= letters
          ? `#${number}`
          : '';
  const said =
    `${number}. ${job.belt}, ${job.area}: ${momentText(job.start)} to ${momentText(job.end)}, ` +
    `${hoursText(job.hours)}, ${job.crews.join(' and ')}`;
  const height = laneHeight - 10;
  return [
    `<g><title>${escaped(said)}</title>`,
    `<rect x="${at(x)}" y="${at(top)}" width="${at(width)}" height="${height}" rx="2" stroke-width="1.5" ` +
      `pointer-events="all"/>`,
    `<rect x="${at(x)}" y="${at(top)}" width="${at(strip)}" height="${height}" ` +
      `fill="url(#${escaped(id)}-area-${areas.indexOf(job.area)})" stroke-width="0.8"/>`,
    ...(text === '' ? [] : [label(x + strip + 3, top + height / 2 + 4, text)]),
    '</g>',
  ];
}
