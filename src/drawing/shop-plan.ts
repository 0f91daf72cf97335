import { counted } from '../units/phrases.ts';
import { besideCut, fromCorner, radians } from './belt-axes.ts';
import { beltEnd, type JointGeometry } from './joint.ts';
import type { DimensionKey } from './joint-report.ts';
import { type Box, type Mark, type Matrix, onPaper, type Outline, type Point } from './paper.ts';
import { beyondRectangle, lanes, leftOfBelt, planScale, stripTip, travelLane } from './plan-lanes.ts';
import { above, arc, breakLine, plateNumbers } from './plan-marks.ts';
import {
  arrow,
  cutPlacer,
  jointOutlines,
  labelSize,
  levelMeasure,
  readable,
  rule,
  shifted,
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

/** The plan of a joint at its place on the paper. */
class PlacedPlan {
  readonly scale: number;
  readonly #joint: JointGeometry;
  readonly #labels: ReadonlyMap<DimensionKey, string>;
  readonly #lanes: ReturnType<typeof lanes>;
  readonly #matrix: Matrix;
  readonly #place: ReturnType<typeof cutPlacer>;
  /** How far the belt is drawn, along it from the marked corner. */
  readonly #ends: readonly [left: number, right: number];
  /** How far a strip goes on beyond the cut's ends. */
  readonly #beyond: number;

  constructor(joint: JointGeometry, labels: ReadonlyMap<DimensionKey, string>, box: Box) {
    const { width, hand, offset, back } = joint;
    const scale = planScale(joint, box);
    this.#joint = joint;
    this.#labels = labels;
    this.scale = scale;
    this.#lanes = lanes(joint, scale);
    const { right, outer, corner } = this.#lanes;
    const total = leftOfBelt + beyondRectangle + (back + offset) * scale + right;
    const bottom = box.y + (box.height + width * scale + outer - corner) / 2;
    this.#matrix = {
      a: scale,
      b: 0,
      c: 0,
      d: -scale,
      e: box.x + (box.width - total) / 2 + leftOfBelt + beyondRectangle + back * scale,
      // The far edge is drawn above; a left-hand joint is measured from there, and its lanes change sides.
      f: hand === 'right' ? bottom : bottom - outer + corner,
    };
    this.#place = cutPlacer(joint, this.#matrix);
    this.#ends = [-(back + beyondRectangle / scale), offset + right / scale];
    this.#beyond = stripTip(joint, scale) / scale;
  }

  #label(key: DimensionKey): string {
    return this.#labels.get(key) ?? '';
  }

  /** By distances from the marked corner, and from there on paper to the right and away from the belt's far lane. */
  readonly #at = (along: number, across: number, rightMore = 0, outMore = 0): Point =>
    shifted(
      onPaper(this.#matrix, fromCorner({ along, across }, this.#joint)),
      rightMore,
      (this.#joint.hand === 'right' ? -1 : 1) * outMore,
    );

  /**
   * Along, on paper, how far behind the square line the plates begin from a height on: 0 when they stay ahead of it.
   */
  #platesBehind(across: number): number {
    const { skew, reach } = this.#joint;
    return Math.min(0, across * Math.tan(radians(skew)) - reach / Math.cos(radians(skew))) * this.scale;
  }

  #outlines(): Outline[] {
    const { width, skew, offset, cutLength, squares, strips, nearEnd, farEnd } = this.#joint;
    const [left, right] = this.#ends;
    const lengthwise = (across: number): { readonly along: number; readonly across: number }[] =>
      this.#ends.map((along) => ({ along, across }));
    const { corners } = squares.trailing;
    const strip = [-this.#beyond, cutLength + this.#beyond];
    return [
      ...(['trailing', 'leading'] as const).map((end): Outline => ({
        type: 'area',
        pen: 'faint',
        corners: beltEnd(this.#joint, end, end === 'trailing' ? -left : right - offset),
        name: 'belt',
      })),
      { type: 'line', pen: 'centre', points: lengthwise(width / 2), name: 'centre-line' },
      { type: 'line', pen: 'square', points: [...corners, corners[0]], name: 'square-line' },
      ...(skew > 0
        ? [{ type: 'line', pen: 'square', points: squares.leading.line, name: 'square-line' } satisfies Outline]
        : []),
      ...jointOutlines(this.#joint, [nearEnd, farEnd]),
      ...[0, width].map((across): Outline => ({
        type: 'line',
        pen: 'edge',
        points: lengthwise(across),
        name: 'belt-edge',
      })),
      ...(strips.length === 0
        ? []
        : [
            {
              type: 'line',
              pen: 'strip',
              points: strip.map((run) => besideCut({ run, ahead: 0 }, this.#joint)),
              name: 'strip',
            } satisfies Outline,
          ]),
    ];
  }

  /** The proof of the square line: its rectangle's diagonals. */
  #proofMarks(): Mark[] {
    const at = this.#at;
    const { width, back } = this.#joint;
    return [rule('thin', at(-back, 0), at(0, width)), rule('thin', at(-back, width), at(0, 0))];
  }

  /** Beside the belt, on the side where the cut runs forward. */
  #forwardMarks(): Mark[] {
    const at = this.#at;
    const { width, skew, offset, cutLength, back, strips } = this.#joint;
    const { outer } = this.#lanes;
    const tip = this.#place({ run: cutLength + this.#beyond, ahead: 0 });
    return [
      ...[...new Set([-back, 0, offset])].map((along) =>
        rule('thin', at(along, width, 0, 1), at(along, width, 0, outer + 1.5)),
      ),
      ...levelMeasure(at(-back, width, 0, outer), at(0, width, 0, outer), `squaring ${this.#label('back')}`, 'left'),
      ...(skew > 0
        ? levelMeasure(at(0, width, 0, outer), at(offset, width, 0, outer), `offset ${this.#label('offset')}`, 'right')
        : []),
      ...(strips.length === 0
        ? []
        : [
            text(
              shifted({ x: tip.x, y: at(offset, width, 0, 3.2).y }, 2, 0),
              `${counted(strips.length, 'strip')}${strips.length === 1 ? '' : ', each'} ${this.#label('strip')}`,
              'start',
            ),
          ]),
    ];
  }

  /** Beside the belt, on the side of the marked corner. */
  #cornerMarks(): Mark[] {
    const at = this.#at;
    const [left] = this.#ends;
    return [
      rule('thin', at(0, 0, -0.6, -0.8), at(0, 0, -6, -4.6)),
      text(at(0, 0, -6.5, -5), 'marked corner', 'end'),
      text(at(left, 0, 0, -5), 'trailing end', 'start'),
      {
        type: 'arrow',
        pen: 'travel',
        from: at(left, 0, 0, -travelLane),
        to: at(left, 0, 24, -travelLane),
        heads: 'to',
      },
      text(at(left, 0, 26, -travelLane), 'travel', 'start'),
    ];
  }

  /** On the belt: its ends, its lines and the skew by their names. */
  #beltMarks(): Mark[] {
    const at = this.#at;
    const { width, skew, offset, back } = this.#joint;
    const [, right] = this.#ends;
    const diagonalTurn = readable(at(-back, 0), at(0, width));
    const lineLabel = textWidth('square line', labelSize) / 2;
    const wedge = width * 0.26;
    // The leading end's square line has room for its name where it lies clear of the cut's measure.
    const clear = this.#lanes.cut / Math.cos(radians(skew)) + 0.45 * width * this.scale * Math.tan(radians(skew)) + 7;
    return [
      text(at(right, 0, -2.5, 4), 'leading end', 'end'),
      text(at(right, width / 2, -2.5, 2.2), 'centre line', 'end'),
      text(
        at(0, width * 0.72, this.#platesBehind(width * 0.72 - lineLabel / this.scale) - 2.2),
        'square line',
        'middle',
        90,
      ),
      ...(skew > 0 && offset * this.scale > clear
        ? [text(at(offset, width * 0.26, 2.2), 'square line', 'middle', 90)]
        : []),
      text(
        shifted(at(-back * 0.72, width * 0.28), ...above(diagonalTurn)),
        `both diagonals ${this.#label('diagonal')}`,
        'middle',
        diagonalTurn,
      ),
      ...(skew > 0
        ? [
            arc(at, skew, wedge),
            text(
              at(0, wedge, this.#platesBehind(wedge - labelSize / this.scale) - 2),
              `skew ${this.#label('skew')}`,
              'end',
            ),
          ]
        : []),
    ];
  }

  /** Ahead of the plates: their numbers, and the cut's length. */
  #cutMarks(): Mark[] {
    const { cutLength, reach } = this.#joint;
    const { numbers, cut } = this.#lanes;
    const place = this.#place;
    const ends = [place({ run: 0, ahead: 0 }, 0, cut), place({ run: cutLength, ahead: 0 }, 0, cut)] as const;
    return [
      ...plateNumbers(this.#joint, place, this.scale, numbers),
      ...ends.map((end, index) =>
        rule(
          'thin',
          place({ run: index === 0 ? 0 : cutLength, ahead: reach }, 0, 1),
          end,
          place({ run: index === 0 ? 0 : cutLength, ahead: 0 }, 0, cut + 1.5),
        ),
      ),
      arrow(...ends),
      text(
        place({ run: cutLength * 0.3, ahead: 0 }, 0, cut + 2.3),
        `cut ${this.#label('cut')}`,
        'middle',
        readable(...ends),
      ),
    ];
  }

  /** The belt's width, before its end. */
  #widthMarks(): Mark[] {
    const at = this.#at;
    const { width } = this.#joint;
    const [left] = this.#ends;
    return [
      rule('thin', at(left, 0, -1), at(left, 0, -6.5)),
      rule('thin', at(left, width, -1), at(left, width, -6.5)),
      arrow(at(left, 0, -5), at(left, width, -5)),
      text(at(left, width / 2, -7.3), `width ${this.#label('width')}`, 'middle', 90),
    ];
  }

  marks(): Mark[] {
    const { width } = this.#joint;
    return [
      { type: 'view', matrix: this.#matrix, outlines: this.#outlines() },
      ...this.#ends.map((along) => breakLine(this.#at(along, width), this.#at(along, 0))),
      ...this.#proofMarks(),
      ...this.#forwardMarks(),
      ...this.#cornerMarks(),
      ...this.#beltMarks(),
      ...this.#cutMarks(),
      ...this.#widthMarks(),
    ];
  }
}

export function jointPlan(joint: JointGeometry, labels: ReadonlyMap<DimensionKey, string>, box: Box): Plan {
  const plan = new PlacedPlan(joint, labels, box);
  return { marks: plan.marks(), scale: plan.scale };
}
