import { at, head, hoursOf, label, letter } from './gantt-marks.ts';
import { type Interval, joined, type Moment, momentText, serialOfMoment } from './moments.ts';
import type { OutageRequest } from './search/request.ts';

/** Time in a plan's picture: the axis above, and the windows below. */

const breakWidth = 26;
const leastHour = 11;
const dayWidth = 92;
export const windowRow = 20;

/** Parts of time that are drawn, and where. */
export class Axis {
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

const days = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
const dayText = (moment: Moment): string =>
  `${days[(((Math.floor(serialOfMoment(moment)) - 1) % 7) + 7) % 7] ?? ''} ${momentText(moment).slice(0, 10)}`;

/** Midnights inside an interval. */
function midnights({ start, end }: Interval): Moment[] {
  const first = Math.floor(start / 1440) + 1;
  return Array.from({ length: Math.max(0, Math.ceil(end / 1440) - first) }, (_, index) => (first + index) * 1440);
}

export function axisLines(axis: Axis, bottom: number): string[] {
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
export function windowPlaces(windows: OutageRequest['windows'], axis: Axis): WindowPlace[] {
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

export function windowLines({ text, x, end, row }: WindowPlace, bottom: number): string[] {
  const y = bottom + 6 + windowRow * row;
  return [
    `<path d="M${at(x + 1)} ${at(y - 3)}V${at(y)}H${at(end - 1)}V${at(y - 3)}" stroke-width="1"/>`,
    label(x + 2, y + 12, text, 'font-size="11"'),
  ];
}
