import { escaped } from '../sheet/words.ts';
import { Axis, axisLines, windowLines, windowPlaces, windowRow } from './gantt-axis.ts';
import { areaLanes, barLines, crewLanes, laneLines } from './gantt-lanes.ts';
import { at, head, label, laneHeight, letter, shortened } from './gantt-marks.ts';
import type { OutagePlan, OutageRequest } from './search/request.ts';

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
  /** Minimum width; a long plan is drawn wider, so that hours can be told apart. */
  readonly width?: number;
}

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

const hatching = (id: string, index: number): string =>
  `<pattern id="${escaped(id)}-area-${index}" width="8" height="8" patternUnits="userSpaceOnUse"><path ` +
  `d="${hatchings[index % hatchings.length]}" stroke="currentColor" stroke-width="1.2"/></pattern>`;

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
  const lines = ['# and a number: the job in the table whose name is too long for its bar.'];
  if (unplanned.length === 0) return lines;
  let line = 'Not planned:';
  for (const [index, { belt }] of unplanned.entries()) {
    const more = ` ${belt}${index < unplanned.length - 1 ? ',' : '; see the table for the reasons.'}`;
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
