import { type LengthUnit, millimetres } from './tape.ts';
import { besideCut, radians, type Spot } from './belt-axes.ts';
import type { JointGeometry } from './joint.ts';
import { type Box, type Matrix, onPaper, type Outline, type Point } from './paper.ts';
import { levelMatrix } from './shop-detail.ts';

/**
 * The sheets that a 1:1 template takes, the cut laid level so that they are few: one row of them for most joints.
 *
 * A sheet's window is the part of it that shows the template. Neighbouring windows share a strip, so that the crosses
 * printed in the middle of it can be laid on each other.
 */
export const paperSizes = {
  // Laid broadside. ISO 216; Letter is 11 by 8 1/2 in.
  A4: { width: 297, height: 210 },
  A3: { width: 420, height: 297 },
  Letter: { width: 279.4, height: 215.9 },
} as const;

export type PaperSize = keyof typeof paperSizes;

export interface Tile {
  /** Row by letter from the top, column by number from the left: "A1". */
  readonly label: string;
  readonly row: number;
  readonly column: number;
  /** What it shows of the level template, in millimetres from the marked corner. */
  readonly shows: Box;
  /** Those of the template's outlines that it shows some of. */
  readonly outlines: readonly Outline[];
}

export interface Tiling {
  readonly tiles: readonly Tile[];
  readonly rows: number;
  readonly columns: number;
  /** The template about its marked corner, in millimetres. */
  readonly matrix: Matrix;
  /** Where the window lies on each sheet. */
  readonly window: Box;
}

export const overlap = 12;
/** Printers leave up to some millimetres white at every side; the foot holds warnings, scale bar, key map and words. */
const margin = 10;
const foot = 35;
/** Belt shown on either side beyond the plates, and of a cut without plates. */
const beyondPlates = 10;
const besideBareCut = 25;
const centreArm = 1.5;
/** Of the template from the outer windows' sides: more than half the overlap. */
const clearance = 8;

/** A cross where the punch is set. */
const middleMark = ({ along, across }: Spot, arm: number): Outline[] => [
  {
    type: 'line',
    pen: 'template',
    points: [
      { along: along - arm, across },
      { along: along + arm, across },
    ],
    name: 'middle',
  },
  {
    type: 'line',
    pen: 'template',
    points: [
      { along, across: across - arm },
      { along, across: across + arm },
    ],
    name: 'middle',
  },
];

/** Cut, plates, holes and, as far as the template reaches, the belt's edges. */
function templateOutlines(joint: JointGeometry, unit: LengthUnit, cutOnly: boolean): Outline[] {
  const { skew, cutLength, nearEnd, farEnd, plates, holes, drawnPunch, reach } = joint;
  const depth =
    cutOnly || plates.length === 0 ? besideBareCut / millimetres[unit] : reach + beyondPlates / millimetres[unit];
  const edge = (run: number): Spot[] =>
    [-depth, depth].map((ahead) => besideCut({ run: run + ahead * Math.tan(radians(skew)), ahead }, joint));
  return [
    { type: 'line', pen: 'thick', points: edge(0), name: 'belt-edge' },
    { type: 'line', pen: 'thick', points: edge(cutLength), name: 'belt-edge' },
    { type: 'line', pen: 'template', points: [nearEnd, farEnd], name: 'cut' },
    ...(cutOnly
      ? []
      : [
          ...plates.map(({ corners }): Outline => ({ type: 'area', pen: 'template', corners, name: 'plate' })),
          ...holes.map(({ at }): Outline => ({
            type: 'circle',
            pen: 'template',
            centre: at,
            diameter: drawnPunch,
            name: 'hole',
          })),
          ...holes.flatMap(({ at }) => middleMark(at, Math.min(centreArm / millimetres[unit], drawnPunch / 4))),
        ]),
  ];
}

const cornersOf = (outline: Outline): readonly Spot[] =>
  outline.type === 'line' ? outline.points : outline.type === 'area' ? outline.corners : [outline.centre];

/** Whether a segment has a part in the box: its parameter is cut down side by side (Liang and Barsky's way). */
function segmentMeets(from: Point, to: Point, { x, y, width, height }: Box): boolean {
  let [first, last] = [0, 1];
  const sides: readonly (readonly [number, number])[] = [
    [from.x - to.x, from.x - x],
    [to.x - from.x, x + width - from.x],
    [from.y - to.y, from.y - y],
    [to.y - from.y, y + height - from.y],
  ];
  for (const [slope, room] of sides) {
    if (slope === 0 && room < 0) return false;
    if (slope < 0) first = Math.max(first, room / slope);
    if (slope > 0) last = Math.min(last, room / slope);
  }
  return first <= last;
}

function meets(outline: Outline, matrix: Matrix, scale: number, box: Box): boolean {
  const points = cornersOf(outline).map((spot) => onPaper(matrix, spot));
  if (outline.type === 'circle') {
    const { x, y } = points[0] ?? { x: 0, y: 0 };
    const [nearX, nearY] = [
      Math.min(Math.max(x, box.x), box.x + box.width),
      Math.min(Math.max(y, box.y), box.y + box.height),
    ];
    return Math.hypot(x - nearX, y - nearY) <= (outline.diameter / 2) * scale;
  }
  const closed = outline.type === 'area' ? [...points, ...points.slice(0, 1)] : points;
  return closed.some((to, index) => index > 0 && segmentMeets(closed[index - 1] ?? to, to, box));
}

/** Where sheets would have to lie to show all of the level template. */
interface Grid extends Omit<Tiling, 'tiles'> {
  readonly outlines: readonly Outline[];
  /** Upper left corner of the first sheet's window, and the distance to the next. */
  readonly start: Point;
  readonly steps: Point;
}

function templateGrid(joint: JointGeometry, unit: LengthUnit, paper: PaperSize, cutOnly: boolean): Grid {
  const { width, height } = paperSizes[paper];
  const window: Box = { x: margin, y: margin, width: width - 2 * margin, height: height - margin - foot };
  const outlines = templateOutlines(joint, unit, cutOnly);
  const matrix = levelMatrix(joint, millimetres[unit], 0, 0);
  const points = outlines.flatMap(cornersOf).map((spot) => onPaper(matrix, spot));
  const extent = (values: readonly number[]): readonly [number, number] => [
    values.reduce((least, value) => Math.min(least, value)) - clearance,
    values.reduce((most, value) => Math.max(most, value)) + clearance,
  ];
  const [[left, right], [top, bottom]] = [extent(points.map(({ x }) => x)), extent(points.map(({ y }) => y))];
  const steps = { x: window.width - overlap, y: window.height - overlap };
  const columns = Math.max(1, Math.ceil((right - left - overlap) / steps.x));
  const rows = Math.max(1, Math.ceil((bottom - top - overlap) / steps.y));
  // One row has the cut in the middle; of two the join would lie on it, so that they start at the top.
  const start = {
    x: (left + right - columns * steps.x - overlap) / 2,
    y: rows > 1 ? top : (top + bottom - rows * steps.y - overlap) / 2,
  };
  return { outlines, matrix, window, rows, columns, start, steps };
}

/**
 * The level template's sheets, those left out on which nothing would stand; their number alone when there would be more
 * than `most`.
 */
export function templateTiling(
  joint: JointGeometry,
  unit: LengthUnit,
  paper: PaperSize,
  { cutOnly = false, most = 100 }: { readonly cutOnly?: boolean; readonly most?: number } = {},
): Tiling | number {
  const { outlines, matrix, window, rows, columns, start, steps } = templateGrid(joint, unit, paper, cutOnly);
  if (rows * columns > most) return rows * columns;
  const scale = millimetres[unit];
  // What lies between the join and the window's side stands on the neighbour, too.
  const own = ({ x, y, width: wide, height: high }: Box): Box => ({
    x: x + overlap / 2,
    y: y + overlap / 2,
    width: wide - overlap,
    height: high - overlap,
  });
  const within = (box: Box): Outline[] => outlines.filter((outline) => meets(outline, matrix, scale, box));
  const tiles = Array.from({ length: rows * columns }, (_, index) => ({
    row: Math.floor(index / columns),
    column: index % columns,
  })).flatMap(({ row, column }): Tile[] => {
    const shows = {
      x: start.x + column * steps.x,
      y: start.y + row * steps.y,
      width: window.width,
      height: window.height,
    };
    if (within(own(shows)).length === 0) return [];
    return [
      {
        label: `${String.fromCharCode('A'.charCodeAt(0) + row)}${column + 1}`,
        row,
        column,
        shows,
        outlines: within(shows),
      },
    ];
  });
  return { tiles, rows, columns, matrix, window };
}
