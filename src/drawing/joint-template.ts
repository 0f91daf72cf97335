import { drawingWarnings, supplierFirst } from './drawing-warnings.ts';
import { type JointFileOptions, patternRefusal, type Refused } from './joint-dxf.ts';
import type { JointGeometry } from './joint.ts';
import { type Box, type Mark, onPaper, type Paper, type Point, scaleOf, type Matrix } from './paper.ts';
import { paperPdf } from './paper-pdf.ts';
import { labelSize, rule, shifted, smallSize, text } from './shop-marks.ts';
import type { LengthUnit } from './tape.ts';
import { overlap, type PaperSize, paperSizes, templateTiling, type Tile, type Tiling } from './template-tiles.ts';
import { fitted, wrapped } from './text-width.ts';

/** For tests: paper and units of a template are varied. */
export interface TemplateOptions extends JointFileOptions {
  readonly paper: PaperSize;
}

/** More sheets than this are no template any more. */
const mostSheets = 100;
const crossArm = 3;

/** Length, divisions and name of the line that proves a print's scale. */
const checkLine = {
  mm: { length: 100, divisions: 10, name: '100 mm' },
  in: { length: 101.6, divisions: 8, name: '4 in' },
} as const satisfies Record<LengthUnit, unknown>;

function cross({ x, y }: Point): Mark[] {
  return [
    rule('mark', { x: x - crossArm, y }, { x: x + crossArm, y }),
    rule('mark', { x, y: y - crossArm }, { x, y: y + crossArm }),
  ];
}

/**
 * Where this sheet is laid on a neighbour: a line in the middle of what both show, two crosses on it, the neighbour's
 * name.
 */
function joinMarks({ tiles, window }: Tiling, tile: Tile): Mark[] {
  const at = (row: number, column: number): Tile | undefined =>
    tiles.find((other) => other.row === row && other.column === column);
  const { x, y, width, height } = window;
  const upright = (other: Tile | undefined, place: number): Mark[] =>
    other === undefined
      ? []
      : [
          rule('faint', { x: place, y }, { x: place, y: y + height }),
          ...[0.12, 0.88].flatMap((share) => cross({ x: place, y: y + height * share })),
          text({ x: place, y: y - 3 }, `on ${other.label}`, 'middle'),
        ];
  const level = (other: Tile | undefined, place: number): Mark[] =>
    other === undefined
      ? []
      : [
          rule('faint', { x, y: place }, { x: x + width, y: place }),
          ...[0.12, 0.88].flatMap((share) => cross({ x: x + width * share, y: place })),
          text({ x: x - 3, y: place }, `on ${other.label}`, 'middle', 90),
        ];
  return [
    ...upright(at(tile.row, tile.column - 1), x + overlap / 2),
    ...upright(at(tile.row, tile.column + 1), x + width - overlap / 2),
    ...level(at(tile.row - 1, tile.column), y + overlap / 2),
    ...level(at(tile.row + 1, tile.column), y + height - overlap / 2),
  ];
}

function checkMarks(unit: LengthUnit, x: number, y: number): Mark[] {
  const { length, divisions, name } = checkLine[unit];
  return [
    rule('mark', { x, y }, { x: x + length, y }),
    ...Array.from({ length: divisions + 1 }, (_, index) => {
      const place = x + (length * index) / divisions;
      return rule('mark', { x: place, y }, { x: place, y: y - (index % divisions === 0 ? 4 : 2) });
    }),
    text({ x, y: y + 3.2 }, `Print at 100 %. Measure the scale bar: it must be ${name} long.`, 'start'),
  ];
}

/** All sheets in small, this one grey, the cut across them. */
function keyMap({ tiles, rows, columns, matrix }: Tiling, tile: Tile, joint: JointGeometry, box: Box): Mark[] {
  const [first] = tiles;
  if (first === undefined) return [];
  const origin = {
    x: first.shows.x - first.column * (first.shows.width - overlap),
    y: first.shows.y - first.row * (first.shows.height - overlap),
  };
  const whole = {
    width: columns * (first.shows.width - overlap) + overlap,
    height: rows * (first.shows.height - overlap) + overlap,
  };
  const scale = Math.min(box.width / whole.width, box.height / whole.height);
  const start = { x: box.x + box.width - whole.width * scale, y: box.y + (box.height - whole.height * scale) / 2 };
  const small = ({ x, y }: Point): Point => ({
    x: start.x + (x - origin.x) * scale,
    y: start.y + (y - origin.y) * scale,
  });
  return [
    ...tiles.map((other): Mark => ({
      type: 'box',
      pen: 'thin',
      ...(other === tile ? { fill: 0.8 } : {}),
      box: { ...small(other.shows), width: other.shows.width * scale, height: other.shows.height * scale },
    })),
    rule('mark', small(onPaper(matrix, joint.nearEnd)), small(onPaper(matrix, joint.farEnd))),
    ...(first.shows.width * scale < 7
      ? []
      : tiles.map((other): Mark => {
          const corner = small(other.shows);
          return text(
            { x: corner.x + (other.shows.width * scale) / 2, y: corner.y + other.shows.height * scale * 0.25 },
            other.label,
            'middle',
            0,
            smallSize,
          );
        })),
  ];
}

const inside = ({ x, y }: Point, box: Box): boolean =>
  x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;

/** Names of the belt's ends, on the sheets that show them. */
function endLabels({ window, rows }: Tiling, { row }: Tile, { hand }: JointGeometry): Mark[] {
  const trailingUp = hand === 'right';
  return [true, false].flatMap((up): Mark[] =>
    row === (up ? 0 : rows - 1)
      ? [
          text(
            { x: window.x + overlap + 4, y: up ? window.y + 4 : window.y + window.height - 4 },
            `${up === trailingUp ? 'trailing' : 'leading'} end`,
            'start',
          ),
        ]
      : [],
  );
}

/** The marked corner's name off the belt, where there is room for it. */
function cornerLabel({ window }: Tiling, { outlines }: Tile, { nearEnd }: JointGeometry, placed: Matrix): Mark[] {
  const corner = onPaper(placed, nearEnd);
  const edges = outlines.flatMap((outline) =>
    outline.type === 'line' && outline.name === 'belt-edge'
      ? outline.points.map((spot) => onPaper(placed, spot).y)
      : [],
  );
  const outer = Math.min(...edges) - 4;
  return inside({ x: corner.x, y: outer }, window) && inside({ x: corner.x + 30, y: corner.y }, window)
    ? [
        rule('thin', shifted(corner, 0, -1), { x: corner.x, y: outer + 1.5 }),
        text({ x: corner.x, y: outer }, 'marked corner', 'start'),
      ]
    : [];
}

function travelMarks({ matrix, window }: Tiling, height: number): Mark[] {
  const scale = scaleOf(matrix);
  const travel = { x: matrix.a / scale, y: matrix.b / scale };
  const at = { x: window.x + window.width * 0.66, y: height - 15 };
  return [
    {
      type: 'arrow',
      pen: 'travel',
      from: shifted(at, -travel.x * 8, -travel.y * 8),
      to: shifted(at, travel.x * 8, travel.y * 8),
      heads: 'to',
    },
    text(shifted(at, 10, 0), 'travel', 'start'),
  ];
}

/** What whoever drills by it must know first, above the foot's other words and beside the key map. */
function warningMarks(options: TemplateOptions, { x, y, width }: Box): Mark[] {
  const warnings = drawingWarnings(options);
  const lines = [
    ...(warnings.length === 0 ? [] : [{ words: warnings.join(' '), bold: true }]),
    {
      words: `${supplierFirst} Where print and figured dimensions differ, the dimensions take precedence.`,
      bold: false,
    },
  ].flatMap(({ words, bold }) => wrapped(words, labelSize, width).map((line) => ({ line, bold })));
  return lines.map(({ line, bold }, index): Mark => ({
    ...text({ x, y: y + 3.4 * index }, line, 'start'),
    ...(bold ? { bold: true } : {}),
  }));
}

function sheet(tiling: Tiling, tile: Tile, joint: JointGeometry, options: TemplateOptions): Paper {
  const { unit, belt, paper } = options;
  const { width, height } = paperSizes[paper];
  const { matrix, window, tiles } = tiling;
  const shift = { x: window.x - tile.shows.x, y: window.y - tile.shows.y };
  const placed = { ...matrix, e: matrix.e + shift.x, f: matrix.f + shift.y };
  const name = `Joint of belt ${belt === '' ? 'without a name' : belt}, 1:1`;
  return {
    title: `${name}, sheet ${tile.label}`,
    width,
    height,
    marks: [
      { type: 'view', matrix: placed, outlines: tile.outlines, clip: window },
      ...endLabels(tiling, tile, joint),
      ...cornerLabel(tiling, tile, joint, placed),
      ...joinMarks(tiling, tile),
      ...warningMarks(options, { x: window.x, y: height - 30, width: width - 2 * window.x - 62, height: 12 }),
      ...checkMarks(unit, window.x, height - 15),
      ...travelMarks(tiling, height),
      text(
        { x: window.x + 110, y: height - 11.8 },
        "Thick: belt's edge. Thin: cut, plates, holes.",
        'start',
        0,
        smallSize,
      ),
      ...keyMap(tiling, tile, joint, { x: width - window.x - 58, y: height - 25, width: 58, height: 15 }),
      text(
        { x: window.x, y: height - 7 },
        fitted(
          `${name}. Sheet ${tile.label}, ${tiles.indexOf(tile) + 1} of ${tiles.length}. Seen from above, carrying ` +
            `side up. Overlap the register marks and tape together.`,
          labelSize,
          width - 2 * window.x,
        ),
        'start',
      ),
    ],
  };
}

/**
 * The sheets of a joint's 1:1 template, to print, tape together and lay on the belt; the reason when there can be none.
 *
 * For tests: every paper is printed.
 */
export function templatePapers(joint: JointGeometry | string, options: TemplateOptions): readonly Paper[] | Refused {
  const refused = patternRefusal(joint, options);
  if (refused !== undefined || typeof joint === 'string') return { refused: refused ?? String(joint) };
  const { unit, paper, cutOnly = false } = options;
  const tiling = templateTiling(joint, unit, paper, { cutOnly, most: mostSheets });
  if (typeof tiling === 'number')
    return {
      refused:
        `A 1:1 template of this joint takes ${tiling} sheets of ${paper}; the maximum is ${mostSheets}. Use ` +
        `larger paper, or the DXF file.`,
    };
  return tiling.tiles.map((tile) => sheet(tiling, tile, joint, options));
}

/** The template as PDF, a sheet a page. */
export async function jointTemplate(
  joint: JointGeometry | string,
  options: TemplateOptions,
): Promise<Uint8Array | Refused> {
  const papers = templatePapers(joint, options);
  return 'refused' in papers ? papers : paperPdf(papers, `1:1 template of the joint of belt ${options.belt}`);
}
