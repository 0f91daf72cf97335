import { counted } from '../units/phrases.ts';
import { besideCut, fromCorner, radians } from './belt-axes.ts';
import { beltEnd, type JointGeometry } from './joint.ts';
import type { DimensionKey } from './joint-report.ts';
import { type Box, type Mark, type Matrix, onPaper, type Outline, type Point } from './paper.ts';
import {
  arrow,
  cutPlacer,
  jointOutlines,
  labelSize,
  levelMeasure,
  middle,
  readable,
  rule,
  shifted,
  smallSize,
  text,
} from './shop-marks.ts';
import { textWidth } from './text-width.ts';

/**
 * The whole joint in plan: both belt ends, the lines that are marked, plates, holes, strips, and what is measured.
 *
 * Everything but the joint itself keeps its size on paper, so that labels neither shrink with a wide belt nor run into
 * each other: lanes beside the belt hold them, and the scale is what is left over.
 */
interface Plan {
  readonly marks: readonly Mark[];
  readonly scale: number;
}

const leftOfBelt = 11;
const beyondRectangle = 9;
const turnLane = 3.4;
const travelLane = 11;

/** How far a strip is drawn beyond the cut's ends, on paper: no further than keeps it clear of the lanes. */
const stripTip = ({ strips, cutLength }: JointGeometry, scale: number): number =>
  Math.min(5, (((strips[0]?.length ?? cutLength) - cutLength) / 2) * scale);

/** Distances on paper that depend on the scale. */
function lanes(
  joint: JointGeometry,
  scale: number,
): Readonly<Record<'turns' | 'cut' | 'right' | 'outer' | 'corner', number>> {
  const { reach, skew } = joint;
  const turns = reach * scale + turnLane;
  const cut = turns + 3.4;
  const tip = stripTip(joint, scale) * Math.cos(radians(skew));
  return {
    turns,
    cut,
    right: cut + 27,
    outer: Math.max(8, tip + 3),
    corner: Math.max(travelLane + 4, cut * Math.sin(radians(skew)) + 3),
  };
}

/** Paper millimetres per belt length with which the plan fills the box. */
export function planScale(joint: JointGeometry, box: Pick<Box, 'width' | 'height'>): number {
  let scale = 0;
  // Lanes grow with the scale, which shrinks with the lanes: a few rounds settle it to less than a line's width.
  for (let round = 0; round < 12; round += 1) {
    const { right, outer, corner } = lanes(joint, scale);
    const level = (box.width - leftOfBelt - beyondRectangle - right) / (joint.back + joint.offset);
    const upright = (box.height - corner - outer - 4) / joint.width;
    scale = Math.min(level, upright) * (round < 11 ? 1 : 0.999);
  }
  return scale;
}

/** Turns that are written: as many as have room, the first and last of both runs among them. */
function turnMarks(joint: JointGeometry, place: ReturnType<typeof cutPlacer>, scale: number, lane: number): Mark[] {
  const { plates, skew, series } = joint;
  if (series === undefined) return [];
  const widest = textWidth(String(plates.length), smallSize) + 0.8;
  const [right, up] = [series.pitch * scale * Math.sin(radians(skew)), series.pitch * scale * Math.cos(radians(skew))];
  const every = Math.max(
    1,
    Math.ceil(Math.min(widest / Math.max(right, 1e-9), (smallSize + 0.7) / Math.max(up, 1e-9)) - 1e-9),
  );
  const firstRun = Math.ceil(plates.length / 2);
  return plates.flatMap(({ number, turn, centre }): Mark[] => {
    const fromEnd = number <= firstRun ? number - 1 : plates.length - number;
    const lastOfRun = number <= firstRun ? firstRun - number : number - firstRun - 1;
    // Every so many from either end, but none so near the middle that the two runs meet.
    if (fromEnd % every !== 0 || (lastOfRun < every / 2 && fromEnd > 0 && every > 1)) return [];
    const { along, across } = fromCorner(centre, joint);
    const run = along * Math.sin(radians(skew)) + across * Math.cos(radians(skew));
    return [text(place({ run, ahead: 0 }, 0, lane), String(turn), 'middle', 0, smallSize)];
  });
}

function breakLine(top: Point, bottom: Point): Mark {
  const centre = middle(top, bottom);
  return rule(
    'thin',
    top,
    shifted(centre, 0, -3),
    shifted(centre, -1.6, -1),
    shifted(centre, 1.6, 1),
    shifted(centre, 0, 3),
    bottom,
  );
}

export function jointPlan(joint: JointGeometry, labels: ReadonlyMap<DimensionKey, string>, box: Box): Plan {
  const { width, skew, hand, offset, cutLength, back, reach, squares, strips, nearEnd, farEnd } = joint;
  const scale = planScale(joint, box);
  const { turns, cut, right, outer, corner } = lanes(joint, scale);
  const label = (key: DimensionKey): string => labels.get(key) ?? '';
  const total = leftOfBelt + beyondRectangle + (back + offset) * scale + right;
  const originX = box.x + (box.width - total) / 2 + leftOfBelt + beyondRectangle + back * scale;
  const bottom = box.y + (box.height + width * scale + outer - corner) / 2;
  // The far edge is drawn above; a left-hand joint is measured from there, and its lanes change sides.
  const up = hand === 'right' ? 1 : -1;
  const edgeY = hand === 'right' ? bottom : bottom - outer + corner;
  const matrix: Matrix = { a: scale, b: 0, c: 0, d: -scale, e: originX, f: edgeY };
  /** By distances from the marked corner, and from there on paper to the right and away from the belt's far lane. */
  const at = (along: number, across: number, rightMore = 0, outMore = 0): Point =>
    shifted(onPaper(matrix, fromCorner({ along, across }, joint)), rightMore, -up * outMore);
  const place = cutPlacer(joint, matrix);
  const [leftEnd, rightEnd] = [-(back + beyondRectangle / scale), offset + right / scale];
  const diagonal = (from: Point, to: Point): Mark => rule('thin', from, to);
  /**
   * Along, on paper, how far behind the square line the plates begin from a height on: 0 when they stay ahead of it.
   */
  const platesBehind = (across: number): number =>
    Math.min(0, across * Math.tan(radians(skew)) - reach / Math.cos(radians(skew))) * scale;
  const lineLabel = textWidth('square line', labelSize) / 2;
  const [trailing, leading] = [squares.trailing, squares.leading];
  const beyond = stripTip(joint, scale) / scale;
  const outlines: Outline[] = [
    ...(['trailing', 'leading'] as const).map((end): Outline => ({
      type: 'area',
      pen: 'faint',
      corners: beltEnd(joint, end, end === 'trailing' ? -leftEnd : rightEnd - offset),
      name: 'belt',
    })),
    {
      type: 'line',
      pen: 'centre',
      points: [
        { along: leftEnd, across: width / 2 },
        { along: rightEnd, across: width / 2 },
      ],
      name: 'centre-line',
    },
    { type: 'line', pen: 'square', points: [...trailing.corners, trailing.corners[0]], name: 'square-line' },
    ...(skew > 0 ? [{ type: 'line', pen: 'square', points: leading.line, name: 'square-line' } satisfies Outline] : []),
    ...jointOutlines(joint, [nearEnd, farEnd]),
    {
      type: 'line',
      pen: 'edge',
      points: [
        { along: leftEnd, across: 0 },
        { along: rightEnd, across: 0 },
      ],
      name: 'belt-edge',
    },
    {
      type: 'line',
      pen: 'edge',
      points: [
        { along: leftEnd, across: width },
        { along: rightEnd, across: width },
      ],
      name: 'belt-edge',
    },
    ...(strips.length === 0
      ? []
      : [
          {
            type: 'line',
            pen: 'strip',
            points: [-beyond, cutLength + beyond].map((run) => besideCut({ run, ahead: 0 }, joint)),
            name: 'strip',
          } satisfies Outline,
        ]),
  ];
  const wedge = width * 0.26;
  const cutEnds = [place({ run: 0, ahead: 0 }, 0, cut), place({ run: cutLength, ahead: 0 }, 0, cut)] as const;
  const cutTurn = readable(...cutEnds);
  const diagonalTurn = readable(at(-back, 0), at(0, width));
  const farther = offset * scale > cut / Math.cos(radians(skew)) + 0.45 * width * scale * Math.tan(radians(skew)) + 7;
  const tip = place({ run: cutLength + beyond, ahead: 0 });
  const marks: Mark[] = [
    { type: 'view', matrix, outlines },
    breakLine(at(leftEnd, width), at(leftEnd, 0)),
    breakLine(at(rightEnd, width), at(rightEnd, 0)),
    diagonal(at(-back, 0), at(0, width)),
    diagonal(at(-back, width), at(0, 0)),
    // Beside the belt, on the side where the cut runs forward.
    ...[...new Set([-back, 0, offset])].map((along) =>
      rule('thin', at(along, width, 0, 1), at(along, width, 0, outer + 1.5)),
    ),
    ...levelMeasure(at(-back, width, 0, outer), at(0, width, 0, outer), `back ${label('back')}`, 'left'),
    ...(skew > 0
      ? levelMeasure(at(0, width, 0, outer), at(offset, width, 0, outer), `offset ${label('offset')}`, 'right')
      : []),
    ...(strips.length === 0
      ? []
      : [
          text(
            shifted({ x: tip.x, y: at(offset, width, 0, 3.2).y }, 2, 0),
            `${counted(strips.length, 'strip')}${strips.length === 1 ? '' : ', each'} ` + `${label('strip')}`,
            'start',
          ),
        ]),
    // Beside the belt, on the side of the marked corner.
    rule('thin', at(0, 0, -0.6, -0.8), at(0, 0, -6, -4.6)),
    text(at(0, 0, -6.5, -5), 'marked corner', 'end'),
    text(at(leftEnd, 0, 0, -5), 'trailing end', 'start'),
    {
      type: 'arrow',
      pen: 'travel',
      from: at(leftEnd, 0, 0, -travelLane),
      to: at(leftEnd, 0, 24, -travelLane),
      heads: 'to',
    },
    text(at(leftEnd, 0, 26, -travelLane), 'travel', 'start'),
    // On the belt.
    text(at(rightEnd, 0, -2.5, 4), 'leading end', 'end'),
    text(at(rightEnd, width / 2, -2.5, 2.2), 'centre line', 'end'),
    text(at(0, width * 0.72, platesBehind(width * 0.72 - lineLabel / scale) - 2.2), 'square line', 'middle', 90),
    ...(skew > 0 && farther ? [text(at(offset, width * 0.26, 2.2), 'square line', 'middle', 90)] : []),
    text(
      shifted(at(-back * 0.72, width * 0.28), ...above(diagonalTurn)),
      `both diagonals ${label('diagonal')}`,
      'middle',
      diagonalTurn,
    ),
    ...(skew > 0
      ? [
          arc(at, skew, wedge),
          text(at(0, wedge, platesBehind(wedge - labelSize / scale) - 2), `skew ${label('skew')}`, 'end'),
        ]
      : []),
    ...turnMarks(joint, place, scale, turns),
    // Ahead of the plates.
    ...cutEnds.map((end, index) =>
      rule(
        'thin',
        place({ run: index === 0 ? 0 : cutLength, ahead: reach }, 0, 1),
        shifted(end, 0, 0),
        place({ run: index === 0 ? 0 : cutLength, ahead: 0 }, 0, cut + 1.5),
      ),
    ),
    arrow(...cutEnds),
    text(place({ run: cutLength * 0.3, ahead: 0 }, 0, cut + 2.3), `cut ${label('cut')}`, 'middle', cutTurn),
    // The belt's width, before its end.
    rule('thin', at(leftEnd, 0, -1), at(leftEnd, 0, -6.5)),
    rule('thin', at(leftEnd, width, -1), at(leftEnd, width, -6.5)),
    arrow(at(leftEnd, 0, -5), at(leftEnd, width, -5)),
    text(at(leftEnd, width / 2, -7.3), `width ${label('width')}`, 'middle', 90),
  ];
  return { marks, scale };
}

/** A label's distance over a line that is turned so, on paper. */
function above(turned: number): [number, number] {
  const distance = labelSize * 0.85;
  return [-distance * Math.sin(radians(turned)), -distance * Math.cos(radians(turned))];
}

/** The skew's arc from the square line to the cut, as a line of many corners. */
function arc(at: (along: number, across: number) => Point, skew: number, radius: number): Mark {
  const steps = 24;
  return rule(
    'thin',
    ...Array.from({ length: steps + 1 }, (_, step) => {
      const turn = radians((skew * step) / steps);
      return at(radius * Math.sin(turn), radius * Math.cos(turn));
    }),
  );
}
