import { pulleys } from '../../sheets/series/pulleys.ts';
import { isFault } from '../formula/values.ts';
import type { Belt } from '../records/belt.ts';
import type { Mark } from '../sheet/source-marks.ts';
import { sourceMarks } from '../sheet/source-marks.ts';
import type { QuantityKind } from '../units/quantities.ts';
import type { CellPlace } from '../workbook/place.ts';
import { type Factor, factorInput, factorValue } from './factor.ts';
import { ChangeRefused, typedMark } from './typed-change.ts';

/** How far the true value of a factor may lie from what the book says. */

const shapes = ['normal', 'even', 'lognormal'] as const;
type Shape = (typeof shapes)[number];

export interface Tolerance {
  /** Either way from the value; 19 of 20 true values lie within it, all of them where the shape is even. */
  readonly half: number;
  readonly shape: Shape;
}

/**
 * Shares of a value by the mark of its source: what is recalled is less sure than what was looked up. What the user or
 * the program chose freely is as it was chosen. Of several marks the widest counts. Chosen, with no source.
 */
const byMark: Readonly<Record<Mark, number>> = {
  entered: 0.02,
  'your formula': 0,
  'over the formula': 0.02,
  supplier: 0.02,
  assumption: 0.05,
  standard: 0.02,
  derived: 0,
  'our choice, on the safe side': 0.1,
  'our choice, not on the safe side': 0.1,
  'our choice': 0,
  'common practice': 0.1,
  'from memory': 0.1,
  invented: 0.2,
  'no source named': 0.1,
};

/** Shares of a belt's input by what it measures: a tape is surer than a motor's plate. Chosen, with no source. */
const byKind: Readonly<Partial<Record<QuantityKind, number>>> = {
  length: 0.01,
  distance: 0.01,
  lineTension: 0.02,
  force: 0.1,
  power: 0.05,
  speed: 0.02,
  capacity: 0.1,
  lineMass: 0.03,
  bulkDensity: 0.1,
  hours: 0.15,
  hoursPerYear: 0.05,
  ratio: 0.05,
  number: 0.05,
};

/** Degrees by which an angle that was cut or measured may be off. Chosen, with no source. */
const ofAngle = 1;

const sourceColumn = 4;

/**
 * What of another sheet is measured in the plant: a pulley's figures, but for its place, whose distance from an origin
 * says nothing of how well it is known. A plate is as its supplier states it.
 */
const isMeasured = ({ sheet }: CellPlace, { kind }: Factor): boolean => sheet === pulleys.name && kind !== 'distance';

/** The tolerance that is proposed for a factor; undefined where it is no number, or has none. */
export function proposedTolerance(factor: Factor, belt: Belt): Tolerance | undefined {
  const value = factorValue(factor, belt);
  if (typeof value !== 'number') return undefined;
  if (factor.kind === 'count' || factor.kind === 'date') return undefined;
  const place = factor.place(belt);
  if (factor.of === 'cell' && !isMeasured(place, factor)) return undefined;
  const source = belt.book.content({ ...place, column: sourceColumn });
  const share =
    factor.of === 'book'
      ? Math.max(...sourceMarks(isFault(source) || source === null ? '' : String(source)).map((mark) => byMark[mark]))
      : (byKind[factor.kind] ?? 0);
  const half = factor.of !== 'book' && factor.kind === 'angle' ? ofAngle : share * Math.abs(value);
  return half > 0 ? { half, shape: 'normal' } : undefined;
}

/** The values at both ends of a tolerance, within what the factor's cell may hold. */
export function toleranceEnds(factor: Factor, belt: Belt, { half }: Tolerance): readonly [number, number] {
  const value = Number(factorValue(factor, belt));
  const { min = -Infinity, max = Infinity, above } = factorInput(factor, belt) ?? {};
  const low = Math.max(min, value - half);
  // What must lie above a bound comes half way to it at most.
  return [above !== undefined && low <= above ? (value + above) / 2 : low, Math.min(max, value + half)];
}

/** A tolerance as it is typed: "Power=5%", "Skew=1 even". Throws ChangeRefused for what can't be read. */
export function typedTolerance(text: string): { readonly name: string; readonly of: (value: number) => Tolerance } {
  const [, name = '', amount = '', percent, shape = 'normal'] =
    /^([^=]+)=\s*([\d.,]+(?:e[-+]?\d+)?)\s*(%)?\s*(\w+)?\s*$/i.exec(text) ?? [];
  const known = shapes.find((one) => one === shape.toLowerCase());
  const number =
    typedMark(amount) === 'point' || !/[.,]/.test(amount) ? Number(amount) : Number(amount.replace(',', '.'));
  if (name === '' || known === undefined || !Number.isFinite(number) || number < 0)
    throw new ChangeRefused(
      `"${text}" says no tolerance. Write NAME=HALF or NAME=PERCENT%, and ${shapes.join(', ')} after it if it is ` +
        `meant.`,
    );
  return {
    name: name.trim(),
    of: (value) => ({ half: percent === undefined ? number : (number / 100) * Math.abs(value), shape: known }),
  };
}
