import { besideCut, type CutSpot, onCut, radians, type Spot } from './belt-axes.ts';
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

/** A joint that has plates, and how far its corner is shown. */
interface Corner {
  readonly joint: JointGeometry;
  readonly series: NonNullable<JointGeometry['series']>;
  readonly edgeLeft: number;
  /** Plates that are shown. */
  readonly shown: number;
  /** Along the cut, and to either side of it. */
  readonly length: number;
  readonly depth: number;
}

function cornerOf(joint: JointGeometry): Corner | undefined {
  const { series, edgeLeft, plates, reach, cutLength } = joint;
  if (series === undefined || edgeLeft === undefined || plates.length === 0) return undefined;
  const { pitch, plate } = series;
  const shown = Math.min(platesShown, plates.length);
  const whole = edgeLeft + plate + (shown - 1) * pitch + Math.max(pitch - plate / 2, plate * 0.4);
  return { joint, series, edgeLeft, shown, length: Math.min(cutLength, whole), depth: reach * 1.12 };
}

/** The matrix with which the corner fills its box. */
function cornerMatrix({ joint, series, length, depth }: Corner, box: Box): Matrix {
  const lean = depth * Math.tan(radians(joint.skew));
  // Room on paper: the edge's label or the leaning edge on the left, the holes' measure on the right, lanes above and
  // below.
  const [left, right] = [26, 30];
  const [trailingLane, leadingLane] = [10, series.perSide > 1 ? 13 : 8];
  const scale = Math.min(
    (box.width - 4 - right) / (length + lean),
    (box.width - left - right) / length,
    (box.height - trailingLane - leadingLane) / (2 * depth),
  );
  const inset = Math.max(left, lean * scale + 4);
  return levelMatrix(
    joint,
    scale,
    box.x + (box.width - length * scale - inset - right) / 2 + inset,
    box.y + box.height / 2 + ((joint.hand === 'right' ? 1 : -1) * (trailingLane - leadingLane)) / 2,
  );
}

class PlacedCorner {
  readonly #corner: Corner;
  readonly #unit: LengthUnit;
  readonly #matrix: Matrix;
  readonly #place: ReturnType<typeof cutPlacer>;
  /** The plates that are shown, and their holes. */
  readonly #some: Pick<JointGeometry, 'plates' | 'holes' | 'drawnPunch'>;
  readonly #up: 1 | -1;

  constructor(corner: Corner, unit: LengthUnit, box: Box) {
    const { joint, shown } = corner;
    this.#corner = corner;
    this.#unit = unit;
    this.#matrix = cornerMatrix(corner, box);
    this.#place = cutPlacer(joint, this.#matrix);
    this.#some = {
      plates: joint.plates.slice(0, shown),
      holes: joint.holes.filter((hole) => hole.plate <= shown),
      drawnPunch: joint.drawnPunch,
    };
    this.#up = joint.hand === 'right' ? 1 : -1;
  }

  get scale(): number {
    return scaleOf(this.#matrix);
  }

  #edgeAt(ahead: number): CutSpot {
    return { run: ahead * Math.tan(radians(this.#corner.joint.skew)), ahead };
  }

  /** Beyond the trailing end, and beyond the leading one. */
  readonly #trailing = (run: number, more: number): Point => this.#place({ run, ahead: -this.#corner.depth }, 0, -more);
  readonly #leading = (run: number, more: number): Point => this.#place({ run, ahead: this.#corner.depth }, 0, more);

  #outlines(): Outline[] {
    const { joint, length, depth } = this.#corner;
    const beside = (spot: CutSpot): Spot => besideCut(spot, joint);
    return [
      {
        type: 'area',
        pen: 'faint',
        corners: [
          this.#edgeAt(-depth),
          { run: length, ahead: -depth },
          { run: length, ahead: depth },
          this.#edgeAt(depth),
        ].map(beside),
        name: 'belt',
      },
      ...jointOutlines(this.#some, [beside({ run: 0, ahead: 0 }), beside({ run: length, ahead: 0 })]),
      // Over the plates: as they are drawn they may reach beyond it.
      { type: 'line', pen: 'edge', points: [this.#edgeAt(-depth), this.#edgeAt(depth)].map(beside), name: 'belt-edge' },
    ];
  }

  /** Edge distance and pitch. */
  #trailingMeasures(): Mark[] {
    const { joint, series, edgeLeft, shown } = this.#corner;
    const first = edgeLeft + series.plate / 2;
    const { pitch } = series;
    const trailing = this.#trailing;
    return [
      ...[0, edgeLeft, ...(shown > 1 ? [first, first + pitch] : [])].map((run) =>
        rule('thin', this.#place({ run, ahead: run === 0 ? 0 : -joint.reach }), trailing(run, 6.5)),
      ),
      ...levelMeasure(
        trailing(0, 5),
        trailing(edgeLeft, 5),
        `edge ${tapeText(edgeLeft, this.#unit)}`,
        'left',
        this.#up,
      ),
      ...(shown > 1
        ? levelMeasure(
            trailing(first, 5),
            trailing(first + pitch, 5),
            `pitch ${fineText(pitch, this.#unit)}`,
            'right',
            this.#up,
          )
        : []),
    ];
  }

  /** The plate, and from hole to hole. */
  #leadingMeasures(): Mark[] {
    const { joint, series, edgeLeft, shown } = this.#corner;
    const { plate, perSide, holeBack, holeGap } = series;
    const leading = this.#leading;
    const down = this.#up === 1 ? -1 : 1;
    const [one, other] = this.#some.holes
      .filter(({ plate: number, end }) => number === shown && end === 'leading')
      .map(({ at }) => onCut(at, joint).run);
    return [
      ...[edgeLeft, edgeLeft + plate].map((run) =>
        rule('thin', this.#place({ run, ahead: joint.reach }), leading(run, 4.5)),
      ),
      ...levelMeasure(
        leading(edgeLeft, 3.5),
        leading(edgeLeft + plate, 3.5),
        `plate ${fineText(plate, this.#unit)}`,
        'right',
        down,
      ),
      ...(perSide > 1 && one !== undefined && other !== undefined
        ? [
            ...[one, other].map((run) => rule('thin', this.#place({ run, ahead: holeBack }), leading(run, 10))),
            ...levelMeasure(
              leading(one, 9),
              leading(other, 9),
              `hole spacing ${fineText(holeGap, this.#unit)}`,
              'right',
              down,
            ),
          ]
        : []),
    ];
  }

  #names(): Mark[] {
    const { joint, length, depth } = this.#corner;
    const turn = readable(this.#place(this.#edgeAt(-depth)), this.#place(this.#edgeAt(depth)));
    // The label of the belt's edge lies off the belt, on the left of its edge.
    const normal = { x: -Math.cos(radians(joint.skew)), y: this.#up * Math.sin(radians(joint.skew)) };
    const beside = shifted(this.#place(this.#edgeAt(-depth * 0.5)), normal.x * 2.3, normal.y * 2.3);
    return [
      text(beside, "belt's edge", 'middle', turn),
      text(this.#place({ run: length, ahead: 0 }, -1.5, -2.3), 'cut', 'end'),
      text(this.#place({ run: length, ahead: -depth }, 2, 1.6), 'trailing end', 'start'),
      text(this.#place({ run: length, ahead: depth }, 2, -1.6), 'leading end', 'start'),
    ];
  }

  /** From the cut to the holes on either side. */
  #holeMeasures(): Mark[] {
    const { joint, series, length } = this.#corner;
    const { holeBack } = series;
    if (joint.holes.length === 0) return [];
    const place = this.#place;
    const x = place({ run: length, ahead: 0 }, 5).x;
    const y = (ahead: number): number => place({ run: 0, ahead }).y;
    const lastRun = Math.max(...this.#some.holes.map(({ at }) => onCut(at, joint).run));
    return [
      rule('thin', place({ run: length, ahead: 0 }), { x: x + 1.5, y: y(0) }),
      ...[-holeBack, holeBack].flatMap((ahead): Mark[] => [
        rule(
          'thin',
          { x: place({ run: lastRun, ahead }, (joint.drawnPunch / 2) * this.scale).x, y: y(ahead) },
          { x: x + 1.5, y: y(ahead) },
        ),
        arrow({ x, y: y(0) }, { x, y: y(ahead) }),
        text({ x: x + 1.5, y: (y(0) + y(ahead)) / 2 }, fineText(holeBack, this.#unit), 'start'),
      ]),
    ];
  }

  marks(): Mark[] {
    return [
      { type: 'view', matrix: this.#matrix, outlines: this.#outlines() },
      ...this.#trailingMeasures(),
      ...this.#leadingMeasures(),
      ...this.#names(),
      ...this.#holeMeasures(),
    ];
  }
}

/** Undefined for a joint without plates. */
export function cornerDetail(joint: JointGeometry, unit: LengthUnit, box: Box): Detail | undefined {
  const corner = cornerOf(joint);
  if (corner === undefined) return undefined;
  const placed = new PlacedCorner(corner, unit, box);
  return { marks: placed.marks(), scale: placed.scale };
}
