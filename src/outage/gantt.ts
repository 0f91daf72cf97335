import { escaped } from '../sheet/words.ts';
import { hoursText, type Interval, joined, type Moment, momentText, serialOfMoment } from './moments.ts';
import type { OutagePlan, OutageRequest, PlannedJob } from './search/request.ts';

/**
 * A plan as a picture, text of an SVG.
 *
 * Everything is drawn in currentColor, so it takes the colour of the page's text, light or dark, and prints black.
 * Areas are told apart by hatching, never by colour. Time between windows is cut out of the axis, at the zigzag lines.
 */
export interface GanttOptions {
  /** What a line is for. */
  readonly lanes: 'crew' | 'area';
  readonly title: string;
  /** Begins the names of its hatchings: give each picture of one page its own, or they share the first one's colour. */
  readonly id?: string;
  /** Least width; a long plan is drawn wider, so that hours can be told apart. */
  readonly width?: number;
}

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

const letter = 6.7;
const laneHeight = 34;
const head = 74;
const breakWidth = 26;
const leastHour = 11;
const dayWidth = 92;
const windowRow = 20;

const at = (value: number): string => String(Number(value.toFixed(2)));
const hoursOf = ({ start, end }: Interval): number => (end - start) / 60;
const shortened = (text: string, letters: number): string =>
  text.length <= letters ? text : `${text.slice(0, Math.max(0, letters - 1))}…`;

/** Hatchings, as path data in a square of 8. */
const hatchings = [
  'M0 8L8 0',
  'M0 0L8 8',
  'M0 8L8 0M0 0L8 8',
  'M2 0V8M6 0V8',
  'M0 2H8M0 6H8',
  'M4 0V8M0 4H8',
  'M0 2L4 6L8 2',
  'M3 3H5V5H3Z',
] as const;

/** Parts of time that are drawn, and where. */
class Axis {
  readonly parts: readonly (Interval & { readonly x: number; readonly width: number })[];
  readonly right: number;

  constructor(intervals: readonly Interval[], left: number, width: number) {
    const whole = joined(intervals);
    const hours = whole.reduce((sum, part) => sum + hoursOf(part), 0);
    const scale = Math.max(
      leastHour,
      (width - left - 12 - breakWidth * Math.max(0, whole.length - 1)) / Math.max(1, hours),
    );
    let x = left;
    this.parts = whole.map((part) => {
      const placed = { ...part, x, width: hoursOf(part) * scale };
      x += placed.width + breakWidth;
      return placed;
    });
    this.right = whole.length === 0 ? width - 12 : x - breakWidth;
  }

  /** Where a moment lies; one between two parts lies at the end of the earlier. */
  x(moment: Moment): number {
    const part = this.parts.findLast(({ start }) => start <= moment) ?? this.parts[0];
    if (part === undefined) return 0;
    return part.x + (Math.max(0, Math.min(moment, part.end) - part.start) / (part.end - part.start)) * part.width;
  }
}

export function ganttPicture(
  request: OutageRequest,
  plan: OutagePlan,
  { lanes: by, title, id = 'gantt', width = 1000 }: GanttOptions,
): string {
  const { lanes, bars } = by === 'crew' ? crewLanes(request, plan) : areaLanes(request, plan);
  const left = 24 + letter * Math.min(22, Math.max(8, ...lanes.map(({ label }) => label.length)));
  const axis = new Axis(request.windows, left, width);
  const named = windowPlaces(request.windows, axis);
  const right = Math.max(width, axis.right + 12, ...named.map(({ text, x }) => x + letter * text.length + 12));
  const areas = [...new Set(request.jobs.map(({ area }) => area))];
  const bottom = head + lanes.length * laneHeight;
  const below = bottom + windowRow * (1 + Math.max(-1, ...named.map(({ row }) => row)));
  const notes = [
    ...legend(areas, left, below + 26, right, id),
    ...noteLines(plan, right, below + 26 + 22 * legendRows(areas, left, right)),
  ];
  const height = below + 26 + 22 * legendRows(areas, left, right) + 16 * notePieces(plan, right).length + 8;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${at(right)} ${at(height)}" width="${at(right)}" ` +
      `height="${at(height)}" role="img" aria-label="${escaped(title)}" fill="none" stroke="currentColor" ` +
      `font-family="system-ui, sans-serif" font-size="12">`,
    `<title>${escaped(title)}</title>`,
    `<defs>${areas.map((_, index) => hatching(id, index)).join('')}<pattern id="${escaped(id)}-closed" width="6" ` +
      `height="6" patternUnits="userSpaceOnUse"><path d="M0 6L6 0" stroke="currentColor" stroke-width="0.5" ` +
      `opacity="0.5"/></pattern></defs>`,
    label(12, 20, title, 'font-weight="bold" font-size="14"'),
    ...axisLines(axis, bottom),
    ...lanes.flatMap((lane, index) => laneLines(lane, index, axis, id)),
    ...bars.flatMap((bar) => barLines(bar, axis, areas, id)),
    ...named.flatMap((place) => windowLines(place, bottom)),
    ...notes,
    '</svg>',
    '',
  ].join('\n');
}

const label = (x: number, y: number, text: string, more = ''): string =>
  `<text x="${at(x)}" y="${at(y)}" fill="currentColor" ` +
  `stroke="none"${more === '' ? '' : ` ${more}`}>${escaped(text)}</text>`;

const hatching = (id: string, index: number): string =>
  `<pattern id="${escaped(id)}-area-${index}" width="8" height="8" patternUnits="userSpaceOnUse"><path ` +
  `d="${hatchings[index % hatchings.length]}" stroke="currentColor" stroke-width="1.2"/></pattern>`;

function crewLanes(
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
function areaLanes(
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

const days = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
const dayText = (moment: Moment): string =>
  `${days[(((Math.floor(serialOfMoment(moment)) - 1) % 7) + 7) % 7] ?? ''} ${momentText(moment).slice(0, 10)}`;

/** Midnights inside an interval. */
function midnights({ start, end }: Interval): Moment[] {
  const first = Math.floor(start / 1440) + 1;
  return Array.from({ length: Math.max(0, Math.ceil(end / 1440) - first) }, (_, index) => (first + index) * 1440);
}

function axisLines(axis: Axis, bottom: number): string[] {
  const lines: string[] = [];
  let free: readonly number[] = [0, 0];
  for (const [index, part] of axis.parts.entries()) {
    const hour = part.width / hoursOf(part);
    const every = [1, 2, 3, 4, 6, 12, 24].find((hours) => hours * hour >= 26) ?? 24;
    lines.push(
      `<path d="M${at(part.x)} ${head}V${at(bottom)}M${at(part.x + part.width)} ${head}V${at(bottom)}" ` +
        `stroke-width="1"/>`,
    );
    for (const from of [part.start, ...midnights(part)]) {
      const x = Math.min(axis.x(from), axis.right + 8 - dayWidth);
      const row = free.findIndex((taken) => taken <= x);
      if (row < 0) continue;
      lines.push(label(x, 54 - 14 * row, dayText(from), 'font-size="11"'));
      free = free.with(row, x + dayWidth);
    }
    for (let moment = Math.ceil(part.start / (60 * every)) * 60 * every; moment <= part.end; moment += 60 * every) {
      const x = axis.x(Math.min(moment, part.end - 1e-6));
      lines.push(
        `<path d="M${at(x)} ${head - 4}V${at(bottom)}" stroke-width="0.5" opacity="0.45"/>`,
        label(x, head - 7, String((moment / 60) % 24), 'font-size="10" text-anchor="middle"'),
      );
    }
    const next = axis.parts[index + 1];
    if (next !== undefined) {
      const middle = part.x + part.width + breakWidth / 2;
      const zigzag = Array.from(
        { length: Math.ceil((bottom - head) / 8) },
        (_, tooth) => `L${at(middle + (tooth % 2 === 0 ? 3 : -3))} ${at(Math.min(bottom, head + 8 * (tooth + 0.5)))}`,
      );
      lines.push(`<path d="M${at(middle)} ${head}${zigzag.join('')}" stroke-width="0.7"/>`);
    }
  }
  return lines;
}

interface WindowPlace {
  readonly text: string;
  readonly x: number;
  readonly end: number;
  readonly row: number;
}

/** Windows below the lanes, each in the first row in which its line and its name are free. */
function windowPlaces(windows: OutageRequest['windows'], axis: Axis): WindowPlace[] {
  const taken: number[] = [];
  return windows
    .toSorted((a, b) => a.start - b.start || b.end - a.end)
    .map(({ name, area, start, end: until }) => {
      const text = area === undefined ? name : `${name} (${area})`;
      const [x, end] = [axis.x(start), axis.x(until)];
      const free = taken.findIndex((right) => right <= x);
      const row = free < 0 ? taken.length : free;
      taken[row] = Math.max(end, x + letter * text.length) + 6;
      return { text, x, end, row };
    });
}

function windowLines({ text, x, end, row }: WindowPlace, bottom: number): string[] {
  const y = bottom + 6 + windowRow * row;
  return [
    `<path d="M${at(x + 1)} ${at(y - 3)}V${at(y)}H${at(end - 1)}V${at(y - 3)}" stroke-width="1"/>`,
    label(x + 2, y + 12, text, 'font-size="11"'),
  ];
}

function laneLines({ label: text, closed }: Lane, index: number, axis: Axis, id: string): string[] {
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

function barLines({ job, number, lane }: Bar, axis: Axis, areas: readonly string[], id: string): string[] {
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

const legendWidth = (area: string): number => 36 + letter * Math.min(24, area.length);

function legendPlaces(
  areas: readonly string[],
  left: number,
  right: number,
): { readonly x: number; readonly row: number }[] {
  let [x, row] = [left, 0];
  return areas.map((area) => {
    if (x + legendWidth(area) > right && x > left) [x, row] = [left, row + 1];
    const place = { x, row };
    x += legendWidth(area);
    return place;
  });
}

const legendRows = (areas: readonly string[], left: number, right: number): number =>
  (legendPlaces(areas, left, right).at(-1)?.row ?? -1) + 1;

function legend(areas: readonly string[], left: number, top: number, right: number, id: string): string[] {
  const places = legendPlaces(areas, left, right);
  return [
    ...(areas.length === 0 ? [] : [label(12, top, 'Area')]),
    ...areas.flatMap((area, index) => {
      const { x = left, row = 0 } = places[index] ?? {};
      const y = top + 22 * row;
      return [
        `<rect x="${at(x)}" y="${at(y - 11)}" width="14" height="14" fill="url(#${escaped(id)}-area-${index})" ` +
          `stroke-width="0.8"/>`,
        label(x + 20, y, shortened(area, 24)),
      ];
    }),
  ];
}

/** What the numbers are, and the jobs that do not fit, in lines as long as the picture is wide. */
function notePieces({ unplanned }: OutagePlan, right: number): string[] {
  const lines = ['A number after # is that of a job in the table, where its name is too long for its bar.'];
  if (unplanned.length === 0) return lines;
  let line = 'Not planned:';
  for (const [index, { belt }] of unplanned.entries()) {
    const more = ` ${belt}${index < unplanned.length - 1 ? ',' : '; the table says why.'}`;
    if ((line.length + more.length) * letter > right - 24) {
      lines.push(line);
      line = '';
    }
    line += more;
  }
  return [...lines, line];
}

const noteLines = (plan: OutagePlan, right: number, top: number): string[] =>
  notePieces(plan, right).map((line, index) => label(12, top + 16 * index, line.trim()));
