import { besideCut, type CutSpot, onCut, radians } from './belt-axes.ts';
import type { JointGeometry } from './joint.ts';
import { type Box, type Mark, type Matrix, type Outline, type Point, scaleOf } from './paper.ts';
import { arrow, cutPlacer, jointOutlines, levelMeasure, readable, rule, shifted, text } from './shop-marks.ts';
import { fineText, type LengthUnit, tapeText } from './tape.ts';

/**
 * The marked corner enlarged, the cut level: where the first plates and their holes go, with the measures of plate and
 * holes.
 *
 * Turned, never mirrored: of a right-hand joint the trailing end lies above the cut, of a left-hand one below.
 */
const platesShown = 2;

/** The matrix that lays the cut level, the marked corner at `x`, `y`. */
export function levelMatrix(
  { skew, hand, width }: Pick<JointGeometry, 'skew' | 'hand' | 'width'>,
  scale: number,
  x: number,
  y: number,
): Matrix {
  const [sine, cosine] = [scale * Math.sin(radians(skew)), scale * Math.cos(radians(skew))];
  // Right: x grows with the run, y downwards with what lies ahead. Left: the same run counts from the far edge, and
  // ahead is up.
  return hand === 'right'
    ? { a: sine, b: cosine, c: cosine, d: -sine, e: x, f: y }
    : { a: sine, b: -cosine, c: -cosine, d: -sine, e: x + cosine * width, f: y + sine * width };
}

interface Detail {
  readonly marks: readonly Mark[];
  readonly scale: number;
}

/** Undefined for a joint without plates. */
export function cornerDetail(joint: JointGeometry, unit: LengthUnit, box: Box): Detail | undefined {
  const { series, edgeLeft, plates, holes, skew, reach, cutLength, hand, drawnPunch } = joint;
  if (series === undefined || edgeLeft === undefined || plates.length === 0) return undefined;
  const { pitch, plate, holeBack, holeGap, perSide } = series;
  const shown = Math.min(platesShown, plates.length);
  const length = Math.min(cutLength, edgeLeft + plate + (shown - 1) * pitch + Math.max(pitch - plate / 2, plate * 0.4));
  const depth = reach * 1.12;
  const lean = depth * Math.tan(radians(skew));
  // Room on paper: the edge's label or the leaning edge on the left, the holes' measure on the right, lanes above and
  // below.
  const [left, right] = [26, 30];
  const [trailingLane, leadingLane] = [10, perSide > 1 ? 13 : 8];
  const scale = Math.min(
    (box.width - 4 - right) / (length + lean),
    (box.width - left - right) / length,
    (box.height - trailingLane - leadingLane) / (2 * depth),
  );
  const startX =
    box.x +
    (box.width - length * scale - Math.max(left, lean * scale + 4) - right) / 2 +
    Math.max(left, lean * scale + 4);
  const centreY = box.y + box.height / 2 + ((hand === 'right' ? 1 : -1) * (trailingLane - leadingLane)) / 2;
  const matrix = levelMatrix(joint, scale, startX, centreY);
  const place = cutPlacer(joint, matrix);
  const edgeAt = (ahead: number): CutSpot => ({ run: ahead * Math.tan(radians(skew)), ahead });
  const spots = [edgeAt(-depth), { run: length, ahead: -depth }, { run: length, ahead: depth }, edgeAt(depth)].map(
    (spot) => besideCut(spot, joint),
  );
  const some = { plates: plates.slice(0, shown), holes: holes.filter((hole) => hole.plate <= shown), drawnPunch };
  const outlines: Outline[] = [
    { type: 'area', pen: 'faint', corners: spots, name: 'belt' },
    ...jointOutlines(some, [besideCut({ run: 0, ahead: 0 }, joint), besideCut({ run: length, ahead: 0 }, joint)]),
    // Over the plates: as they are drawn they may reach beyond it.
    {
      type: 'line',
      pen: 'edge',
      points: [edgeAt(-depth), edgeAt(depth)].map((spot) => besideCut(spot, joint)),
      name: 'belt-edge',
    },
  ];
  const trailing = (run: number, more: number): Point => place({ run, ahead: -depth }, 0, -more);
  const leading = (run: number, more: number): Point => place({ run, ahead: depth }, 0, more);
  const first = edgeLeft + plate / 2;
  const up = hand === 'right' ? 1 : -1;
  const rows = some.holes
    .filter(({ plate: number, end }) => number === shown && end === 'leading')
    .map(({ at }) => onCut(at, joint).run);
  const edgeEnds = [place(edgeAt(-depth)), place(edgeAt(depth))] as const;
  const edgeTurn = readable(...edgeEnds);
  const beside = place(edgeAt(-depth * 0.5));
  // The label of the belt's edge lies off the belt, on the left of its edge.
  const normal = { x: -Math.cos(radians(skew)), y: up * Math.sin(radians(skew)) };
  const measureX = place({ run: length, ahead: 0 }, 5).x;
  const holeY = (ahead: number): number => place({ run: 0, ahead }).y;
  const lastRun = Math.max(...some.holes.map(({ at }) => onCut(at, joint).run));
  const marks: Mark[] = [
    { type: 'view', matrix, outlines },
    ...[0, edgeLeft, ...(shown > 1 ? [first, first + pitch] : [])].map((run) =>
      rule('thin', place({ run, ahead: run === 0 ? 0 : -reach }), trailing(run, 6.5)),
    ),
    ...levelMeasure(trailing(0, 5), trailing(edgeLeft, 5), `edge ${tapeText(edgeLeft, unit)}`, 'left', up),
    ...(shown > 1
      ? levelMeasure(trailing(first, 5), trailing(first + pitch, 5), `pitch ${fineText(pitch, unit)}`, 'right', up)
      : []),
    ...[edgeLeft, edgeLeft + plate].map((run) => rule('thin', place({ run, ahead: reach }), leading(run, 4.5))),
    ...levelMeasure(
      leading(edgeLeft, 3.5),
      leading(edgeLeft + plate, 3.5),
      `plate ${fineText(plate, unit)}`,
      'right',
      up === 1 ? -1 : 1,
    ),
    ...(perSide > 1 && rows[0] !== undefined && rows[1] !== undefined
      ? [
          ...[rows[0], rows[1]].map((run) => rule('thin', place({ run, ahead: holeBack }), leading(run, 10))),
          ...levelMeasure(
            leading(rows[0], 9),
            leading(rows[1], 9),
            `hole to hole ${fineText(holeGap, unit)}`,
            'right',
            up === 1 ? -1 : 1,
          ),
        ]
      : []),
    text(shifted(beside, normal.x * 2.3, normal.y * 2.3), "belt's edge", 'middle', edgeTurn),
    text(place({ run: length, ahead: 0 }, -1.5, -2.3), 'cut', 'end'),
    text(place({ run: length, ahead: -depth }, 2, 1.6), 'trailing end', 'start'),
    text(place({ run: length, ahead: depth }, 2, -1.6), 'leading end', 'start'),
    ...(holes.length === 0
      ? []
      : [
          rule('thin', place({ run: length, ahead: 0 }), { x: measureX + 1.5, y: holeY(0) }),
          ...[-holeBack, holeBack].flatMap((ahead): Mark[] => [
            rule(
              'thin',
              { x: place({ run: lastRun, ahead }, (drawnPunch / 2) * scaleOf(matrix)).x, y: holeY(ahead) },
              { x: measureX + 1.5, y: holeY(ahead) },
            ),
            arrow({ x: measureX, y: holeY(0) }, { x: measureX, y: holeY(ahead) }),
            text({ x: measureX + 1.5, y: (holeY(0) + holeY(ahead)) / 2 }, `${fineText(holeBack, unit)}`, 'start'),
          ]),
        ]),
  ];
  return { marks, scale };
}
