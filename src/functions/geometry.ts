import { settled } from './rounding.ts';

/** The geometry that several functions share. All lengths in one unit, angles in degrees. */

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Length of the cut, edge to edge: the hypotenuse of the width and the skew's offset. */
export const cutLength = (width: number, skew: number): number => width / Math.cos(radians(skew));

/** What decides how plates lie along a cut. */
export interface PlateRow {
  readonly width: number;
  readonly skew: number;
  readonly pitch: number;
  readonly plate: number;
  readonly edge: number;
}

/** Plates that fit on the cut; 0 when not even one does. */
export function platesOnCut({ width, skew, pitch, plate, edge }: PlateRow): number {
  const room = settled((cutLength(width, skew) - 2 * edge - plate) / pitch);
  return room < 0 ? 0 : 1 + Math.floor(room);
}

/**
 * Centre of plate `index` (from 0) of `count`, along the cut from the belt's near edge; the row is centred on the cut.
 */
export const plateCentre = (cut: number, count: number, pitch: number, index: number): number =>
  cut / 2 + (index - (count - 1) / 2) * pitch;
