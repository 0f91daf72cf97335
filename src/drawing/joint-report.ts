import { shortText } from '../units/shown-mark.ts';
import { skewLoss } from '../functions/cut.ts';
import type { JointGeometry } from './joint.ts';
import { fineText, type LengthUnit, onTape, tapeText } from './tape.ts';

/** A number of a joint that a crew marks, counts or checks, under the name it has on every drawing, table and card. */
export interface Dimension {
  /** Never changes: what code asks for. */
  readonly key: DimensionKey;
  readonly name: string;
  readonly value: number;
  /** Rounded to a mark of the tape; absent of what no tape measures. */
  readonly tape?: number;
  /** As it is printed: on the tape where it is measured with one, otherwise as fine as the part needs. */
  readonly text: string;
}

interface JointReport {
  readonly unit: LengthUnit;
  readonly hand: JointGeometry['hand'];
  /** False of a square joint: the hand then only says from which edge it is measured. */
  readonly skewed: boolean;
  /** Plate numbers in the order in which they are tightened. */
  readonly tightening: readonly number[];
  readonly dimensions: readonly Dimension[];
  readonly remarks: readonly string[];
}

/** Names of the dimensions, in the order in which a joint is marked and made. */
const names = {
  width: 'belt width',
  skew: 'skew from the square line',
  back: 'squaring distance',
  diagonal: 'diagonal check',
  offset: 'edge offset',
  cut: 'cut length',
  loss: 'belt lost to skew, from two square ends',
  plates: 'plates',
  pitch: 'plate pitch along the cut (centre to centre)',
  plate: 'plate width along the cut',
  edge: 'edge clearance at each end of the cut',
  holes: 'holes, both belt ends',
  holesPerSide: 'holes per plate in each belt end',
  holeBack: 'hole setback, square to the cut',
  holeGap: 'hole spacing in one plate (centre to centre)',
  punch: 'punch size (hole diameter)',
  strips: 'strips',
  strip: 'strip length each',
  stripTotal: 'strip per joint',
} as const;

export type DimensionKey = keyof typeof names;

/** The order of tightening in words: two runs of plate numbers, the second from the highest down. */
export function tighteningWords(order: readonly number[]): string {
  const second = order.indexOf(order.length);
  const run = (plates: readonly number[]): string =>
    plates.length === 1 ? `${plates[0]}` : `${plates[0]} to ${plates.at(-1)}`;
  return second < 1
    ? 'the one plate'
    : `from the marked corner to the middle (${run(order.slice(0, second))}), then from the other end to the middle ` +
        `(${run(order.slice(second))})`;
}

/** All that a card, a table or a drawing says of the joint in numbers; nothing in it needs to be computed again. */
export function jointReport(joint: JointGeometry, unit: LengthUnit): JointReport {
  const { width, skew, offset, cutLength, back, diagonal, plates, holes, series, edgeLeft, strips } = joint;
  const bare = (key: DimensionKey, value: number, text = String(value)): Dimension => ({
    key,
    name: names[key],
    value,
    text,
  });
  const measured = (key: DimensionKey, value: number, text: string): Dimension => ({
    key,
    name: names[key],
    value,
    tape: onTape(value, unit),
    text,
  });
  const taped = (key: DimensionKey, value: number): Dimension => measured(key, value, tapeText(value, unit));
  const fine = (key: DimensionKey, value: number): Dimension => measured(key, value, fineText(value, unit));
  const loss = skewLoss.evaluate([width, skew]);
  const [strip] = strips;
  return {
    unit,
    hand: joint.hand,
    skewed: skew > 0,
    tightening: plates.toSorted((one, other) => one.turn - other.turn).map(({ number }) => number),
    remarks: joint.remarks,
    dimensions: [
      taped('width', width),
      bare('skew', skew, `${shortText(skew, 2)}°`),
      taped('back', back),
      taped('diagonal', diagonal),
      taped('offset', offset),
      taped('cut', cutLength),
      ...(typeof loss === 'number' ? [taped('loss', loss)] : []),
      ...(plates.length === 0 ? [] : [bare('plates', plates.length)]),
      ...(series === undefined || edgeLeft === undefined
        ? []
        : [fine('pitch', series.pitch), fine('plate', series.plate), taped('edge', edgeLeft)]),
      ...(series === undefined || holes.length === 0
        ? []
        : [
            bare('holes', holes.length),
            bare('holesPerSide', series.perSide),
            fine('holeBack', series.holeBack),
            ...(series.perSide > 1 ? [fine('holeGap', series.holeGap)] : []),
            ...(series.punch === undefined ? [] : [fine('punch', series.punch)]),
          ]),
      ...(strip === undefined
        ? []
        : [
            bare('strips', strips.length),
            taped('strip', strip.length),
            taped(
              'stripTotal',
              strips.reduce((sum, { length }) => sum + length, 0),
            ),
          ]),
    ],
  };
}
